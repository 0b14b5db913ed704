package compare

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// A carried price and its leader's rise and fall together: as canola takes the whole
// change of soybeans, the error of soybeans is part of its own, so that the correlation
// is not below the ratio of both standard deviations.
func TestCarriedPriceFollowsItsLeader(t *testing.T) {
	c := cases.Canola(position.WithEveryPrice(invented.CanolaMarket()))
	r, err := NewYearRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	canola, _ := c.Sources().Price(crop.Canola, 2026, 4)
	soybeans, _ := c.Sources().Price(crop.Soybeans, 2026, 2)
	x, y := r.Year.PriceShock(crop.Canola, canola), r.Year.PriceShock(crop.Soybeans, soybeans)
	sum := 0.0
	for i := range x {
		sum += x[i] * y[i]
	}
	least := soybeans.WholeSD / canola.WholeSD
	if got := sum / float64(len(x)); got < least || got > 1 {
		t.Errorf("correlation %.2f, want at least %.2f", got, least)
	} else {
		t.Logf("correlation %.2f, at least %.2f", got, least)
	}
}
