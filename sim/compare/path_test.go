package compare

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented/cases"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// In every scenario target price, benchmark price, benchmark yield and both payments
// of 2030 are what package program makes of that scenario's own prices and yields of
// 2024 to 2028.
func TestEachPathRebuildsTheLawsFigures(t *testing.T) {
	c := cases.SixYears(0.15)
	whole := newRun(c)
	const y = 2030
	r, err := whole.year(y)
	if err != nil {
		t.Fatal(err)
	}
	prices, yields := map[crop.CropYear][]float64{}, map[crop.CropYear][]float64{}
	for i, year := range c.CropYears {
		d, err := whole.paths.Year(year)
		if err != nil {
			t.Fatal(err)
		}
		base := cornBase(t, c, year)
		price, _ := c.Sources().Price(crop.Corn, year, 2)
		prices[year], yields[year] = d.Prices(crop.Corn, price), d.Yields(2, base.Bases[0].Practices[0])
		if i > 0 { // phi 0.8 of the year before; both years have the same SD
			r := stat.Correlation(logs(prices[year-1]), logs(prices[year]), nil)
			if math.Abs(r-0.8) > 0.02 {
				t.Errorf("log prices of %d and %d: correlation %.3f, want 0.8", year-1, year, r)
			}
		}
	}
	terms, _ := program.TermsFor(crop.Corn, y)
	base := cornBase(t, c, y)
	price, _ := c.Sources().Price(crop.Corn, y, 2)
	o := payoff.Of(r.Year, r.question.Operation, base, price)
	trend := 1.9 // 184.20 - 172.8 over six years, and 190.70 - 186.9 over two
	plcSeries, arcSeries := o.Of(farm.PLC).PerAcre(r.Year.Buffers), o.Of(farm.ARCCO).PerAcre(r.Year.Buffers)
	for i := range prices[y] {
		past := [5]float64{4.24, 4.15, prices[2026][i], prices[2027][i], prices[2028][i]}
		target := terms.TargetPrice(past)
		adjusted := [5]float64{186.9 + 6*trend, 181 + 5*trend}
		for k, year := range []crop.CropYear{2026, 2027, 2028} {
			adjusted[2+k] = program.AdjustedYield(yields[year][i], 0, trend, year, y, 2)
		}
		for k := range 2 {
			adjusted[k] = program.Round(adjusted[k], 2)
		}
		coverage := terms.ARCCO(program.BenchmarkYield(adjusted, 2), program.BenchmarkPrice(past, target, 2))
		plc := terms.PLC(target).Rate(prices[y][i]) * 150 * 0.85
		arc := coverage.Rate(program.ActualRevenue(yields[y][i], program.ActualPrice(prices[y][i], terms.LoanRate))) * 0.85
		if math.Abs(plc-plcSeries[i]) > 1e-9 || math.Abs(arc-arcSeries[i]) > 1e-9 {
			t.Fatalf("draw %d: PLC %.4f, ARC-CO %.4f; by hand %.4f and %.4f", i, plcSeries[i], arcSeries[i], plc, arc)
		}
	}
}

func cornBase(t *testing.T, c answer.Question, y crop.CropYear) *position.CommodityBase {
	t.Helper()
	all, err := c.Sources().CommodityBases(c.Operation.Farms[0], y)
	if err != nil {
		t.Fatal(err)
	}
	return all[0]
}

func logs(prices []float64) []float64 {
	out := make([]float64, len(prices))
	for i, p := range prices {
		out[i] = math.Log(p)
	}
	return out
}
