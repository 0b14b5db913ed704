package book

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// agencies in the order in which their figures win.
var agencies = []string{"FSA", "RMA", "NASS"}

const figureQuery = `SELECT s.county, COALESCE(c.name, ''), s.agency, s.commodity, s.practice, s.kind, v.crop_year, v.slot, v.number
	FROM series s JOIN value v ON v.series = s.id LEFT JOIN county c ON c.code = s.county
	WHERE s.county >= ? AND s.county < ? ORDER BY s.county, s.commodity, s.practice, s.kind, v.crop_year, v.slot`

// figures gives each value of the counties whose code begins with prefix that passes the
// checks.
func (b *Book) figures(prefix string, k *checks, each func(*figure)) error {
	rows, err := b.db.Query(figureQuery, prefix, prefix+"~")
	if err != nil {
		return b.told(err)
	}
	defer rows.Close()
	var f figure
	for rows.Next() {
		if err := rows.Scan(&f.county, &f.name, &f.agency, &f.commodity, &f.practice, &f.kind, &f.cropYear, &f.slot, &f.number); err != nil {
			k.refuse(nil, unread(rows, "county", "name", "agency", "crop", "practice", "kind", "crop year", "place", "number"))
			continue
		}
		if k.use(&f) {
			each(&f)
		}
	}
	return b.told(rows.Err())
}

// Sources returns what each agency says of the counties whose code begins with
// one of the prefixes (a county's code, or the two digits of its State): one
// source for each agency that the book has figures of, in the order in which their figures
// win; without counties where none of them begins so. Every row passes the checks of a
// county file: those that cannot be are farm.Mistakes, and of yields that are left out the
// sources say how many in their Notes.
func (b *Book) Sources(prefixes ...string) ([]farm.CountySource, error) {
	gathered, leftOut := map[string]*gathering{}, map[string]int{}
	k := newChecks(b.path, func(f figure, _ string) { leftOut[f.agency]++ })
	for _, prefix := range prefixes {
		err := b.figures(prefix, k, func(f *figure) {
			g := gathered[f.agency]
			if g == nil {
				g = &gathering{counties: map[string]farm.County{}, at: map[entryKey]int{}}
				gathered[f.agency] = g
			}
			g.add(f)
		})
		if err != nil {
			return nil, err
		}
	}
	if err := k.err(b); err != nil {
		return nil, err
	}
	return b.sourcesOf(gathered, leftOut)
}

// sourcesOf makes the sources of what was gathered of each agency.
func (b *Book) sourcesOf(gathered map[string]*gathering, leftOut map[string]int) ([]farm.CountySource, error) {
	var sources []farm.CountySource
	for _, agency := range agencies {
		g := gathered[agency]
		if g == nil {
			g = &gathering{counties: map[string]farm.County{}}
			if has, err := b.has(agency); err != nil || !has {
				if err != nil {
					return nil, b.told(err)
				}
				continue
			}
		}
		edition, err := b.newestEdition(agency)
		if err != nil {
			return nil, b.told(err)
		}
		var notes []string
		if n := leftOut[agency]; n > 0 {
			notes = []string{fmt.Sprintf("%s: %d of %s are not plausible and are left out. To list them: fencerow county verify", b.path, n, agencyWords[agency])}
		}
		sources = append(sources, farm.CountySource{
			Notes: notes,
			Name:  fmt.Sprintf("%s in the county book, edition %s", agencyWords[agency], edition), Status: crop.Agency, Agency: agency == "FSA", Counties: g.counties,
		})
	}
	return sources, nil
}

// has reports whether the book has any figure of an agency.
func (b *Book) has(agency string) (has bool, err error) {
	err = b.db.QueryRow("SELECT EXISTS (SELECT 1 FROM series WHERE agency = ?)", agency).Scan(&has)
	return has, err
}

// agencyWords name what an agency's files are.
var agencyWords = map[string]string{"FSA": "FSA ARC-CO county tables", "RMA": "RMA county yields", "NASS": "NASS county yields"}

func (b *Book) newestEdition(agency string) (edition string, err error) {
	err = b.db.QueryRow("SELECT COALESCE(MAX(edition), '') FROM file WHERE agency = ? AND replaced_by IS NULL", agency).Scan(&edition)
	return edition, err
}

// gathering puts figures together to counties.
type gathering struct {
	counties map[string]farm.County
	at       map[entryKey]int // place of an entry among a county's yields
	five     fiveYields
}

// fiveYields are the adjusted yields of a program year on their way: they come one after the
// other, and count only where all five are there.
type fiveYields struct {
	of     entryKey
	year   crop.CropYear
	yields [adjustedYields]crop.Yield
	count  int
}

// add takes in one of the five; whole reports whether it was the last that lacked.
func (v *fiveYields) add(of entryKey, f *figure) (whole bool) {
	if v.of != of || v.year != f.cropYear {
		*v = fiveYields{of: of, year: f.cropYear}
	}
	v.yields[f.slot] = f.number
	v.count++
	return v.count == adjustedYields
}

// entryKey names one entry of a county.
type entryKey struct {
	county    string
	commodity crop.Commodity
	practice  farm.Practice
	class     string // of wheat at NASS
}

func (g *gathering) add(f *figure) {
	if f.kind == kindBase {
		return // acres, and no yield
	}
	county, has := g.counties[f.county]
	if !has {
		county = farm.County{Code: f.county, Name: f.name}
	}
	class, of := strings.CutPrefix(f.kind, kindYield+"_")
	if !of {
		class = ""
	}
	key := entryKey{f.county, f.commodity, f.practice, class}
	i, known := g.at[key]
	if !known {
		i = len(county.Yields)
		g.at[key] = i
		county.Yields = append(county.Yields, farm.CountyYield{Commodity: f.commodity, Practice: f.practice})
	}
	if f.kind != kindAdjusted {
		put(&county.Yields[i], f)
	} else if g.five.add(key, f) {
		if county.Yields[i].Adjusted == nil {
			county.Yields[i].Adjusted = map[crop.CropYear][adjustedYields]crop.Yield{}
		}
		county.Yields[i].Adjusted[f.cropYear] = g.five.yields
	}
	g.counties[f.county] = county
}

// put puts one figure where it belongs; adjusted yields have their own place.
func put(y *farm.CountyYield, f *figure) {
	set := func(series *map[crop.CropYear]crop.Yield) {
		if *series == nil {
			*series = map[crop.CropYear]crop.Yield{}
		}
		(*series)[f.cropYear] = f.number
	}
	switch {
	case f.kind == kindBenchmark:
		set(&y.BenchmarkYield)
	case f.kind == kindActual:
		set(&y.Actual)
	case f.agency == "RMA":
		set(&y.Insured)
	default:
		set(&y.Harvested)
	}
}
