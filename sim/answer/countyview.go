package answer

import (
	"time"

	"fmt"
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// CountyFormat names the JSON of a CountyView.
const CountyFormat = "fencerow/county-view/1"

// CountyView is what is known of one county.
type CountyView struct {
	Format  string         `json:"format"` // fencerow/county-view/1
	Today   string         `json:"today"`
	Code    string         `json:"code"`
	Name    string         `json:"name"`
	Yields  []CountySeries `json:"yields"`
	Caution []string       `json:"caution"`
}

// CountySeries is one commodity and practice of a county. Yields are in bu or lb
// per acre.
type CountySeries struct {
	Commodity  crop.Commodity  `json:"commodity"`
	Practice   farm.Practice   `json:"practice"`
	Years      []YieldYear     `json:"years"`
	SeriesFrom string          `json:"series_from"` // the long series: what it is made of
	SeriesN    int             `json:"series_n"`
	TrendYear  *Dollars        `json:"trend_per_year"` // of the long series; nil under ten years
	CV         Chance          `json:"cv"`             // coefficient of variation before harvest
	CVFrom     string          `json:"cv_from"`
	CVStatus   crop.Status     `json:"cv_status"`
	Benchmarks []BenchmarkYear `json:"benchmarks"`
	Current    *YieldView      `json:"current"` // the yield of the crop year asked about
	Missing    []string        `json:"missing"`
}

// YieldYear is one crop year by agency; nil where an agency has none.
type YieldYear struct {
	CropYear  crop.CropYear `json:"crop_year"`
	Actual    *Dollars      `json:"actual"`    // FSA, per planted acre; or typed
	Insured   *Dollars      `json:"insured"`   // RMA, per planted acre
	Harvested *Dollars      `json:"harvested"` // NASS, per harvested acre
}

// BenchmarkYear is the benchmark yield of one program year.
type BenchmarkYear struct {
	CropYear crop.CropYear `json:"crop_year"`
	Yield    Dollars       `json:"yield"`
	Status   crop.Status   `json:"status"`
	Source   string        `json:"source"`
}

// ViewCounty returns what the case's sources know of a county, for the case's
// first crop year.
func ViewCounty(c Case, code string) CountyView {
	view := CountyView{Format: CountyFormat, Today: c.Today.Format(time.DateOnly), Code: code, Name: c.Counties.Name(code), Yields: []CountySeries{}, Caution: Caution()}
	for _, commodity := range crop.Commodities() {
		for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
			u := countyUnit{county: code, commodity: commodity, practice: practice, cropYear: c.CropYears[0]}
			if len(c.Counties.Entries(code, commodity, practice)) > 0 {
				view.Yields = append(view.Yields, viewSeries(c, u))
			}
		}
	}
	return view
}

// benchmarksShown is how many program years before the one asked about are
// listed with their benchmark yields.
const benchmarksShown = 12

func viewSeries(c Case, u countyUnit) CountySeries {
	s := CountySeries{Commodity: u.commodity, Practice: u.practice, Years: yieldYears(c.Counties, u), Benchmarks: []BenchmarkYear{}, Missing: []string{}}
	series, _ := seriesOf(c.Counties, u)
	s.SeriesN, s.SeriesFrom = len(series.years), series.words()
	if s.SeriesN >= odds.YearsForTrend {
		s.TrendYear = dollars(series.trend(u.cropYear+1) - series.trend(u.cropYear))
	}
	cv, from, status := odds.CountyCV(u.commodity, stateOf(u.county), series.years, series.yields, series.harvested)
	s.CV, s.CVFrom, s.CVStatus = Chance(cv), from, status
	var newest benchmark
	for y := u.cropYear - benchmarksShown; y <= u.cropYear+1; y++ {
		terms, err := program.TermsFor(u.commodity, y)
		if err != nil {
			continue
		}
		at := u
		at.cropYear = y
		b, ok := c.sources().benchmarkYield(at, terms.YieldDecimals)
		if ok {
			s.Benchmarks = append(s.Benchmarks, BenchmarkYear{y, Dollars(b.Value), b.Status, b.Source})
		} else if y >= u.cropYear {
			s.Missing = append(s.Missing, fmt.Sprintf("benchmark yield of crop year %d: import the agency's county table, or yields of the years before", y))
		}
		if y == u.cropYear {
			newest = b
		}
	}
	o, ok := outlookOf(c.Counties, u, newest, c.sources().correlationOf(u))
	if !ok {
		s.Missing = append(s.Missing, fmt.Sprintf("any yield to expect for crop year %d", u.cropYear))
		return s
	}
	s.Current = YieldFigures(o)
	return s
}

// words says what a long series is made of.
func (s longSeries) words() string {
	if len(s.years) == 0 {
		return "no yearly yields"
	}
	return fmt.Sprintf("%d yields, %d to %d%s", len(s.years), s.years[0], s.years[len(s.years)-1], s.from)
}

// yieldYears lays the agencies' yields side by side, oldest first.
func yieldYears(book farm.CountyBook, u countyUnit) []YieldYear {
	years := map[crop.CropYear]*YieldYear{}
	fill := func(series map[crop.CropYear]crop.Yield, at func(*YieldYear) **Dollars) {
		for y, yield := range series {
			if years[y] == nil {
				years[y] = &YieldYear{CropYear: y}
			}
			if place := at(years[y]); *place == nil { // the first source wins
				*place = dollars(yield)
			}
		}
	}
	for _, e := range related(book, u) {
		fill(e.Actual, func(y *YieldYear) **Dollars { return &y.Actual })
		fill(e.Insured, func(y *YieldYear) **Dollars { return &y.Insured })
		fill(e.Harvested, func(y *YieldYear) **Dollars { return &y.Harvested })
	}
	all := []YieldYear{}
	for _, y := range slices.Sorted(maps.Keys(years)) {
		all = append(all, *years[y])
	}
	return all
}
