package batch

import (
	"fencerow/io/batch/calls"
	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/names"
	"fencerow/io/read/farmtable"
	"fencerow/sim/answer"
)

// lists adds what an operation brings to the lists that people work through: calls and
// exceptions. results are its lines; unnamed says that no row names a producer.
func (b *partResults) lists(client, operation string, c answer.Comparison, whole farmtable.Operation, results []Result, unnamed bool, labels names.Labels) {
	shownClient, shownOperation, owners := labels.Client(client), labels.Operation(client, operation), calls.Owners(whole.Farms)
	if labels.Masked() {
		owners = func(string) string { return "" } // whoever owns an entity has no number
	}
	words := labels.Words(whole.Farms)
	for _, y := range c.CropYears {
		shown := labels.Year(y)
		b.calls = append(b.calls, calls.Of(shownClient, shownOperation, shown, owners, unnamed)...)
		for _, f := range y.Farms {
			lines := results[:len(f.Commodities)]
			results = results[len(f.Commodities):]
			_, _, _, number := labels.Place(f)
			all := exceptions.Of(exceptions.Farm{Client: shownClient, Operation: shownOperation, Number: number, CropYear: y.CropYear, Part: f, Dollars: togetherAfterLimits(lines), Refused: whole.Incomplete[f.Farm], Words: words})
			for _, one := range all {
				if !b.shared.Add(one) {
					b.exceptions = append(b.exceptions, one)
				}
			}
		}
	}
}

// togetherAfterLimits is what the lines of a farm average after limits, USD; nil where none
// has a figure.
func togetherAfterLimits(lines []Result) *float64 {
	sum, known := 0.0, false
	for _, r := range lines {
		if r.AfterLimit != nil {
			sum, known = sum+*r.AfterLimit, true
		}
	}
	if !known {
		return nil
	}
	return &sum
}
