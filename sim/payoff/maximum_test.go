package payoff

import (
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/position"
)

// The most that ARC-CO pays per base acre is the maximum rate of each base by its payment acres, over all base
// acres: (100 x 85 + 60 x 34) / (100 + 40) = 10,540 / 140.
func TestMaximumARCCOByHand(t *testing.T) {
	h := &position.CommodityBase{Acres: 140, Bases: []position.Base{
		{Coverage: program.ARCCO{Maximum: 100}, PaymentAcres: 85},
		{Coverage: program.ARCCO{Maximum: 60}, PaymentAcres: 34},
	}}
	if got, want := MaximumARCCO(h), (100.0*85+60*34)/140; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("%v, want %v", got, want)
	}
}

// Corn in two counties, alike but for their yields, has a rate in each. At a price of 4.00 county 99001's 190 bushels bring 87.91 an acre
// (TestARCCORateFillsATile) and 99003's 150 bushels, 600.00 of 847.91 guaranteed, the most, 113.05. On 100 and 300 acres of base
// that is 0.85 x (100 x 87.91 + 300 x 113.05) / 400 = 90.75025 per base acre, of at most 0.85 x 113.05 = 96.0925.
func TestTwoCountiesByHand(t *testing.T) {
	second := invented.Base(crop.Corn, 300, 150)
	second.County = "99003"
	for yield, want := range map[float64]struct{ perAcre, full float64 }{190: {90.75025, 0}, 150: {96.0925, 1}} {
		c := inCounties(t, map[string]float64{"99001": yield, "99003": 150}, invented.Base(crop.Corn, 100, 150), second)
		arc := c.payoffs().Of(farm.ARCCO)
		if len(arc.Rates) != 2 {
			t.Fatalf("%d rates", len(arc.Rates))
		}
		always(t, "per base acre", arc.PerAcre(c.year.Buffers), want.perAcre)
		got := arc.Summary(c.year)
		always(t, "average, and the most", []float64{arc.Mean - want.perAcre, got.Mean - want.perAcre, got.Maximum - 96.0925, got.AtMaximum - want.full}, 0)
		if _, _, ok := arc.OneRate(); ok {
			t.Error("two rates are said to be one")
		}
		replicates := make([]float64, c.year.Size.Replicates)
		arc.AddReplicates(replicates, 2)
		always(t, "twice the average of each replicate", replicates, 2*want.perAcre)
		always(t, "a tenth of the sum", filled(c, arc.sum.Times(0.1)), want.perAcre/10)
	}
}

func filled(c certain, s WeightedSum) []float64 {
	dst := c.year.Zeros()
	s.Fill(dst)
	return dst
}

// Payoffs of one rate have that rate's summary, times its weight: ARC-CO at 190 bushels 87.91 x 0.85 in all outcomes, PLC at 4.00
// 0.42 x 150 x 0.85, neither the most there can be.
func TestSummaryOfOneRate(t *testing.T) {
	c := certainly(t, 2026, 4.00, 190, invented.Base(crop.Corn, 100, 150))
	all := c.payoffs()
	for one, want := range map[farm.Program][2]float64{farm.ARCCO: {87.91 * 0.85, 113.05 * 0.85}, farm.PLC: {0.42 * 150 * 0.85, 2.00 * 150 * 0.85}} {
		p := all.Of(one)
		got := p.Summary(c.year)
		always(t, string(one), []float64{got.Mean - want[0], got.Maximum - want[1], got.AtMaximum, got.Paying - 1}, 0)
		rates, weight, ok := p.OneRate()
		if !ok || rates[0]*weight < want[0]-1e-9 || rates[0]*weight > want[0]+1e-9 {
			t.Errorf("%s: one rate %v, %v times %v", one, ok, weight, rates[0])
		}
	}
}

// 60 percent of the base are irrigated. Irrigated corn has a benchmark of 200.00 bushels, so 1,006.00, of which 905.40 guaranteed and
// 120.72 the most; the other 100.00: 503.00, 452.70, 60.36. By weight (7 U.S.C. 9017(c)(5)) the guarantee is 724.32. At 4.00, yields of 190 and 90 bring
// 456.00 + 144.00 = 600.00: 124.32, cut to the most, 72.432 + 24.144 = 96.58; of 200 and 100, 640.00: 84.32.
func TestIrrigatedAndNot(t *testing.T) {
	share := 0.6
	base := invented.Base(crop.Corn, 100, 150)
	base.IrrigatedShare = &share
	for yields, want := range map[[2]float64]float64{{190, 90}: 96.58, {200, 100}: 84.32} {
		var county farm.County
		county.Code = "99001"
		for i, p := range []farm.Practice{farm.Irrigated, farm.Nonirrigated} {
			mean := []float64{200, 100}[i]
			county.Yields = append(county.Yields, farm.CountyYield{Commodity: crop.Corn, Practice: p,
				Adjusted: map[crop.CropYear][5]float64{2026: {mean, mean, mean, mean, mean}},
				Outlook:  map[crop.CropYear]farm.YieldOutlook{2026: {Yield: &yields[i], SD: invented.Number(0)}}})
		}
		c := inBook(t, 2026, 4.00, 0, invented.BookOf(county), base)
		always(t, "ARC-CO rate", c.year.RatesOf(&ARCCORate{Of: c.base, Base: c.base.Bases[0], Price: c.price}).Scenarios, want)
	}
}
