package payoff

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/scenario"
)

// Payoff is what one program pays on the bases of one commodity of a farm, by
// scenario.
type Payoff struct {
	Program     farm.Program
	ByBase      []*Claim            // USD before share, to the cent
	byBaseOf    map[string][]*Claim // by producer, where each is paid by a rate of its own
	BeforeShare []crop.Money        // USD of all bases before share, where byBaseOf does not tell; nil: the sum of byBase

	PerAcre []float64           // USD per base acre, not rounded; nil when released
	Mean    float64             // of perAcre
	sum     WeightedSum         // what perAcre is made of
	Rates   []*Rates            // of sum, in its order
	maximum crop.Money          // the most there can be per base acre, where several rates or none make it
	most    func() []crop.Money // the same by scenario, a series to give back; nil: maximum in all
	owned   [][]crop.Money      // series that only this payoff uses

	// Apart is what counts against no payment limit and is no election, as insurance.
	Apart bool
}

// Payoffs are those of one commodity base, in the order of instruments.
type Payoffs []*Payoff

// For returns the payoff of a program, nil where it has none.
func (all Payoffs) Of(program farm.Program) *Payoff {
	for _, p := range all {
		if p.Program == program {
			return p
		}
	}
	return nil
}

// Complete reports whether both PLC and ARC-CO have figures.
func (all Payoffs) Complete() bool { return all.Of(farm.PLC) != nil && all.Of(farm.ARCCO) != nil }

// Release gives back what only the commodity's own figures need.
func (all Payoffs) Release(b *scenario.Buffers) {
	for _, p := range all {
		b.Release(p.PerAcre)
		p.PerAcre = nil
	}
}

// ReleaseOwned gives back the rest, when nothing more is asked.
func (all Payoffs) ReleaseOwned(b *scenario.Buffers) {
	for _, p := range all {
		b.Release(p.owned...)
		p.owned = nil
	}
}

// Summary summarizes what is paid per base acre. A payoff of one rate has the summary of
// that rate, which other farms share.
func (p *Payoff) Summary(y *Year) scenario.Summary {
	if len(p.sum) == 1 {
		return y.shapeOfRates(p.Rates[0]).Times(p.sum[0].weight)
	}
	if p.most == nil {
		return y.SummaryOf(p.PerAcre, p.maximum, nil)
	}
	most := p.most()
	defer y.Release(most)
	return y.SummaryOf(p.PerAcre, p.maximum, most)
}

// For returns what each base pays a producer, before share.
func (p *Payoff) For(producer string) []*Claim {
	if own, has := p.byBaseOf[producer]; has {
		return own
	}
	return p.ByBase
}

// Total is the sum of the payments of all bases, before share.
func (p *Payoff) Total() Claims {
	if p.BeforeShare != nil {
		return ClaimsOf(p.BeforeShare)
	}
	return allOf(p.ByBase)
}

// WeightedSum is a sum of series, each with a weight.
type WeightedSum []weighted

type weighted struct {
	series []float64
	weight float64
}

// Fill adds the sum to dst.
func (s WeightedSum) Fill(dst []float64) {
	for _, w := range s {
		scenario.AddScaled(dst, w.weight, w.series)
	}
}

// Times returns the sum with every weight multiplied.
func (s WeightedSum) Times(by float64) WeightedSum {
	var scaled WeightedSum
	for _, w := range s {
		scaled = append(scaled, weighted{w.series, by * w.weight})
	}
	return scaled
}

// SumOf is what a program pays per base acre, nil where it has no figures.
func (all Payoffs) SumOf(program farm.Program) WeightedSum {
	if p := all.Of(program); p != nil {
		return p.sum
	}
	return nil
}

// Without leaves out a program.
func Without(all Payoffs, program farm.Program) (rest Payoffs) {
	for _, p := range all {
		if p.Program != program {
			rest = append(rest, p)
		}
	}
	return rest
}
