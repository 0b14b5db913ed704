package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Past years drawn again: 13 scenarios, so every chance is a whole number of
// thirteenths, the 5th and 95th percentile are left out, and the drought year has
// both the low yield and the high price.
func TestPastYearsDrawnAgain(t *testing.T) {
	m := invented.Market("2026-05-12")
	invented.Project(m, crop.Corn, 2026, 4.20, -1)
	yield := invented.CornYield(farm.YieldOutlook{})
	yield.History = invented.LongHistory()
	c := cases.Question(m, invented.Book(yield), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))
	c.Model = answer.PastHistory
	whole := ask(t, c)
	part := whole.CropYears[0].Farms[0].Commodities[0]
	for _, chance := range []answer.Chance{part.Programs.Of(farm.PLC).ChanceOfPayment, part.Programs.Of(farm.ARCCO).ChanceOfPayment, *part.ChanceNeitherPays} {
		if of13 := 13 * float64(chance); math.Abs(of13-math.Round(of13)) > 0.01 {
			t.Errorf("chance %v is %.3f thirteenths", chance, of13)
		}
	}
	for _, p := range []*answer.ProgramPart{part.Programs.Of(farm.PLC), part.Programs.Of(farm.ARCCO)} {
		if !math.IsNaN(p.Percentiles[0]) || !math.IsNaN(p.Percentiles[6]) || math.IsNaN(p.Percentiles[1]) {
			t.Errorf("percentiles %v", p.Percentiles)
		}
		if want := float64(p.SD) / math.Sqrt(13); math.Abs(float64(p.StandardError)-want) > 1e-9 {
			t.Errorf("standard error %v, want %v", p.StandardError, want)
		}
	}
	if whole.Model.Name != answer.PastHistory || !strings.Contains(whole.Model.Note, "13 past years (2011 to 2023)") {
		t.Errorf("%+v", whole.Model)
	}
	delete(yield.History, 2015)
	part = only(t, c)
	if part.Programs.Of(farm.ARCCO) != nil || part.Programs.Of(farm.PLC) == nil || !strings.Contains(part.LeaderReason, "2011 to 2023") {
		t.Errorf("without the yield of 2015: ARC-CO %v, %q", part.Programs.Of(farm.ARCCO), part.LeaderReason)
	}
}

// A stress changes no single mean much: PLC rests on one price alone.
func TestStressKeepsSinglePrices(t *testing.T) {
	c := cases.SixYears(0.15)
	c.CropYears, c.Draws = []crop.CropYear{2026}, 1<<16
	usual := only(t, c)
	c.Tail = answer.StudentTTail
	stressed := only(t, c)
	for _, pair := range [][2]*answer.ProgramPart{{usual.Programs.Of(farm.PLC), stressed.Programs.Of(farm.PLC)}} {
		if d := math.Abs(float64(pair[0].Mean - pair[1].Mean)); d > 4*math.Hypot(float64(pair[0].StandardError), float64(pair[1].StandardError)) {
			t.Errorf("PLC averages %v, under stress %v", pair[0].Mean, pair[1].Mean)
		}
	}
}
