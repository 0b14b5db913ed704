package personal

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// What people typed stands on the sheets of those who have a share there: the choice of the
// shared farm with both, their own signature with each, and what the choice pays.
func TestTypedChoicesOnSheets(t *testing.T) {
	q := twoFarms()
	q.Operation.Farms[0].Choice = map[crop.CropYear]map[crop.Commodity]farm.Program{2026: {crop.Corn: farm.ARCCO}}
	q.Operation.Farms[0].Signed = map[crop.CropYear]map[string]farm.Signature{2026: {"operator": {Signed: farm.Yes, On: "2026-11-20"}, "landowner": {Signed: farm.No}}}
	c := answered(t, q)
	typed := c.CropYears[0].Operation.UnderElections(answer.TypedChoice)
	for id, signature := range map[string]string{"operator": "signed November 20, 2026", "landowner": "not signed"} {
		text := textOf(OfPerson(c, id))
		at := 0
		for i, p := range typed.ByPerson {
			if p.ID == id {
				at = i
			}
		}
		says(t, text, "Farm 0417, choice typed here for 2026: corn ARC-CO.", "Your signature on farm 0417: "+signature+".",
			"Under the choices typed here you would be paid "+amount(typed.ByPerson[at].MeanAfterLimit)+" on average")
		saysNot(t, text, "Farm 0588, choice typed")
	}
	says(t, textOf(OfPerson(c, "operator")), "Not included: corn on farm 0588.")
	lender := OfLender(c, false)
	says(t, textOf(lender), "Not included under the choices typed here for 2026: corn on farm 0588. No choice is typed, or a figure is missing.", "Elections for 2026: 1 of 3 signatures are recorded here.")
	rows := 0
	var all [][]string
	for _, b := range lender.Blocks {
		if table, is := b.(report.Grid); is {
			all = append(all, table.Rows...)
		}
	}
	for i, row := range all {
		if strings.Contains(row[0], "as typed here") {
			paid := dollars(typed.ByPerson[rows].MeanAfterLimit)
			if rows++; row[3] != amount(paid) {
				t.Errorf("row %d: %v, want %s paid", i, row, amount(paid))
			}
		}
	}
	if rows != 2 {
		t.Errorf("%d rows of typed choices, want 2", rows)
	}
	none := answered(t, twoFarms())
	for _, text := range []string{textOf(OfPerson(none, "operator")), textOf(OfLender(none, false))} {
		saysNot(t, text, "typed", "ignature")
	}
}
