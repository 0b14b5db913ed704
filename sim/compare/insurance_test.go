package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// insuredCorn is the plain case with SCO and ECO on 110 acres planted; its harvest price is
// published.
func insuredCorn() answer.Question {
	c := cases.Corn()
	c.Operation.Farms[0].Insurance = []farm.Insurance{{CropYear: 2026, Commodity: crop.Corn, Practice: farm.AllPractices, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 180,
		Acres: 110, Share: 0.5, Projected: 4.62, Harvest: invented.Number(4.25), ExpectedYield: 190,
		Layers: []farm.Layer{{Program: farm.SCO, Premium: invented.Number(6)}, {Program: farm.ECO, Trigger: 0.95, Total: invented.Number(40)}}}}
	return c
}

func insuranceOf(t *testing.T, c answer.Question) answer.Insurance {
	t.Helper()
	found := ask(t, c).CropYears[0].Farms[0].Insurance
	if found == nil {
		t.Fatal("no insurance")
	}
	return *found
}

func rowOf(t *testing.T, rows []answer.InsuranceRow, p farm.Program, layers ...farm.Program) answer.InsuranceRow {
	t.Helper()
	for _, row := range rows {
		same := row.Program == p && len(row.Layers) == len(layers)
		for i := range row.Layers {
			same = same && row.Layers[i] == layers[i]
		}
		if same {
			return row
		}
	}
	t.Fatalf("no row of %s with %v in %s", p, layers, invented.AsJSON(t, rows))
	return answer.InsuranceRow{}
}

// Insurance moves nothing else of an answer: programs, elections, operation and flags about
// the programs are the same figures.
func TestInsuranceMovesNothingElse(t *testing.T) {
	with, without := ask(t, insuredCorn()), ask(t, cases.Corn())
	f := &with.CropYears[0].Farms[0]
	f.Insurance = nil
	var kept []answer.Flag
	for _, flag := range f.Flags {
		if !strings.HasPrefix(flag.Code, "insurance_") {
			kept = append(kept, flag)
		}
	}
	f.Flags = kept
	if a, b := invented.AsJSON(t, with), invented.AsJSON(t, without); a != b {
		t.Errorf("with insurance\n%s\nwithout\n%s", a, b)
	}
}

// By hand: the ratio of prices is 4.25 / 4.62; SCO covers 11 percent of 180 x 4.62 = 831.60, 91.48
// an acre, ECO 9 percent, 74.84. ECO's 40.00 before a subsidy of 80 percent leaves 8.00; SCO's
// fee of 30 dollars is 0.27 an acre of 110. SCO pays below 0.86 x 190 x 4.62 / 4.25 = 177.63.
func TestLayersAsBought(t *testing.T) {
	k := insuranceOf(t, insuredCorn()).Crops[0]
	sco, eco := k.Layers[0], k.Layers[1]
	for what, c := range map[string][2]float64{
		"SCO protection": {float64(*sco.Protection), 91.476}, "ECO protection": {float64(*eco.Protection), 74.844},
		"ECO premium": {float64(*eco.Premium), 8}, "SCO fee": {float64(sco.Fee), 30.0 / 110}, "SCO pays below": {float64(*sco.PaysBelow), 0.86 * 190 * 4.62 / 4.25},
		"SCO net": {float64(*sco.Net), float64(*sco.Average) - 6 - 30.0/110}, "SCO at share": {float64(*sco.NetAtShare), float64(*sco.Net) * 110 * 0.5},
		"lower end": {float64(sco.LowerEnd), 0.75}, "fee known": {b2f(sco.FeeKnown), 1}, "ECO fee known": {b2f(eco.FeeKnown), 0},
	} {
		if math.Abs(c[0]-c[1]) > 0.005 {
			t.Errorf("%s is %v, by hand %v", what, c[0], c[1])
		}
	}
	if k.Sales.Standing != "given" || k.Missing != "" || !k.HarvestPriceKnown {
		t.Errorf("%+v", k)
	}
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// Averages of a program and of layers add up, per insured and per base acre too; with all
// layers the poor case is no higher than their sum allows, and odds of an overlap add to one.
func TestProgramsWithLayersAddUp(t *testing.T) {
	all := insuranceOf(t, insuredCorn())
	rows := all.Crops[0].Together
	alone := *rowOf(t, rows, farm.ARCCO).Average
	sco, eco := *rowOf(t, rows, "", farm.SCO).Average, *rowOf(t, rows, "", farm.ECO).Average
	both := rowOf(t, rows, farm.ARCCO, farm.SCO, farm.ECO)
	if got := *both.Average; math.Abs(float64(got-alone-sco-eco)) > 0.02 {
		t.Errorf("ARC-CO with both averages %v, its parts %v, %v and %v", got, alone, sco, eco)
	}
	if math.Abs(float64(*both.PerInsuredAcre)*110-float64(*both.Average)) > 1 || math.Abs(float64(*both.PerBaseAcre)*120-float64(*both.Average)) > 1 {
		t.Errorf("%+v is not over 110 insured and 120 base acres", both)
	}
	if *both.Worst > *both.Poor {
		t.Errorf("the worst tenth averages %v, above the poor case %v", *both.Worst, *both.Poor)
	}
	if len(all.Crops[0].Overlap) != 4 {
		t.Fatalf("%d overlaps, want 4", len(all.Crops[0].Overlap))
	}
	for _, o := range all.Crops[0].Overlap {
		if sum := o.Both + o.OnlyProgram + o.OnlyLayer + o.Neither; math.Abs(float64(sum)-1) > 1e-9 {
			t.Errorf("%+v adds to %v", o, sum)
		}
		layer := all.Crops[0].Layers[0]
		if o.Layer == farm.ECO {
			layer = all.Crops[0].Layers[1]
		}
		if math.Abs(float64(o.Both+o.OnlyLayer-*layer.ChanceOfPayment)) > 1e-9 {
			t.Errorf("%+v, and the layer pays in %v", o, *layer.ChanceOfPayment)
		}
	}
	if len(all.WholeFarm) != 4 || all.WholeFarm[1].Choice[crop.Corn] != farm.PLC || len(all.WholeFarm[1].Layers) != 2 {
		t.Errorf("whole farm %s", invented.AsJSON(t, all.WholeFarm))
	}
}

// A premium that is not typed is never guessed: what needs it has no figure, the rest has.
func TestPremiumIsNeverGuessed(t *testing.T) {
	c := insuredCorn()
	c.Operation.Farms[0].Insurance[0].Layers[0].Premium = nil
	all := insuranceOf(t, c)
	rows := all.Crops[0].Together
	if row := rowOf(t, rows, farm.PLC, farm.SCO); row.Average != nil || !row.PremiumMissing {
		t.Errorf("%+v", row)
	}
	if row := rowOf(t, rows, farm.PLC, farm.ECO); row.Average == nil {
		t.Errorf("%+v", row)
	}
	if l := all.Crops[0].Layers[0]; l.Net != nil || l.Average == nil || l.Premium != nil {
		t.Errorf("%+v", l)
	}
}

// What is missing is said, and nothing is shown in its place; a crop without base has layers
// alone; layers that do not stand on the same acres are not added up.
func TestWhatInsuranceLacks(t *testing.T) {
	for _, c := range []struct {
		change  func(i *farm.Insurance)
		missing string
	}{
		{func(i *farm.Insurance) { i.Harvest = nil }, "volatility factor"},
		{func(i *farm.Insurance) { i.Commodity = crop.Soybeans }, "a county yield of soybeans"},
	} {
		q := insuredCorn()
		c.change(&q.Operation.Farms[0].Insurance[0])
		all := insuranceOf(t, q)
		if k := all.Crops[0]; !strings.Contains(k.Missing, c.missing) || len(k.Together) > 0 || k.Layers[0].Average != nil || len(all.WholeFarm) > 0 {
			t.Errorf("%+v, want %q missing", k, c.missing)
		}
	}
	q := insuredCorn()
	q.Operation.Farms[0].Bases[0].Commodity = crop.Wheat
	if k := insuranceOf(t, q).Crops[0]; len(k.Together) != 3 || len(k.Overlap) != 0 || k.Together[0].PerBaseAcre != nil {
		t.Errorf("without base: %+v", k)
	}
	q = insuredCorn()
	q.Model = answer.PastHistory
	q.Operation.Farms[0].Insurance[0].Harvest = nil
	q.Operation.Farms[0].Insurance[0].Volatility = invented.Number(0.2)
	q.Operation.Farms[0].Insurance[0].FinalYield = invented.Number(170)
	if k := insuranceOf(t, q).Crops[0]; !strings.Contains(k.Missing, "replay of past years") {
		t.Errorf("past years: %+v", k)
	}
	if insurance := ask(t, cases.Corn()).CropYears[0].Farms[0].Insurance; insurance != nil {
		t.Errorf("not asked for: %+v", insurance)
	}
}

// Two farms in one county share the administrative fee by acres: 30 dollars on 110 and 190
// acres are 0.10 an acre.
func TestFeeIsDueOnceForACropAndCounty(t *testing.T) {
	q := insuredCorn()
	other := q.Operation.Farms[0]
	other.Number = "0418"
	other.Insurance = append([]farm.Insurance{}, other.Insurance...)
	other.Insurance[0].Acres = 190
	q.Operation.Farms = append(q.Operation.Farms, other)
	for _, f := range ask(t, q).CropYears[0].Farms {
		if fee := f.Insurance.Crops[0].Layers[0].Fee; math.Abs(float64(fee)-0.10) > 1e-9 {
			t.Errorf("farm %s: fee %v an acre", f.Farm, fee)
		}
	}
}

// In a crop year whose law pays the higher of PLC and ARC-CO, that alone stands beside the
// layers, whatever was elected.
func TestInsuranceBesideTheHigherOf(t *testing.T) {
	q := cases.HigherOf2025()
	q.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
	of := insuredCorn().Operation.Farms[0].Insurance[0]
	of.CropYear = 2025
	q.Operation.Farms[0].Insurance = []farm.Insurance{of}
	all := insuranceOf(t, q)
	rowOf(t, all.Crops[0].Together, farm.HigherOf, farm.SCO)
	if len(all.WholeFarm) != 2 || all.WholeFarm[0].Choice[crop.Corn] != farm.HigherOf {
		t.Errorf("%s", invented.AsJSON(t, all.WholeFarm))
	}
	for _, o := range all.Crops[0].Overlap {
		if o.Program != farm.HigherOf {
			t.Errorf("%+v", o)
		}
	}
}
