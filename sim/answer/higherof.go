package answer

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// paysHigherOf reports whether the law of a crop year pays the higher of PLC and
// ARC-CO for each commodity, whatever was elected.
func paysHigherOf(y crop.CropYear) bool {
	rule, err := law.Find("election_rule", "", y)
	return err == nil && rule.Text == "higher_of_plc_and_arc_co"
}

// higherOf is the higher of PLC and ARC-CO, commodity by commodity in each scenario;
// the bases of a commodity go together.
type higherOf struct{}

// ID is the key of the higher of both.
func (higherOf) ID() farm.Program { return farm.HigherOf }

// Payoff is the higher of what both pay, nil where one of them has no figures.
func (higherOf) Payoff(y *yearRates, _ farm.Operation, _ *holding, _ priceOutlook, before payoffs) *payoff {
	if !before.complete() {
		return nil
	}
	plc, arc := before.of(farm.PLC), before.of(farm.ARCCO)
	out := &payoff{program: farm.HigherOf, perAcre: y.take()}
	out.maximum = max(plc.shape(y).maximum, arc.shape(y).maximum)
	own, other := workedOut(y.buffers, plc.byBase), workedOut(y.buffers, arc.byBase)
	for i := range out.perAcre {
		var sums [2]crop.Money
		for k := range own {
			sums[0], sums[1] = sums[0]+own[k][i], sums[1]+other[k][i]
		}
		out.perAcre[i] = plc.perAcre[i]
		if program.HigherOf(sums[0], sums[1]) > sums[0] {
			out.perAcre[i] = arc.perAcre[i]
			for k := range own {
				own[k][i] = other[k][i]
			}
		}
	}
	y.give(other...)
	for _, series := range own {
		out.byBase = append(out.byBase, &payment{rates: series, most: slices.Max(series)})
	}
	out.owned = own
	return out
}

// workedOut returns the payments of each base in all scenarios.
func workedOut(b *buffers, byBase []*payment) [][]crop.Money {
	var all [][]crop.Money
	for _, p := range byBase {
		series := b.zeros()
		p.add(series, 1, 0)
		all = append(all, series)
	}
	return all
}
