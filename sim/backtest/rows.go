package backtest

import (
	"errors"
	"math"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/odds"
	"fencerow/sim/odds/scores"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

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
	byPrice   answer.Leader // what would have led had the final price been known
	byYield   answer.Leader // what would have led had the county yield been known
	arc, plc  crop.Money    // what came, USD per base acre
	winner    crop.Money    // of them, that of the program which paid more in the newest earlier year
	enrolled  crop.Money    // of them, in the parts in which the nation had enrolled
}

// sdFactors multiply the standard deviation of the county yield: as the rule has it,
// half, one and a half times.
var sdFactors = [...]float64{1, 0.5, 1.5}

// ErrNothingToTest is returned where no row of the tables has a forecast of its year.
var ErrNothingToTest = errors.New("no county row has a forecast of its year")

// group is one commodity and crop year at one state of knowledge.
type group struct {
	*commodityYear
	knowledge Knowledge
	forecast  farm.Forecast
	constants *odds.Constants
}

// test answers for every row as it would have been answered then. progress is called
// after each group.
func (s Setup) test(progress func(done, all int)) ([]testedRow, error) {
	return s.testYears(s.prepare(), progress)
}

// testYears is test for commodities and crop years that are prepared.
func (s Setup) testYears(years []*commodityYear, progress func(done, all int)) ([]testedRow, error) {
	groups := s.groups(years)
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

// groups returns the commodities and crop years at each state of knowledge that has a
// forecast, with the constants that the other years give.
func (s Setup) groups(years []*commodityYear) []*group {
	constants := s.constantsOf(years)
	var all []*group
	for _, k := range knowledges {
		if k != May && s.Yield != 0 || k == NovemberPrice && s.candidate.leansOnly {
			continue // a stated yield is one before harvest
		}
		for _, c := range years {
			if f, has := s.forecast(k, c.Commodity, c.CropYear, c.CropYear); has {
				all = append(all, &group{commodityYear: c, knowledge: k, forecast: f, constants: constants[c.CropYear]})
			}
		}
	}
	return all
}

// constantsOf returns the numbers of the model that each crop year is asked about with: those
// stated, else those that the other years give; the usual ones where the yield is stated.
func (s Setup) constantsOf(years []*commodityYear) map[crop.CropYear]*odds.Constants {
	var asked []crop.CropYear
	for _, c := range years {
		if !slices.Contains(asked, c.CropYear) {
			asked = append(asked, c.CropYear)
		}
	}
	all := make([]*odds.Constants, len(asked))
	parallel.Do(len(asked), func(i int) {
		switch {
		case s.Constants != nil:
			all[i] = s.Constants
		case s.Yield == 0:
			all[i], _ = s.constantsWithout(asked[i], years)
		}
	})
	constants := map[crop.CropYear]*odds.Constants{}
	for i, y := range asked {
		constants[y] = all[i]
	}
	return constants
}

// testGroup answers for the counties of a group, on all cores.
func (s Setup) testGroup(g *group) ([]testedRow, error) {
	c := s.question(g)
	outlooks := g.outlooks(s, g.constants)
	if g.knowledge == November {
		outlooks = g.reported(g.constants, outlooks, s.candidate.nation)
	}
	tested := make([]testedRow, len(g.rows))
	for i, row := range g.rows {
		tested[i] = testedRow{knowledge: g.knowledge, row: row, weight: g.weights[i]}
		outlooks[i].Correlation = c.Sources().PriceYieldCorrelation(g.bases[i].Unit)(outlooks[i].Stage)
	}
	variants := []variant{usual}
	if s.OtherSpreads && g.knowledge == November {
		variants = append(variants, halfSpread, wideSpread) // for odds after harvest
	}
	if g.knowledge != NovemberPrice && !s.EachRow && !s.candidate.leansOnly {
		variants = append(variants, priceKnown, yieldKnown)
	}
	for _, v := range variants {
		asked := s.as(c, g, v)
		const together = 256 // counties that share scenarios, to bound memory
		failures := make([]error, (len(g.rows)+together-1)/together)
		parallel.Do(len(failures), func(n int) {
			first, last := n*together, min(len(g.rows), (n+1)*together)
			failures[n] = s.testSome(asked, g, outlooks[first:last], tested[first:last], v)
		})
		if err := errors.Join(failures...); err != nil {
			return nil, err
		}
	}
	return tested, nil
}

// variant is what is changed about what was known.
type variant int

// The variants: nothing changed, the spread of the yield at each of sdFactors, the final
// price known, the county yield known.
const (
	usual variant = iota
	halfSpread
	wideSpread
	priceKnown
	yieldKnown
)

// as returns the question of a variant. Of what would have been chosen fewer scenarios tell
// enough than of what was said.
func (s Setup) as(c answer.Question, g *group, v variant) answer.Question {
	if v < priceKnown {
		return c
	}
	const fewer = 4
	c.Draws /= fewer
	if v == priceKnown {
		c.Market = s.market(g.knowledge, g.forecast)
		c.Market.MYA[g.Commodity][g.CropYear] = farm.Figure{Value: g.rows[0].MYA, Status: crop.Agency}
	}
	return c
}

// testSome answers for some rows of a group under a variant.
func (s Setup) testSome(c answer.Question, g *group, outlooks []position.Yield, tested []testedRow, v variant) error {
	run, err := compare.NewYearRun(c, g.CropYear)
	if err != nil {
		return err
	}
	terms, err := program.TermsFor(g.Commodity, g.CropYear)
	if err != nil {
		return err
	}
	price, _ := c.Sources().Price(g.Commodity, g.CropYear, terms.PriceDecimals)
	if s.bandPrice != nil {
		price.UsualError = s.bandPrice(price.WholeSD)
	}
	if v != usual {
		price.UsualError = 0 // no band is asked for
	}
	for i := range tested {
		t := &tested[i]
		base := pastBase(c, t.row, terms)
		if base.ARCMissing != "" {
			t.pit = math.NaN()
			continue
		}
		o := outlooks[i]
		if v != usual {
			o.Estimates = nil
		}
		switch v {
		case yieldKnown:
			o.Mean, o.SD = t.row.ActualYield, 0
		case halfSpread, wideSpread:
			o.SD *= sdFactors[v]
		}
		u := &base.Bases[0].Practices[practicePlace(base, t.row.Practice)]
		u.Outlook, u.Known = o, true
		t.answer(s.candidate.leansOnly, run, base, price, v)
	}
	return nil
}

// answer fills in what a variant tells of a row.
func (s *testedRow) answer(leansOnly bool, run *compare.YearRun, base *position.CommodityBase, price position.Price, v variant) {
	if v >= priceKnown {
		if base.PLCMissing == "" {
			leans := run.LeansAt(base, price)
			if v == priceKnown {
				s.byPrice = leans
			} else {
				s.byYield = leans
			}
		}
		return
	}
	rates := run.Year.RatesOf(&payoff.ARCCORate{Of: base, Base: base.Bases[0], Price: price})
	chance := odds.Share(rates.Scenarios, func(x float64) bool { return x > 0 })
	s.brier[v] = scores.Brier(chance, s.row.Rate > 0)
	if v != usual {
		return
	}
	s.chance, s.mean = chance, rates.Means[0]/s.row.BenchmarkRevenue
	s.fill(run, base, price, rates)
	if base.PLCMissing != "" {
		return
	}
	perAcre := base.Bases[0].PaymentAcres / base.Acres
	s.arc, s.plc = s.row.Rate*perAcre, base.PLCPerAcre(base.PLC().Rate(s.row.MYA))
	if leansOnly {
		s.leans = run.LeansAt(base, price)
		s.leader = s.leans
		return
	}
	s.decide(run, base, price)
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
	s.pit = scores.PIT(revenue, program.ActualRevenue(s.row.ActualYield, program.ActualPrice(s.row.MYA, loan)))
	s.crps = scores.CRPS(ratio, s.row.Rate/s.row.BenchmarkRevenue)
}

// decide adds who leads, how sure, and what both programs came to pay.
func (s *testedRow) decide(r *compare.YearRun, base *position.CommodityBase, price position.Price) {
	o := payoff.Of(r.Year, farm.Operation{}, base, price)
	part := answer.CommodityPart{Programs: r.Programs(o)}
	r.Decide(&part, base, price, o)
	o.Release(r.Year.Buffers)
	o.ReleaseOwned(r.Year.Buffers)
	s.leader, s.leans = part.Leader, part.Leans
}
