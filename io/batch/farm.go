package batch

import (
	"strconv"
	"strings"

	"fencerow/io/batch/names"
	"fencerow/sim/answer"
)

// Farm is one whole farm and crop year: the columns of farms.csv in this order. USD in
// total before share, limit and sequestration; nil where a figure is missing, ARC-IC is
// on record or rows were refused.
type Farm struct {
	Client, Operation, Farm string
	CropYear                int
	BaseAcres               float64
	Highest, OnRecord       *answer.ChoiceFigures
}

// farmColumns are the heads of farms.csv.
var farmColumns = strings.Fields("client operation farm crop_year base_acres choice_highest mean p5 p95 choice_on_record mean_on_record p5_on_record p95_on_record")

func (f Farm) record() []string {
	line := []string{f.Client, f.Operation, f.Farm, strconv.Itoa(f.CropYear), number(&f.BaseAcres, money)}
	for _, c := range []*answer.ChoiceFigures{f.Highest, f.OnRecord} {
		if c == nil {
			line = append(line, "", "", "", "")
			continue
		}
		line = append(line, choiceText(c.Choice), number((*float64)(&c.Mean), money), number((*float64)(c.P5), money), number((*float64)(c.P95), money))
	}
	return line
}

// choiceText writes a choice as "corn=PLC soybeans=ARC-CO".
func choiceText(choice answer.Choice) string {
	var words []string
	for _, c := range choice.Commodities() {
		words = append(words, string(c)+"="+string(choice[c]))
	}
	return strings.Join(words, " ")
}

// farmsOf returns a line for each farm of an operation and crop year.
func farmsOf(client, operation string, c answer.Comparison, incomplete map[string]bool, labels names.Labels) (farms []Farm) {
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			line := Farm{Client: labels.Client(client), Operation: labels.Operation(client, operation), Farm: labels.Farm(f.Farm), CropYear: y.CropYear}
			for _, part := range f.Commodities {
				line.BaseAcres += float64(part.BaseAcres)
			}
			if f.Whole != nil && !incomplete[f.Farm] {
				line.Highest, line.OnRecord = &f.Whole.Highest, f.Whole.OnRecord
			}
			farms = append(farms, line)
		}
	}
	return farms
}
