package backtest

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
)

// Format names the layout of a Result.
const Format = "fencerow/score/3"

// Setup is the past crop years to test and the settings of the test.
type Setup struct {
	Past         farm.Past
	Market       farm.Market // final national prices
	LeastBase    crop.Acres  // of a county, to be counted; rows whose base acres are not known never are
	EachRow      bool        // every row counts alike, whatever its base acres: for checks against counts of rows
	OtherSpreads bool        // also at half and one and a half times the spread of the county yield, asked in November
	Draws        int         // per row
	Seed         uint64
	Yield        float64                    // mean county yield as a part of the benchmark; 0: the program's own rule
	PriceSD      map[crop.Commodity]float64 // standard deviation of the log price; a commodity that is not there: by date
	Constants    *odds.Constants            // numbers of the model for all years; nil: those that the other years give
	candidate    candidate                  // another rule of the mean county yield, for tests; the zero one is the program's
	bandPrice    func(sd float64) float64   // how far the band moves the log price, of its standard deviation, for tests; nil: the program's own rule
}

// Knowledge is what was known when a past year is asked about.
type Knowledge string

// May before harvest: WASDE's first price, no yield. NovemberPrice: WASDE's price of that
// month and nothing of the yield. November: that, and how the State's yields came out,
// as a report would say, if it were exact. What can be known lies between the last two.
const (
	May           Knowledge = "May"
	NovemberPrice Knowledge = "November, price alone"
	November      Knowledge = "November"
)

var knowledges = []Knowledge{May, NovemberPrice, November}

func (k Knowledge) month() time.Month {
	if k == May {
		return time.May
	}
	return time.November
}

// forecast returns WASDE's price for a crop year in the month of a state of knowledge of
// another one.
func (s Setup) forecast(k Knowledge, c crop.Commodity, asked, of crop.CropYear) (farm.Forecast, bool) {
	for _, f := range s.Past.Forecasts {
		if f.Commodity == c && f.CropYear == of && f.Date.Year() == asked && f.Date.Month() == k.month() {
			return f, true
		}
	}
	return farm.Forecast{}, false
}

// market is what was known of prices on the day of a forecast: final prices of the years
// before, but for the last one asked in May, whose marketing year was not over: of it
// WASDE's estimate of the day.
func (s Setup) market(k Knowledge, f farm.Forecast) farm.Market {
	c, y := f.Commodity, f.CropYear
	m := farm.Market{AsOf: f.Date, Source: "WASDE", MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{c: {}}}
	for before, price := range s.Market.MYA[c] {
		if before < y {
			m.MYA[c][before] = price
		}
	}
	if last, has := s.forecast(k, c, y, y-1); has && k == May {
		m.MYA[c][y-1] = farm.Figure{Value: last.Price, Status: crop.Projected, Source: "WASDE"}
	}
	o := farm.PriceOutlook{AsOf: f.Date, Figure: farm.Figure{Value: f.Price, Status: crop.Projected, Source: "WASDE"}}
	if sd, stated := s.PriceSD[c]; stated {
		o.Volatility = &sd
	}
	m.Outlook = map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{c: {y: o}}
	return m
}

// known is the county book of a crop year: FSA's table of it, FSA's yields of two years
// before and earlier, NASS's of the year before.
func (s Setup) known(c crop.Commodity, asked crop.CropYear) farm.CountyBook {
	last := asked - 2 // FSA prints a county yield in the second winter after its harvest
	fsa := farm.CountySource{Name: "FSA", Status: crop.Agency, Agency: true, Counties: map[string]farm.County{}}
	yields := map[farm.PastSeries]*farm.CountyYield{}
	of := func(u farm.PastSeries) *farm.CountyYield {
		if yields[u] == nil {
			yields[u] = &farm.CountyYield{Commodity: u.Commodity, Practice: u.Practice,
				Actual: map[crop.CropYear]crop.Yield{}, BenchmarkYield: map[crop.CropYear]crop.Yield{}, Adjusted: map[crop.CropYear][5]crop.Yield{}}
		}
		return yields[u]
	}
	for _, r := range s.Past.Rows {
		switch {
		case r.Commodity != c:
		case r.CropYear == asked:
			y := of(farm.PastSeries{PastUnit: r.PastUnit})
			y.BenchmarkYield[r.CropYear] = r.BenchmarkYield
			if r.Adjusted != nil {
				y.Adjusted[r.CropYear] = *r.Adjusted
			}
		case r.CropYear <= last:
			of(farm.PastSeries{PastUnit: r.PastUnit}).Actual[r.CropYear] = r.ActualYield
		}
	}
	for u, series := range s.Past.Harvested {
		if u.Commodity != c {
			continue
		}
		of(u).Harvested = map[crop.CropYear]crop.Yield{}
		for y, yield := range series {
			if y < asked {
				of(u).Harvested[y] = yield
			}
		}
	}
	series := slices.SortedFunc(maps.Keys(yields), func(a, b farm.PastSeries) int { return cmp.Compare(a.Class, b.Class) })
	for _, u := range series { // of equally long series the first counts
		county := fsa.Counties[u.County]
		county.Code = u.County
		county.Yields = append(county.Yields, *yields[u])
		fsa.Counties[u.County] = county
	}
	return farm.CountyBook{fsa}
}

// question returns the question as it could be asked of a crop year then. Its county book
// has nothing but the benchmarks of the year: what else is known stands in the outlooks.
func (s Setup) question(g *group) answer.Question {
	return answer.Question{Counties: g.table, Market: s.market(g.knowledge, g.forecast), Constants: g.constants,
		CropYears: []crop.CropYear{g.CropYear}, Today: g.forecast.Date, Seed: s.Seed, Draws: s.Draws, Brief: true}
}

// tablesOnly returns a book with nothing but the benchmarks of one program year.
func tablesOnly(book farm.CountyBook, y crop.CropYear) farm.CountyBook {
	out := book[0]
	out.Counties = map[string]farm.County{}
	for code, county := range book[0].Counties {
		left := farm.County{Code: code}
		for _, yield := range county.Yields {
			benchmark, has := yield.BenchmarkYield[y]
			if !has {
				continue
			}
			// An outlook that stands for the one set later: looking for one in series takes long.
			stated := map[crop.CropYear]farm.YieldOutlook{y: {Yield: &benchmark, SD: new(crop.Yield)}}
			left.Yields = append(left.Yields, farm.CountyYield{Commodity: yield.Commodity, Practice: yield.Practice, BenchmarkYield: map[crop.CropYear]crop.Yield{y: benchmark}, Outlook: stated})
		}
		out.Counties[code] = left
	}
	return farm.CountyBook{out}
}
