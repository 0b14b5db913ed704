package payoff

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// certain is one farm's corn in a crop year whose price and county yield are projected
// without any spread, so that every scenario can be worked out by hand.
type certain struct {
	year  *Year
	base  *position.CommodityBase
	price position.Price
	farm  farm.Farm
}

// certainly is uncertainly without any standard deviation.
func certainly(t *testing.T, y crop.CropYear, price, yield float64, bases ...farm.Base) certain {
	t.Helper()
	return uncertainly(t, y, price, yield, 0, 0, bases...)
}

// uncertainly is corn of 2026: its reference price is 4.42, 88 percent of the Olympic average of
// 4.53, 6.00, 6.54, 4.55, 4.24 (5.0267); its benchmark price 5.03, with 4.24 raised to 4.42;
// its benchmark yield 187.30 (invented.CornYield). The benchmark revenue is 187.30 x 5.03 =
// 942.12, the guarantee 90 percent, 847.91, the most 12 percent, 113.05 (P.L. 119-21).
// In 2025 the five prices are 3.56, 4.53, 6.00, 6.54, 4.55: the reference price is 4.42 too,
// and 3.56 is raised to it, so that all other figures are those of 2026.
func uncertainly(t *testing.T, y crop.CropYear, price, yield, volatility, deviation float64, bases ...farm.Base) certain {
	t.Helper()
	county := invented.CornYield(farm.YieldOutlook{})
	county.Adjusted[y] = county.Adjusted[2026]
	county.Outlook[y] = farm.YieldOutlook{Yield: &yield, SD: &deviation}
	return inBook(t, y, price, volatility, invented.Book(county), bases...)
}

// inCounties is certainly for corn of 2026 at 4.00 in several counties, each with a yield.
func inCounties(t *testing.T, yields map[string]float64, bases ...farm.Base) certain {
	t.Helper()
	var counties []farm.County
	for code, yield := range yields {
		county := invented.CornYield(farm.YieldOutlook{Yield: &yield, SD: invented.Number(0)})
		counties = append(counties, farm.County{Code: code, Yields: []farm.CountyYield{county}})
	}
	return inBook(t, 2026, 4.00, 0, invented.BookOf(counties...), bases...)
}

// inBook is corn of a crop year at a price, with the county yields of a book.
func inBook(t *testing.T, y crop.CropYear, price, volatility float64, book farm.CountyBook, bases ...farm.Base) certain {
	t.Helper()
	m := invented.Market("2026-11-10")
	m.MYA[crop.Corn][2019] = farm.Figure{Value: 3.56, Status: crop.Agency}
	delete(m.MYA[crop.Corn], y)
	invented.Project(m, crop.Corn, y, price, volatility)
	from := position.Sources{Counties: book, Market: m}
	f := invented.OneFarm("0417", bases...)
	all, err := from.CommodityBases(f, y)
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(y)
	if err != nil {
		t.Fatal(err)
	}
	c := certain{year: &Year{Year: drawn}, base: all[0], farm: f}
	c.price, _ = from.Price(crop.Corn, y, 2)
	return c
}

// Places in Band: the price one usual error lower and higher, all county yields as drawn.
const lower, higher = int(position.Estimators), 2 * int(position.Estimators)

func (c certain) payoffs() Payoffs {
	return Of(c.year, farm.Operation{Farms: []farm.Farm{c.farm}}, c.base, c.price)
}

// always holds that a series has one value in all scenarios.
func always(t *testing.T, what string, series []float64, want float64) {
	t.Helper()
	if len(series) == 0 {
		t.Fatalf("%s: no scenarios", what)
	}
	for i, x := range series {
		if math.Abs(x-want) > 1e-9 {
			t.Fatalf("%s: scenario %d is %v, by hand %v", what, i, x, want)
		}
	}
}

// At a price of 4.00 PLC pays 4.42 - 4.00 = 0.42, and at most 4.42 less the loan rate of
// 2.42 (P.L. 119-21), 2.00. A usual error of 5 percent lower, 4.00 / 1.05 = 3.81, pays 0.61;
// higher, 4.20, pays 0.22. The county yield does not matter.
func TestPLCRateFillsATile(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	rate, tile := &PLCRate{Base: c.base, Price: c.price}, newTile(c.year)
	c.price.UsualError = math.Log(1.05)
	rate.Price = c.price
	rates, most := make([]float64, tile.Length), make([]float64, tile.Length)
	for k, want := range map[int]float64{0: 0.42, lower: 0.61, higher: 0.22, 1: 0.42, higher + 1: 0.22} {
		tile.start(tile.Length)
		tile.means = Band[k]
		rate.Fill(rates, most, tile)
		always(t, "PLC rate", rates, want)
		always(t, "most that PLC pays", most, 2.00)
		if got := c.year.RatesOf(rate).Means[k]; math.Abs(got-want) > 1e-9 {
			t.Errorf("average under %+v is %v, by hand %v", Band[k], got, want)
		}
	}
}

// At 4.00 and 190 bushels the revenue is 760.00 and ARC-CO pays 847.91 - 760.00 = 87.91.
// At 3.81 the revenue is 723.90: 124.01, cut to the most, 113.05; at 4.20 it is 798.00: 49.91.
// A trend of 180 bushels gives 720.00: 113.05, and at 4.20 756.00: 91.91; a mean of the five
// of 200 gives 800.00: 47.91, and at 4.20 840.00: 7.91. Without a benchmark yield nothing
// moves: 87.91, 49.91 at 4.20.
func TestARCCORateFillsATile(t *testing.T) {
	c := uncertainly(t, 2026, 4.00, 190, 0, 1e-9, invented.Base(crop.Corn, 100, 150))
	c.price.UsualError = math.Log(1.05)
	c.base.Bases[0].Practices[0].Outlook.Estimates = []farm.Figure{{Value: 180, Status: crop.Assumed}, {Value: 200, Status: crop.Assumed}, {}}
	rate, tile := &ARCCORate{Of: c.base, Base: c.base.Bases[0], Price: c.price}, newTile(c.year)
	rates, most := make([]float64, tile.Length), make([]float64, tile.Length)
	wants := map[int]float64{0: 87.91, lower: 113.05, higher: 49.91, 1: 113.05, 2: 47.91, 3: 87.91, higher + 1: 91.91, higher + 2: 7.91, higher + 3: 49.91}
	for k, want := range wants {
		tile.start(0)
		tile.means = Band[k]
		rate.Fill(rates, most, tile)
		always(t, "ARC-CO rate", rates, want)
		always(t, "most that ARC-CO pays", most, 113.05)
	}
	made := c.year.RatesOf(rate)
	for k, want := range wants {
		if math.Abs(made.Means[k]-want) > 1e-9 {
			t.Errorf("average under %+v is %v, by hand %v", Band[k], made.Means[k], want)
		}
	}
	if got := c.payoffs().Of(farm.ARCCO).Mean; math.Abs(got-87.91*0.85) > 1e-9 {
		t.Errorf("an average of %v per base acre, by hand 87.91 x 0.85: as drawn", got)
	}
	if again := c.year.RatesOf(&ARCCORate{Of: c.base, Base: c.base.Bases[0], Price: c.price}); again != made {
		t.Error("a rate of the same key was made twice")
	}
	if made.full != 0 || made.maximum != 113.05 {
		t.Errorf("at the most in %v of scenarios, which is %v", made.full, made.maximum)
	}
}

// With standard deviations every scenario is paid by its own price and yield, tile after tile: PLC 4.42
// less the price, at least the loan rate; ARC-CO 847.91 less yield x price to the cent, at most 113.05.
func TestRatesFollowEveryScenario(t *testing.T) {
	c := uncertainly(t, 2026, 4.00, 190, 0.25, 30, invented.Base(crop.Corn, 100, 150))
	prices, yields := c.year.Prices(crop.Corn, c.price), c.year.Yields(2, c.base.Bases[0].Practices[0])
	plc := c.year.RatesOf(&PLCRate{Base: c.base, Price: c.price})
	arc := c.year.RatesOf(&ARCCORate{Of: c.base, Base: c.base.Bases[0], Price: c.price})
	atMost := 0.0
	for i, p := range prices {
		revenue := math.Floor(100*yields[i]*max(p, 2.42)+0.5+1e-7) / 100
		wantPLC, wantARC := max(0, 4.42-max(p, 2.42)), min(113.05, max(0, 847.91-revenue))
		if math.Abs(plc.Scenarios[i]-wantPLC) > 1e-9 || math.Abs(arc.Scenarios[i]-wantARC) > 1e-9 {
			t.Fatalf("scenario %d, %v at %v: PLC %v, ARC-CO %v; by hand %v, %v", i, yields[i], p, plc.Scenarios[i], arc.Scenarios[i], wantPLC, wantARC)
		}
		if wantARC == 113.05 {
			atMost++
		}
	}
	if got := arc.full * float64(len(prices)); atMost == 0 || math.Abs(got-atMost) > 1e-9 {
		t.Errorf("ARC-CO pays the most in %v scenarios, by hand %v", got, atMost)
	}
}

// 100.30 base acres are 85.255 payment acres. PLC: 0.42 x 92 bushels x 85.255 = 3,294.2532;
// ARC-CO: 87.91 x 85.255 = 7,494.76705. A claim is in whole cents, half up, before the share.
func TestClaimsAreInCents(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100.30, 92))
	all := c.payoffs()
	for program, want := range map[farm.Program]float64{farm.PLC: 3294.25, farm.ARCCO: 7494.77} {
		claim := all.Of(program).ByPart[0]
		if got := claim.Mean(c.year.Buffers); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: average %v, by hand %v", program, got, want)
		}
		sum := []float64{1, 1}
		Claims{{claim, 0.5}, {claim, 0.25}}.Add(sum, 254)
		always(t, string(program)+" at three quarters, added to 1", sum, 1+0.75*want)
	}
	// The most: (4.42 - 2.42) x 92 x 85.255 = 15,686.92, and 113.05 x 85.255 = 9,638.08.
	if plc, arc := all.Of(farm.PLC).ByPart[0].Most, all.Of(farm.ARCCO).ByPart[0].Most; plc != 15686.92 || arc != 9638.08 {
		t.Errorf("most of PLC %v, of ARC-CO %v", plc, arc)
	}
	// Per base acre nothing is rounded: 0.42 x 92 x 0.85 and 87.91 x 0.85.
	always(t, "PLC per base acre", all.Of(farm.PLC).PerAcre(c.year.Buffers), 0.42*92*0.85)
	always(t, "ARC-CO per base acre", all.Of(farm.ARCCO).PerAcre(c.year.Buffers), 87.91*0.85)
	if all.Of(farm.HigherOf) != nil {
		t.Error("the law of 2026 pays no higher of both")
	}
}

// In 2025 the bases of a commodity go together. Two bases of 100 acres have payment yields of
// 250 and 50: PLC pays 0.42 x 250 x 85 = 8,925.00 and 1,785.00, together 10,710.00. At 190
// bushels ARC-CO pays 87.91 x 85 = 7,472.35 on each, together 14,944.70: both bases get
// ARC-CO, the first less than PLC would pay it. At 205 bushels ARC-CO pays 847.91 - 820.00 =
// 27.91, 2,372.35 on each: both get PLC, the second less than ARC-CO would pay it.
func TestHigherOfTakesTheLargerSum(t *testing.T) {
	for yield, want := range map[float64][2]float64{190: {7472.35, 7472.35}, 205: {8925.00, 1785.00}} {
		c := certainly(t, 2025, 4.00, yield, invented.Base(crop.Corn, 100, 250), invented.Base(crop.Corn, 100, 50))
		higher := c.payoffs().Of(farm.HigherOf)
		if higher == nil {
			t.Fatal("no higher of both in 2025")
		}
		for k, money := range want {
			series := c.year.Zeros()
			higher.ByPart[k].Add(series, 1, 0)
			always(t, "base", series, money)
		}
		always(t, "per base acre", higher.PerAcre(c.year.Buffers), (want[0]+want[1])/200)
		sum := c.year.Zeros()
		higher.Total().Add(sum, 0)
		always(t, "all bases", sum, want[0]+want[1])
	}
}

// What cannot be worked out has no payoff: without a payment yield no PLC, and so no higher of both.
func TestMissingFiguresHaveNoPayoff(t *testing.T) {
	lacking := invented.Base(crop.Corn, 100, 0)
	lacking.PaymentYield = nil
	all := certainly(t, 2025, 4.00, 190, lacking).payoffs()
	if all.Of(farm.PLC) != nil || all.Of(farm.HigherOf) != nil || all.Of(farm.ARCCO) == nil || all.Complete() || all.SumOf(farm.PLC) != nil {
		t.Errorf("%d payoffs; want ARC-CO alone", len(all))
	}
	if left := Without(all, farm.ARCCO); len(left) != 0 {
		t.Errorf("%d payoffs without ARC-CO", len(left))
	}
}

// Series given back serve the next commodity: after Release nothing is left to use by mistake.
func TestPayoffsGiveBack(t *testing.T) {
	c := certainly(t, 2025, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	all := c.payoffs()
	given := all.Of(farm.HigherOf).PerAcre(c.year.Buffers)
	all.Release(c.year.Buffers)
	if next := c.year.Acquire(); all.Of(farm.HigherOf).perAcre != nil || &next[0] != &given[0] {
		t.Error("the last series given back is not the next that comes")
	}
	all.ReleaseOwned(c.year.Buffers)
	if all.Of(farm.HigherOf).owned != nil {
		t.Error("series of its own are still held")
	}
}

// Many bases of one commodity are paid by part, those with the same shares together: in every
// scenario to the cent what each base is paid by itself.
func TestManyBasesArePaidByPart(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 9))
	var bases []farm.Base
	for range 3 * fewBases {
		bases = append(bases, invented.Base(crop.Corn, program.Cent(1+200*random.Float64()), 100+float64(random.IntN(90))))
	}
	c := uncertainly(t, 2026, 4.00, 190, 0.25, 30, bases...)
	shares := []farm.Shares{{"ann": 1}, {"ann": 0.5, "ben": 0.5}}
	parts := make([][]int, len(shares))
	for k := range c.base.Bases {
		part := 0
		if k > 0 {
			part = random.IntN(2)
		}
		c.base.Bases[k].Shares = maps.Clone(shares[part])
		parts[part] = append(parts[part], k)
	}
	all, checked := c.payoffs(), 0
	for _, one := range []farm.Program{farm.PLC, farm.ARCCO} {
		p := all.Of(one)
		if len(p.ByPart) != len(shares) || !slices.Equal(p.Parts(), []int{parts[0][0], parts[1][0]}) {
			t.Fatalf("%s: %d parts, the first bases %v; want %d", one, len(p.ByPart), p.Parts(), len(shares))
		}
		for part, claim := range p.ByPart {
			got := c.year.Zeros()
			claim.Add(got, 1, 0)
			for i, rate := range p.Rates[0].Scenarios {
				want := 0.0
				for _, k := range parts[part] {
					b := c.base.Bases[k]
					if one == farm.PLC {
						want += program.PLCPayment(rate, *b.Record.PaymentYield, b.PaymentAcres)
					} else {
						want += program.ARCCOPayment(rate, b.PaymentAcres)
					}
				}
				if math.Abs(got[i]-want) > 1e-6 || want > claim.Most+1e-6 {
					t.Fatalf("%s, part %d, scenario %d: %v of at most %v, base by base %v", one, part, i, got[i], claim.Most, want)
				}
				checked++
			}
		}
	}
	t.Logf("checked %d payments of parts", checked)
}
