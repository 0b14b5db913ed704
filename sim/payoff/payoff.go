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

	perAcre []float64           // USD per base acre, not rounded; nil until asked for, and when released
	Mean    float64             // of perAcre
	sum     WeightedSum         // what perAcre is made of, where it is made of rates
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
		b.Release(p.perAcre)
		p.perAcre = nil
	}
}

// PerAcre returns USD per base acre by scenario, not rounded. Most of what is asked of very
// many farms is known from the averages of the rates, so that the series is made when it is
// first asked for; it stays until Release. Not for several goroutines.
func (p *Payoff) PerAcre(b *scenario.Buffers) []float64 {
	if p.perAcre == nil {
		p.perAcre = b.Zeros()
		p.sum.Fill(p.perAcre)
	}
	return p.perAcre
}

// addRate adds the rate of a base (place in Bases) that counts with a weight, and with it to
// the average: that of a sum is the sum of the averages of its rates.
func (p *Payoff) addRate(rate *Rates, weight float64, base int) {
	p.Rates = append(p.Rates, rate)
	p.sum = p.sum.with(rate, weight, base)
	p.Mean += weight * rate.Means[0]
}

// AddReplicates adds to dst times the average of each replicate of the scenarios, USD per
// base acre: that of a sum of rates, from the averages of each rate.
func (p *Payoff) AddReplicates(dst []float64, times float64) {
	for _, w := range p.sum {
		scenario.AddScaled(dst, times*w.weight, w.rate.replicates)
	}
}

// OneRate returns the one rate that a payoff is made of, by scenario, and its weight; ok is
// false where it has several.
func (p *Payoff) OneRate() (rates []float64, weight float64, ok bool) {
	if len(p.sum) != 1 {
		return nil, 0, false
	}
	return p.sum[0].rate.Scenarios, p.sum[0].weight, true
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
		return y.SummaryOf(p.PerAcre(y.Buffers), p.maximum, nil)
	}
	most := p.most()
	defer y.Release(most)
	return y.SummaryOf(p.PerAcre(y.Buffers), p.maximum, most)
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

// WeightedSum is a sum of rates, each with a weight.
type WeightedSum []weighted

type weighted struct {
	rate   *Rates
	weight float64
	base   int // place in Bases of the first base that is paid by it
}

// with returns the sum with a rate added; one that it has already gets more weight.
func (s WeightedSum) with(rate *Rates, weight float64, base int) WeightedSum {
	for i := range s {
		if s[i].rate == rate {
			s[i].weight += weight
			return s
		}
	}
	return append(s, weighted{rate, weight, base})
}

// Fill adds the sum to dst.
func (s WeightedSum) Fill(dst []float64) {
	for _, w := range s {
		scenario.AddScaled(dst, w.weight, w.rate.Scenarios)
	}
}

// Times returns the sum with every weight multiplied.
func (s WeightedSum) Times(by float64) WeightedSum {
	var scaled WeightedSum
	for _, w := range s {
		scaled = append(scaled, weighted{w.rate, by * w.weight, w.base})
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
