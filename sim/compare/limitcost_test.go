package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/cases"
)

// What a limit costs is what it keeps back of the payment that sequestration leaves; what income over the
// limit bars is no cost of it.
func TestCostOfLimit(t *testing.T) {
	const net = 1 - 0.057
	firm := []farm.Producer{{ID: "firm", Kind: farm.Person}}
	barred := []farm.Producer{{ID: "firm", Kind: farm.Person, IncomeOverLimit: true}}
	corporation := []farm.Producer{{ID: "firm", Kind: farm.Corporation, Members: []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}}}
	for name, one := range map[string]struct {
		acres     float64
		producers []farm.Producer
		want      float64
	}{
		"a person over the limit":           {1500, firm, paysOn1500*net - 155_000},
		"a corporation over the limit":      {1500, corporation, paysOn1500*net - 155_000},
		"a person under the limit":          {1000, firm, 0},
		"a person whose income is too high": {1500, barred, 0},
	} {
		c := cases.SharedOperation(one.acres, one.producers, farm.Shares{"firm": 1})
		c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
		o := ask(t, c).CropYears[0].Operation
		if math.Abs(float64(*o.CostOfLimit)-one.want) > 0.02 {
			t.Errorf("%s: the limit costs %v, want %v", name, *o.CostOfLimit, one.want)
		}
		if !o.Exact || *o.Gap != 0 || *o.Bound != *o.MeanAfterLimit {
			t.Errorf("%s: bound %v, gap %v, exact %v of a mean of %v: two choices can all be tried", name, *o.Bound, *o.Gap, o.Exact, *o.MeanAfterLimit)
		}
		if o.Simplest.Choice[crop.Corn] != o.HighestMean[c.Operation.Farms[0].Key()][crop.Corn] || o.Simplest.MeanAfterLimit != *o.MeanAfterLimit {
			t.Errorf("%s: the simplest of one pair is %+v, not the choice itself", name, o.Simplest)
		}
	}
}

// Where the law pays the higher of both there is nothing to choose.
func TestNothingToChooseUnderHigherOf(t *testing.T) {
	o := ask(t, cases.HigherOf2025()).CropYears[0].Operation
	if o.Simplest.Choice[crop.Corn] != farm.HigherOf || o.Simplest.MeanAfterLimit != *o.MeanAfterLimit {
		t.Errorf("the simplest is %+v, want HIGHER-OF at %v", o.Simplest, *o.MeanAfterLimit)
	}
	if !o.Exact || *o.Gap != 0 || *o.Bound != *o.MeanAfterLimit {
		t.Errorf("bound %v, gap %v, exact %v of a mean of %v", *o.Bound, *o.Gap, o.Exact, *o.MeanAfterLimit)
	}
}
