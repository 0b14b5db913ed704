package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// instrument is a program that pays on the bases of a commodity. A new one is a file
// with its rate and its payoff, and a place in the list.
type instrument interface {
	ID() farm.Program
	// Payoff returns what a commodity base of the operation is paid, nil where a figure
	// is missing; before are those of the instruments earlier in the list.
	Payoff(y *yearRates, o farm.Operation, h *holding, price priceOutlook, before payoffs) *payoff
}

// instruments are those of a crop year, in the order in which they are shown.
func instruments(y crop.CropYear) []instrument {
	all := []instrument{plc{}, arcco{}}
	if paysHigherOf(y) {
		all = append(all, higherOf{})
	}
	return all
}

// payoff is what one program pays on the bases of one commodity of a farm, by
// scenario.
type payoff struct {
	program    farm.Program
	byBase     []*payment            // USD before share, to the cent
	byBaseOf   map[string][]*payment // by producer, where each is paid by a rate of its own
	beforeWhom []crop.Money          // USD of all bases before share, where byBaseOf does not tell; nil: the sum of byBase

	perAcre []float64           // USD per base acre, not rounded; nil when released
	mean    float64             // of perAcre
	sum     weightedSum         // what perAcre is made of
	rates   []*rateDraws        // of sum, in its order
	maximum crop.Money          // the most there can be per base acre, where several rates or none make it
	most    func() []crop.Money // the same by scenario, a series to give back; nil: maximum in all
	owned   [][]crop.Money      // series that only this payoff uses

	// Apart is what counts against no payment limit and is no election, as insurance.
	apart bool
}

// payoffs are those of one commodity base, in the order of instruments.
type payoffs []*payoff

// payoffsOf returns what all instruments pay on a commodity base.
func payoffsOf(y *yearRates, o farm.Operation, h *holding, price priceOutlook) (all payoffs) {
	for _, one := range instruments(y.cropYear) {
		if p := one.Payoff(y, o, h, price, all); p != nil {
			all = append(all, p)
		}
	}
	return all
}

// of returns the payoff of a program, nil where it has none.
func (all payoffs) of(program farm.Program) *payoff {
	for _, p := range all {
		if p.program == program {
			return p
		}
	}
	return nil
}

// complete reports whether both PLC and ARC-CO have figures.
func (all payoffs) complete() bool { return all.of(farm.PLC) != nil && all.of(farm.ARCCO) != nil }

// release gives back what only the commodity's own figures need.
func (all payoffs) release(b *buffers) {
	for _, p := range all {
		b.give(p.perAcre)
		p.perAcre = nil
	}
}

// releaseOwned gives back the rest, when nothing more is asked.
func (all payoffs) releaseOwned(b *buffers) {
	for _, p := range all {
		b.give(p.owned...)
		p.owned = nil
	}
}

// shape summarizes what is paid per base acre. A payoff of one rate has the summary of
// that rate, which other farms share.
func (p *payoff) shape(y *yearRates) shape {
	if len(p.sum) == 1 {
		return y.shapeOfRates(p.rates[0]).times(p.sum[0].weight)
	}
	if p.most == nil {
		return y.shapeOf(p.perAcre, p.maximum, nil)
	}
	most := p.most()
	defer y.give(most)
	return y.shapeOf(p.perAcre, p.maximum, most)
}

// of returns what each base pays a producer, before share.
func (p *payoff) of(producer string) []*payment {
	if own, has := p.byBaseOf[producer]; has {
		return own
	}
	return p.byBase
}

// total is the sum of the payments of all bases, before share.
func (p *payoff) total() payments {
	if p.beforeWhom != nil {
		return money(p.beforeWhom)
	}
	return whole(p.byBase)
}

// weightedSum is a sum of series, each with a weight.
type weightedSum []weighted

type weighted struct {
	series []float64
	weight float64
}

// fill adds the sum to dst.
func (s weightedSum) fill(dst []float64) {
	for _, w := range s {
		addScaled(dst, w.weight, w.series)
	}
}

// times returns the sum with every weight multiplied.
func (s weightedSum) times(by float64) weightedSum {
	var scaled weightedSum
	for _, w := range s {
		scaled = append(scaled, weighted{w.series, by * w.weight})
	}
	return scaled
}

// sumOf is what a program pays per base acre, nil where it has no figures.
func (all payoffs) sumOf(program farm.Program) weightedSum {
	if p := all.of(program); p != nil {
		return p.sum
	}
	return nil
}

// withoutProgram leaves out a program.
func withoutProgram(all payoffs, program farm.Program) (rest payoffs) {
	for _, p := range all {
		if p.program != program {
			rest = append(rest, p)
		}
	}
	return rest
}
