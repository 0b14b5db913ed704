package explain

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// Workings are the inputs of the law's arithmetic at the mean price and the mean county
// yields, for a reader who wants to do the sums again.
type Workings struct {
	CropYear    crop.CropYear
	Commodities []Working // farm by farm, in the order of Comparison
}

// Working is one commodity on one farm. Prices are USD per unit, yields units per acre.
type Working struct {
	Farm       string // key, "99001-0417"
	Commodity  crop.Commodity
	Terms      program.Terms // the law's figures, each with its row
	History    [5]PastPrice  // of Terms.BenchmarkYears, oldest first
	Price      *farm.Figure  // mean national price of the crop year; nil: none is projected
	Target     *farm.Figure  // what PLC pays up to; nil: a past price is missing
	Benchmark  *farm.Figure  // benchmark price; nil likewise
	Unpaid     string        // why the base is paid nothing, whatever is elected; "" where it can be paid
	PLCMissing string        // why PLC cannot be computed; "" when it can
	ARCMissing string        // likewise
	Bases      []WorkingBase // one by one
}

// PastPrice is a marketing-year average price, USD per unit, that the law looks back at.
type PastPrice struct {
	CropYear crop.CropYear
	farm.Figure
}

// WorkingBase is one base in its county.
type WorkingBase struct {
	County, CountyName, Tract string
	BaseAcres                 crop.Acres
	CRPReduction              crop.Acres  // base given up while land is in CRP, not in BaseAcres
	PaymentYield              *crop.Yield // nil: not known
	CutAcres                  crop.Acres  // by which fruit and vegetables cut the payment acres
	PaymentAcres              crop.Acres
	IrrigatedShare            crop.Share // where the county has two yields
	ShareKnown                bool       // false: the irrigated share is assumed
	Practices                 []WorkingPractice
	Shares                    farm.Shares
}

// WorkingPractice is one county yield that ARC-CO of a base depends on; a county has
// one, or irrigated and nonirrigated.
type WorkingPractice struct {
	Practice       farm.Practice
	Adjusted       *[5]crop.Yield // the five yields behind the benchmark; nil where only the benchmark is known
	BenchmarkYield farm.Figure
	CountyYield    farm.Figure // mean of the crop year, rounded as FSA prints it
}

// WorkingsOf returns the workings of a crop year. An error means that the law has no
// terms for it.
func WorkingsOf(c answer.Question, y crop.CropYear) (Workings, error) {
	w := Workings{CropYear: y}
	for _, f := range c.Operation.Farms {
		bases, err := c.Sources().CommodityBases(f, y)
		if err != nil {
			return w, fmt.Errorf("crop year %d: %w", y, err)
		}
		for _, base := range bases {
			w.Commodities = append(w.Commodities, workingOf(c, base, y))
		}
	}
	return w, nil
}

func workingOf(c answer.Question, base *position.CommodityBase, y crop.CropYear) Working {
	n := base.National
	w := Working{Farm: base.Farm.Key(), Commodity: base.Commodity, Terms: n.Terms, Unpaid: base.Unpaid, PLCMissing: base.PLCMissing, ARCMissing: base.ARCMissing}
	for i, year := range n.Terms.BenchmarkYears() {
		w.History[i] = PastPrice{year, n.History[i]}
	}
	if n.Target.Status != "" {
		w.Target = &n.Target
	}
	if n.BenchmarkPrice.Status != "" {
		w.Benchmark = &n.BenchmarkPrice
	}
	if price, ok := c.Sources().Price(base.Commodity, y, n.Terms.PriceDecimals); ok {
		mean := price.Figure
		mean.Value = program.Round(price.Mean(), n.Terms.PriceDecimals)
		w.Price = &mean
	}
	for _, b := range base.Bases {
		w.Bases = append(w.Bases, workingBase(base, b))
	}
	return w
}

func workingBase(base *position.CommodityBase, b position.Base) WorkingBase {
	view := WorkingBase{
		County: b.County, CountyName: b.CountyName, Tract: b.Record.Tract, BaseAcres: b.Record.BaseAcres, CRPReduction: b.Record.CRPReduction, PaymentYield: b.Record.PaymentYield,
		PaymentAcres: b.PaymentAcres, IrrigatedShare: b.IrrigatedShare, ShareKnown: b.Record.IrrigatedShare != nil, Shares: b.Shares,
	}
	if base.Unpaid == "" {
		view.CutAcres = program.PaymentAcres(b.Record.BaseAcres, base.National.Terms.PaymentAcreShare) - b.PaymentAcres
	}
	for _, u := range b.Practices {
		view.Practices = append(view.Practices, workingPractice(u, base.National.Terms))
	}
	return view
}

func workingPractice(u position.Practice, terms program.Terms) WorkingPractice {
	practice := WorkingPractice{Practice: u.Unit.Practice, Adjusted: u.Benchmark.Five, BenchmarkYield: u.Benchmark.Figure}
	if u.Known {
		practice.CountyYield = farm.Figure{Value: program.Round(u.Outlook.Mean, terms.YieldDecimals), Status: u.Outlook.Status, Source: u.Outlook.MeanFrom}
	}
	return practice
}
