package worklist_test

import (
	"fmt"

	"fencerow/io/show/report"
	"fencerow/io/show/worklist"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// The list of one farm of two people: corn was chosen and the operator signed, nothing else
// was typed.
func ExampleOfElections() {
	plc, arc := farm.PLC, farm.ARCCO
	signers := []answer.Signer{{ID: "operator", Share: 0.6, Signed: farm.Yes, On: "2026-11-20"}, {ID: "landowner", Share: 0.4}}
	c := answer.Comparison{Today: "2026-11-25", CropYears: []answer.YearPart{{
		CropYear: 2026,
		Standing: answer.Standing{Lines: []answer.StandingLine{
			{Farm: "99001-0417", Commodity: crop.Corn, OnRecord: &plc, Typed: &arc, Signers: signers},
			{Farm: "99001-0417", Commodity: crop.Soybeans, OnRecord: &arc, Signers: signers},
		}},
	}}}
	for _, b := range worklist.OfElections(c).Blocks {
		switch b := b.(type) {
		case report.Lead:
			fmt.Println(b)
		case report.Grid:
			for _, row := range b.Rows {
				fmt.Println(row)
			}
		}
	}
	// Output:
	// For 2026, choices are typed for 1 of 2 farms and crops. 1 of 2 signatures are recorded here.
	// [0417 corn PLC ARC-CO operator, landowner operator signed November 20, 2026; landowner not recorded here]
	// [0417 soybeans ARC-CO ____ operator, landowner operator signed November 20, 2026; landowner not recorded here]
}
