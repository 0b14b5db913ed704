package compare

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// combinations returns every combination of PLC and ARC-CO over the commodities, the
// last commodity changing fastest, PLC first.
func combinations(commodities []crop.Commodity) []answer.Choice {
	all := []answer.Choice{{}}
	for _, c := range commodities {
		var longer []answer.Choice
		for _, choice := range all {
			for _, p := range []farm.Program{farm.PLC, farm.ARCCO} {
				next := answer.Choice{c: p}
				for k, v := range choice {
					next[k] = v
				}
				longer = append(longer, next)
			}
		}
		all = longer
	}
	return all
}

// mostCombined is the number of commodities up to which every combination of
// programs on a farm is listed: 64 of them.
const mostCombined = 6

// elections returns the whole farm under every combination of PLC and ARC-CO,
// and under ARC-IC where it has figures, the limit applied as if the farm stood
// alone. With more than mostCombined
// commodities it lists the two simplest and the one of the highest averages.
func (r *Run) elections(f farmRun) []answer.Election {
	if r.Brief {
		return []answer.Election{}
	}
	var commodities []crop.Commodity
	for _, h := range f.holdings {
		commodities = append(commodities, h.Commodity)
	}
	combined := combinations(commodities[:min(len(commodities), mostCombined)])
	if len(commodities) > mostCombined {
		combined = []answer.Choice{sameChoice(commodities, farm.PLC), sameChoice(commodities, farm.ARCCO), r.highest(f)}
	}
	if position.PaysHigherOf(r.CropYear) {
		combined = []answer.Choice{sameChoice(commodities, farm.HigherOf)}
	}
	if f.individual != nil && f.individual.Missing == "" {
		combined = append(combined, sameChoice(commodities, farm.ARCIC))
	}
	ready, release := f.money.Evaluated()
	defer release()
	var all []answer.Election
	for _, choice := range combined {
		all = append(all, electionOf(ready, choice, f.farm.Key()))
	}
	return all
}

// sameChoice is one program for all commodities.
func sameChoice(commodities []crop.Commodity, p farm.Program) answer.Choice {
	choice := answer.Choice{}
	for _, c := range commodities {
		choice[c] = p
	}
	return choice
}

// highest returns the program with the higher average for each commodity; where
// both average the same, the one on record, then PLC. Where the law pays the
// higher of both there is nothing to choose.
func (r *Run) highest(f farmRun) answer.Choice {
	choice := answer.Choice{}
	for i, h := range f.holdings {
		o := f.payoffs[i]
		if !o.Complete() {
			continue
		}
		if o.Of(farm.HigherOf) != nil {
			choice[h.Commodity] = farm.HigherOf
			continue
		}
		switch difference := o.Of(farm.ARCCO).Mean - o.Of(farm.PLC).Mean; {
		case difference > 0:
			choice[h.Commodity] = farm.ARCCO
		case difference == 0 && f.farm.Record[h.Commodity] == farm.ARCCO:
			choice[h.Commodity] = farm.ARCCO
		default:
			choice[h.Commodity] = farm.PLC
		}
	}
	return choice
}

// ClaimsOf lays out the payments of a farm.
func (r *Run) money(f farmRun) limits.Payments {
	m := limits.NewPayments(r.people, r.Buffers)
	for i, h := range f.holdings {
		m.Add(h, f.payoffs[i])
	}
	return m
}

// moneyOf is the purse of several farms.
func (r *Run) moneyOf(farms []farmRun) limits.Payments {
	m := limits.NewPayments(r.people, r.Buffers)
	for _, f := range farms {
		m.Merge(f.money)
	}
	return m
}

// electionOf returns one farm under one choice; figures are nil where a chosen
// program has none.
func electionOf(m limits.Payments, choice answer.Choice, farmKey string) answer.Election {
	e := answer.Election{Choice: choice}
	picks := picksOf(farmKey, choice)
	sum := m.Buffers.Zeros()
	defer m.Buffers.Release(sum)
	for _, k := range picks {
		all, has := m.Totals[k]
		if !has {
			return e
		}
		all.Add(sum, 0)
	}
	s := m.Buffers.Summarize(sum)
	percentiles, errors := m.Buffers.Percentiles(sum)
	e.Mean, e.StandardError = answer.DollarsOf(s.Mean), answer.DollarsOf(s.StandardError)
	e.Percentiles, e.PercentileErrors = (*answer.Percentiles)(&percentiles), (*answer.Percentiles)(&errors)
	e.MeanAfterLimit = answer.DollarsOf(m.MeanAfterLimit(picks))
	return e
}

// picksOf are the picks of a farm under one choice.
func picksOf(farmKey string, choice answer.Choice) []limits.Election {
	var picks []limits.Election
	for _, c := range choice.Commodities() {
		picks = append(picks, limits.Election{Farm: farmKey, Commodity: c, Program: choice[c]})
	}
	return picks
}
