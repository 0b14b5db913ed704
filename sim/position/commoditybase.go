package position

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// CommodityBase is the base of one commodity on one farm in one crop year, with all
// that its payments are computed from but the price and the county yields of the year.
type CommodityBase struct {
	Farm      farm.Farm
	Commodity crop.Commodity
	National  National
	Bases     []Base
	Acres     crop.Acres // base acres of all Bases
	Unpaid    string     // why the base is paid nothing, whatever is elected; "" where it can be paid

	PLCMissing string // what PLC cannot be computed without; "": it can
	ARCMissing string // likewise for ARC-CO
}

// Base is one base of a commodity and the county whose yields it follows.
type Base struct {
	Record          farm.Base
	County          string
	CountyName      string
	Practices       []Practice
	Coverage        program.ARCCO // weighted by IrrigatedShare where the county has two yields
	IrrigatedShare  crop.Share
	ShareAssumed    bool          // the county has yields by practice, and the farm gives no irrigated share
	MissingPractice farm.Practice // irrigated or nonirrigated base whose yield the county does not have; "": none
	Shares          farm.Shares
	PaymentAcres    crop.Acres // for PLC and ARC-CO
}

// Practice is one practice of a county and its weight in the base.
type Practice struct {
	Unit      CountyUnit
	Weight    crop.Share
	Benchmark Benchmark
	Coverage  program.ARCCO
	Outlook   Yield
	Known     bool   // Outlook was found
	Missing   string // what ARC-CO lacks if Weight is above 0; "": nothing
}

// CommodityBases returns the commodity bases of a farm in the agency's order of
// commodities. A commodity or crop year without terms of law is an error.
func (s Sources) CommodityBases(f farm.Farm, y crop.CropYear) ([]*CommodityBase, error) {
	var all []*CommodityBase
	for _, commodity := range f.Commodities() {
		n, err := s.national(commodity, y)
		if err != nil {
			return nil, err
		}
		all = append(all, s.commodityBase(f, n, UnpaidReason(f, y)))
	}
	return all, nil
}

// CommodityBase returns one commodity base of a farm in crop year y on the terms
// given, which may be those of another crop year.
func (s Sources) CommodityBase(f farm.Farm, commodity crop.Commodity, y crop.CropYear, terms program.Terms) *CommodityBase {
	terms.Commodity = commodity
	return s.commodityBase(f, resolveNational(s.Market, terms, y), UnpaidReason(f, terms.CropYear))
}

// commodityBase returns the base of one commodity and crop year; unpaid says why it is paid
// nothing.
func (s Sources) commodityBase(f farm.Farm, n National, unpaid string) *CommodityBase {
	commodity, y := n.Terms.Commodity, n.Terms.CropYear
	c := &CommodityBase{Farm: f, Commodity: commodity, National: n, Unpaid: unpaid}
	if c.National.Target.Status == "" {
		c.PLCMissing = c.National.Missing
	}
	if c.National.BenchmarkPrice.Status == "" {
		c.ARCMissing = c.National.Missing
	}
	for _, base := range f.BasesOf(commodity) {
		c.addBase(s, base, y)
	}
	return c
}

// addBase appends one base and notes what its payments lack.
func (c *CommodityBase) addBase(s Sources, base farm.Base, y crop.CropYear) {
	b := Base{Record: base, County: c.Farm.County, Shares: sharesOf(c.Farm, base, y)}
	if c.National.Terms.ByLocation { // from 2019, 7 U.S.C. 9017(a)
		b.County = base.PhysicalCounty(c.Farm)
	}
	b.CountyName = s.Counties.Name(b.County)
	b.PaymentAcres = c.paymentAcres(base, c.National.Terms.PaymentAcreShare, "fruit_vegetable_share")
	c.Acres += base.BaseAcres
	if base.PaymentYield == nil && c.PLCMissing == "" {
		c.PLCMissing = "the PLC yield"
	}
	if missing := b.resolvePractices(s, c.National, c.Commodity, y); missing != "" && c.ARCMissing == "" {
		c.ARCMissing = missing
	}
	c.Bases = append(c.Bases, b)
}

// resolvePractices finds the county's practices with their benchmarks and outlooks,
// then weights them (weightPractices). It returns what ARC-CO lacks, "" for nothing.
func (b *Base) resolvePractices(s Sources, n National, commodity crop.Commodity, y crop.CropYear) (missing string) {
	practices := s.practicesOf(b.County, commodity, y)
	if len(practices) == 0 {
		return "a county yield of " + commodity.Name() + " for " + s.Counties.Called(b.County)
	}
	for _, practice := range practices {
		u := s.countyPractice(CountyUnit{b.County, commodity, practice, y}, n.Terms.YieldDecimals)
		u.Coverage = n.Terms.ARCCO(u.Benchmark.Value, n.BenchmarkPrice.Value)
		b.Practices = append(b.Practices, u)
	}
	switch {
	case practices[0] == farm.AllPractices:
	case b.Record.IrrigatedShare != nil:
		b.IrrigatedShare = *b.Record.IrrigatedShare
	default:
		b.IrrigatedShare = assumedShare(practices)
		b.ShareAssumed = slices.ContainsFunc(b.Practices, func(u Practice) bool { return u.Benchmark.Status != "" }) // else there is nothing to weight
	}
	return b.weightPractices()
}

// weightPractices sets the weight of each practice in the base, and the coverage of
// the base. It returns what ARC-CO lacks: base of a practice for which the county has
// no yield is missing a figure; its yield is not 0.
func (b *Base) weightPractices() (missing string) {
	weights := map[farm.Practice]crop.Share{farm.Irrigated: b.IrrigatedShare, farm.Nonirrigated: 1 - b.IrrigatedShare}
	if b.Practices[0].Unit.Practice == farm.AllPractices {
		weights = map[farm.Practice]crop.Share{farm.AllPractices: 1}
	}
	for i := range b.Practices {
		u := &b.Practices[i]
		u.Weight = weights[u.Unit.Practice]
		delete(weights, u.Unit.Practice)
		if u.Weight > 0 && missing == "" {
			missing = u.Missing
		}
	}
	for practice, weight := range weights { // at most one: of the pair
		if weight > 0 {
			b.MissingPractice, missing = practice, "the "+string(practice)+" yield of county "+b.County
		}
	}
	b.Coverage = b.Practices[0].Coverage
	if len(b.Practices) == 2 {
		b.Coverage = program.Weighted(b.IrrigatedShare, b.Practice(farm.Irrigated).Coverage, b.Practice(farm.Nonirrigated).Coverage)
	}
	return missing
}

// Practice returns one of the practices; it panics where the base does not have it.
func (b *Base) Practice(which farm.Practice) *Practice {
	i := slices.IndexFunc(b.Practices, func(u Practice) bool { return u.Unit.Practice == which })
	return &b.Practices[i]
}

// ActualRevenue returns the actual crop revenue of a base in USD per acre at a
// national price (USD per unit) and the county yields of its practices (units per
// acre, in the order of Practices).
func (c *CommodityBase) ActualRevenue(b Base, mya crop.Price, yields []crop.Yield) crop.Revenue {
	price := program.ActualPrice(mya, c.National.Terms.LoanRate)
	if len(b.Practices) == 1 {
		return program.ActualRevenue(yields[0], price)
	}
	var revenue [2]crop.Revenue
	for i, u := range b.Practices {
		at := 0
		if u.Unit.Practice == farm.Nonirrigated {
			at = 1
		}
		revenue[at] = program.ActualRevenue(yields[i], price)
	}
	return program.WeightedRevenue(b.IrrigatedShare, revenue[0], revenue[1])
}

// PLC returns the terms of PLC for the commodity: its rate at a price.
func (c *CommodityBase) PLC() program.PLC { return c.National.Terms.PLC(c.National.Target.Value) }

// PLCPerAcre returns the PLC payment in USD per base acre at a payment rate in USD per
// unit, not rounded. Every base must have a payment yield.
func (c *CommodityBase) PLCPerAcre(rate crop.Price) float64 {
	total := 0.0
	for _, b := range c.Bases {
		total += rate * *b.Record.PaymentYield * b.PaymentAcres
	}
	return total / c.Acres
}

// PaymentYield returns the bases' payment yields weighted by base acres, units per
// acre. Every base must have one.
func (c *CommodityBase) PaymentYield() crop.Yield {
	if len(c.Bases) == 1 {
		return *c.Bases[0].Record.PaymentYield
	}
	total := 0.0
	for _, b := range c.Bases {
		total += *b.Record.PaymentYield * b.Record.BaseAcres
	}
	return total / c.Acres
}

// assumedShare returns the irrigated share of a base that gives none: 1 where the
// county has an irrigated yield alone, else 0.
func assumedShare(practices []farm.Practice) crop.Share {
	if slices.Equal(practices, []farm.Practice{farm.Irrigated}) {
		return 1
	}
	return 0
}

// SameRate reports whether two bases (places in Bases) are paid by one ARC-CO rate: that of
// the same county and irrigated share.
func (c *CommodityBase) SameRate(i, j int) bool {
	return c.Bases[i].County == c.Bases[j].County && c.Bases[i].IrrigatedShare == c.Bases[j].IrrigatedShare
}

// ShareOpen reports whether the irrigated share is assumed and another one would
// change the payment: the county has both yields.
func (b Base) ShareOpen() bool { return b.ShareAssumed && len(b.Practices) == 2 }

// ShareAssumed reports whether the irrigated share of any base is assumed.
func (c *CommodityBase) ShareAssumed() bool {
	return slices.ContainsFunc(c.Bases, func(b Base) bool { return b.ShareAssumed })
}

// AllIrrigated returns a copy with an irrigated share of 1 on every base whose share
// is open.
func (c *CommodityBase) AllIrrigated() *CommodityBase {
	end := *c
	end.Bases = slices.Clone(c.Bases)
	for i := range end.Bases {
		b := &end.Bases[i]
		if !b.ShareOpen() {
			continue
		}
		b.IrrigatedShare, b.Practices = 1, slices.Clone(b.Practices)
		if missing := b.weightPractices(); end.ARCMissing == "" {
			end.ARCMissing = missing
		}
	}
	return &end
}
