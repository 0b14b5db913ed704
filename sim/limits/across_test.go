package limits

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

// A person who earns 30,000 in all operations together, 10,000 of it here under PLC, has one limit for all. ARC-CO would
// pay 2,000 more here: a limit of 31,000 leaves 1,000 of that, one of 25,000 nothing, one of a million all.
func TestLimitOfSeveralOperationsByHand(t *testing.T) {
	plc := Election{"f", crop.Corn, farm.PLC}
	for limit, want := range map[float64][2]float64{25_000: {25_000, 0}, 31_000: {30_000, 1_000}, 1_000_000: {30_000, 2_000}} {
		m := surely(limit, 0, paidOnTwoCrops())
		m.EarnedAcross = map[int]Earnings{0: {slices.Repeat([]crop.Money{30_000}, m.Buffers.Size.N())}}
		changes, release := m.Changes([]Election{plc}, false)
		rise := changes.meanChange([]Election{plc}, []Election{otherProgram(plc)})
		if got := [2]float64{changes.Current.Total, rise}; got != want {
			t.Errorf("a limit of %v: paid %v and %v more under ARC-CO, by hand %v", limit, got[0], got[1], want)
		}
		release()
	}
}

// Far below the limit each crop has the program that pays more, ARC-CO on corn (12,000) and PLC on soybeans (3,000): the bound is
// their sum, nothing pays more, and no choice of PLC and ARC-CO is limited.
func TestChoiceWithoutALimitByHand(t *testing.T) {
	start := []Election{{"f", crop.Corn, farm.PLC}, {"f", crop.Soybeans, farm.PLC}}
	best, simplest := surely(1e6, 0, paidOnTwoCrops()).WholeOperation(start)
	want := []Election{{"f", crop.Corn, farm.ARCCO}, {"f", crop.Soybeans, farm.PLC}}
	for name, c := range map[string]Choice{"best": best, "simplest": simplest} {
		if !slices.Equal(c.Elections, want) || c.Bound != 15_000 || !c.Exact || !c.NeverLimited {
			t.Errorf("%s: %+v", name, c)
		}
	}
	// Under a limit of 11,000 ARC-CO on corn fills it, whatever soybeans have: all choices were tried, and a limit cuts some.
	best, _ = surely(11_000, 0, paidOnTwoCrops()).WholeOperation(start)
	if best.Bound != 11_000 || !best.Exact || best.NeverLimited {
		t.Errorf("under a limit of 11,000: %+v", best)
	}
}

// Limited resource and socially disadvantaged producers are exempt since the 2014 Act, beginning farmers and veterans from crop
// year 2019 on (7 U.S.C. 9014(d)(2), as amended by P.L. 115-334).
func TestWhoIsExemptFromTenAcres(t *testing.T) {
	for who, from := range map[farm.Exemption]crop.CropYear{farm.LimitedResource: 2014, farm.SociallyDisadvantaged: 2014, farm.Beginning: 2019, farm.Veteran: 2019, farm.NotExempt: 9999, "": 9999} {
		for _, y := range []crop.CropYear{2014, 2018, 2019, 2026} {
			if got := tenAcreExempt(farm.Producer{ID: "a", TenAcreExempt: who}, y); got != (y >= from) {
				t.Errorf("%q in %d: exempt %v", who, y, got)
			}
		}
	}
}

// To 2018 each farm counted by itself: six acres bar on their own farm, eleven on another do not; from 2019 on all 17 count together.
func TestTenAcresFarmByFarm(t *testing.T) {
	farms := []farm.Farm{invented.OneFarm("1", invented.Base(crop.Corn, 6, 150)), invented.OneFarm("2", invented.Base(crop.Corn, 11, 150))}
	o := farm.Operation{Farms: farms, Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}}
	for y, barred := range map[crop.CropYear][2]bool{2018: {true, false}, 2019: {false, false}} {
		rule, err := newTenAcreRule(o, y)
		if err != nil {
			t.Fatal(err)
		}
		if got := [2]bool{rule.Bars("operator", farms[0].Key()), rule.Bars("operator", farms[1].Key())}; got != barred {
			t.Errorf("%d: barred on the farms %v, by hand %v", y, got, barred)
		}
	}
}
