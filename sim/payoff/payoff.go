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
	ByBase      []*Claim            // of each base; of who is not in the file, where producers have claims of their own
	byBaseOf    map[string][]*Claim // by producer, where each is paid by a rate of the own
	BeforeShare []crop.Money        // USD of all bases and all shares, where producers have claims of their own; nil: the sum of ByBase

	PerAcre []float64           // USD per base acre, not rounded; nil when released
	Mean    float64             // of PerAcre
	sum     WeightedSum         // what PerAcre is made of, where it is made of rates
	Rates   []*Rates            // of sum, in its order
	maximum crop.Money          // the most there can be per base acre, where not one rate tells
	most    func() []crop.Money // the same by scenario, a series to release; nil: maximum in all
	owned   [][]crop.Money      // series that only this payoff uses

	// Apart says that it counts against no payment limit and is not elected, as insurance.
	Apart bool
}

// Payoffs are those of one commodity base, in the order of instruments.
type Payoffs []*Payoff

// Of returns the payoff of a program, nil where it has none.
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

// Release gives the series back that only the commodity's own figures need.
func (all Payoffs) Release(b *scenario.Buffers) {
	for _, p := range all {
		b.Release(p.PerAcre)
		p.PerAcre = nil
	}
}

// ReleaseOwned gives the others back, when nothing more is asked.
func (all Payoffs) ReleaseOwned(b *scenario.Buffers) {
	for _, p := range all {
		b.Release(p.owned...)
		p.owned = nil
	}
}

// Summary summarizes what is paid per base acre, USD. A payoff of one rate has the summary
// of that rate, which other farms share.
func (p *Payoff) Summary(y *Year) scenario.Summary {
	if len(p.sum) == 1 {
		return y.summaryOf(p.Rates[0]).Times(p.sum[0].weight)
	}
	if p.most == nil {
		return y.SummaryOf(p.PerAcre, p.maximum, nil)
	}
	most := p.most()
	defer y.Release(most)
	return y.SummaryOf(p.PerAcre, p.maximum, most)
}

// For returns the claims of a producer by base, before share.
func (p *Payoff) For(producer string) []*Claim {
	if own, has := p.byBaseOf[producer]; has {
		return own
	}
	return p.ByBase
}

// Total is what all bases are paid, before share.
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
