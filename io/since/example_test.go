package since_test

import (
	"encoding/json"
	"fmt"

	"fencerow/io/since"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// cornAt asks about one farm of 120 corn base acres at a projected price, 256 outcomes.
func cornAt(price float64) answer.Question {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, price, 0)
	q := cases.Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: "local_harvest"})), invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150)))
	q.Draws = 256
	return q
}

// At a known price of 4.00 PLC pays 4.42 less 4.00 on 150 bushels and 85 of 100 acres: $53.55
// a base acre. At 3.42 it is $1.00 on the same: $127.50.
func ExampleLast_Compared() {
	before, err := compare.Answer(cornAt(4.00))
	if err == nil {
		before.Inputs, err = since.Keep(cornAt(4.00), "1.0")
	}
	text, bad := json.Marshal(before)
	last, worse := since.Read("last.json", text)
	today, worst := compare.Answer(cornAt(3.42))
	if err != nil || bad != nil || worse != nil || worst != nil {
		fmt.Println(err, bad, worse, worst)
		return
	}
	found, err := last.Compared(cornAt(3.42), today, "1.0")
	if err != nil {
		fmt.Println(err)
		return
	}
	line := found.Lines[0]
	fmt.Println(float64(*line.Before.PLC), float64(*line.After.PLC), line.Cause, line.Changed[0].Before, line.Changed[0].After)
	// Output: 53.55 127.5 price 4.00 3.42
}
