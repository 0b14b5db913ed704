package compare_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Printed standard errors are honest: over 200 seeds the figures spread by as much as the
// errors say, between 0.8 and 1.25 of it. The operation has corn in two counties of one
// invented State, one of them by practice, and in a county of another, before harvest, so
// that shocks of prices, nation, States, counties and practices all come in. Left out is
// what is almost sure: a chance of less than 1 in 100.
func TestPrintedErrorsAreHonest(t *testing.T) {
	if !invented.LongRun {
		t.Skip("200 seeds, with FENCEROW_LONG=1 alone")
	}
	const seeds, least, most = 200, 0.8, 1.25
	q := acrossStates()
	figures, errors := map[string][]float64{}, map[string][]float64{}
	for seed := range seeds {
		q.Seed = uint64(seed + 1)
		for name, f := range figuresWithErrors(ask(t, q)) {
			figures[name], errors[name] = append(figures[name], f[0]), append(errors[name], f[1])
		}
	}
	checked := 0
	for name, values := range figures {
		squares := 0.0
		for _, e := range errors[name] {
			squares += e * e / float64(len(errors[name]))
		}
		if math.Sqrt(squares) == 0 {
			continue
		}
		checked++
		ratio := stat.StdDev(values, nil) / math.Sqrt(squares)
		t.Logf("%s: mean %.4f, spread over printed error %.3f", name, stat.Mean(values, nil), ratio)
		if ratio < least || ratio > most || len(values) != seeds {
			t.Errorf("%s: spread over printed error %.3f of %d seeds, want %g to %g", name, ratio, len(values), least, most)
		}
	}
	const fewest = 24
	if checked < fewest {
		t.Errorf("checked %d figures, want %d or more", checked, fewest)
	}
	fmt.Printf("standard errors over %d seeds: checked %d figures\n", seeds, checked)
}

// acrossStates asks about three farms with corn, soybeans and wheat in three counties of
// two States.
func acrossStates() answer.Question {
	m := invented.Market("2026-05-12")
	for c, price := range map[crop.Commodity]float64{crop.Corn: 4.40, crop.Soybeans: 10.20, crop.Wheat: 5.60} {
		invented.Project(m, c, 2026, price, -1)
	}
	yield := func(c crop.Commodity, p farm.Practice, benchmark float64) farm.CountyYield {
		return farm.CountyYield{Commodity: c, Practice: p, BenchmarkYield: map[crop.CropYear]float64{2026: benchmark},
			Outlook: map[crop.CropYear]farm.YieldOutlook{2026: {Yield: invented.Number(benchmark), KnownFrom: "before_harvest", SD: invented.Number(0.15 * benchmark)}}}
	}
	counties := invented.BookOf(
		farm.County{Code: "99001", Yields: []farm.CountyYield{yield(crop.Corn, farm.AllPractices, 180), yield(crop.Soybeans, farm.AllPractices, 52), yield(crop.Wheat, farm.AllPractices, 60)}},
		farm.County{Code: "99003", Yields: []farm.CountyYield{yield(crop.Corn, farm.Irrigated, 200), yield(crop.Corn, farm.Nonirrigated, 110)}},
		farm.County{Code: "98001", Yields: []farm.CountyYield{yield(crop.Corn, farm.AllPractices, 150)}})
	base := func(c crop.Commodity, acres, payment float64, county string) farm.Base {
		b := invented.Base(c, acres, payment)
		b.County = county
		return b
	}
	split := base(crop.Corn, 150, 120, "99003")
	split.IrrigatedShare = invented.Number(0.4)
	q := cases.Question(m, counties,
		invented.OneFarm("0417", base(crop.Corn, 120, 150, "99001"), base(crop.Soybeans, 90, 42, "99001"), base(crop.Wheat, 60, 48, "99001")),
		invented.OneFarm("0588", split), invented.OneFarm("0733", base(crop.Corn, 100, 130, "98001")))
	q.Draws = 4096
	return q
}

// figuresWithErrors are the means, differences and chances of an answer, each with its
// printed error.
func figuresWithErrors(a answer.Comparison) map[string][2]float64 {
	const rare = 0.01
	all := map[string][2]float64{}
	chance := func(name string, value, err answer.Chance) {
		if value > rare && value < 1-rare {
			all[name] = [2]float64{float64(value), float64(err)}
		}
	}
	for _, f := range a.CropYears[0].Farms {
		for _, c := range f.Commodities {
			name := f.Farm + " " + string(c.Commodity)
			for _, p := range []farm.Program{farm.PLC, farm.ARCCO} {
				part := c.Programs.Of(p)
				all[fmt.Sprint(name, " ", p)] = [2]float64{float64(part.Mean), float64(part.StandardError)}
				chance(fmt.Sprint(name, " ", p, " pays"), part.ChanceOfPayment, part.ChanceError)
			}
			all[name+" difference"] = [2]float64{float64(c.Difference.Mean), float64(c.Difference.StandardError)}
			chance(name+" ARC-CO more", *c.ChanceARCCOMore, c.ChanceErrors.ARCCOMore)
			chance(name+" PLC more", *c.ChancePLCMore, c.ChanceErrors.PLCMore)
		}
	}
	return all
}

// The question of the honest errors has every kind of figure, with an error above zero.
func TestFiguresHaveErrors(t *testing.T) {
	all := figuresWithErrors(ask(t, acrossStates()))
	for _, name := range []string{"99001-0417 wheat difference", "99001-0588 corn ARC-CO", "99001-0733 corn PLC more"} {
		if f, has := all[name]; !has || f[1] <= 0 {
			t.Errorf("%s: %v of %v", name, f, slices.Sorted(maps.Keys(all)))
		}
	}
}
