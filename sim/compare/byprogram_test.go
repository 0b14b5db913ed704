package compare_test

import (
	"encoding/json"
	"slices"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// What an answer writes is read back as the same list, a third program too.
func TestByProgramIsReadBack(t *testing.T) {
	list := slices.Clone(only(t, cases.Corn()).Programs)
	third := *list.Of(farm.PLC)
	third.Mean, third.MeanWhenPaying = 1234.56, nil
	list = append(list, answer.OneProgram[answer.ProgramPart]{Program: "THIRD", Figures: &third}, answer.OneProgram[answer.ProgramPart]{Program: "FOURTH", Figures: nil})
	var back answer.Programs
	if err := json.Unmarshal([]byte(invented.AsJSON(t, list)), &back); err != nil {
		t.Fatal(err)
	}
	if invented.AsJSON(t, back) != invented.AsJSON(t, list) {
		t.Errorf("read back as %s, written %s", invented.AsJSON(t, back), invented.AsJSON(t, list))
	}
	var order []farm.Program
	for _, one := range back {
		order = append(order, one.Program)
	}
	if want := []farm.Program{farm.PLC, farm.ARCCO, "THIRD", "FOURTH"}; !slices.Equal(order, want) {
		t.Errorf("read back in the order %v, want %v", order, want)
	}
	if p := back.Of("THIRD"); p == nil || p.Mean != 1234.56 || back.Of("FOURTH") != nil || !back.Any() {
		t.Errorf("the third is %+v, the fourth %+v", p, back.Of("FOURTH"))
	}
}
