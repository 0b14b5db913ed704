package compare

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/payoff"
)

// levelYears asks about 2026 to 2028 at even prices and yields, where the programs are close.
func levelYears() answer.Question {
	c := cases.SixYears(0.15)
	c.CropYears = []crop.CropYear{2026, 2027, 2028}
	yield := c.Counties[0].Counties["99001"].Yields[0]
	for i, price := range []float64{4.40, 4.30, 4.30} {
		invented.Project(c.Market, crop.Corn, 2026+i, price, 0.15)
		yield.Outlook[2026+i] = farm.YieldOutlook{Yield: invented.Number(185), SD: invented.Number(20), Shape: "normal"}
	}
	return c
}

// Worked out again from the payments by scenario, with whole lists sorted by price: the
// draws of 2028 in 16 lots by the price of 2027, chosen on the replicates of one half and
// valued on the other.
func TestChoosingAgainWorkedOutAgain(t *testing.T) {
	c := levelYears()
	all, err := Answer(c)
	if err != nil {
		t.Fatal(err)
	}
	line := all.Together[0].Years[2]
	r, err := newRun(c).year(2028)
	if err != nil {
		t.Fatal(err)
	}
	base := cornBase(t, c, 2028)
	price, _ := c.Sources().Price(crop.Corn, 2028, 2)
	o := payoff.Of(r.Year, c.Operation, base, price)
	pays := [2][]float64{o.Of(farm.PLC).PerAcre(r.Year.Buffers), o.Of(farm.ARCCO).PerAcre(r.Year.Buffers)}
	before := r.Year.PriceBefore(crop.Corn)
	order := make([]int, len(before))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if before[a] < before[b] {
			return -1
		}
		return 1
	})
	value := func(lots int) float64 { // with a choice for each lot
		total := 0.0
		for k := range lots {
			lot := order[k*len(order)/lots : (k+1)*len(order)/lots]
			var sums [2][2]float64 // half, program
			for _, i := range lot {
				for p := range pays {
					sums[i/r.Year.Size.Points%2][p] += pays[p][i]
				}
			}
			for half := range sums {
				choice := 0
				if other := sums[1-half]; other[1] > other[0] {
					choice = 1
				}
				total += sums[half][choice]
			}
		}
		return total / float64(len(order))
	}
	if one, again := value(1), value(16); math.Abs(one-float64(line.ChoosingAgain.OneChoice)) > 1e-9 || math.Abs(again-float64(line.ChoosingAgain.Again)) > 1e-9 || math.Abs(again-one-float64(line.ChoosingAgain.Adds.Mean)) > 1e-9 {
		t.Errorf("one choice %.6f, again %.6f; worked out %.6f and %.6f", line.ChoosingAgain.OneChoice, line.ChoosingAgain.Again, one, again)
	}
	most := 0.0 // whoever knew the year itself
	for i := range order {
		most += max(pays[0][i], pays[1][i]) / float64(len(order))
	}
	if adds := line.ChoosingAgain.Adds; float64(line.ChoosingAgain.Again) > most || adds.Mean <= 0 || adds.StandardError <= 0 || adds.StandardError > adds.Mean {
		t.Errorf("again %.4f of at most %.4f, adds %.4f, standard error %.4f", line.ChoosingAgain.Again, most, adds.Mean, adds.StandardError)
	}
}

// Where there is no such choice, or nothing to follow, the answer says nothing: in the
// first crop year, in one for which the law asks for another election, after a known
// price, where a figure is missing and where past years are drawn again.
func TestWhereChoosingAgainIsLeftOut(t *testing.T) {
	known := levelYears()
	delete(known.Market.Outlook[crop.Corn], 2026)
	known.Market.MYA[crop.Corn][2026] = farm.Figure{Value: 4.40, Status: crop.Agency}
	history := levelYears()
	history.Model = answer.PastHistory
	missing := levelYears()
	missing.Operation.Farms[0].Bases[0].PaymentYield = nil
	newElection := levelYears()
	newElection.CropYears = []crop.CropYear{2025, 2026, 2027}
	for _, k := range []struct {
		name string
		c    answer.Question
		want []bool // is there a figure, by crop year
	}{
		{"usual", levelYears(), []bool{false, true, true}}, {"price of 2026 known", known, []bool{false, false, true}}, {"past years", history, []bool{false, false, false}},
		{"no payment yield", missing, []bool{false, false, false}}, {"2026 after 2025", newElection, []bool{false, false, true}},
	} {
		all, err := Answer(k.c)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range all.Together[0].Years {
			if (line.ChoosingAgain != nil) != k.want[i] {
				t.Errorf("%s: crop year %d: %+v", k.name, line.CropYear, line.ChoosingAgain)
			}
		}
	}
}

// Prices and yields that do not vary leave nothing to follow: exactly nothing is added.
func TestWithoutVariationChoosingAgainAddsNothing(t *testing.T) {
	all, err := Answer(cases.SixYears(0))
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range all.Together[0].Years[1:] {
		if line.ChoosingAgain == nil || line.ChoosingAgain.Adds != (answer.Mean{}) {
			t.Errorf("crop year %d: %+v", line.CropYear, line.ChoosingAgain)
		}
	}
}

// The standard error is honest: over seeds the spread of what choosing again adds is about
// the error printed. Of 60 seeds the ratio itself would be known to a tenth only.
func TestErrorOfChoosingAgainIsHonest(t *testing.T) {
	const least, most = 0.80, 1.25
	seeds := 300
	if invented.LongRun {
		seeds = 600
	}
	adds, squares := map[crop.CropYear][]float64{}, map[crop.CropYear][]float64{}
	c := levelYears()
	c.Draws = 1024
	for seed := range seeds {
		c.Seed = uint64(seed)
		all, err := Answer(c)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range all.Together[0].Years[1:] {
			a := line.ChoosingAgain.Adds
			adds[line.CropYear] = append(adds[line.CropYear], float64(a.Mean))
			squares[line.CropYear] = append(squares[line.CropYear], float64(a.StandardError)*float64(a.StandardError))
		}
	}
	for y, values := range adds {
		printed, spread := math.Sqrt(stat.Mean(squares[y], nil)), stat.StdDev(values, nil)
		if ratio := spread / printed; ratio < least || ratio > most {
			t.Errorf("crop year %d: standard deviation %.4f over %d seeds, printed error %.4f", y, spread, seeds, printed)
		}
		t.Logf("crop year %d, %d seeds: adds %.3f, standard deviation %.3f, over printed error %.2f", y, seeds, stat.Mean(values, nil), spread, spread/printed)
	}
}
