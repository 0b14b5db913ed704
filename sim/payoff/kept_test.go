package payoff

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/position"
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

// A rate without a key is of one operation and not kept: it is worked out each time. What is forgotten has no series left.
func TestRatesAreForgotten(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	rate := c.year.RatesOf(unnamed{0.5})
	if again := c.year.RatesOf(unnamed{0.5}); again == rate {
		t.Error("a rate without a key is kept")
	}
	always(t, "rate", rate.Scenarios, 0.5)
	if got := c.year.summaryOf(rate); got.AtMaximum != 1 || got.Maximum != 0.5 {
		t.Errorf("it is always the most there can be: %+v", got)
	}
	if got := c.year.summaryOf(c.year.RatesOf(unnamed{0})); got.AtMaximum != 0 || got.Paying != 0 {
		t.Errorf("a rate that never pays is never at its most: %+v", got)
	}
	c.year.Forget()
	if rate.Scenarios != nil || len(c.year.all) != 0 {
		t.Error("a series is still there")
	}
}

// unnamed pays so much, the most there can be, in every outcome.
type unnamed struct{ pays float64 }

func (unnamed) Key() Key { return Key{} }

func (u unnamed) Fill(rates, most []float64, _ *Tile) {
	for i := range rates {
		rates[i], most[i] = u.pays, u.pays
	}
}

// What is final moves under no other mean; else a price moves by its usual errors and a yield by its estimator and by what it is off.
func TestFactorsOfASensitivity(t *testing.T) {
	s := Sensitivity{PriceErrors: 2, YieldOff: 0.1}
	price := position.Price{UsualError: math.Log(1.05)}
	if got := s.priceFactor(price); math.Abs(got-1.05*1.05) > 1e-12 {
		t.Errorf("two usual errors of 5 percent: %v", got)
	}
	if price.Final = true; s.priceFactor(price) != 1 {
		t.Errorf("a final price moves by %v", s.priceFactor(price))
	}
	if got := s.yieldFactor(position.Yield{}); math.Abs(got-1.1) > 1e-12 {
		t.Errorf("a tenth higher: %v", got)
	}
	if got := s.yieldFactor(position.Yield{Stage: odds.Final}); got != 1 {
		t.Errorf("a final yield moves by %v", got)
	}
}

// Rates that are not known yet: PLC of the commodity and ARC-CO of each county, once for bases of the same county that stand together.
func TestRatesNotKnownYet(t *testing.T) {
	bases := []farm.Base{invented.Base(crop.Corn, 100, 150), invented.Base(crop.Corn, 50, 150), invented.Base(crop.Corn, 30, 150)}
	bases[2].County = "99003"
	c := inCounties(t, map[string]float64{"99001": 190, "99003": 150}, bases...)
	all := c.year.unknownRates(c.base, c.price)
	if len(all) != 3 || all[0].Key().Program != farm.PLC || all[1].Key().County != "99001" || all[2].Key().County != "99003" {
		t.Errorf("%d rates: %+v", len(all), all)
	}
	c.year.RatesOf(all[1])
	if rest := c.year.unknownRates(c.base, c.price); len(rest) != 2 || rest[1].Key().County != "99003" {
		t.Errorf("%d rates once one is worked out", len(rest))
	}
	c.base.PLCMissing = "a payment yield"
	if rest := c.year.unknownRates(c.base, c.price); len(rest) != 1 {
		t.Errorf("%d rates without PLC", len(rest))
	}
}

// A rate that none of the moved means touches is worked out once for a tile, not once for each of them.
func TestMeansThatMoveNothing(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	worked := 0
	c.year.RatesOf(counted{&worked})
	if tiles := c.year.Size.N() / c.year.Size.Tile(); worked != tiles {
		t.Errorf("worked out %d times for %d tiles", worked, tiles)
	}
}

// counted is unnamed, and counts how often it is worked out.
type counted struct{ times *int }

func (counted) Key() Key { return Key{} }

func (c counted) Fill(rates, most []float64, t *Tile) {
	*c.times++
	unnamed{}.Fill(rates, most, t)
}

// Where nothing is paid nothing is worked out; a rate of one dollar is paid as any other. At 3.42 PLC pays 1.00: 150 x 85 is 12,750.00. ARC-CO
// at 1.00, 0 and 2.00 an acre pays 85.00, 0 and 170.00.
func TestARateOfOneDollar(t *testing.T) {
	c := certainly(t, 2026, 3.42, 190, invented.Base(crop.Corn, 100, 150))
	series := c.year.Zeros()
	c.payoffs().Of(farm.PLC).Total().Add(series, 0)
	always(t, "PLC", series, 12_750)
	paid := make([]crop.Money, 3)
	countyClaim([]float64{1.00, 0, 2.00}, 85, 2.00).Add(paid, 0.5, 0)
	always(t, "half of ARC-CO", []float64{paid[0] - 42.50, paid[1], paid[2] - 85}, 0)
}
