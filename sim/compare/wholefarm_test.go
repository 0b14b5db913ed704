package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// halfCent is what rounding to the cent can change for one base in one scenario.
const halfCent = 0.005

// wholeFarms has farms of one and two counties, of equal and of differing tracts,
// with and without elections on record.
func wholeFarms() answer.Question {
	c, operations := manyOperations(3, 1)
	c.Operation = operations[0]
	farms := c.Operation.Farms
	farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC, crop.Soybeans: farm.ARCCO}
	farms[1].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCCO}
	second := invented.Base(crop.Corn, 77, 101.3)
	second.Tract, second.County = "2", "99005"
	farms[2].Bases[0].Tract, farms[2].Bases[1].Tract = "1", "1"
	farms[2].Bases = append(farms[2].Bases, second)
	farms[2].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCCO, crop.Soybeans: farm.ARCCO}
	return c
}

// agrees holds the figures of a choice against the full election of the same choice.
func agrees(t *testing.T, name string, got answer.ChoiceFigures, of answer.FarmPart, bases int) {
	t.Helper()
	for _, e := range of.Elections {
		if !sameChoices(e.Choice, got.Choice) {
			continue
		}
		tolerance := halfCent*float64(bases) + 1e-9
		for figure, pair := range map[string][2]float64{
			"mean": {float64(got.Mean), float64(*e.Mean)}, "p5": {float64(*got.P5), e.Percentiles[0]}, "p95": {float64(*got.P95), e.Percentiles[len(e.Percentiles)-1]},
		} {
			if off := math.Abs(pair[0] - pair[1]); !(off <= tolerance) {
				t.Errorf("%s %s: got %v, want %v, off by %v of %v", name, figure, pair[0], pair[1], off, tolerance)
			}
		}
		return
	}
	t.Errorf("%s: no election %v", name, got.Choice)
}

func sameChoices(a, b answer.Choice) bool {
	for k, p := range a {
		if b[k] != p {
			return false
		}
	}
	return len(a) == len(b)
}

// The two choices of a brief answer are those of the full one, and the highest is the
// highest.
func TestWholeFarmAgreesWithElections(t *testing.T) {
	c := wholeFarms()
	brief := ask(t, c).CropYears[0].Farms
	c.Brief = false
	full := ask(t, c).CropYears[0].Farms
	for i, f := range full {
		bases := len(c.Operation.Farms[i].Bases)
		if f.Whole != nil || brief[i].Whole == nil {
			t.Fatalf("farm %s: whole farm %v in the full answer, %v in the brief one", f.Farm, f.Whole, brief[i].Whole)
		}
		agrees(t, f.Farm+" highest", brief[i].Whole.Highest, f, bases)
		for _, e := range f.Elections {
			if float64(*e.Mean) > float64(brief[i].Whole.Highest.Mean)+halfCent*float64(bases) {
				t.Errorf("farm %s: %v averages %v, the highest %v", f.Farm, e.Choice, *e.Mean, brief[i].Whole.Highest)
			}
		}
		if on := brief[i].Whole.OnRecord; on != nil {
			agrees(t, f.Farm+" on record", *on, f, bases)
			if !sameChoices(on.Choice, answer.Choice(c.Operation.Farms[i].Record)) {
				t.Errorf("farm %s: on record %v", f.Farm, on.Choice)
			}
		}
		if has := brief[i].Whole.OnRecord != nil; has != (i != 1) {
			t.Errorf("farm %s: on record %v", f.Farm, has)
		}
	}
}

// Where the law pays the higher of both there is one choice, and none on record.
func TestWholeFarmWithNothingToChoose(t *testing.T) {
	c := cases.HigherOf2025()
	c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
	full := ask(t, c).CropYears[0].Farms[0]
	c.Brief = true
	whole := ask(t, c).CropYears[0].Farms[0].Whole
	if whole == nil || whole.OnRecord != nil {
		t.Fatalf("got %+v, want one choice", whole)
	}
	agrees(t, full.Farm, whole.Highest, full, 1)
}

// No figures for a farm with ARC-IC on record, or where one is missing.
func TestNoWholeFarm(t *testing.T) {
	c := wholeFarms()
	c.Operation.Farms[0].Record[crop.Corn] = farm.ARCIC
	c.Operation.Farms[1].Bases[0].PaymentYield = nil
	for i, f := range ask(t, c).CropYears[0].Farms {
		if has := f.Whole != nil; has != (i == 2) {
			t.Errorf("farm %s: whole farm %v", f.Farm, f.Whole)
		}
	}
}

// Where scenarios are few past years, percentiles further out than one of them are left
// out.
func TestWholeFarmOfPastYears(t *testing.T) {
	c := cases.Corn()
	yield := invented.CornYield(farm.YieldOutlook{})
	yield.History = invented.LongHistory()
	c.Counties, c.Brief, c.Model = invented.Book(yield), true, answer.PastHistory
	whole := ask(t, c).CropYears[0].Farms[0].Whole
	if whole == nil || whole.Highest.P5 != nil || whole.Highest.P95 != nil {
		t.Errorf("got %+v", whole)
	}
}
