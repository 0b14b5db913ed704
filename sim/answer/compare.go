package answer

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// ComparisonFormat names the JSON of a Comparison.
const ComparisonFormat = "fencerow/comparison/2"

// Compare answers the main question for every crop year of the case. Missing
// figures leave nils and raise flags; an error means that the law or the
// correlations do not allow the question at all.
func Compare(c Case) (Comparison, error) { return newQuestion(c).compare() }

func (p *question) compare() (Comparison, error) {
	c := p.Case
	out := Comparison{
		Format: ComparisonFormat, Today: c.Today.Format(time.DateOnly), Seed: c.Seed,
		Draws:   odds.NewDraws(c.Seed, c.Draws).N(),
		Model:   modelOf(c),
		Market:  MarketDate{AsOf: c.Market.AsOf.Format(time.DateOnly), Source: c.Market.Source},
		Caution: Caution(),
	}
	out.CropYears = make([]YearPart, len(c.CropYears))
	sums := make([][][]acreSums, len(c.CropYears))
	for i, y := range c.CropYears { // one after the other: a year gives its memory to the next
		var err error
		if out.CropYears[i], sums[i], err = p.compareYear(y); err != nil {
			return Comparison{}, fmt.Errorf("crop year %d: %w", y, err)
		}
	}
	out.Together = p.together(out.CropYears, sums)
	out.ChangeFrom, out.ChangeSource = changeFrom(c.CropYears)
	return out, nil
}

// modelOf says which odds were asked for.
func modelOf(c Case) Model {
	m := Model{Name: UsualOdds, Tail: NormalTail}
	if c.Tail == StudentTTail {
		m.Tail, m.Note = StudentTTail, "a stress, not the usual odds: extreme prices and yields of one year come together more often than they are known to"
	}
	if c.Model == PastHistory {
		years := odds.PastYears()
		m.Name = PastHistory
		m.Note = fmt.Sprintf("past crop years drawn again, not the usual odds: each outcome has the errors that USDA's May prices had in one of the %d years from %d to %d, and the county yields as far off their trend as in that year, both centered and at the spread of today; price and yield stay linked as in those years also after harvest, where the usual odds take them as no longer linked. Percentiles further out than 1 in %d are left out and errors are those of so few years. Each crop year takes a past year of its own, and a price that follows one not yet final carries on what is left of that year's: then outcomes are pairs of past years, and chances no whole number of them", len(years), years[0], years[len(years)-1], len(years))
	}
	return m
}

// farmRun is one farm's holdings with their outcomes.
type farmRun struct {
	farm       farm.Farm
	holdings   []*holding
	payoffs    []payoffs // by holding
	parts      []CommodityPart
	individual *individual // nil where nothing about ARC-IC was asked
	arcIC      *ARCICPart
	money      purse
	err        error
}

// compareYear answers for one crop year; sums are what the programs pay per base
// acre, farm by farm.
func (p *question) compareYear(y crop.CropYear) (year YearPart, sums [][]acreSums, err error) {
	r, err := p.run(y)
	if err != nil {
		return year, nil, err
	}
	farms := make([]farmRun, len(r.Operation.Farms))
	sideBySide(r.Brief, len(farms), func(i int) { farms[i] = r.farm(r.Operation.Farms[i]) })
	year.CropYear = y
	for _, f := range farms {
		if f.err != nil {
			return year, nil, f.err
		}
		sums = append(sums, f.acreSums())
	}
	elections, criteria, failures := make([][]Election, len(farms)), make([]*CriteriaPart, len(farms)), make([]error, len(farms))
	whole := make([]*WholeFarm, len(farms))
	sideBySide(r.Brief, len(farms), func(i int) {
		farms[i].money = r.money(farms[i])
		elections[i] = r.elections(farms[i])
		criteria[i], failures[i] = r.criteria(farms[i], elections[i])
		whole[i] = r.wholeFarm(farms[i])
	})
	if err := errors.Join(failures...); err != nil {
		return year, nil, err
	}
	for i, f := range farms {
		contract, stated := f.farm.Contract.In(y)
		if !stated {
			contract = farm.Open
		}
		year.Farms = append(year.Farms, FarmPart{
			Farm: f.farm.Key(), Contract: contract, Commodities: f.parts, ARCIC: f.arcIC, Elections: elections[i], Whole: whole[i], Criteria: criteria[i], Flags: f.flags(r),
		})
	}
	var filled []limitReached
	var after map[line]afterLimit
	year.Operation, filled, after = r.operation(farms)
	for _, f := range year.Farms {
		for k := range f.Commodities {
			f.Commodities[k].AfterLimit = afterLimitView(after[line{farm: f.Farm, commodity: f.Commodities[k].Commodity}], f.Commodities[k].BaseAcres)
		}
	}
	year.Standing = r.standing(year, farms, after)
	for _, f := range farms {
		for _, all := range f.payoffs {
			all.releaseOwned(r.buffers)
		}
	}
	for i, f := range farms {
		year.Farms[i].Flags = append(year.Farms[i].Flags, r.severalFlags(year.Operation, f.farm)...)
		for _, l := range filled {
			if flag, concerns := flagOfLimit(l, r.people, f.farm); concerns {
				year.Farms[i].Flags = append(year.Farms[i].Flags, flag)
			}
		}
	}
	return year, sums, nil
}

// flags returns the farm's flags, those too that need to know who leads.
func (f farmRun) flags(r *run) []Flag {
	c := flagCase{Case: r.Case, farm: f.farm, cropYear: r.cropYear, holdings: f.holdings, people: r.people, individual: f.individual, repairs: r.sampler.Repairs(), rates: r.yearRates, seen: &r.published, parts: f.parts}
	c.arcLeads = slices.ContainsFunc(f.parts, func(p CommodityPart) bool { return p.Leader == LeadsARCCO })
	return c.raise()
}

// farm draws the outcomes of one farm and describes each commodity.
func (r *run) farm(f farm.Farm) farmRun {
	out := farmRun{farm: f}
	out.holdings, out.err = r.holdings(f, r.cropYear)
	out.parts, out.payoffs = make([]CommodityPart, len(out.holdings)), make([]payoffs, len(out.holdings))
	sideBySide(r.Brief, len(out.holdings), func(i int) { out.parts[i], out.payoffs[i] = r.commodity(out.holdings[i]) })
	if out.err == nil {
		out.err = r.addIndividual(&out)
	}
	return out
}

// commodity answers for one holding.
func (r *run) commodity(h *holding) (CommodityPart, payoffs) {
	n := h.national
	part := CommodityPart{
		Commodity: h.commodity, BaseAcres: Dollars(h.baseAcres),
		EffectiveReferencePrice: PriceOf(n, n.Target, n.targetDecimals()),
		ReferencePriceStatus:    n.Target.Status,
		BenchmarkPrice:          PriceOf(n, n.BenchmarkPrice, n.Terms.BenchmarkDecimals),
		BenchmarkPriceStatus:    n.BenchmarkPrice.Status,
		Programs:                Programs{{farm.PLC, nil}, {farm.ARCCO, nil}},
		Bases:                   basesOf(h), LeadByPrice: []Lead{}, LeadByYield: []YieldLead{}, Elsewhere: []PaymentAt{}, ByPrice: []PaymentBy{}, Leader: None, Leans: None,
	}
	if program, has := h.farm.Record[h.commodity]; has {
		part.OnRecord = &program
	}
	if day, known := firstPaymentDay(h.commodity, r.cropYear); known {
		part.PaymentNotBefore, part.TaxYear = day.Format(time.DateOnly), day.Year()
	}
	if h.plcMissing == "" {
		part.PaymentYield = dollars(h.paymentYield())
	}
	if _, barred := staxBars(h.farm, h.commodity, r.cropYear); barred {
		part.NotEnrolled = dollars(0)
	}
	price, ok := r.priceOutlook(h.commodity, r.cropYear, n.Terms.PriceDecimals)
	if !ok {
		h.plcMissing, h.arcMissing = priceMissing, priceMissing
		part.LeaderReason = "no price projection: enter one"
		return part, nil
	}
	part.MYA = &PriceView{
		Mean: Price{price.Mean(), price.Decimals}, SD: Price{price.SD(), price.Decimals},
		Status: price.figure.Status, Source: price.figure.Source, Spread: price.spreadFrom,
	}
	part.ReferencePriceDrawn = priceRange(r.targets(n), n.targetDecimals())
	part.BenchmarkPriceDrawn = priceRange(r.benchmarkPrices(n), n.Terms.BenchmarkDecimals)
	o := payoffsOf(r.yearRates, r.Operation, h, price)
	part.Programs = r.programs(o)
	r.decide(&part, h, price, o)
	r.assumeShare(&part, h, price)
	if !r.Brief {
		r.priceTenths(part.MYA, h.commodity, price)
		r.tables(&part, h, price)
	}
	o.release(r.buffers)
	return part, o
}

// priceTenths fills in the prices that one outcome in ten is below, and above: of the
// distribution, or of the outcomes themselves where those are given or drawn again.
func (r *run) priceTenths(view *PriceView, c crop.Commodity, price priceOutlook) {
	const low, high = 10, 90
	l, h := price.tenths()
	switch {
	case !r.tells(low):
		return
	case r.distinct > 0 || price.samples != nil:
		p := odds.PercentilesOf(r.prices(c, price))
		l, h = p[slices.Index(odds.Percents[:], low)], p[slices.Index(odds.Percents[:], high)]
	}
	view.Low, view.High = &Price{l, price.Decimals}, &Price{h, price.Decimals}
}

// priceMissing is what a holding lacks where its commodity has no projection.
const priceMissing = "a price projection"

// priceRange describes a price that differs from draw to draw, nil for none.
func priceRange(prices []crop.Price, decimals int) *PriceRange {
	if prices == nil {
		return nil
	}
	mean, sd := stat.PopMeanStdDev(prices, nil)
	return &PriceRange{Mean: Price{mean, decimals}, SD: Price{sd, decimals}}
}

// programs describes what each program pays, PLC and ARC-CO also where a figure is
// missing.
func (r *run) programs(all payoffs) (out Programs) {
	for _, one := range instruments(r.cropYear) {
		var view *ProgramPart
		if p := all.of(one.ID()); p != nil {
			view = ProgramFigures(p.shape(r.yearRates))
		}
		if view != nil || one.ID() == farm.PLC || one.ID() == farm.ARCCO {
			out = append(out, OneProgram[ProgramPart]{one.ID(), view})
		}
	}
	return out
}

// basesOf describes each base, and each practice of it where the county has two.
func basesOf(h *holding) []BasePart {
	var all []BasePart
	for _, p := range h.parts {
		practices := p.practices
		if len(practices) == 0 { // nothing is known of the county
			practices = []practicePart{{unit: countyUnit{practice: farm.AllPractices}, weight: 1}}
		}
		for _, u := range practices {
			all = append(all, basePart(h, p, u))
		}
	}
	return all
}

func basePart(h *holding, p part, u practicePart) BasePart {
	b := BasePart{
		County: p.county, CountyName: p.countyName, Tract: p.base.Tract, Practice: string(u.unit.practice),
		BaseAcres: Dollars(u.weight * p.base.BaseAcres), BenchmarkFrom: u.benchmark.Source,
		PaymentAcres: Dollars(u.weight * p.paymentAcres), CRPReduction: Dollars(u.weight * p.base.CRPReduction),
	}
	if u.benchmark.Status != "" {
		b.BenchmarkYield, b.BenchmarkStatus = dollars(u.benchmark.Value), u.benchmark.Status
		if h.national.BenchmarkPrice.Status != "" {
			b.BenchmarkRevenue, b.Guarantee = dollars(u.coverage.BenchmarkRevenue), dollars(u.coverage.Guarantee)
			b.GuaranteeStatus = crop.ComputedFrom(u.benchmark.Status, h.national.BenchmarkPrice.Status)
		}
	}
	if u.known {
		b.CountyYield = YieldFigures(u.outlook)
	}
	return b
}

func dollars(x float64) *Dollars { d := Dollars(x); return &d }

func chance(x float64) *Chance { c := Chance(x); return &c }
