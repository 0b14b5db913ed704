package answer

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// mostCombined is the number of commodities up to which every combination of
// programs on a farm is listed: 64 of them.
const mostCombined = 6

// elections returns the whole farm under every combination of PLC and ARC-CO,
// and under ARC-IC where it has figures, the limit applied as if the farm stood
// alone. With more than mostCombined
// commodities it lists the two simplest and the one of the highest averages.
func (r *run) elections(f farmRun) []Election {
	if r.Brief {
		return []Election{}
	}
	var commodities []crop.Commodity
	for _, h := range f.holdings {
		commodities = append(commodities, h.commodity)
	}
	combined := combinations(commodities[:min(len(commodities), mostCombined)])
	if len(commodities) > mostCombined {
		combined = []Choice{sameChoice(commodities, farm.PLC), sameChoice(commodities, farm.ARCCO), r.highest(f)}
	}
	if paysHigherOf(r.cropYear) {
		combined = []Choice{sameChoice(commodities, farm.HigherOf)}
	}
	if f.individual != nil && f.individual.missing == "" {
		combined = append(combined, sameChoice(commodities, farm.ARCIC))
	}
	ready, release := f.money.workedOut()
	defer release()
	var all []Election
	for _, choice := range combined {
		all = append(all, ready.election(choice, f.farm.Key()))
	}
	return all
}

// sameChoice is one program for all commodities.
func sameChoice(commodities []crop.Commodity, p farm.Program) Choice {
	choice := Choice{}
	for _, c := range commodities {
		choice[c] = p
	}
	return choice
}

// highest returns the program with the higher average for each commodity; where
// both average the same, the one on record, then PLC. Where the law pays the
// higher of both there is nothing to choose.
func (r *run) highest(f farmRun) Choice {
	choice := Choice{}
	for i, h := range f.holdings {
		o := f.payoffs[i]
		if !o.complete() {
			continue
		}
		if o.of(farm.HigherOf) != nil {
			choice[h.commodity] = farm.HigherOf
			continue
		}
		switch difference := o.of(farm.ARCCO).mean - o.of(farm.PLC).mean; {
		case difference > 0:
			choice[h.commodity] = farm.ARCCO
		case difference == 0 && f.farm.Record[h.commodity] == farm.ARCCO:
			choice[h.commodity] = farm.ARCCO
		default:
			choice[h.commodity] = farm.PLC
		}
	}
	return choice
}

// purse holds the payments of some farms, by farm, commodity and program.
type purse struct {
	payer
	buffers *buffers
	totals  map[pick]payments // before share
	flows   map[pick]flow     // after share, by producer

	everywhere   map[int]Series // by place of the producer: what it earns in all its operations, this one among them; none: in this one alone
	inOperations map[int]Everywhere
}

// pick is one farm's program for one commodity.
type pick struct {
	farm      string
	commodity crop.Commodity
	program   farm.Program
}

func (r *run) newPurse() purse {
	return purse{payer: r.people, buffers: r.buffers, totals: map[pick]payments{}, flows: map[pick]flow{}}
}

// money lays out the payments of a farm.
func (r *run) money(f farmRun) purse {
	m := r.newPurse()
	for i, h := range f.holdings {
		for _, p := range f.payoffs[i] {
			if p.apart {
				continue
			}
			key := pick{f.farm.Key(), h.commodity, p.program}
			m.totals[key], m.flows[key] = p.total(), m.payer.flows(h, p)
		}
	}
	return m
}

// moneyOf is the purse of several farms.
func (r *run) moneyOf(farms []farmRun) purse {
	m := r.newPurse()
	for _, f := range farms {
		maps.Copy(m.totals, f.money.totals)
		maps.Copy(m.flows, f.money.flows)
	}
	return m
}

// uses reports whether anything counts against a pot.
func (m purse) uses(pot program.Pot) bool {
	for _, all := range m.everywhere {
		if all[slices.Index(pots[:], pot)] != nil {
			return true
		}
	}
	for k := range m.flows {
		if m.pot(k.commodity) == pot {
			return true
		}
	}
	return false
}

// workedOut is the purse with every payment worked out once for all draws: for
// questions that ask for them often. Give the series back with release.
func (m purse) workedOut() (ready purse, release func()) {
	ready = purse{payer: m.payer, buffers: m.buffers, totals: map[pick]payments{}, flows: map[pick]flow{}}
	done := map[*payment]*payment{}
	of := func(all payments) (worked payments) {
		for _, p := range all {
			if done[p.payment] == nil {
				series := m.buffers.zeros()
				p.payment.add(series, 1, 0)
				done[p.payment] = &payment{rates: series, most: p.most}
			}
			worked = append(worked, sharedPayment{done[p.payment], p.share})
		}
		return worked
	}
	for k := range m.totals {
		ready.totals[k] = of(m.totals[k])
		for _, mine := range m.flows[k] {
			ready.flows[k] = append(ready.flows[k], of(mine))
		}
	}
	return ready, func() {
		for _, p := range done {
			m.buffers.give(p.rates)
		}
	}
}

// election returns one farm under one choice; figures are nil where a chosen
// program has none.
func (m purse) election(choice Choice, farmKey string) Election {
	e := Election{Choice: choice}
	picks := picksOf(farmKey, choice)
	sum := m.buffers.zeros()
	defer m.buffers.give(sum)
	for _, k := range picks {
		all, has := m.totals[k]
		if !has {
			return e
		}
		all.add(sum, 0)
	}
	s := m.buffers.summarize(sum)
	percentiles, errors := m.buffers.percentiles(sum)
	e.Mean, e.StandardError = dollars(s.Mean), dollars(s.StandardError)
	e.Percentiles, e.PercentileErrors = (*Percentiles)(&percentiles), (*Percentiles)(&errors)
	e.MeanAfterLimit = dollars(m.afterLimit(picks))
	return e
}

func picksOf(farmKey string, choice Choice) []pick {
	var picks []pick
	for _, c := range choice.Commodities() {
		picks = append(picks, pick{farmKey, c, choice[c]})
	}
	return picks
}

// reached follows the payments of some picks to the people, the limit applied in
// each draw.
func (m purse) reached(picks []pick) reach {
	if m.neverLimited(picks) {
		return m.byShares(picks)
	}
	return m.reach(m.earning(picks))
}

// earning fills in what the producers earn under some picks.
func (m purse) earning(picks []pick) filler {
	at := m.potsOf(picks)
	return func(e *earned, from int) {
		e.zero()
		m.put(e, picks, at, 1, from)
	}
}

// potsOf returns the place of each pick's pot.
func (m purse) potsOf(picks []pick) []int {
	var at []int
	for _, k := range picks {
		at = append(at, slices.Index(pots[:], m.pot(k.commodity)))
	}
	return at
}

// afterLimit returns the average paid to all recipients together.
func (m purse) afterLimit(picks []pick) crop.Money { return m.reached(picks).total }
