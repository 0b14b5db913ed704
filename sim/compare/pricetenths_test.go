package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Corn at 4.80 with a log SD of 0.07069, lognormal:
// 4.80 exp(-1.28155 x 0.07069 - 0.07069^2/2) = 4.80 x 0.91111 = 4.3733 is exceeded in 9
// of 10, 4.80 exp(1.28155 x 0.07069 - 0.07069^2/2) = 4.80 x 1.09209 = 5.2420 in 1.
func TestPriceTenths(t *testing.T) {
	c := cases.Corn()
	c.Market = invented.Market("2026-11-10")
	invented.Project(c.Market, crop.Corn, 2026, 4.80, 0.07069)
	part := only(t, c)
	const tolerance = 0.0005
	if m := part.MYA; m.Low == nil || m.High == nil || math.Abs(m.Low.Value-4.3733) > tolerance || math.Abs(m.High.Value-5.2420) > tolerance {
		t.Errorf("low %v, high %v; want 4.3733, 5.2420", m.Low, m.High)
	}
	c.Brief = true
	if m := only(t, c).MYA; m.Low != nil || m.High != nil {
		t.Errorf("a batch has low %v, high %v", m.Low, m.High)
	}
	m := invented.Market("2026-11-10")
	m.MYA[crop.Corn] = map[crop.CropYear]farm.Figure{2026: {Value: 4.24, Status: crop.Agency, Source: "own"}}
	known := only(t, cases.Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{})), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))).MYA
	if known.Low == nil || known.Low.Value != 4.24 || known.High.Value != 4.24 {
		t.Errorf("a known price lies between %v and %v, want 4.24", known.Low, known.High)
	}
}

// Of 20 samples 3.90 and 4.10 are the lowest tenth, so that it ends between 4.10 and
// the next, 4.30; all but three are 5.00.
func TestTenthsOfOwnOutcomes(t *testing.T) {
	m := invented.Market("2026-11-10")
	sample := []crop.Price{3.90, 4.10, 4.30}
	for len(sample) < 20 {
		sample = append(sample, 5.00)
	}
	m.Outlook[crop.Corn][2026] = farm.PriceOutlook{AsOf: m.AsOf, Samples: sample, Figure: farm.Figure{Value: 4.865, Status: crop.Assumed, Source: "own"}}
	v := only(t, cases.Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{})), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))).MYA
	if v.Low == nil || v.Low.Value < 4.10 || v.Low.Value > 4.30 || v.High.Value != 5 {
		t.Errorf("low %v, high %v; want 4.10 to 4.30, 5.00", v.Low, v.High)
	}
}
