package explain

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/position"
)

// declaredSteps holds printed steps against those that package program declares: the
// name, before the suffix of years, crops, bases and people; the unit, of the
// commodity explained or, where a step names one, of that; the paragraph cited.
func declaredSteps(t *testing.T, where string, commodity crop.Commodity, printed []Step) {
	t.Helper()
	for _, s := range printed {
		if !slices.ContainsFunc(program.Steps(), func(g program.StepGroup) bool {
			return slices.ContainsFunc(g.Steps, func(of program.Step) bool { return printsStep(of, commodity, s) })
		}) {
			t.Fatalf("%s: %s in %s from %q is no step of package program", where, s.Name, s.Unit, s.Source)
		}
	}
}

func printsStep(of program.Step, commodity crop.Commodity, s Step) bool {
	for _, c := range crop.Commodities() {
		if strings.HasSuffix(s.Name, "_"+string(c)) {
			commodity = c
		}
	}
	named := s.Name == of.Name || strings.HasPrefix(s.Name, of.Name+"_")
	return named && s.Unit == of.UnitFor(commodity) && s.Source != "" && strings.Contains(s.Source, of.Citation)
}

// The steps of new base, with crops that are not covered, are declared too.
func TestStepsOfNewBaseAreDeclared(t *testing.T) {
	f := newBaseFarm()
	f.Planted = append(f.Planted, f.Planted[0])
	f.Planted[len(f.Planted)-1].Commodity = position.FruitVegetables
	steps := newBase(t, f, 0.9).Steps
	declaredSteps(t, "new base", crop.Corn, steps)
	const least = 20 // two crops of five years alone are twelve
	if len(steps) < least {
		t.Errorf("%d steps of new base, want at least %d", len(steps), least)
	}
}
