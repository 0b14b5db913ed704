package payoff

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/invented"
)

// Averages under other means are those of TestPLCRateFillsATile, which says how 0.42, 0.61 and 0.22 come about.
func TestMeansUnderByHand(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	c.price.UsualError = math.Log(1.05)
	got := c.year.MeansUnder(&PLCRate{Base: c.base, Price: c.price}, []Sensitivity{Band[0], Band[lower], Band[higher]})
	always(t, "average as drawn", got[:1], 0.42)
	always(t, "price one usual error lower", got[1:2], 0.61)
	always(t, "price one usual error higher", got[2:], 0.22)
}

// The average of a rate is that of all its outcomes, and those of its replicates are of its own part of them.
func TestAverageOfARate(t *testing.T) {
	c := uncertainly(t, 2026, 4.00, 190, 0.25, 30, invented.Base(crop.Corn, 100, 150))
	rate := c.year.RatesOf(&PLCRate{Base: c.base, Price: c.price})
	size, all := c.year.Size, 0.0
	for j := range size.Replicates {
		sum := 0.0
		for i := range size.Points {
			sum += rate.Scenarios[j*size.Points+i]
		}
		if want := sum / float64(size.Points); math.Abs(rate.replicates[j]-want) > 1e-12 {
			t.Errorf("replicate %d averages %v, added up %v", j, rate.replicates[j], want)
		}
		all += sum
	}
	if want := all / float64(size.N()); want == 0 || math.Abs(rate.Means[0]-want) > 1e-12 {
		t.Errorf("average %v, added up %v", rate.Means[0], want)
	}
}

// A tile works a county yield out once, and rounds it once under each factor: what is kept is read again. The
// next tile begins anew.
func TestATileKeepsItsYields(t *testing.T) {
	c := uncertainly(t, 2026, 4.00, 190, 0, 30, invented.Base(crop.Corn, 100, 150))
	tile, county := newTile(c.year), c.base.Bases[0].Practices[0]
	tile.start(0)
	first := tile.Yields(county, 2)
	before := first[0]
	first[0] = 17
	if again := tile.Yields(county, 2); again[0] != 17 {
		t.Error("the same yields are rounded twice")
	}
	tile.yields[0].raw[0] = 200
	tile.means = Sensitivity{YieldOff: 0.1}
	if moved := tile.Yields(county, 2); moved[0] != 220 {
		t.Errorf("200 bushels, a tenth higher, are %v: they were worked out twice", moved[0])
	}
	tile.start(0)
	if anew := tile.Yields(county, 2); anew[0] != before {
		t.Errorf("the tile begins with %v, before with %v", anew[0], before)
	}
}

// Two bases of 40 and 60 acres that go together at one rate of 0.50, and one of 10 acres at 2.00, are paid
// 20 + 30 + 20 = 70; a part of one base keeps its claim.
func TestBasesPaidAsOne(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	acres := func(rate, acres crop.Money) crop.Money { return rate * acres }
	half, two := []float64{0.50}, []float64{2.00}
	byBase := []*Claim{acreClaim(half, 40, 0.50, acres), acreClaim(two, 10, 2.00, acres), acreClaim(half, 60, 0.50, acres), acreClaim(two, 7, 2.00, acres)}
	byPart, owned := paidAsOne(c.year, [][]int{{0, 1, 2}, {3}}, byBase)
	if byPart[0].Rates[0] != 70 || byPart[0].Most != 70 || byPart[1] != byBase[3] || len(owned) != 1 || owned[0][0] != 70 {
		t.Errorf("%v of at most %v, %d series", byPart[0].Rates[0], byPart[0].Most, len(owned))
	}
}
