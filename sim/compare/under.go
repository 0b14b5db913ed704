package compare

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// under returns the whole operation as last elected, as each line leans and, where people
// typed a choice, under that. A brief run has none, or the averages as last elected. m are
// the payments of all farms.
func (r *YearRun) under(m limits.Payments, farms []farmRun) []answer.UnderPart {
	switch {
	case r.lastElections:
		return []answer.UnderPart{r.underElections(m, farms, answer.LastElected, r.lastElected)}
	case r.question.Brief:
		return []answer.UnderPart{}
	}
	parts := []answer.UnderPart{
		r.underElections(m, farms, answer.LastElected, r.lastElected),
		r.underElections(m, farms, answer.AsItLeans, asItLeans),
	}
	if slices.ContainsFunc(farms, func(f farmRun) bool { return len(f.farm.Choice[r.Year.CropYear]) > 0 }) {
		m, farms = r.withTyped(m, farms)
		parts = append(parts, r.underElections(m, farms, answer.TypedChoice, r.typedChoice))
	}
	return parts
}

// lastElected returns the election on record; "" for none, and for ARC-IC where it is to
// be left out.
func (r *YearRun) lastElected(f farm.Farm, part answer.CommodityPart) farm.Program {
	if r.question.LeaveOutARCIC && f.Record[part.Commodity] == farm.ARCIC {
		return ""
	}
	return f.Record[part.Commodity]
}

// asItLeans returns the program with the higher average. Of equal averages it is the one
// on record, else PLC; "" where a program has no figures.
func asItLeans(f farm.Farm, part answer.CommodityPart) farm.Program {
	switch {
	case part.Difference == nil:
		return ""
	case part.Leans == answer.LeadsARCCO, part.Leans == answer.Neither && f.Record[part.Commodity] == farm.ARCCO:
		return farm.ARCCO
	}
	return farm.PLC
}

// averagesUnder fills in what some elections pay on average, of the operation and of each
// person: all that a batch asks for.
func averagesUnder(part *answer.UnderPart, m limits.Payments, elections []limits.Election) {
	means := m.ByRecipient(elections)
	part.MeanAfterLimit = answer.DollarsOf(means.Total)
	part.ByPerson = averagesByPerson(m, means)
}

// underElections returns the operation under the elections that elect names line by line.
// Where the law pays the higher of both it is HIGHER-OF on every line.
func (r *YearRun) underElections(m limits.Payments, farms []farmRun, name answer.UnderName, elect func(farm.Farm, answer.CommodityPart) farm.Program) answer.UnderPart {
	part := answer.UnderPart{Elections: name, Choices: map[string]answer.Choice{}, ByPerson: []answer.PersonPart{}, LeftOut: []string{}}
	var elections []limits.Election
	for _, f := range farms {
		choice := answer.Choice{}
		for _, line := range f.commodities {
			e := limits.Election{Farm: f.farm.Key(), Commodity: line.Commodity, Program: elect(f.farm, line)}
			if position.PaysHigherOf(r.Year.CropYear) && (name != answer.TypedChoice || e.Program != "") {
				e.Program = farm.HigherOf
			}
			if _, has := m.Totals[e]; !has {
				part.LeftOut = append(part.LeftOut, e.Farm+" "+string(e.Commodity))
				continue
			}
			choice[e.Commodity] = e.Program
			part.ARCICInside = part.ARCICInside || e.Program == farm.ARCIC
			elections = append(elections, e)
		}
		part.Choices[f.farm.Key()] = choice
	}
	switch {
	case len(elections) == 0:
	case r.question.Brief:
		averagesUnder(&part, m, elections)
	default:
		r.payUnder(&part, m, elections)
	}
	return part
}

// payUnder fills in what some elections pay.
func (r *YearRun) payUnder(part *answer.UnderPart, m limits.Payments, elections []limits.Election) {
	mean := 0.0
	for _, e := range elections {
		mean += m.Mean(m.Totals[e])
	}
	people := r.paidPeople(m, elections)
	part.Mean, part.MeanAfterLimit = answer.DollarsOf(mean), answer.DollarsOf(people.means.Total)
	part.Percentiles, part.ByPerson = people.together, people.parts
}

// percentilesTogether returns the percentiles of what all recipients are paid together,
// USD; paid is by recipient and scenario. Nil in a brief run.
func (r *YearRun) percentilesTogether(paid [][]crop.Money) *answer.Percentiles {
	if r.question.Brief {
		return nil
	}
	sum := r.Year.Zeros()
	defer r.Year.Release(sum)
	for _, one := range paid {
		for i, x := range one {
			sum[i] += x
		}
	}
	percentiles := r.Year.PercentilesAlone(sum)
	return (*answer.Percentiles)(&percentiles)
}

// cases returns evenly spaced cases of a payment per base acre; nil in a brief run.
func (r *YearRun) cases(perAcre []float64) []answer.Dollars {
	if r.question.Brief {
		return nil
	}
	return answer.CasesOf(r.Year.Cases(perAcre))
}

// yieldTenths fills in the yields that one outcome in ten is below and above: exact ones of
// the distribution of a county yield, but percentiles of the scenarios where those repeat
// past years. It leaves them nil where the yield is known, so few scenarios cannot resolve
// a tenth, and in a brief run.
func (r *YearRun) yieldTenths(view *answer.YieldView, decimals int, u position.Practice) {
	if r.question.Brief || u.Outlook.SD == 0 || !r.Year.Resolves(lowTenth) {
		return
	}
	if r.Year.Distinct > 0 {
		setYieldTenths(view, r.Year.Yields(decimals, u))
		return
	}
	at := u.Outlook.Quantile()
	view.Low, view.High = answer.DollarsOf(at(-odds.NormalP90)), answer.DollarsOf(at(odds.NormalP90))
}

// setYieldTenths fills in the tenths of yields by scenario.
func setYieldTenths(view *answer.YieldView, yields []crop.Yield) {
	low, high := tenthsOf(yields)
	view.Low, view.High = answer.DollarsOf(low), answer.DollarsOf(high)
}
