package explain

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// CountyFormat names the JSON of a CountyView.
const CountyFormat = "fencerow/county-view/1"

// CountyView is what the sources know of one county.
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
	Commodity  crop.Commodity    `json:"commodity"`
	Practice   farm.Practice     `json:"practice"`
	Years      []YieldYear       `json:"years"`
	SeriesFrom string            `json:"series_from"` // the long series: what it is made of
	SeriesN    int               `json:"series_n"`
	TrendYear  *answer.Dollars   `json:"trend_per_year"` // of the long series; nil under ten years
	CV         answer.Chance     `json:"cv"`             // coefficient of variation before harvest
	CVFrom     string            `json:"cv_from"`
	CVStatus   crop.Status       `json:"cv_status"`
	Benchmarks []BenchmarkYear   `json:"benchmarks"`
	Current    *answer.YieldView `json:"current"` // the yield of the crop year asked about
	Missing    []string          `json:"missing"`
}

// YieldYear is the yields of one crop year by agency; nil where an agency has none.
type YieldYear struct {
	CropYear  crop.CropYear   `json:"crop_year"`
	Actual    *answer.Dollars `json:"actual"`    // FSA, per planted acre; or typed
	Insured   *answer.Dollars `json:"insured"`   // RMA, per planted acre
	Harvested *answer.Dollars `json:"harvested"` // NASS, per harvested acre
}

// BenchmarkYear is the benchmark yield of one program year.
type BenchmarkYear struct {
	CropYear crop.CropYear  `json:"crop_year"`
	Yield    answer.Dollars `json:"yield"`
	Status   crop.Status    `json:"status"`
	Source   string         `json:"source"`
}

// ViewCounty returns what the question's sources know of a county, for its first crop
// year.
func ViewCounty(c answer.Question, code string) CountyView {
	view := CountyView{Format: CountyFormat, Today: c.Today.Format(time.DateOnly), Code: code, Name: c.Counties.Name(code), Yields: []CountySeries{}, Caution: answer.Caution()}
	for _, commodity := range crop.Commodities() {
		for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
			u := position.CountyUnit{County: code, Commodity: commodity, Practice: practice, CropYear: c.CropYears[0]}
			if len(c.Counties.Entries(code, commodity, practice)) > 0 {
				view.Yields = append(view.Yields, viewSeries(c, u))
			}
		}
	}
	return view
}

// benchmarksShown is the number of program years before the one asked about whose
// benchmark yields are listed.
const benchmarksShown = 12

func viewSeries(c answer.Question, u position.CountyUnit) CountySeries {
	s := CountySeries{Commodity: u.Commodity, Practice: u.Practice, Years: yieldYears(c.Counties, u), Benchmarks: []BenchmarkYear{}, Missing: []string{}}
	series, _ := position.LongestYieldSeries(c.Counties, u)
	s.SeriesN, s.SeriesFrom = len(series.Years), series.Description()
	if s.SeriesN >= odds.YearsForTrend {
		s.TrendYear = answer.DollarsOf(series.Trend(u.CropYear+1) - series.Trend(u.CropYear))
	}
	cv, from, status := c.Constants.CountyCV(u.Commodity, position.StateOf(u.County), series.Spread())
	s.CV, s.CVFrom, s.CVStatus = answer.Chance(cv), from, status
	var newest position.Benchmark
	for y := u.CropYear - benchmarksShown; y <= u.CropYear+1; y++ {
		terms, err := program.TermsFor(u.Commodity, y)
		if err != nil {
			continue
		}
		at := u
		at.CropYear = y
		b, ok := c.Sources().BenchmarkYield(at, terms.YieldDecimals)
		if ok {
			s.Benchmarks = append(s.Benchmarks, BenchmarkYear{y, answer.Dollars(b.Value), b.Status, b.Source})
		} else if y >= u.CropYear {
			s.Missing = append(s.Missing, fmt.Sprintf("benchmark yield of crop year %d: import FSA's county table, or yields of the years before", y))
		}
		if y == u.CropYear {
			newest = b
		}
	}
	if gap := tablesToImport(tablesMissing(c, u)); gap != "" {
		s.Missing = append(s.Missing, gap)
	}
	o, ok := c.Sources().CountyYieldOutlook(u, newest)
	if !ok {
		s.Missing = append(s.Missing, fmt.Sprintf("any yield used for crop year %d", u.CropYear))
		return s
	}
	s.Current = answer.YieldFigures(o)
	return s
}

// yieldYears returns the agencies' yields by crop year, oldest first. Of several sources
// of one agency's yield the first wins.
func yieldYears(book farm.CountyBook, u position.CountyUnit) []YieldYear {
	years := map[crop.CropYear]*YieldYear{}
	fill := func(series map[crop.CropYear]crop.Yield, at func(*YieldYear) **answer.Dollars) {
		for y, yield := range series {
			if years[y] == nil {
				years[y] = &YieldYear{CropYear: y}
			}
			if place := at(years[y]); *place == nil { // the first source wins
				*place = answer.DollarsOf(yield)
			}
		}
	}
	for _, e := range position.EntriesWithSubstitutes(book, u) {
		fill(e.Actual, func(y *YieldYear) **answer.Dollars { return &y.Actual })
		fill(e.Insured, func(y *YieldYear) **answer.Dollars { return &y.Insured })
		fill(e.Harvested, func(y *YieldYear) **answer.Dollars { return &y.Harvested })
	}
	all := []YieldYear{}
	for _, y := range slices.Sorted(maps.Keys(years)) {
		all = append(all, *years[y])
	}
	return all
}
