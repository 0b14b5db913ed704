package payoff

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// areaInstrument is a layer of area insurance: it pays on insured acres, which are planted
// and not base, counts against no payment limit and is no election. So it stands in a list
// of its own, and its payoffs are per insured acre. A new one is a file with its payoff, and
// a place in the list.
type areaInstrument interface {
	// ID is the layer's key in the answer.
	ID() farm.Program
	// Payoff returns what a layer pays on all insured acres of a crop, to a full share, before
	// its premium.
	Payoff(y *Year, k *position.Insured, l position.InsuredLayer) *Payoff
}

// areaInstruments are the layers in the order in which they are shown.
func areaInstruments() []areaInstrument { return []areaInstrument{sco{}, eco{}, stax{}} }

// OfInsured returns what the layers of an insured crop pay, nil for one that cannot be had;
// in the order of its layers.
func OfInsured(y *Year, k *position.Insured) []*Payoff {
	all := make([]*Payoff, len(k.Layers))
	for i, l := range k.Layers {
		for _, one := range areaInstruments() {
			if one.ID() == l.Program && l.Missing == "" && k.Missing == "" {
				all[i] = one.Payoff(y, k, l)
			}
		}
	}
	return all
}

// areaRate is what a layer pays per unit of crop that is insured, USD/unit: the price that
// insures it x the coverage range x the payment factor.
type areaRate struct {
	Of    *position.Insured
	Layer position.InsuredLayer
}

// areaKey is what an areaRate turns on beside program, commodity and county.
type areaKey struct {
	practice farm.Practice
	plan     farm.Plan
	band     program.Band
	pair     position.PricePair
	expected crop.Yield
	final    crop.Yield // 0: not known
	ratio    float64
}

// Key names the county, commodity, practice, band, prices and expected yield.
func (r *areaRate) Key() Key {
	k := areaKey{practice: r.Of.County.Unit.Practice, plan: r.Of.Plan, band: r.Layer.Band, pair: r.Of.Pair, expected: r.Of.ExpectedYield, ratio: r.Of.Ratio}
	if r.Of.FinalYield != nil {
		k.final = *r.Of.FinalYield
	}
	return Key{Program: r.Layer.Program, Commodity: r.Of.Commodity, County: r.Of.County.Unit.County, Area: k}
}

// Fill sets USD per unit by scenario of a tile.
func (r *areaRate) Fill(rates, most []float64, t *Tile) {
	k, harvest := r.Of, t.HarvestPrices(r.Of.Commodity, r.Of.Pair)
	var yields []crop.Yield
	if k.FinalYield == nil {
		yields = t.Yields(k.County, k.YieldDecimals)
	}
	for i := range rates {
		var final crop.Yield
		if k.FinalYield != nil {
			final = *k.FinalYield
		} else {
			final = program.Round(yields[i]*k.Ratio, k.YieldDecimals)
		}
		most[i] = program.InsuredPrice(k.Plan, k.Pair.Projected, harvest[i]) * r.Layer.Band.Range
		rates[i] = most[i] * r.Layer.Band.Factor(program.AreaRatio(k.Plan, k.ExpectedYield, final, k.Pair.Projected, harvest[i]))
	}
}

// ofArea is the payoff of a layer that insures a yield of so many units per acre, of the farm
// or of the area.
func ofArea(y *Year, k *position.Insured, l position.InsuredLayer, yield crop.Yield) *Payoff {
	rate := y.RatesOf(&areaRate{Of: k, Layer: l})
	perAcre := program.CropValue(1, yield, 1, 1) * program.Percentage(l.Layer)
	out := &Payoff{Program: l.Program, Apart: true}
	out.addRate(rate, perAcre, 0)
	out.ByPart = []*Claim{acreClaim(rate.Scenarios, perAcre*k.Acres, rate.maximum, program.AreaIndemnity)}
	return out
}
