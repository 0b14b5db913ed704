package compare

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/elect"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// wholeFarm returns the farm under the choice with the highest mean and under the one on
// record, before share and limit. Up to mostCombined commodities every choice is looked
// at; beyond, the higher mean of each commodity. It is nil where a figure is missing,
// where ARC-IC is on record, and in a run that is not brief.
func (r *YearRun) wholeFarm(f farmRun) *answer.WholeFarm {
	if !r.question.Brief || len(f.bases) == 0 || r.onlyEarned() {
		return nil
	}
	for i, base := range f.bases {
		if !f.payoffs[i].Complete() || f.farm.Record[base.Commodity] == farm.ARCIC {
			return nil
		}
	}
	work := r.shared.acquireWork()
	defer r.shared.works.Put(work)
	commodities, release := r.weightedRates(f)
	defer release()
	highest := r.highest(f)
	if position.PaysHigherOf(r.Year.CropYear) {
		return &answer.WholeFarm{Highest: figuresOf(r.Year.Buffers, highest, work.OneChoice(commodities, 0))}
	}
	at := f.placeOf(highest)
	if len(commodities) <= mostCombined {
		mean := elect.MeanOf(commodities, at)
		if best, most := elect.HighestMean(commodities); most > mean+crop.Noise*(1+mean) {
			at = best
		}
	}
	figures := work.OneChoice(commodities, at)
	out := &answer.WholeFarm{Highest: figuresOf(r.Year.Buffers, f.choiceAt(at), figures)}
	if f.recorded() {
		on := f.placeOf(f.farm.Record)
		if on != at {
			figures = work.OneChoice(commodities, on)
		}
		recorded := figuresOf(r.Year.Buffers, f.choiceAt(on), figures)
		out.OnRecord = &recorded
	}
	return out
}

// figuresOf leaves out percentiles that so few scenarios cannot resolve.
func figuresOf(b *scenario.Buffers, choice answer.Choice, f elect.Figures) answer.ChoiceFigures {
	out := answer.ChoiceFigures{Choice: choice, Mean: answer.Dollars(f.Mean)}
	if b.Resolves(elect.LowPercent) {
		out.P5, out.P95 = answer.DollarsOf(f.P5), answer.DollarsOf(f.P95)
	}
	return out
}

// recorded reports whether each commodity has PLC or ARC-CO on record.
func (f farmRun) recorded() bool {
	for _, base := range f.bases {
		if p := f.farm.Record[base.Commodity]; p != farm.PLC && p != farm.ARCCO {
			return false
		}
	}
	return true
}

// placeOf returns the place of a choice in the order of package elect: bit k is the
// program of commodity k.
func (f farmRun) placeOf(choice map[crop.Commodity]farm.Program) (at int) {
	for k, base := range f.bases {
		if choice[base.Commodity] == farm.ARCCO {
			at |= elect.ARCCO << k
		}
	}
	return at
}

// choiceAt is the choice at such a place.
func (f farmRun) choiceAt(at int) answer.Choice {
	choice := answer.Choice{}
	for k, base := range f.bases {
		choice[base.Commodity] = [...]farm.Program{elect.PLC: farm.PLC, elect.ARCCO: farm.ARCCO}[at>>k&1]
	}
	return choice
}

// weightedRates returns, for each commodity, the rate and the weight that make what each
// program pays, USD. Call release when done.
func (r *YearRun) weightedRates(f farmRun) (commodities []elect.Commodity, release func()) {
	var owned [][]float64
	for i, base := range f.bases {
		o := f.payoffs[i]
		if higher := o.Of(farm.HigherOf); higher != nil { // there is nothing to choose
			both := r.sumOf(higher.ByPart)
			owned = append(owned, both.Rates)
			commodities = append(commodities, elect.Commodity{both, both})
			continue
		}
		rate := o.Of(farm.PLC).Rates[0]
		plc := elect.Payment{Rates: rate.Scenarios, Mean: rate.Means[0]}
		for _, b := range base.Bases {
			plc.Weight += *b.Record.PaymentYield * b.PaymentAcres
		}
		arc, own := r.weightedARCCO(base, o.Of(farm.ARCCO).Rates)
		if own {
			owned = append(owned, arc.Rates)
		}
		commodities = append(commodities, elect.Commodity{elect.PLC: plc, elect.ARCCO: arc})
	}
	return commodities, func() { r.Year.Release(owned...) }
}

// weightedARCCO returns ARC-CO of a commodity base as the rate of its county, weighted
// by payment acres. Where its bases have different rates it is one series in USD, to be
// released (own).
func (r *YearRun) weightedARCCO(base *position.CommodityBase, rates []*payoff.Rates) (arc elect.Payment, own bool) {
	arc = elect.Payment{Rates: rates[0].Scenarios, Mean: rates[0].Means[0]}
	for k, b := range base.Bases {
		arc.Weight += b.PaymentAcres
		own = own || rates[k] != rates[0]
	}
	if !own {
		return arc, false
	}
	arc = elect.Payment{Rates: r.Year.Zeros(), Weight: 1}
	for k, b := range base.Bases {
		scenario.AddScaled(arc.Rates, b.PaymentAcres, rates[k].Scenarios)
		arc.Mean += b.PaymentAcres * rates[k].Means[0]
	}
	return arc, true
}

// sumOf returns the sum of some claims as one series in USD, to be released.
func (r *YearRun) sumOf(byPart []*payoff.Claim) elect.Payment {
	sum := elect.Payment{Rates: r.Year.Zeros(), Weight: 1}
	for _, p := range byPart {
		p.Add(sum.Rates, 1, 0)
		sum.Mean += p.Mean(r.Year.Buffers)
	}
	return sum
}
