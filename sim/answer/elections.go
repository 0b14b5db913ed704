package answer

import (
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
		all = append(all, electionOf(ready, choice, f.farm.Key()))
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

// money lays out the payments of a farm.
func (r *run) money(f farmRun) purse {
	m := newPurse(r.people, r.buffers)
	for i, h := range f.holdings {
		m.take(h, f.payoffs[i])
	}
	return m
}

// moneyOf is the purse of several farms.
func (r *run) moneyOf(farms []farmRun) purse {
	m := newPurse(r.people, r.buffers)
	for _, f := range farms {
		m.join(f.money)
	}
	return m
}

// electionOf returns one farm under one choice; figures are nil where a chosen
// program has none.
func electionOf(m purse, choice Choice, farmKey string) Election {
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

// picksOf are the picks of a farm under one choice.
func picksOf(farmKey string, choice Choice) []pick {
	var picks []pick
	for _, c := range choice.Commodities() {
		picks = append(picks, pick{farm: farmKey, commodity: c, program: choice[c]})
	}
	return picks
}
