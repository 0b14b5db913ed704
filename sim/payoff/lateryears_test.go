package payoff

import (
	"math"
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// later is corn of 2028 at a sure price of 4.00 and a sure county yield of 190, while the price of 2026 is not known:
// reference and benchmark price of 2028 come from 2022 to 2026, so that they differ by scenario.
type later struct {
	certain
	before []crop.Price // the price of 2026 by scenario; nil where scenarios are made in blocks
}

func inLaterYear(t *testing.T, draws int, county ...farm.CountyYield) later {
	t.Helper()
	m := invented.Market("2026-11-10")
	for y, price := range map[crop.CropYear]float64{2022: 6.54, 2023: 4.55, 2024: 4.24, 2025: 4.00} {
		m.MYA[crop.Corn][y] = farm.Figure{Value: price, Status: crop.Agency}
	}
	invented.Project(m, crop.Corn, 2026, 4.20, 0.30)
	invented.Project(m, crop.Corn, 2028, 4.00, 0)
	from := position.Sources{Counties: invented.Book(county...), Market: m}
	share := 0.6
	base := invented.Base(crop.Corn, 100, 150)
	base.IrrigatedShare = &share
	f := invented.OneFarm("0417", base)
	all, err := from.CommodityBases(f, 2028)
	if err != nil {
		t.Fatal(err)
	}
	if missing := all[0].PLCMissing + all[0].ARCMissing; missing != "" {
		t.Fatal(missing)
	}
	paths := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: draws})
	drawn, err := paths.Year(2028)
	if err != nil {
		t.Fatal(err)
	}
	l := later{certain: certain{year: &Year{Year: drawn}, base: all[0], farm: f}}
	l.price, _ = from.Price(crop.Corn, 2028, 2)
	if !drawn.InBlocks() {
		past, err := paths.Year(2026)
		if err != nil {
			t.Fatal(err)
		}
		price, _ := from.Price(crop.Corn, 2026, 2)
		l.before = past.Prices(crop.Corn, price)
	}
	return l
}

// sureYield is a county yield whose benchmark of 2028 is five times the same, and its yield of 2028 is known.
func sureYield(p farm.Practice, benchmark, yield float64) farm.CountyYield {
	return farm.CountyYield{Commodity: crop.Corn, Practice: p, Adjusted: map[crop.CropYear][5]float64{2028: {benchmark, benchmark, benchmark, benchmark, benchmark}},
		Outlook: map[crop.CropYear]farm.YieldOutlook{2028: {Yield: &yield, SD: invented.Number(0)}}}
}

// middleThree is the average of five prices without the highest and the lowest.
func middleThree(five ...crop.Price) float64 {
	slices.Sort(five)
	return (five[1] + five[2] + five[3]) / 3
}

func centsOf(x float64) float64 { return math.Floor(100*x+0.5+1e-7) / 100 }

// targetOf is the effective reference price of 2028: 88 percent of the average of the middle three of 6.54, 4.55, 4.24, 4.00 and the
// price of 2026, at least 4.10 and at most 115 percent of that, 4.715 or 4.72 (7 U.S.C. 9011(8), P.L. 119-21 sec. 10301).
func targetOf(price crop.Price) crop.Price {
	return centsOf(min(1.15*4.10, max(4.10, 0.88*middleThree(6.54, 4.55, 4.24, 4.00, price))))
}

// benchmarkOf is the benchmark price of 2028: each of the five prices at least the target price (7 U.S.C. 9017(c)(3)).
func benchmarkOf(price crop.Price) crop.Price {
	floor := targetOf(price)
	return centsOf(middleThree(6.54, max(4.55, floor), max(4.24, floor), max(4.00, floor), max(price, floor)))
}

// arccoOf is the guarantee, 90 percent of the benchmark revenue, and the most, 12 percent.
func arccoOf(yield, price float64) (guarantee, most float64) {
	revenue := centsOf(yield * price)
	return centsOf(0.90 * revenue), centsOf(0.12 * revenue)
}

// PLC pays the target price of each scenario less 4.00; ARC-CO each scenario's guarantee less 190 x 4.00 = 760.00, up to its most.
func TestLaterYearFollowsEachScenario(t *testing.T) {
	l := inLaterYear(t, 256, sureYield(farm.AllPractices, 180, 190))
	plc := l.year.RatesOf(&PLCRate{Base: l.base, Price: l.price})
	arc := l.year.RatesOf(&ARCCORate{Of: l.base, Base: l.base.Bases[0], Price: l.price})
	most := mostARCCO(l.year.Year, l.base, WeightedSum{}.with(arc, 0.5, 0))
	paid, different := map[float64]bool{}, map[float64]bool{}
	for i, price := range l.before {
		guarantee, highest := arccoOf(180, benchmarkOf(price))
		wantPLC, wantARC := targetOf(price)-4.00, min(highest, max(0, guarantee-760))
		if math.Abs(plc.Scenarios[i]-wantPLC) > 1e-9 || math.Abs(arc.Scenarios[i]-wantARC) > 1e-9 || math.Abs(most[i]-highest/2) > 1e-9 {
			t.Fatalf("scenario %d, %v in 2026: PLC %v, ARC-CO %v, half of its most %v; by hand %v, %v and %v", i, price, plc.Scenarios[i], arc.Scenarios[i], most[i], wantPLC, wantARC, highest/2)
		}
		paid[arc.Scenarios[i]], different[plc.Scenarios[i]] = true, true
	}
	if len(paid) < 10 || len(different) < 10 {
		t.Errorf("only %d rates of ARC-CO and %d of PLC differ", len(paid), len(different))
	}
	l.holdDrawnPrices(t)
}

// holdDrawnPrices holds the prices of each scenario to those by hand from the price of 2026.
func (l later) holdDrawnPrices(t *testing.T) {
	t.Helper()
	targets, benchmarks, release := l.year.DrawnPrices(l.base, l.price)
	defer release()
	for i := range targets {
		if math.Abs(targets[i]-targetOf(l.before[i])) > 1e-9 || math.Abs(benchmarks[i]-benchmarkOf(l.before[i])) > 1e-9 {
			t.Fatalf("scenario %d: target %v, benchmark %v; by hand %v and %v", i, targets[i], benchmarks[i], targetOf(l.before[i]), benchmarkOf(l.before[i]))
		}
	}
}

// Irrigated corn is 60 percent of the base, whichever practice stands first in the county: 200.00 and 100.00 bushels, guarantee and most by
// weight in each scenario; yields of 180 and 90 at 4.00 are 432.00 + 144.00 = 576.00.
func TestLaterYearWithTwoPractices(t *testing.T) {
	irrigated, other := sureYield(farm.Irrigated, 200, 180), sureYield(farm.Nonirrigated, 100, 90)
	for _, county := range [][]farm.CountyYield{{irrigated, other}, {other, irrigated}} {
		l := inLaterYear(t, 256, county...)
		l.base.Bases[0].Practices = slices.Clone(l.base.Bases[0].Practices)
		if county[0].Practice == farm.Nonirrigated {
			slices.Reverse(l.base.Bases[0].Practices)
		}
		arc := l.year.RatesOf(&ARCCORate{Of: l.base, Base: l.base.Bases[0], Price: l.price})
		for i, price := range l.before {
			high, highMost := arccoOf(200, benchmarkOf(price))
			low, lowMost := arccoOf(100, benchmarkOf(price))
			want := min(centsOf(0.6*highMost+0.4*lowMost), max(0, centsOf(0.6*high+0.4*low)-576))
			if math.Abs(arc.Scenarios[i]-want) > 1e-9 {
				t.Fatalf("scenario %d, %v in 2026: %v, by hand %v", i, price, arc.Scenarios[i], want)
			}
		}
	}
}

// Of very many scenarios prices are made block by block, and the rates of the base beside them: as of few. PLC pays the target
// price less 4.00.
func TestDrawnPricesInBlocks(t *testing.T) {
	l := inLaterYear(t, 1<<17, sureYield(farm.AllPractices, 180, 190))
	if !l.year.InBlocks() {
		t.Fatal("131,072 scenarios are not made in blocks")
	}
	targets, benchmarks, release := l.year.DrawnPrices(l.base, l.price)
	defer release()
	plc, known := l.year.made.Known((&PLCRate{Base: l.base}).Key())
	arc, alsoKnown := l.year.made.Known((&ARCCORate{Of: l.base, Base: l.base.Bases[0]}).Key())
	if !known || !alsoKnown || len(targets) != l.year.Size.N() {
		t.Fatal("the rates of the base are not made beside its prices")
	}
	low, high := slices.Min(targets), slices.Max(targets)
	if low < 4.10-1e-9 || high > 4.72+1e-9 || high-low < 0.10 {
		t.Errorf("targets from %v to %v", low, high)
	}
	for i, target := range targets {
		guarantee, most := arccoOf(180, benchmarks[i])
		if want := min(most, max(0, guarantee-760)); math.Abs(plc.Scenarios[i]-(target-4.00)) > 1e-9 || math.Abs(arc.Scenarios[i]-want) > 1e-9 {
			t.Fatalf("scenario %d: PLC %v at a target of %v, ARC-CO %v, by hand %v", i, plc.Scenarios[i], target, arc.Scenarios[i], want)
		}
	}
	if rest := l.year.unknownRates(l.base, l.price); len(rest) != 0 {
		t.Errorf("%d rates are not known", len(rest))
	}
}
