package book

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// agencies in the order in which their figures win.
var agencies = []string{"FSA", "RMA", "NASS"}

// figure is one value as it lies in the book.
type figure struct {
	county, name, agency string
	commodity            crop.Commodity
	practice             farm.Practice
	kind                 string
	cropYear             crop.CropYear
	slot                 int
	number               float64
}

const figureQuery = `SELECT s.county, COALESCE(c.name, ''), s.agency, s.commodity, s.practice, s.kind, v.crop_year, v.slot, v.number
	FROM series s JOIN value v ON v.series = s.id LEFT JOIN county c ON c.code = s.county
	WHERE s.county >= ? AND s.county < ? ORDER BY s.county, s.commodity, s.practice, s.kind, v.crop_year, v.slot`

// figures gives each value of the counties whose code begins with prefix.
func (b *Book) figures(prefix string, each func(figure)) error {
	rows, err := b.db.Query(figureQuery, prefix, prefix+"~")
	if err != nil {
		return fmt.Errorf("county book %s: %w", b.path, err)
	}
	defer rows.Close()
	for rows.Next() {
		var f figure
		if err := rows.Scan(&f.county, &f.name, &f.agency, &f.commodity, &f.practice, &f.kind, &f.cropYear, &f.slot, &f.number); err != nil {
			return err
		}
		each(f)
	}
	return rows.Err()
}

// Sources returns what each agency says of the counties whose code begins with
// one of the prefixes (a county's code, or the two digits of its State): one
// source for each agency that the book has figures of, in the order in which their figures
// win; without counties where none of them begins so.
func (b *Book) Sources(prefixes ...string) ([]farm.CountySource, error) {
	gathered := map[string]*gathering{}
	for _, prefix := range prefixes {
		err := b.figures(prefix, func(f figure) {
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
	var sources []farm.CountySource
	for _, agency := range agencies {
		g := gathered[agency]
		if g == nil {
			g = &gathering{counties: map[string]farm.County{}}
			if has, err := b.has(agency); err != nil || !has {
				if err != nil {
					return nil, err
				}
				continue
			}
		}
		edition, err := b.newestEdition(agency)
		if err != nil {
			return nil, err
		}
		sources = append(sources, farm.CountySource{
			Name: fmt.Sprintf("%s in the county book, edition %s", agencyWords[agency], edition), Status: crop.Agency, Agency: agency == "FSA", Counties: g.counties,
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
}

// entryKey names one entry of a county.
type entryKey struct {
	county    string
	commodity crop.Commodity
	practice  farm.Practice
	class     string // of wheat at NASS
}

func (g *gathering) add(f figure) {
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
	put(&county.Yields[i], f)
	g.counties[f.county] = county
}

// put puts one figure where it belongs.
func put(y *farm.CountyYield, f figure) {
	set := func(series *map[crop.CropYear]crop.Yield) {
		if *series == nil {
			*series = map[crop.CropYear]crop.Yield{}
		}
		(*series)[f.cropYear] = f.number
	}
	switch {
	case f.kind == kindAdjusted:
		if y.Adjusted == nil {
			y.Adjusted = map[crop.CropYear][5]crop.Yield{}
		}
		five := y.Adjusted[f.cropYear]
		five[f.slot] = f.number
		y.Adjusted[f.cropYear] = five
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
