package answer

import (
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// YieldFigures is a yield for the JSON.
func YieldFigures(o position.Yield) *YieldView {
	view := &YieldView{
		Mean: Dollars(o.Mean), SD: Dollars(o.SD), KnownFrom: string(o.Stage), Status: o.Status, Shape: string(o.Shape),
		Correlation: Chance(o.Correlation), MeanFrom: o.MeanFrom, SDFrom: o.SDFrom, OtherMeans: []OtherMean{},
	}
	for by := position.MeanUsed + 1; by < position.Estimators; by++ {
		if mean, ok := o.OtherMean(by); ok {
			view.OtherMeans = append(view.OtherMeans, OtherMean{Dollars(mean.Value), mean.Source})
		}
	}
	return view
}

// ProgramFigures is a summary of payments for the JSON.
func ProgramFigures(s scenario.Summary) *ProgramPart {
	p := &ProgramPart{
		Mean: Dollars(s.Mean), StandardError: Dollars(s.StandardError), SD: Dollars(s.SD), Maximum: Dollars(s.Maximum),
		ChanceOfPayment: Chance(s.Paying), ChanceOfMaximum: Chance(s.AtMaximum), Percentiles: Percentiles(s.Percentiles),
		ChanceError: Chance(s.PayingError), PercentileErrors: Percentiles(s.Errors),
	}
	if s.Paying > 0 {
		p.MeanWhenPaying = DollarsOf(s.Mean / s.Paying)
	}
	return p
}

// CasesOf are evenly spaced cases for the JSON, nil for none.
func CasesOf(cases []float64) (all []Dollars) {
	for _, x := range cases {
		all = append(all, Dollars(x))
	}
	return all
}
