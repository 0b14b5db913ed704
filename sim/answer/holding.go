package answer

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// holding is the base of one commodity on one farm in one crop year, ready for
// the law: give it a price and county yields and it pays.
type holding struct {
	farm      farm.Farm
	commodity crop.Commodity
	national  National
	parts     []part
	baseAcres crop.Acres
	unpaid    string // why the base is paid nothing, whatever is elected; "" where it can be paid

	plcMissing string // why PLC cannot be computed; "" when it can
	arcMissing string
}

// part is one base with its county.
type part struct {
	base           farm.Base
	county         string
	countyName     string
	practices      []practicePart
	coverage       program.ARCCO // weighted to the farm where the county has two yields
	irrigatedShare crop.Share
	shareAssumed   bool          // the county has yields by practice and the file gives no irrigated share
	lacking        farm.Practice // the practice of the pair that has base and no yield; "" for none
	shares         farm.Shares
	paymentAcres   crop.Acres // of PLC and ARC-CO
}

// practicePart is one practice of a county, with its weight in the base.
type practicePart struct {
	unit      countyUnit
	weight    crop.Share
	benchmark benchmark
	coverage  program.ARCCO
	outlook   yieldOutlook
	known     bool   // an outlook was found
	lacks     string // what ARC-CO lacks where base counts for this practice; "" for nothing
}

// holdings returns those of a farm in the agency's order of commodities.
func (s sources) holdings(f farm.Farm, y crop.CropYear) ([]*holding, error) {
	var all []*holding
	for _, commodity := range f.Commodities() {
		terms, err := program.TermsFor(commodity, y)
		if err != nil {
			return nil, err
		}
		all = append(all, s.holding(f, commodity, y, terms))
	}
	return all, nil
}

// holding returns one of a farm in crop year y on the terms given, which may be
// those of another crop year.
func (s sources) holding(f farm.Farm, commodity crop.Commodity, y crop.CropYear, terms program.Terms) *holding {
	h := &holding{farm: f, commodity: commodity, national: national(s.Market, terms, y), unpaid: unpaidReason(f, terms.CropYear)}
	if h.national.Target.Status == "" {
		h.plcMissing = h.national.Missing
	}
	if h.national.BenchmarkPrice.Status == "" {
		h.arcMissing = h.national.Missing
	}
	for _, base := range f.BasesOf(commodity) {
		h.add(s, base, y)
	}
	return h
}

// add appends one base and notes what it lacks.
func (h *holding) add(s sources, base farm.Base, y crop.CropYear) {
	p := part{base: base, county: h.farm.County, shares: sharesOf(h.farm, base, y)}
	if h.national.Terms.ByLocation { // from 2019, 7 U.S.C. 9017(a)
		p.county = base.PhysicalCounty(h.farm)
	}
	p.countyName = s.Counties.Name(p.county)
	p.paymentAcres = h.paysOn(base, h.national.Terms.PaymentAcreShare, "fruit_vegetable_share")
	h.baseAcres += base.BaseAcres
	if base.PaymentYield == nil && h.plcMissing == "" {
		h.plcMissing = "the payment yield"
	}
	if missing := p.cover(s, h.national, h.commodity, y); missing != "" && h.arcMissing == "" {
		h.arcMissing = missing
	}
	h.parts = append(h.parts, p)
}

// cover finds the county's practices, benchmarks and outlooks, and weights the
// coverage to the farm. It returns what is missing for ARC-CO.
func (p *part) cover(s sources, n National, commodity crop.Commodity, y crop.CropYear) (missing string) {
	practices := s.Counties.Practices(p.county, commodity, y)
	if len(practices) == 0 {
		return "a county yield of " + commodity.Name() + " for county " + p.county
	}
	for _, practice := range practices {
		u := practicePart{unit: countyUnit{p.county, commodity, practice, y}}
		var found bool
		u.benchmark, found = s.benchmarkYield(u.unit, n.Terms.YieldDecimals)
		u.coverage = n.Terms.ARCCO(u.benchmark.Value, n.BenchmarkPrice.Value)
		u.outlook, u.known, u.lacks = s.outlook(u.unit, u.benchmark)
		if !found {
			u.lacks = "a benchmark yield of " + commodity.Name() + " for county " + p.county
		}
		p.practices = append(p.practices, u)
	}
	switch {
	case practices[0] == farm.AllPractices:
	case p.base.IrrigatedShare != nil:
		p.irrigatedShare = *p.base.IrrigatedShare
	default:
		p.irrigatedShare = assumedShare(practices)
		p.shareAssumed = slices.ContainsFunc(p.practices, func(u practicePart) bool { return u.benchmark.Status != "" }) // else there is nothing to weight
	}
	return p.weigh()
}

// weigh gives each practice its weight in the base and the base its coverage. It
// returns what is missing for ARC-CO: base of a practice that the county has no
// yield of has none, not 0.
func (p *part) weigh() (missing string) {
	weights := map[farm.Practice]crop.Share{farm.Irrigated: p.irrigatedShare, farm.Nonirrigated: 1 - p.irrigatedShare}
	if p.practices[0].unit.practice == farm.AllPractices {
		weights = map[farm.Practice]crop.Share{farm.AllPractices: 1}
	}
	for i := range p.practices {
		u := &p.practices[i]
		u.weight = weights[u.unit.practice]
		delete(weights, u.unit.practice)
		if u.weight > 0 && missing == "" {
			missing = u.lacks
		}
	}
	for practice, weight := range weights { // at most one: of the pair
		if weight > 0 {
			p.lacking, missing = practice, "the "+string(practice)+" yield of county "+p.county
		}
	}
	p.coverage = p.practices[0].coverage
	if len(p.practices) == 2 {
		p.coverage = program.Weighted(p.irrigatedShare, p.practice(farm.Irrigated).coverage, p.practice(farm.Nonirrigated).coverage)
	}
	return missing
}

func (p *part) practice(which farm.Practice) *practicePart {
	i := slices.IndexFunc(p.practices, func(u practicePart) bool { return u.unit.practice == which })
	return &p.practices[i]
}

// sharesOf returns the producers' shares in a base in a crop year.
func sharesOf(f farm.Farm, base farm.Base, y crop.CropYear) farm.Shares {
	if base.Shares != nil {
		return base.Shares
	}
	shares, _ := f.Shares.In(y)
	return shares
}

// actualRevenue of a base at a national price and the county yields of its
// practices, in their order.
func (h *holding) actualRevenue(p part, mya crop.Price, yields []crop.Yield) crop.Revenue {
	price := program.ActualPrice(mya, h.national.Terms.LoanRate)
	if len(p.practices) == 1 {
		return program.ActualRevenue(yields[0], price)
	}
	var revenue [2]crop.Revenue
	for i, u := range p.practices {
		at := 0
		if u.unit.practice == farm.Nonirrigated {
			at = 1
		}
		revenue[at] = program.ActualRevenue(yields[i], price)
	}
	return program.WeightedRevenue(p.irrigatedShare, revenue[0], revenue[1])
}

// plc is the contract of the holding.
func (h *holding) plc() program.PLC { return h.national.Terms.PLC(h.national.Target.Value) }

// plcPerAcre returns the PLC payment in USD per base acre of the holding at a
// payment rate, not rounded.
func (h *holding) plcPerAcre(rate crop.Price) float64 {
	total := 0.0
	for _, p := range h.parts {
		total += rate * *p.base.PaymentYield * p.paymentAcres
	}
	return total / h.baseAcres
}

// paymentYield is the holding's payment yield, weighted by base acres.
func (h *holding) paymentYield() crop.Yield {
	if len(h.parts) == 1 {
		return *h.parts[0].base.PaymentYield
	}
	total := 0.0
	for _, p := range h.parts {
		total += *p.base.PaymentYield * p.base.BaseAcres
	}
	return total / h.baseAcres
}

// inOrder splits a series by crop year, oldest first.
func inOrder(series map[crop.CropYear]crop.Yield) (years []int, yields []float64) {
	for _, y := range slices.Sorted(maps.Keys(series)) {
		years, yields = append(years, y), append(yields, series[y])
	}
	return years, yields
}
