package personal_test

import (
	"fmt"

	"fencerow/io/show/personal"
	"fencerow/io/show/report"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// A price of 3.42 against a reference price of 4.42 pays 1.00 x 150 x 0.85 = 127.50 per
// base acre under PLC. Of 100 acres the landowner has two fifths, 5,100.00, and is paid
// 5,100.00 less 5.7 percent: 4,809.30.
func ExampleOfPerson() {
	c := cases.SharedOperation(100, []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "landowner", Kind: farm.Person}}, farm.Shares{"operator": 0.6, "landowner": 0.4})
	cases.Record(&c, farm.PLC)
	c.Operation.Settings.Sequestration = map[crop.CropYear]crop.Share{2026: 0.057}
	found, err := compare.Answer(c)
	if err != nil {
		panic(err)
	}
	for _, block := range personal.OfPerson(found, "landowner").Blocks {
		if text, is := block.(report.Lead); is {
			fmt.Println(text)
			break
		}
	}
	lender := personal.OfLender(found, false)
	for _, block := range lender.Blocks {
		if table, is := block.(report.Grid); is {
			fmt.Println(table.Title, table.Rows)
		}
	}
	// Output:
	// On average you would be paid $4,809 for 2026; half of outcomes pay less than $4,809.
	// [The operator: dollars on average, and in poor cases] [[Oct 2027 (2026) either way $7,650 $436 $7,214 $7,214 $7,214]]
	// [The landowner: dollars on average, and in poor cases] [[Oct 2027 (2026) either way $5,100 $291 $4,809 $4,809 $4,809]]
}
