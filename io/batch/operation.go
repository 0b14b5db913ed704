package batch

import (
	"strconv"
	"strings"

	"fencerow/io/batch/names"
	"fencerow/sim/answer"
)

// Operation is one operation and crop year: the columns of operations.csv. USD after
// share, limit and sequestration, for the producers of the table.
type Operation struct {
	Client, Operation string
	CropYear, Farms   int
	Part              answer.OperationPart
	LeftOut           string
}

// operationColumns are the heads of operations.csv.
var operationColumns = strings.Fields("client operation crop_year farms mean_after_limit bound gap exact cost_of_limit simplest_choice simplest_mean_after_limit left_out mean_after_limit_across")

func (o Operation) record() []string {
	simplest, mean := "", (*answer.Dollars)(nil)
	if s := o.Part.Simplest; s != nil {
		simplest, mean = choiceText(s.Choice), &s.MeanAfterLimit
	}
	across := o.Part.MeanAfterLimit
	if o.Part.MeanAcross != nil {
		across = o.Part.MeanAcross
	}
	dollars := func(d *answer.Dollars) string { return number((*float64)(d), money) }
	return []string{o.Client, o.Operation, strconv.Itoa(o.CropYear), strconv.Itoa(o.Farms), dollars(o.Part.MeanAfterLimit), dollars(o.Part.Bound), dollars(o.Part.Gap),
		strconv.FormatBool(o.Part.Exact), dollars(o.Part.CostOfLimit), simplest, dollars(mean), o.LeftOut, dollars(across)}
}

// operationsOf returns one line for each crop year of an operation.
func operationsOf(client, operation string, c answer.Comparison, incomplete map[string]bool, labels names.Labels) (all []Operation) {
	for _, y := range c.CropYears {
		all = append(all, Operation{labels.Client(client), labels.Operation(client, operation), y.CropYear, len(y.Farms), y.Operation, leftOut(y, incomplete, labels)})
	}
	return all
}

// leftOut names what is missing from the totals of an operation.
func leftOut(y answer.YearPart, incomplete map[string]bool, labels names.Labels) string {
	var left []string
	for _, both := range y.Operation.LeftOut { // farm and commodity
		farm, commodity, _ := strings.Cut(both, " ")
		left = append(left, labels.Farm(farm)+" "+commodity)
	}
	for _, f := range y.Farms {
		if incomplete[f.Farm] {
			left = append(left, labels.Farm(f.Farm)+" (rows refused)")
		}
	}
	return strings.Join(left, "; ")
}
