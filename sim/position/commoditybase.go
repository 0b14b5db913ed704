package position

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// CommodityBase is the base of one commodity on one farm in one crop year, ready for
// the law: give it a price and county yields and it pays.
type CommodityBase struct {
	Farm      farm.Farm
	Commodity crop.Commodity
	National  National
	Bases     []Base
	Acres     crop.Acres
	Unpaid    string // why the base is paid nothing, whatever is elected; "" where it can be paid

	PLCMissing string // why PLC cannot be computed; "" when it can
	ARCMissing string
}

// Base is one base with its county.
type Base struct {
	Record          farm.Base
	County          string
	CountyName      string
	Practices       []Practice
	Coverage        program.ARCCO // weighted to the farm where the county has two yields
	IrrigatedShare  crop.Share
	ShareAssumed    bool          // the county has yields by practice and the file gives no irrigated share
	MissingPractice farm.Practice // the practice of the pair that has base and no yield; "" for none
	Shares          farm.Shares
	PaymentAcres    crop.Acres // of PLC and ARC-CO
}

// Practice is one practice of a county, with its weight in the base.
type Practice struct {
	Unit      CountyUnit
	Weight    crop.Share
	Benchmark Benchmark
	Coverage  program.ARCCO
	Outlook   Yield
	Known     bool   // an outlook was found
	Missing   string // what ARC-CO lacks where base counts for this practice; "" for nothing
}

// Holdings returns those of a farm in the agency's order of commodities.
func (s Sources) CommodityBases(f farm.Farm, y crop.CropYear) ([]*CommodityBase, error) {
	var all []*CommodityBase
	for _, commodity := range f.Commodities() {
		terms, err := program.TermsFor(commodity, y)
		if err != nil {
			return nil, err
		}
		all = append(all, s.CommodityBase(f, commodity, y, terms))
	}
	return all, nil
}

// CommodityBase returns one of a farm in crop year y on the terms given, which may be
// those of another crop year.
func (s Sources) CommodityBase(f farm.Farm, commodity crop.Commodity, y crop.CropYear, terms program.Terms) *CommodityBase {
	h := &CommodityBase{Farm: f, Commodity: commodity, National: resolveNational(s.Market, terms, y), Unpaid: UnpaidReason(f, terms.CropYear)}
	if h.National.Target.Status == "" {
		h.PLCMissing = h.National.Missing
	}
	if h.National.BenchmarkPrice.Status == "" {
		h.ARCMissing = h.National.Missing
	}
	for _, base := range f.BasesOf(commodity) {
		h.addBase(s, base, y)
	}
	return h
}

// Add appends one base and notes what it lacks.
func (h *CommodityBase) addBase(s Sources, base farm.Base, y crop.CropYear) {
	p := Base{Record: base, County: h.Farm.County, Shares: sharesOf(h.Farm, base, y)}
	if h.National.Terms.ByLocation { // from 2019, 7 U.S.C. 9017(a)
		p.County = base.PhysicalCounty(h.Farm)
	}
	p.CountyName = s.Counties.Name(p.County)
	p.PaymentAcres = h.paymentAcres(base, h.National.Terms.PaymentAcreShare, "fruit_vegetable_share")
	h.Acres += base.BaseAcres
	if base.PaymentYield == nil && h.PLCMissing == "" {
		h.PLCMissing = "the payment yield"
	}
	if missing := p.resolvePractices(s, h.National, h.Commodity, y); missing != "" && h.ARCMissing == "" {
		h.ARCMissing = missing
	}
	h.Bases = append(h.Bases, p)
}

// resolvePractices finds the county's practices, benchmarks and outlooks, and weights the
// coverage to the farm. It returns what is missing for ARC-CO.
func (p *Base) resolvePractices(s Sources, n National, commodity crop.Commodity, y crop.CropYear) (missing string) {
	practices := s.Counties.Practices(p.County, commodity, y)
	if len(practices) == 0 {
		return "a county yield of " + commodity.Name() + " for county " + p.County
	}
	for _, practice := range practices {
		u := Practice{Unit: CountyUnit{p.County, commodity, practice, y}}
		var found bool
		u.Benchmark, found = s.BenchmarkYield(u.Unit, n.Terms.YieldDecimals)
		u.Coverage = n.Terms.ARCCO(u.Benchmark.Value, n.BenchmarkPrice.Value)
		u.Outlook, u.Known, u.Missing = s.Yield(u.Unit, u.Benchmark)
		if !found {
			u.Missing = "a benchmark yield of " + commodity.Name() + " for county " + p.County
		}
		p.Practices = append(p.Practices, u)
	}
	switch {
	case practices[0] == farm.AllPractices:
	case p.Record.IrrigatedShare != nil:
		p.IrrigatedShare = *p.Record.IrrigatedShare
	default:
		p.IrrigatedShare = assumedShare(practices)
		p.ShareAssumed = slices.ContainsFunc(p.Practices, func(u Practice) bool { return u.Benchmark.Status != "" }) // else there is nothing to weight
	}
	return p.weightPractices()
}

// weightPractices gives each practice its weight in the base and the base its coverage. It
// returns what is missing for ARC-CO: base of a practice that the county has no
// yield of has none, not 0.
func (p *Base) weightPractices() (missing string) {
	weights := map[farm.Practice]crop.Share{farm.Irrigated: p.IrrigatedShare, farm.Nonirrigated: 1 - p.IrrigatedShare}
	if p.Practices[0].Unit.Practice == farm.AllPractices {
		weights = map[farm.Practice]crop.Share{farm.AllPractices: 1}
	}
	for i := range p.Practices {
		u := &p.Practices[i]
		u.Weight = weights[u.Unit.Practice]
		delete(weights, u.Unit.Practice)
		if u.Weight > 0 && missing == "" {
			missing = u.Missing
		}
	}
	for practice, weight := range weights { // at most one: of the pair
		if weight > 0 {
			p.MissingPractice, missing = practice, "the "+string(practice)+" yield of county "+p.County
		}
	}
	p.Coverage = p.Practices[0].Coverage
	if len(p.Practices) == 2 {
		p.Coverage = program.Weighted(p.IrrigatedShare, p.Practice(farm.Irrigated).Coverage, p.Practice(farm.Nonirrigated).Coverage)
	}
	return missing
}

// Practice returns one of the practices, which must be there.
func (p *Base) Practice(which farm.Practice) *Practice {
	i := slices.IndexFunc(p.Practices, func(u Practice) bool { return u.Unit.Practice == which })
	return &p.Practices[i]
}

// ActualRevenue of a base at a national price and the county yields of its
// practices, in their order.
func (h *CommodityBase) ActualRevenue(p Base, mya crop.Price, yields []crop.Yield) crop.Revenue {
	price := program.ActualPrice(mya, h.National.Terms.LoanRate)
	if len(p.Practices) == 1 {
		return program.ActualRevenue(yields[0], price)
	}
	var revenue [2]crop.Revenue
	for i, u := range p.Practices {
		at := 0
		if u.Unit.Practice == farm.Nonirrigated {
			at = 1
		}
		revenue[at] = program.ActualRevenue(yields[i], price)
	}
	return program.WeightedRevenue(p.IrrigatedShare, revenue[0], revenue[1])
}

// PLC is the contract of the holding.
func (h *CommodityBase) PLC() program.PLC { return h.National.Terms.PLC(h.National.Target.Value) }

// PLCPerAcre returns the PLC payment in USD per base acre of the holding at a
// payment rate, not rounded.
func (h *CommodityBase) PLCPerAcre(rate crop.Price) float64 {
	total := 0.0
	for _, p := range h.Bases {
		total += rate * *p.Record.PaymentYield * p.PaymentAcres
	}
	return total / h.Acres
}

// PaymentYield is the holding's payment yield, weighted by base acres.
func (h *CommodityBase) PaymentYield() crop.Yield {
	if len(h.Bases) == 1 {
		return *h.Bases[0].Record.PaymentYield
	}
	total := 0.0
	for _, p := range h.Bases {
		total += *p.Record.PaymentYield * p.Record.BaseAcres
	}
	return total / h.Acres
}

// assumedShare is the irrigated share of a base that gives none: that of the
// county's only practice, else 0.
func assumedShare(practices []farm.Practice) crop.Share {
	if slices.Equal(practices, []farm.Practice{farm.Irrigated}) {
		return 1
	}
	return 0
}

// ShareOpen reports whether the share of a base could as well be another one.
func (p Base) ShareOpen() bool { return p.ShareAssumed && len(p.Practices) == 2 }

// ShareAssumed reports whether a base of the holding gives no irrigated share.
func (h *CommodityBase) ShareAssumed() bool {
	return slices.ContainsFunc(h.Bases, func(p Base) bool { return p.ShareAssumed })
}

// AllIrrigated is the holding at an irrigated share of 1 wherever the share is
// open.
func (h *CommodityBase) AllIrrigated() *CommodityBase {
	end := *h
	end.Bases = slices.Clone(h.Bases)
	for i := range end.Bases {
		p := &end.Bases[i]
		if !p.ShareOpen() {
			continue
		}
		p.IrrigatedShare, p.Practices = 1, slices.Clone(p.Practices)
		if missing := p.weightPractices(); end.ARCMissing == "" {
			end.ARCMissing = missing
		}
	}
	return &end
}
