package answer

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// PLC on 20 own outcomes, straight between those next to each other, 1 in 19 in
// each interval: 4.42 less the price averages 0.42 from 3.90 to 4.10, 0.22 to 4.30,
// and 0.06 in the 0.12/0.70 of the way to 5.00 that pays: 0.6503/19 x 150 x 0.85 =
// 4.36.
func TestOwnOutcomesOfAPrice(t *testing.T) {
	m := testMarket("2026-11-10")
	sample := []crop.Price{3.90, 4.10, 4.30}
	for len(sample) < 20 {
		sample = append(sample, 5.00)
	}
	m.Outlook[crop.Corn][2026] = farm.PriceOutlook{AsOf: m.AsOf, Samples: sample, Figure: farm.Figure{Value: 4.865, Status: crop.Assumed, Source: "own"}}
	part := only(t, testCase(m, book(cornYield(farm.YieldOutlook{})), oneFarm("0417", base(crop.Corn, 100, 150))))
	if got := float64(part.Programs.PLC.Mean); math.Abs(got-4.36) > 0.03 || part.MYA.Spread != "20 own outcomes" {
		t.Errorf("PLC averages %.2f, want 4.36; %s", got, part.MYA.Spread)
	}
	if most := float64(part.Programs.PLC.Percentiles[6]); most > 0.52*127.5 {
		t.Errorf("95th percentile %v is beyond the least price", most)
	}
}
