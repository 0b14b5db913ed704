package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
)

// WholeFarm is the whole farm under two of its choices of PLC and ARC-CO, in a brief
// answer: in place of the list of elections.
type WholeFarm struct {
	Highest  ChoiceFigures  `json:"highest_mean"`
	OnRecord *ChoiceFigures `json:"on_record"` // null where a commodity has none on record, or the year's law asks for none
}

// ChoiceFigures are one choice, USD in total before share, limit and sequestration.
// They are not rounded draw by draw: beside an Election they may be off by half a cent
// for each base.
type ChoiceFigures struct {
	Choice Choice   `json:"choice"`
	Mean   Dollars  `json:"mean"`
	P5     *Dollars `json:"p5"` // null where outcomes are too few
	P95    *Dollars `json:"p95"`
}

// wholeFarm returns the farm under the choice with the highest average and the one on
// record, all others worked out beside them up to mostCombined commodities. It is nil
// where a figure is missing, where ARC-IC is on record, and where not asked.
func (r *run) wholeFarm(f farmRun) *WholeFarm {
	if !r.Brief || len(f.holdings) == 0 {
		return nil
	}
	for i, h := range f.holdings {
		if !f.payoffs[i].complete() || f.farm.Record[h.commodity] == farm.ARCIC {
			return nil
		}
	}
	work := r.takeWork()
	defer r.works.Put(work)
	commodities, release := r.weighed(f)
	defer release()
	highest := r.highest(f)
	if paysHigherOf(r.cropYear) {
		return &WholeFarm{Highest: figuresOf(r.yearRates.drawnYear.paths.buffers, highest, work.One(commodities, 0))}
	}
	at := f.placeOf(highest)
	figures := work.One(commodities, at)
	if len(commodities) <= mostCombined {
		all := make([]elect.Figures, 1<<len(commodities))
		if best := work.All(all, commodities); all[best].Mean > figures.Mean+crop.Noise*(1+figures.Mean) {
			at = best
		}
		figures = all[at]
	}
	out := &WholeFarm{Highest: figuresOf(r.yearRates.drawnYear.paths.buffers, f.choiceAt(at), figures)}
	if f.recorded() {
		at := f.placeOf(f.farm.Record)
		on := figuresOf(r.yearRates.drawnYear.paths.buffers, f.choiceAt(at), work.One(commodities, at))
		out.OnRecord = &on
	}
	return out
}

// figuresOf leaves out percentiles further out than one outcome of few.
func figuresOf(b *buffers, choice Choice, f elect.Figures) ChoiceFigures {
	out := ChoiceFigures{Choice: choice, Mean: Dollars(f.Mean)}
	if b.tells(elect.LowPercent) {
		out.P5, out.P95 = dollars(f.P5), dollars(f.P95)
	}
	return out
}

// recorded reports whether each commodity has PLC or ARC-CO on record.
func (f farmRun) recorded() bool {
	for _, h := range f.holdings {
		if p := f.farm.Record[h.commodity]; p != farm.PLC && p != farm.ARCCO {
			return false
		}
	}
	return true
}

// placeOf returns the place of a choice among those of sim/elect.
func (f farmRun) placeOf(choice map[crop.Commodity]farm.Program) (at int) {
	for k, h := range f.holdings {
		if choice[h.commodity] == farm.ARCCO {
			at |= elect.ARCCO << k
		}
	}
	return at
}

// choiceAt is the choice at a place among those of sim/elect.
func (f farmRun) choiceAt(at int) Choice {
	choice := Choice{}
	for k, h := range f.holdings {
		choice[h.commodity] = [...]farm.Program{elect.PLC: farm.PLC, elect.ARCCO: farm.ARCCO}[at>>k&1]
	}
	return choice
}

// weighed returns rates and weights of a farm; give the series back with release.
func (r *run) weighed(f farmRun) (commodities []elect.Commodity, release func()) {
	var taken [][]float64
	for i, h := range f.holdings {
		o := f.payoffs[i]
		if higher := o.of(farm.HigherOf); higher != nil { // there is nothing to choose
			both := r.addedUp(higher.byBase)
			taken = append(taken, both.Rates)
			commodities = append(commodities, elect.Commodity{both, both})
			continue
		}
		rate := o.of(farm.PLC).rates[0]
		plc := elect.Part{Rates: rate.rates, Mean: rate.mean[0]}
		for _, p := range h.parts {
			plc.Weight += *p.base.PaymentYield * p.paymentAcres
		}
		arc, own := r.weighedARCCO(h, o.of(farm.ARCCO).rates)
		if own {
			taken = append(taken, arc.Rates)
		}
		commodities = append(commodities, elect.Commodity{elect.PLC: plc, elect.ARCCO: arc})
	}
	return commodities, func() { r.give(taken...) }
}

// weighedARCCO returns ARC-CO of a holding: the rate of its county and its acres;
// where bases lie in several, USD in a series of its own.
func (r *run) weighedARCCO(h *holding, rates []*rateDraws) (arc elect.Part, own bool) {
	arc = elect.Part{Rates: rates[0].rates, Mean: rates[0].mean[0]}
	for k, p := range h.parts {
		arc.Weight += p.paymentAcres
		own = own || rates[k] != rates[0]
	}
	if !own {
		return arc, false
	}
	arc = elect.Part{Rates: r.zeros(), Weight: 1}
	for k, p := range h.parts {
		addScaled(arc.Rates, p.paymentAcres, rates[k].rates)
		arc.Mean += p.paymentAcres * rates[k].mean[0]
	}
	return arc, true
}

// addedUp is the sum of some payments, USD.
func (r *run) addedUp(byPart []*payment) elect.Part {
	sum := elect.Part{Rates: r.zeros(), Weight: 1}
	for _, p := range byPart {
		p.add(sum.Rates, 1, 0)
		sum.Mean += p.mean(r.buffers)
	}
	return sum
}
