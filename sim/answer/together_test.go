package answer

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// sixYears asks about 2026 to 2031 with projected prices and outlooks in every
// year; spread is that of the log price and, per unit of the mean, of the yield.
func sixYears(spread float64) Case {
	m := testMarket("2026-11-10")
	yield := cornYield(farm.YieldOutlook{})
	yield.Actual = map[crop.CropYear]crop.Yield{2020: 172.8, 2021: 177.5, 2022: 185.5, 2023: 172.73, 2024: 186.9, 2025: 181}
	yield.Outlook = map[crop.CropYear]farm.YieldOutlook{}
	for i, price := range sixPrices {
		y := 2026 + i
		project(m, crop.Corn, y, price, spread)
		sd := spread * sixYields[i]
		yield.Outlook[y] = farm.YieldOutlook{Yield: number(sixYields[i]), SD: &sd, Shape: "normal"}
	}
	c := testCase(m, book(yield), oneFarm("0417", base(crop.Corn, 100, 150)))
	c.CropYears = []crop.CropYear{2026, 2027, 2028, 2029, 2030, 2031}
	c.Draws = 4096
	return c
}

var sixPrices = []float64{4.80, 3.10, 5.20, 2.30, 4.60, 3.90}
var sixYields = []float64{188, 150, 201, 193, 120, 205}

// Without spread the six years are what explain says, year after year, when each
// year's price and yield are entered as known before the next is asked.
func TestSixYearsWithoutSpreadAreALoopOverExplain(t *testing.T) {
	all := compare(t, sixYears(0))
	c := sixYears(0)
	delete(c.Market.Outlook, crop.Corn)
	actual := c.Counties[0].Counties["99001"].Yields[0].Actual
	checked := 0
	for i, y := range c.CropYears {
		e, err := Explain(c, c.Operation.Farms[0], crop.Corn, y, Given{MYA: sixPrices[i], CountyYield: CountyYields{{}: sixYields[i]}})
		if err != nil {
			t.Fatal(err)
		}
		got := all.CropYears[i].Farms[0].Commodities[0]
		for name, pair := range map[string][2]float64{
			"PLC":    {float64(got.Programs.Of(farm.PLC).Mean), float64(*e.Programs.Of(farm.PLC).PaymentPerBaseAcre)},
			"ARC-CO": {float64(got.Programs.Of(farm.ARCCO).Mean), float64(*e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre)},
		} {
			if math.Abs(pair[0]-pair[1]) > 0.005 {
				t.Errorf("%s %d: %.4f, by explain %.4f", name, y, pair[0], pair[1])
			}
			checked++
		}
		c.Market.MYA[crop.Corn][y] = farm.Figure{Value: sixPrices[i], Status: crop.Agency, Source: "entered"}
		actual[y] = sixYields[i]
	}
	if checked != 12 {
		t.Errorf("checked %d of 12", checked)
	}
	line := all.Together[0]
	sum := 0.0
	for _, y := range line.Years {
		sum += float64(*y.ARCCO)
	}
	if math.Abs(sum-float64(line.Total.ARCCO.Mean)) > 1e-6 || len(line.Years) != 6 || all.ChangeFrom != 2027 {
		t.Errorf("sum of the years %.4f, total %.4f; change from %d", sum, line.Total.ARCCO.Mean, all.ChangeFrom)
	}
}

// In every draw target price, benchmark price, benchmark yield and both payments
// of 2030 are what package program makes of that draw's own prices and yields of
// 2024 to 2028.
func TestEachPathRebuildsTheLawsFigures(t *testing.T) {
	c := sixYears(0.15)
	p := newQuestion(c)
	const y = 2030
	r, err := p.run(y)
	if err != nil {
		t.Fatal(err)
	}
	prices, yields := map[crop.CropYear][]float64{}, map[crop.CropYear][]float64{}
	for i, year := range c.CropYears {
		d, err := p.paths.year(year)
		if err != nil {
			t.Fatal(err)
		}
		h := holdingOf(t, c, year)
		price, _ := c.sources().priceOutlook(crop.Corn, year, 2)
		prices[year], yields[year] = d.prices(crop.Corn, price), d.yields(2, h.parts[0].practices[0])
		if i > 0 { // phi 0.8 of the year before; both years have the same spread
			r := stat.Correlation(logs(prices[year-1]), logs(prices[year]), nil)
			if math.Abs(r-0.8) > 0.02 {
				t.Errorf("log prices of %d and %d: correlation %.3f, want 0.8", year-1, year, r)
			}
		}
	}
	terms, _ := program.TermsFor(crop.Corn, y)
	h := holdingOf(t, c, y)
	price, _ := c.sources().priceOutlook(crop.Corn, y, 2)
	o := payoffsOf(r.yearRates, r.Operation, h, price)
	trend := 1.9 // 184.20 - 172.8 over six years, and 190.70 - 186.9 over two
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
		if math.Abs(plc-o.of(farm.PLC).perAcre[i]) > 1e-9 || math.Abs(arc-o.of(farm.ARCCO).perAcre[i]) > 1e-9 {
			t.Fatalf("draw %d: PLC %.4f, ARC-CO %.4f; by hand %.4f and %.4f", i, o.of(farm.PLC).perAcre[i], o.of(farm.ARCCO).perAcre[i], plc, arc)
		}
	}
}

func holdingOf(t *testing.T, c Case, y crop.CropYear) *holding {
	t.Helper()
	all, err := c.sources().holdings(c.Operation.Farms[0], y)
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

// A crop year answers alike alone and among others.
func TestACropYearAnswersAlikeAloneAndAmongOthers(t *testing.T) {
	c := sixYears(0.15)
	among := compare(t, c).CropYears[4].Farms[0].Commodities[0]
	c.CropYears = []crop.CropYear{2030}
	alone := only(t, c)
	if among.Programs.Of(farm.PLC).Mean != alone.Programs.Of(farm.PLC).Mean || among.Programs.Of(farm.ARCCO).Mean != alone.Programs.Of(farm.ARCCO).Mean {
		t.Errorf("among others PLC %v, ARC-CO %v; alone %v, %v", among.Programs.Of(farm.PLC).Mean, among.Programs.Of(farm.ARCCO).Mean, alone.Programs.Of(farm.PLC).Mean, alone.Programs.Of(farm.ARCCO).Mean)
	}
}

// A payment of crop year 2026 comes on 1 October 2027, 310 days after 25 November
// 2026: at 5 percent it counts 1.05^-(310/365.25) = 0.95943.
func TestTotalsAreDiscountedFromThePaymentDay(t *testing.T) {
	c := sixYears(0.15)
	c.Operation.Settings.DiscountRate = 0.05
	line := compare(t, c).Together[0]
	if got := float64(line.Years[0].Discount); math.Abs(got-math.Pow(1.05, -310/365.25)) > 1e-12 {
		t.Errorf("discount factor %v", got)
	}
	sum := 0.0
	for _, y := range line.Years {
		sum += float64(*y.PLC) * float64(y.Discount)
	}
	if math.Abs(sum-float64(line.Total.PLC.Mean)) > 1e-6 {
		t.Errorf("total %v, want %v", line.Total.PLC.Mean, sum)
	}
}
