package summary

import (
	"strings"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// The totals have a line of their own for choices that people typed, with the lines that are
// not in it by name; none where nothing was typed.
func TestTotalsUnderTypedChoices(t *testing.T) {
	plc := farm.PLC
	y := answer.YearPart{CropYear: 2026, Farms: []answer.FarmPart{{Farm: "99001-0417"}}}
	under := func(name answer.UnderName, mean answer.Dollars, left ...string) answer.UnderPart {
		return answer.UnderPart{Elections: name, MeanAfterLimit: &mean, Percentiles: &answer.Percentiles{0, 120, 0, 0, 0, 0, 0}, LeftOut: left}
	}
	y.Standing.Lines = []answer.StandingLine{{Farm: "99001-0417", Commodity: "corn", Typed: &plc}, {Farm: "99001-0417", Commodity: "soybeans"}}
	y.Operation.Under = []answer.UnderPart{under(answer.LastElected, 900), under(answer.AsItLeans, 1000)}
	if said := strings.Join(totals([]answer.YearPart{y}), "\n"); strings.Contains(said, "typed") {
		t.Error(said)
	}
	y.Operation.Under = append(y.Operation.Under, under(answer.TypedChoice, 800, "99001-0417 soybeans"))
	lines := totals([]answer.YearPart{y})
	if want := "Under the choices typed here: $800, poor $120. Not in it, because no choice is typed: 0417 soybeans."; len(lines) != 2 || lines[1] != want {
		t.Errorf("%q, want %q", lines, want)
	}
	y.Operation.Under[2].MeanAfterLimit = nil
	if lines := totals([]answer.YearPart{y}); lines[1] != "Under the choices typed here: unknown. Not in it, because no choice is typed: 0417 soybeans." {
		t.Errorf("%q", lines)
	}
}
