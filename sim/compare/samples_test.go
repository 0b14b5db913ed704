package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// PLC on 20 stated samples, each 1 in 20: 4.42 less 3.90, 4.10 and 4.30 is paid in
// three of them, on a payment yield of 150 x 0.85: (0.52 + 0.32 + 0.12)/20 x 127.50
// = 6.12. The mean of the prices is 97.30/20 = 4.865.
func TestOwnOutcomesOfAPrice(t *testing.T) {
	m := invented.Market("2026-11-10")
	sample := []crop.Price{3.90, 4.10, 4.30}
	for len(sample) < 20 {
		sample = append(sample, 5.00)
	}
	m.Outlook[crop.Corn][2026] = farm.PriceOutlook{AsOf: m.AsOf, Samples: sample, Figure: farm.Figure{Value: 4.865, Status: crop.Assumed, Source: "own"}}
	part := only(t, cases.Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{})), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150))))
	if got := float64(part.Programs.Of(farm.PLC).Mean); math.Abs(got-6.12) > 0.01 || part.MYA.SDFrom != "20 own outcomes" {
		t.Errorf("PLC averages %.2f, want 6.12; %s", got, part.MYA.SDFrom)
	}
	if most := float64(part.Programs.Of(farm.PLC).Percentiles[6]); most > 0.52*127.5 {
		t.Errorf("95th percentile %v is beyond the least price", most)
	}
}
