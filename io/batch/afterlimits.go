package batch

import (
	"fencerow/sim/answer"
)

// afterLimits returns what each line of a year pays on average under the choices after
// share, limit and sequestration, USD, in the order of the lines; nil where a figure is
// missing. What a person is paid is laid on the lines in proportion to the person's shares
// of their averages, so that a limit takes the same part of each, and the lines of an
// operation add up to its average (with one limit for a person of several operations).
func afterLimits(y answer.YearPart) []*float64 {
	owed := map[string]float64{} // by person, USD before limit
	lines := y.Standing.Lines
	means := make([]*answer.ProgramPart, 0, len(lines))
	for _, f := range y.Farms {
		for _, part := range f.Commodities {
			line := lines[len(means)]
			mean := part.Programs.Of(line.Highest)
			means = append(means, mean)
			if mean == nil {
				continue
			}
			for _, s := range line.Signers {
				owed[s.ID] += float64(s.Share) * float64(mean.Mean) * float64(line.BaseAcres)
			}
		}
	}
	paid := map[string]float64{} // part of what is owed
	for _, p := range y.Operation.ByPerson {
		part := p.MeanAfterLimit
		if p.Across != nil {
			part = p.Across.Part
		}
		if owed[p.ID] > 0 {
			paid[p.ID] = float64(part) / owed[p.ID]
		}
	}
	all := make([]*float64, len(lines))
	for i, mean := range means {
		if mean == nil {
			continue
		}
		sum := 0.0
		for _, s := range lines[i].Signers {
			sum += float64(s.Share) * float64(mean.Mean) * float64(lines[i].BaseAcres) * paid[s.ID]
		}
		all[i] = &sum
	}
	return all
}
