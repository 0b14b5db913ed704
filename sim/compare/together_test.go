package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
	"fencerow/sim/invented/cases"
)

// Without variation the six years are what explain says, year after year, when each
// year's price and yield are entered as known before the next is asked.
func TestSixYearsWithoutVariationAreALoopOverExplain(t *testing.T) {
	all := ask(t, cases.SixYears(0))
	c := cases.SixYears(0)
	delete(c.Market.Outlook, crop.Corn)
	actual := c.Counties[0].Counties["99001"].Yields[0].Actual
	checked := 0
	for i, y := range c.CropYears {
		e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, y, explain.Given{MYA: cases.SixPrices[i], CountyYield: explain.CountyYields{{}: cases.SixYields[i]}})
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
		c.Market.MYA[crop.Corn][y] = farm.Figure{Value: cases.SixPrices[i], Status: crop.Agency, Source: "entered"}
		actual[y] = cases.SixYields[i]
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

// A crop year answers alike alone and among others.
func TestACropYearAnswersAlikeAloneAndAmongOthers(t *testing.T) {
	c := cases.SixYears(0.15)
	among := ask(t, c).CropYears[4].Farms[0].Commodities[0]
	c.CropYears = []crop.CropYear{2030}
	alone := only(t, c)
	if among.Programs.Of(farm.PLC).Mean != alone.Programs.Of(farm.PLC).Mean || among.Programs.Of(farm.ARCCO).Mean != alone.Programs.Of(farm.ARCCO).Mean {
		t.Errorf("among others PLC %v, ARC-CO %v; alone %v, %v", among.Programs.Of(farm.PLC).Mean, among.Programs.Of(farm.ARCCO).Mean, alone.Programs.Of(farm.PLC).Mean, alone.Programs.Of(farm.ARCCO).Mean)
	}
}

// A payment of crop year 2026 comes on 1 October 2027, 310 days after 25 November
// 2026: at 5 percent it counts 1.05^-(310/365.25) = 0.95943.
func TestTotalsAreDiscountedFromThePaymentDay(t *testing.T) {
	c := cases.SixYears(0.15)
	c.Operation.Settings.DiscountRate = 0.05
	line := ask(t, c).Together[0]
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
