package position

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// Insured is area insurance on one crop of a farm, with all that its layers are computed from
// but the harvest price and the area yield where these are not known.
type Insured struct {
	farm.Insurance
	Farm    farm.Farm
	County  Practice // the county yield that the final area yield follows
	Pair    PricePair
	Ratio   float64 // of the final area yield to FSA's county yield; 1: the same
	Layers  []InsuredLayer
	Missing string // what no layer can be computed without; "": nothing

	YieldDecimals int // of the area yield, as FSA prints the county yield
}

// InsuredLayer is one layer as bought.
type InsuredLayer struct {
	farm.Layer
	Terms   program.AreaTerms
	Band    program.Band
	Missing string      // why it cannot be had, "": it can
	Premium *crop.Money // USD per insured acre after subsidy; nil: not typed
}

// PricePair is the projected and the harvest price of crop insurance, USD per unit. The
// projected price is taken as typed, also before it is published: what a layer pays turns on
// the harvest price over it.
type PricePair struct {
	Projected  crop.Price
	Harvest    crop.Price // 0: not known
	Volatility float64    // standard deviation of the logarithm of the harvest price; 0 where that is known
	Decimals   int
}

// Usual returns the harvest price where it is known, else the projected price, about which
// it varies.
func (p PricePair) Usual() crop.Price {
	if p.Harvest != 0 {
		return p.Harvest
	}
	return p.Projected
}

// Insured returns the area insurance of a farm in a crop year, in file order. A crop year
// without terms of law is an error.
func (s Sources) Insured(f farm.Farm, y crop.CropYear) (all []*Insured, err error) {
	for _, i := range f.InsuredIn(y) {
		n, err := NationalOf(s.Market, i.Commodity, y)
		if err != nil {
			return nil, err
		}
		k := &Insured{Insurance: i, Farm: f, Ratio: 1, YieldDecimals: n.Terms.YieldDecimals, Pair: PricePair{Projected: i.Projected, Decimals: n.Terms.PriceDecimals}}
		if i.YieldRatio != 0 {
			k.Ratio = i.YieldRatio
		}
		k.Missing = k.resolveYield(s)
		if missing := k.resolvePrice(s); k.Missing == "" {
			k.Missing = missing
		}
		for _, l := range i.Layers {
			k.Layers = append(k.Layers, k.layer(l))
		}
		all = append(all, k)
	}
	return all, nil
}

// InsuredCounty returns the county whose area yield insures a crop of a farm.
func InsuredCounty(f farm.Farm, c crop.Commodity) string { return countyOf(f, c) }

// resolveYield finds the county yield that the area yield follows and returns what is
// missing, "" for nothing.
func (k *Insured) resolveYield(s Sources) (missing string) {
	unit := CountyUnit{InsuredCounty(k.Farm, k.Commodity), k.Commodity, k.Practice, k.CropYear}
	switch has := s.Counties.Practices(unit.County, unit.Commodity, unit.CropYear); {
	case slices.Contains(has, unit.Practice):
	case len(has) > 1 && k.FinalYield == nil:
		return "the practice, for the county has several yields of " + k.Commodity.Name() + " (practice: irrigated or nonirrigated)"
	case len(has) > 0:
		unit.Practice = has[0]
	default:
		unit.Practice = farm.AllPractices
	}
	k.County = Practice{Unit: unit, Weight: 1}
	if k.FinalYield != nil {
		return ""
	}
	k.County.Benchmark, _ = s.BenchmarkYield(unit, k.YieldDecimals)
	k.County.Outlook, k.County.Known, missing = s.Yield(unit, k.County.Benchmark)
	switch {
	case missing != "":
		return missing
	case !k.County.Known:
		return "a county yield of " + k.Commodity.Name() + " for " + s.Counties.Called(unit.County)
	case k.Commodity == crop.SeedCotton && k.YieldRatio == 0:
		return "the ratio of the area yield, in pounds of lint, to FSA's county yield, in pounds of seed cotton (area_yield_ratio)"
	}
	return ""
}

// resolvePrice finds how the harvest price varies and returns what is missing, "" for
// nothing. A yield plan needs none.
func (k *Insured) resolvePrice(s Sources) (missing string) {
	market := s.Market.Outlook[k.Commodity][k.CropYear].InsuranceVolatility
	switch {
	case k.Plan == farm.YieldProtection:
		k.Pair.Harvest = k.Projected // no price enters
	case k.Harvest != nil:
		k.Pair.Harvest = *k.Harvest
	case s.PastYears:
		return "the harvest price (harvest_price), which a replay of past years does not have"
	case k.Volatility != nil:
		k.Pair.Volatility = *k.Volatility
	case market != nil:
		k.Pair.Volatility = *market
	default:
		return "the harvest price or, until it is published, RMA's volatility factor (harvest_price, volatility)"
	}
	return ""
}

// layer resolves one layer against the law of the crop year.
func (k *Insured) layer(l farm.Layer) InsuredLayer {
	out := InsuredLayer{Layer: l}
	var err error
	if out.Terms, err = program.AreaTermsFor(l.Program, k.Plan, k.Commodity, k.CropYear); err != nil {
		out.Missing = fmt.Sprintf("there is no %s of %s for crop year %d", l.Program, k.Commodity.Name(), k.CropYear)
		return out
	}
	out.Band, out.Missing = out.Terms.Band(l, k.Level)
	switch {
	case l.Premium != nil:
		out.Premium = l.Premium
	case l.Total != nil:
		premium := program.ProducerPremium(*l.Total, out.Terms.Subsidy)
		out.Premium = &premium
	}
	return out
}

// SalesClosing is the last day to buy the layers of a crop.
type SalesClosing struct {
	Day    string // YYYY-MM-DD; "": not known
	Status crop.Status
	Source string
	Note   string // what the day holds for, where not for all; "": for all
}

// Closes returns the last day to buy: as typed, else the row of the crop and State.
func (k *Insured) Closes() SalesClosing {
	if k.Insurance.Closes != "" {
		return SalesClosing{Day: k.Insurance.Closes, Status: crop.Assumed, Source: "typed"}
	}
	day := func(row law.Figure, year int, note string) SalesClosing {
		return SalesClosing{fmt.Sprintf("%d-%s", year, row.Text), row.Status, row.Citation(), note}
	}
	if row, err := law.Find("area_sales_closing_winter", k.Commodity, k.CropYear); err == nil {
		return day(row, k.CropYear-1, "winter "+k.Commodity.Name())
	}
	states, err := law.Find("area_sales_closing_corn_belt_states", "", k.CropYear)
	if err == nil && slices.Contains(strings.Fields(states.Text), StateOf(k.County.Unit.County)) {
		if row, err := law.Find("area_sales_closing_corn_belt", k.Commodity, k.CropYear); err == nil {
			return day(row, k.CropYear, "")
		}
	}
	return SalesClosing{}
}

// Standing of the sales of insurance on a day.
const (
	InsuranceGiven   = "given"   // sales are closed: it is bought or not
	InsuranceOpen    = "open"    // it can still be bought
	InsuranceUnknown = "unknown" // the last day is not known here
)

// Standing returns how the sales stand on a day. Where the last day is not known, they are
// closed once no field crop is sold insurance any more.
func (k *Insured) Standing(today time.Time) string {
	day, closes := today.Format(time.DateOnly), k.Closes()
	if row, err := law.Find("area_sales_closed_by", k.Commodity, k.CropYear); err == nil && day >= fmt.Sprintf("%d-%s", k.CropYear, row.Text) {
		return InsuranceGiven
	}
	switch {
	case closes.Day == "":
		return InsuranceUnknown
	case closes.Day < day:
		return InsuranceGiven
	}
	return InsuranceOpen
}

// HarvestPriceOut reports whether the harvest price can be published on a day and is not
// typed: the harvest is over.
func (k *Insured) HarvestPriceOut(today time.Time) bool {
	return k.Plan != farm.YieldProtection && k.Harvest == nil && !today.Before(odds.HarvestEnd(k.Commodity, k.CropYear).Day)
}
