package compare

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// combinations returns every combination of PLC and ARC-CO, the last commodity changing
// fastest, PLC first.
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

// mostCombined is the number of commodities of a farm up to which every combination of
// programs is listed: at most 64.
const mostCombined = 6

// elections returns the whole farm under every combination of PLC and ARC-CO, and under
// ARC-IC where that has figures, the payment limit applied as if the farm stood alone.
// With more than mostCombined commodities it lists all PLC, all ARC-CO and the choice of
// the higher means. It is empty in a brief run.
func (r *YearRun) elections(f farmRun) []answer.Election {
	if r.question.Brief {
		return []answer.Election{}
	}
	var commodities []crop.Commodity
	for _, base := range f.bases {
		commodities = append(commodities, base.Commodity)
	}
	combined := combinations(commodities[:min(len(commodities), mostCombined)])
	if len(commodities) > mostCombined {
		combined = []answer.Choice{sameChoice(commodities, farm.PLC), sameChoice(commodities, farm.ARCCO), r.highest(f)}
	}
	if position.PaysHigherOf(r.Year.CropYear) {
		combined = []answer.Choice{sameChoice(commodities, farm.HigherOf)}
	}
	if f.individual != nil && f.individual.Missing == "" {
		combined = append(combined, sameChoice(commodities, farm.ARCIC))
	}
	ready, release := f.payments, func() {}
	if !r.Year.InBlocks() { // there memory counts for more than time
		ready, release = f.payments.Evaluated()
	}
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

// highest returns the program with the higher mean before limits for each commodity,
// without those that lack a figure. Of equal means it takes the one on record, then PLC.
// Where the law pays the higher of both it is HIGHER-OF.
func (r *YearRun) highest(f farmRun) answer.Choice {
	choice := answer.Choice{}
	for i, base := range f.bases {
		o := f.payoffs[i]
		if !o.Complete() {
			continue
		}
		if o.Of(farm.HigherOf) != nil {
			choice[base.Commodity] = farm.HigherOf
			continue
		}
		switch difference := o.Of(farm.ARCCO).Mean - o.Of(farm.PLC).Mean; {
		case difference > 0:
			choice[base.Commodity] = farm.ARCCO
		case difference == 0 && f.farm.Record[base.Commodity] == farm.ARCCO:
			choice[base.Commodity] = farm.ARCCO
		default:
			choice[base.Commodity] = farm.PLC
		}
	}
	return choice
}

// farmPayments returns the payments of one farm by producer, for limits.
func (r *YearRun) farmPayments(f farmRun) limits.Payments {
	m := limits.NewPayments(r.rules, r.Year.Buffers)
	for i, base := range f.bases {
		m.Add(base, f.payoffs[i])
	}
	return m
}

// paymentsOf returns the payments of several farms together.
func (r *YearRun) paymentsOf(farms []farmRun) limits.Payments {
	if len(farms) == 1 {
		return farms[0].payments
	}
	m := limits.NewPayments(r.rules, r.Year.Buffers)
	for _, f := range farms {
		m.Merge(f.payments)
	}
	return m
}

// electionOf returns what one farm is paid under one choice. Figures are nil where a
// program of the choice has none.
func electionOf(m limits.Payments, choice answer.Choice, farmKey string) answer.Election {
	e := answer.Election{Choice: choice}
	elections := electionsUnder(farmKey, choice)
	sum := m.Buffers.Zeros()
	defer m.Buffers.Release(sum)
	for _, k := range elections {
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
	e.MeanAfterLimit = answer.DollarsOf(m.MeanAfterLimit(elections))
	return e
}

// electionsUnder returns one choice of a farm as a list of elections, in the order of
// crop.Commodities.
func electionsUnder(farmKey string, choice answer.Choice) []limits.Election {
	var elections []limits.Election
	for _, c := range choice.Commodities() {
		elections = append(elections, limits.Election{Farm: farmKey, Commodity: c, Program: choice[c]})
	}
	return elections
}
