package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// A farm without a contract is paid nothing and has no leader.
func TestMissedContractPaysNothing(t *testing.T) {
	c := cases.Corn()
	missed := farm.Missed
	c.Operation.Farms[0].Contract.Every = &missed
	f := ask(t, c).CropYears[0].Farms[0]
	p := f.Commodities[0]
	if p.Programs.Of(farm.PLC).Mean != 0 || p.Programs.Of(farm.ARCCO).Mean != 0 || *f.Elections[1].Mean != 0 || p.Leader != answer.None {
		t.Errorf("PLC %v, ARC-CO %v, farm %v, leader %v; want 0, 0, 0, none", p.Programs.Of(farm.PLC).Mean, p.Programs.Of(farm.ARCCO).Mean, *f.Elections[1].Mean, p.Leader)
	}
}

// Splitting a base in two equal halves changes nothing but the rounding of each
// payment to the cent.
func TestSplittingABaseChangesNothing(t *testing.T) {
	c := cases.Corn()
	c.Operation.Farms[0].Bases[0].BaseAcres = 120.50
	whole := ask(t, c).CropYears[0]
	first, second := invented.Base(crop.Corn, 60.25, 150), invented.Base(crop.Corn, 60.25, 150)
	first.Tract, second.Tract = "1", "2"
	c.Operation.Farms[0].Bases = []farm.Base{first, second}
	halves := ask(t, c).CropYears[0]
	a, b := whole.Farms[0].Commodities[0], halves.Farms[0].Commodities[0]
	const cent = 0.0101
	for name, pair := range map[string][2]float64{
		"PLC":         {float64(a.Programs.Of(farm.PLC).Mean), float64(b.Programs.Of(farm.PLC).Mean)},
		"ARC-CO":      {float64(a.Programs.Of(farm.ARCCO).Mean), float64(b.Programs.Of(farm.ARCCO).Mean)},
		"difference":  {float64(a.Difference.Mean), float64(b.Difference.Mean)},
		"farm PLC":    {float64(*whole.Farms[0].Elections[0].Mean), float64(*halves.Farms[0].Elections[0].Mean)},
		"farm ARC-CO": {float64(*whole.Farms[0].Elections[1].Mean), float64(*halves.Farms[0].Elections[1].Mean)},
		"after limit": {float64(*whole.Operation.MeanAfterLimit), float64(*halves.Operation.MeanAfterLimit)},
	} {
		if math.Abs(pair[0]-pair[1]) > cent {
			t.Errorf("%s: %v whole, %v in halves", name, pair[0], pair[1])
		}
	}
	if *a.ChanceARCCOMore != *b.ChanceARCCOMore || a.Leader != b.Leader {
		t.Errorf("chance %v and %v, leader %v and %v", *a.ChanceARCCOMore, *b.ChanceARCCOMore, a.Leader, b.Leader)
	}
}

// Base idle 2009 to 2017 is paid nothing for 2019 to 2031, and was paid before.
func TestIdleBaseIsPaidNothingFrom2019(t *testing.T) {
	c := cases.Question(invented.LongMarket(), invented.Book(invented.EveryYear(crop.Corn, farm.AllPractices, 160)), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))
	c.Operation.Farms[0].Idle20092017 = true
	for y, want := range map[crop.CropYear]float64{2018: 100 * 0.85 * 150 * 0.50, 2019: 0, 2024: 0, 2026: 0, 2031: 0} {
		// 50 cents below the reference price of 2018: 3.70 - 3.20
		e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, y, explain.Given{MYA: 3.20, CountyYield: explain.CountyYields{{}: 150}})
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(*e.Programs.Of(farm.PLC).Payment); math.Abs(got-want) > 0.005 {
			t.Errorf("crop year %d pays %v, want %v", y, got, want)
		}
	}
	invented.Project(c.Market, crop.Corn, 2026, 4.10, 0.1)
	delete(c.Market.MYA[crop.Corn], 2026)
	if p := only(t, c); p.Leader != answer.None || p.Programs.Of(farm.PLC).Mean != 0 || p.Programs.Of(farm.ARCCO).Mean != 0 {
		t.Errorf("leader %v, PLC %v, ARC-CO %v; want none, 0, 0", p.Leader, p.Programs.Of(farm.PLC).Mean, p.Programs.Of(farm.ARCCO).Mean)
	}
}

// 40 acres of vegetables on 200 base acres are 10 above 15 percent: the corn's
// 102 payment acres of 120 base acres lose 6 (testdata/derived), so every
// payment falls to 96/102.
func TestFruitVegetablesCutPayments(t *testing.T) {
	c := cases.Corn()
	c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, invented.Base(crop.Soybeans, 80, 40))
	before := ask(t, c).CropYears[0].Farms[0].Commodities[0]
	cases.Plant(&c, position.FruitVegetables, 40, 0)
	after := ask(t, c).CropYears[0].Farms[0].Commodities[0]
	for name, pair := range map[string][2]*answer.ProgramPart{"PLC": {before.Programs.Of(farm.PLC), after.Programs.Of(farm.PLC)}, "ARC-CO": {before.Programs.Of(farm.ARCCO), after.Programs.Of(farm.ARCCO)}} {
		if want := float64(pair[0].Mean) * 96 / 102; math.Abs(float64(pair[1].Mean)-want) > 0.01 {
			t.Errorf("%s averages %v, want %v", name, pair[1].Mean, want)
		}
	}
	if *before.EvenPaymentYield != *after.EvenPaymentYield && math.Abs(float64(*before.EvenPaymentYield-*after.EvenPaymentYield)) > 0.01 {
		t.Errorf("even payment yield moves from %v to %v", *before.EvenPaymentYield, *after.EvenPaymentYield)
	}
}
