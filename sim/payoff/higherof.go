package payoff

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// higherOf is the higher of PLC and ARC-CO, commodity by commodity in each scenario;
// the bases of a commodity go together.
type higherOf struct{}

// ID is the key of the higher of both.
func (higherOf) ID() farm.Program { return farm.HigherOf }

// Payoff is the higher of what both pay, nil where one of them has no figures.
func (higherOf) Payoff(y *Year, _ farm.Operation, _ *position.CommodityBase, _ position.Price, before Payoffs) *Payoff {
	if !before.Complete() {
		return nil
	}
	plc, arc := before.Of(farm.PLC), before.Of(farm.ARCCO)
	out := &Payoff{Program: farm.HigherOf, perAcre: y.Acquire(), parts: plc.parts}
	out.maximum = max(plc.Summary(y).Maximum, arc.Summary(y).Maximum)
	own, other := workedOut(y.Buffers, plc.ByPart), workedOut(y.Buffers, arc.ByPart)
	ownPerAcre, otherPerAcre := plc.PerAcre(y.Buffers), arc.PerAcre(y.Buffers)
	for i := range out.perAcre {
		var sums [2]crop.Money
		for k := range own {
			sums[0], sums[1] = sums[0]+own[k][i], sums[1]+other[k][i]
		}
		out.perAcre[i] = ownPerAcre[i]
		if program.HigherOf(sums[0], sums[1]) > sums[0] {
			out.perAcre[i] = otherPerAcre[i]
			for k := range own {
				own[k][i] = other[k][i]
			}
		}
	}
	y.Release(other...)
	for _, series := range own {
		out.ByPart = append(out.ByPart, &Claim{Rates: series, Most: slices.Max(series)})
	}
	out.owned = own
	return out
}

// workedOut returns the payments of each part in all scenarios.
func workedOut(b *scenario.Buffers, byPart []*Claim) [][]crop.Money {
	var all [][]crop.Money
	for _, p := range byPart {
		series := b.Zeros()
		p.Add(series, 1, 0)
		all = append(all, series)
	}
	return all
}
