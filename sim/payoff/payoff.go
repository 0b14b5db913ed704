package payoff

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Payoff is what one program pays on the bases of one commodity of a farm, by
// scenario.
type Payoff struct {
	Program     farm.Program
	parts       [][]int             // the bases of each part (partsOf)
	ByPart      []*Claim            // of each part; of who is not in the file, where producers have claims of their own
	byPartOf    map[string][]*Claim // by producer, where each is paid by a rate of the own
	BeforeShare []crop.Money        // USD of all bases and all shares, where producers have claims of their own; nil: the sum of ByPart

	PerAcre []float64           // USD per base acre, not rounded; nil when released
	Mean    float64             // of PerAcre
	sum     WeightedSum         // what PerAcre is made of, where it is made of rates
	Rates   []*Rates            // PLC: one; ARC-CO: of each base
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

// For returns the claims of a producer by part, before share.
func (p *Payoff) For(producer string) []*Claim {
	if own, has := p.byPartOf[producer]; has {
		return own
	}
	return p.ByPart
}

// Parts returns the first base of each part (place in Bases): its shares are those of all
// bases of the part.
func (p *Payoff) Parts() (first []int) {
	for _, part := range p.parts {
		first = append(first, part[0])
	}
	return first
}

// setParts sets what is paid by part, from the claims of all bases.
func (p *Payoff) setParts(y *Year, h *position.CommodityBase, byBase []*Claim) {
	p.parts = partsOf(h)
	p.ByPart, p.owned = paidAsOne(y, p.parts, byBase)
}

// Total is what all bases are paid, before share.
func (p *Payoff) Total() Claims {
	if p.BeforeShare != nil {
		return ClaimsOf(p.BeforeShare)
	}
	return allOf(p.ByPart)
}

// WeightedSum is a sum of series, each with a weight.
type WeightedSum []weighted

type weighted struct {
	series []float64
	weight float64
	base   int // place in Bases of the first base that is paid by it
}

// with returns the sum with a series added; one that it has already gets more weight.
func (s WeightedSum) with(series []float64, weight float64, base int) WeightedSum {
	for i := range s {
		if &s[i].series[0] == &series[0] {
			s[i].weight += weight
			return s
		}
	}
	return append(s, weighted{series, weight, base})
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
		scaled = append(scaled, weighted{w.series, by * w.weight, w.base})
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
