package compare

import (
	"fmt"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// CompareAcross is Compare where persons may have a share in other operations too. The
// choices stay those of the operation by itself; one payment limit holds for all that
// such a person earns in a crop year. A brief answer has the averages as last elected.
func (m *Many) CompareAcross(o farm.Operation, across Across) (answer.Comparison, error) {
	r := m.of(o)
	r.across, r.lastElections = across, r.question.Brief
	return r.answer()
}

// CompareEarned is Compare that also returns what the wanted producers earn under the
// choices, by crop year and producer id. A brief answer has choices and people alone: no
// flags, nothing about whole farms and nothing about other elections.
func (m *Many) CompareEarned(o farm.Operation, wanted func(person string) bool) (c answer.Comparison, earned map[crop.CropYear]map[string]limits.Earnings, err error) {
	r := m.of(o)
	earned = map[crop.CropYear]map[string]limits.Earnings{}
	r.earned = func(y crop.CropYear, sums limits.Earned) {
		earned[y] = map[string]limits.Earnings{}
		for j, producer := range r.question.Operation.Producers {
			if wanted(producer.ID) {
				earned[y][producer.ID] = sums.Of(j)
			}
		}
	}
	c, err = r.answer()
	return c, earned, err
}

// onlyEarned says that nothing is asked but what people earn.
func (r *YearRun) onlyEarned() bool { return r.earned != nil && r.question.Brief }

// acrossOperations adds to payments what its producers earn in all their operations.
func (r *YearRun) acrossOperations(m limits.Payments) limits.Payments {
	if r.across == nil {
		return m
	}
	m.EarnedAcross, m.Across = map[int]limits.Earnings{}, map[int]limits.AcrossOperations{}
	for j, p := range r.question.Operation.Producers {
		if all, has := r.across(r.Year.CropYear, p.ID); has {
			m.EarnedAcross[j], m.Across[j] = all.Earned, all
		}
	}
	return m
}

// fillAcross adds to each person of several operations what one limit leaves of all of
// them, and to the operation the sum of its persons with that.
func fillAcross(m limits.Payments, part *answer.OperationPart, reached limits.RecipientMeans) {
	if len(m.EarnedAcross) == 0 {
		return
	}
	total := *part.MeanAfterLimit
	for j, k := range m.Places {
		all, has := m.Across[j]
		if !has {
			continue
		}
		at := slices.IndexFunc(part.ByPerson, func(p answer.PersonPart) bool { return p.ID == m.Producers[j].ID })
		person := &part.ByPerson[at]
		across := answer.AcrossPart{Operations: all.Operations, Alone: answer.Dollars(all.PaidSeparately), MeanAfterLimit: answer.Dollars(reached.Paid[k]), ChanceOfLimit: answer.Chance(reached.AtLimit[k])}
		if all.PaidSeparately > 0 {
			across.Part = across.MeanAfterLimit * person.MeanAfterLimit / across.Alone
		}
		person.Across = &across
		total += across.Part - person.MeanAfterLimit
	}
	part.MeanAcross = &total
}

// acrossFlags returns one flag for each person of several operations with a share in the
// farm.
func (r *YearRun) acrossFlags(part answer.OperationPart, f farm.Farm) (flags []answer.Flag) {
	for _, p := range part.ByPerson {
		if p.Across == nil || !position.HasShare(f, p.ID, r.Year.CropYear) {
			continue
		}
		message := fmt.Sprintf("%s has a share in %d operations of this table. Each alone, they pay %s on average in all. With one limit across all of them, %s is left. If two people share that name, give each a name of their own in the table.",
			p.ID, p.Across.Operations, flag.PlainDollars(float64(p.Across.Alone)), flag.PlainDollars(float64(p.Across.MeanAfterLimit)))
		flags = append(flags, answer.Flag{Code: answer.SeveralOperationsFlag, Severity: answer.Warning, Message: message, Source: flag.CitationOf("payment_limit", r.Year.CropYear)})
	}
	return flags
}
