package backtest

import (
	"cmp"
	"errors"
	"maps"
	"math"
	"slices"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// Format names the JSON of a Result.
const Format = "fencerow/score/2"

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

// testedRow is one county and commodity in a past year at one state of knowledge: the
// odds given then, and what came.
type testedRow struct {
	knowledge Knowledge
	row       farm.PastRow
	weight    crop.Acres              // base acres it stands for
	chance    float64                 // of an ARC-CO payment
	mean      float64                 // ARC-CO rate over benchmark revenue
	brier     [len(sdFactors)]float64 // of that chance, at each of sdFactors
	pit, crps float64                 // of revenue; of the rate over benchmark revenue
	leader    answer.Leader           // "" where the county's payment yield is not known
	leans     answer.Leader
	arc, plc  crop.Money // what came, USD per base acre
	winner    crop.Money // of them, that of the program which paid more in the newest earlier year
	enrolled  crop.Money // of them, in the parts in which the nation had enrolled
}

// sdFactors multiply the standard deviation of the county yield: as the rule has it,
// half, one and a half times.
var sdFactors = [...]float64{1, 0.5, 1.5}

// ErrNothingToTest is returned where no row of the tables has a forecast of its year.
var ErrNothingToTest = errors.New("no county row has a forecast of its year")

// test answers for every row as it would have been answered then. progress is called
// after each group.
func (s Setup) test(progress func(done, all int)) ([]testedRow, error) {
	groups := s.groups()
	if len(groups) == 0 {
		return nil, ErrNothingToTest
	}
	all := make([][]testedRow, len(groups))
	failures := make([]error, len(groups))
	for i, g := range groups {
		all[i], failures[i] = s.testGroup(g)
		progress(i+1, len(groups))
	}
	rows := slices.Concat(all...)
	s.fillRivals(rows)
	return rows, errors.Join(failures...)
}

// group is one commodity and crop year at one state of knowledge.
type group struct {
	knowledge Knowledge
	commodity crop.Commodity
	cropYear  crop.CropYear
	forecast  farm.Forecast
	rows      []farm.PastRow
}

// groups returns the rows that have a forecast, oldest first.
func (s Setup) groups() []group {
	var all []group
	for _, k := range knowledges {
		if k != May && s.Yield != 0 {
			continue // a stated yield is one before harvest
		}
		for _, f := range s.Past.Forecasts {
			if f.Date.Month() != k.month() || f.Date.Year() != f.CropYear {
				continue
			}
			g := group{knowledge: k, commodity: f.Commodity, cropYear: f.CropYear, forecast: f}
			for _, r := range s.Past.Rows {
				if r.CropYear == f.CropYear && r.Commodity == f.Commodity && s.counts(r) {
					g.rows = append(g.rows, r)
				}
			}
			if len(g.rows) > 0 {
				all = append(all, g)
			}
		}
	}
	return all
}

// counts reports whether a row is tested.
func (s Setup) counts(r farm.PastRow) bool {
	return s.EachRow || r.BaseAcres > 0 && r.BaseAcres >= s.LeastBase
}

// weigh sets the base acres that each row of a group stands for: those of its county, in
// equal parts where the county has several practices.
func (s Setup) weigh(tested []testedRow) {
	practices := map[string]int{}
	for _, t := range tested {
		practices[t.row.County]++
	}
	for i := range tested {
		t := &tested[i]
		t.weight = t.row.BaseAcres / float64(practices[t.row.County])
		if s.EachRow {
			t.weight = 1
		}
	}
}

// testGroup answers for the counties of a group, on all cores.
func (s Setup) testGroup(g group) ([]testedRow, error) {
	c := s.questionOf(g)
	outlooks := make([]position.Yield, len(g.rows))
	parallel.Do(len(g.rows), func(i int) { outlooks[i] = s.outlookOf(c, g, g.rows[i]) })
	if g.knowledge == November {
		report(g, outlooks)
	}
	tested := make([]testedRow, len(g.rows))
	for i, row := range g.rows {
		tested[i] = testedRow{knowledge: g.knowledge, row: row}
		if row.PaymentYield == 0 && !s.EachRow {
			tested[i].row.PaymentYield = answer.AssumedPaymentYield * row.BenchmarkYield
		}
	}
	s.weigh(tested)
	c.Counties = tablesOnly(c.Counties, g.cropYear) // the outlooks no longer need the past yields
	for variant, by := range sdFactors {
		if variant > 0 && !(s.OtherSpreads && g.knowledge == November) {
			break // the variants are for odds after harvest
		}
		const together = 64 // counties that share scenarios, to bound memory
		failures := make([]error, (len(g.rows)+together-1)/together)
		parallel.Do(len(failures), func(n int) {
			first, last := n*together, min(len(g.rows), (n+1)*together)
			failures[n] = testSome(c, g, outlooks[first:last], tested[first:last], variant, by)
		})
		if err := errors.Join(failures...); err != nil {
			return nil, err
		}
	}
	return tested, nil
}

// questionOf returns the question as it could be asked then: county tables and yields
// known by then, final prices of the years before, the forecast of the day.
func (s Setup) questionOf(g group) answer.Question {
	m := farm.Market{AsOf: g.forecast.Date, Source: "WASDE", MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{g.commodity: {}}}
	for y, price := range s.Market.MYA[g.commodity] {
		if y < g.cropYear {
			m.MYA[g.commodity][y] = price
		}
	}
	o := farm.PriceOutlook{AsOf: g.forecast.Date, Figure: farm.Figure{Value: g.forecast.Price, Status: crop.Projected, Source: "WASDE"}}
	if sd, stated := s.PriceSD[g.commodity]; stated {
		o.Volatility = &sd
	}
	m.Outlook = map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{g.commodity: {g.cropYear: o}}
	return answer.Question{Counties: s.known(g), Market: m, CropYears: []crop.CropYear{g.cropYear}, Today: g.forecast.Date, Seed: s.Seed, Draws: s.Draws}
}

// known is the county book of the day: FSA's tables of the year, its yields of two years
// before and earlier, NASS's of the year before.
func (s Setup) known(g group) farm.CountyBook {
	last := g.cropYear - 2 // FSA prints a county yield in the second winter after its harvest
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
		case r.Commodity != g.commodity:
		case r.CropYear == g.cropYear:
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
		if u.Commodity != g.commodity {
			continue
		}
		of(u).Harvested = map[crop.CropYear]crop.Yield{}
		for y, yield := range series {
			if y < g.cropYear {
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
			left.Yields = append(left.Yields, farm.CountyYield{Commodity: yield.Commodity, Practice: yield.Practice, BenchmarkYield: map[crop.CropYear]crop.Yield{y: benchmark}})
		}
		out.Counties[code] = left
	}
	return farm.CountyBook{out}
}

// outlookOf is the distribution of the county yield as it stood before harvest.
func (s Setup) outlookOf(c answer.Question, g group, r farm.PastRow) position.Yield {
	u := position.CountyUnit{County: r.County, Commodity: r.Commodity, Practice: r.Practice, CropYear: r.CropYear}
	if s.Yield != 0 {
		cv, _, _ := odds.Usual.CountyCV(r.Commodity, position.StateOf(r.County), odds.OwnSpread{})
		mean := s.Yield * r.BenchmarkYield
		return position.Yield{Yield: odds.Yield{Mean: mean, SD: cv * mean, Shape: odds.ShapeWeibull}, Stage: odds.BeforeHarvest, Correlation: c.Sources().PriceYieldCorrelation(u)(odds.BeforeHarvest)}
	}
	o, _ := c.Sources().CountyYieldOutlook(u, position.Benchmark{Figure: farm.Figure{Value: r.BenchmarkYield, Status: crop.Agency}})
	return o
}

// leastReported is the number of counties of a State from which on their yields stand
// for a report on the State. A judgement.
const leastReported = 5

// report moves the mean yields of November by the median of how the yields of the State
// turned out against them. A real report is less exact, so that these results flatter
// the odds a little.
func report(g group, outlooks []position.Yield) {
	off := map[string][]float64{}
	for i, r := range g.rows {
		for _, where := range []string{position.StateOf(r.County), ""} {
			off[where] = append(off[where], r.ActualYield/outlooks[i].Mean)
		}
	}
	for i, r := range g.rows {
		where := position.StateOf(r.County)
		if len(off[where]) < leastReported {
			where = ""
		}
		o := &outlooks[i]
		cv := o.SD / o.Mean
		o.Mean *= odds.Median(slices.Clone(off[where]))
		o.Stage, o.SD, o.Correlation = odds.StateReport, odds.Usual.CVAtStage(r.Commodity, odds.StateReport, cv)*o.Mean, 0
		o.Shape = odds.DefaultShape(r.Commodity, odds.StateReport)
	}
}

// testSome answers for some rows of a group, the standard deviation of the yield
// multiplied by a factor.
func testSome(c answer.Question, g group, outlooks []position.Yield, tested []testedRow, variant int, by float64) error {
	run, err := compare.NewYearRun(c, g.cropYear)
	if err != nil {
		return err
	}
	terms, err := program.TermsFor(g.commodity, g.cropYear)
	if err != nil {
		return err
	}
	price, _ := c.Sources().Price(g.commodity, g.cropYear, terms.PriceDecimals)
	for i := range tested {
		base := pastBase(c, tested[i].row, terms)
		if base.ARCMissing != "" {
			tested[i].pit = math.NaN()
			continue
		}
		o := outlooks[i]
		o.SD *= by
		u := &base.Bases[0].Practices[practicePlace(base, tested[i].row.Practice)]
		u.Outlook, u.Known = o, true
		rates := run.Year.RatesOf(&payoff.ARCCORate{Of: base, Base: base.Bases[0], Price: price})
		chance := odds.Share(rates.Scenarios, func(x float64) bool { return x > 0 })
		tested[i].brier[variant] = odds.Brier(chance, tested[i].row.Rate > 0)
		if variant == 0 {
			tested[i].chance, tested[i].mean = chance, rates.Means[0]/tested[i].row.BenchmarkRevenue
			tested[i].fill(run, base, price, rates)
		}
	}
	return nil
}

// pastBase is the base of a farm with 100 acres of it in the county of a row.
func pastBase(c answer.Question, r farm.PastRow, terms program.Terms) *position.CommodityBase {
	const acres = 100
	base := farm.Base{Commodity: r.Commodity, BaseAcres: acres}
	if r.PaymentYield > 0 {
		base.PaymentYield = &r.PaymentYield
	}
	if r.Practice != farm.AllPractices {
		share := 0.0
		if r.Practice == farm.Irrigated {
			share = 1
		}
		base.IrrigatedShare = &share
	}
	f := farm.Farm{Number: "1", County: r.County, Bases: []farm.Base{base}}
	return c.Sources().CommodityBase(f, r.Commodity, r.CropYear, terms)
}

// practicePlace returns the place of a practice among those of the county, 0 where it is
// not there.
func practicePlace(base *position.CommodityBase, p farm.Practice) int {
	return max(0, slices.IndexFunc(base.Bases[0].Practices, func(u position.Practice) bool { return u.Unit.Practice == p }))
}

// fill adds the figures that need all scenarios, and what following the leader would
// have paid.
func (s *testedRow) fill(r *compare.YearRun, base *position.CommodityBase, price position.Price, rates *payoff.Rates) {
	loan := base.National.Terms.LoanRate
	u := base.Bases[0].Practices[practicePlace(base, s.row.Practice)]
	prices, yields := r.Year.Prices(base.Commodity, price), r.Year.Yields(base.National.Terms.YieldDecimals, u)
	revenue, ratio := r.Year.Acquire(), r.Year.Acquire()
	defer r.Year.Release(revenue, ratio)
	for i := range revenue {
		revenue[i] = program.ActualRevenue(yields[i], program.ActualPrice(prices[i], loan))
		ratio[i] = rates.Scenarios[i] / s.row.BenchmarkRevenue
	}
	s.pit = odds.PIT(revenue, program.ActualRevenue(s.row.ActualYield, program.ActualPrice(s.row.MYA, loan)))
	s.crps = odds.CRPS(ratio, s.row.Rate/s.row.BenchmarkRevenue)
	if base.PLCMissing != "" {
		return
	}
	o := payoff.Of(r.Year, farm.Operation{}, base, price)
	part := answer.CommodityPart{Programs: r.Programs(o)}
	r.Decide(&part, base, price, o)
	o.Release(r.Year.Buffers)
	o.ReleaseOwned(r.Year.Buffers)
	s.leader, s.leans = part.Leader, part.Leans
	perAcre := base.Bases[0].PaymentAcres / base.Acres
	s.arc, s.plc = s.row.Rate*perAcre, base.PLCPerAcre(base.PLC().Rate(s.row.MYA))
}
