package limits

import (
	"fmt"
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// sureCorn is a farm whose corn is paid a sure 53,550 under PLC: 0.42 x 150 bushels on 85
// percent of 1,000 acres. The operator has half of it, 26,775, and a limit; nothing is sequestered.
func sureCorn(t *testing.T, limit float64) (m Payments, f farm.Farm, elected []Election) {
	t.Helper()
	market := invented.Market("2026-11-10")
	invented.Project(market, crop.Corn, 2026, 4.00, 0)
	from := position.Sources{Market: market}
	f = invented.OneFarm("0417", invented.Base(crop.Corn, 1000, 150))
	f.Shares.Every = &farm.Shares{"operator": 0.5}
	o := farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: []farm.Farm{f}}
	o.Settings = farm.Settings{PaymentLimit: map[crop.CropYear]float64{2026: limit}, Sequestration: map[crop.CropYear]float64{2026: 0}}
	rules, err := NewRules(o, 2026)
	if err != nil {
		t.Fatal(err)
	}
	bases, _ := from.CommodityBases(f, 2026)
	year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(2026)
	if err != nil {
		t.Fatal(err)
	}
	price, _ := from.Price(crop.Corn, 2026, 2)
	m = NewPayments(rules, year.Buffers)
	m.Add(bases[0], payoff.Of(&payoff.Year{Year: year}, o, bases[0], price))
	return m, f, []Election{{Farm: f.Key(), Commodity: crop.Corn, Program: farm.PLC}}
}

// What a limit of 20,000 costs of a sure 26,775 is 6,775; one of 26,774.50 cuts half a dollar and still counts; one of 30,000 costs nothing.
func TestCostOfALimitByHand(t *testing.T) {
	for limit, want := range map[float64]float64{20_000: 6_775, 26_774.50: 0.50, 30_000: 0} {
		m, _, elected := sureCorn(t, limit)
		means := m.ByRecipient(elected)
		if got := m.CostOfLimit(elected, means); math.Abs(got-want) > 1e-6 {
			t.Errorf("a limit of %v costs %v, want %v", limit, got, want)
		}
		reached := m.LimitsReached(elected, means)
		if (len(reached) == 1) != (want > 0) {
			t.Fatalf("a limit of %v: reached %+v", limit, reached)
		}
		if want > 0 && (reached[0].Chance != 1 || math.Abs(reached[0].Withheld-want) > 1e-6 || len(reached[0].BasesAtLimit) != 1 || math.Abs(reached[0].BasesAtLimit[0].OthersAtMost) > 1e-6) {
			t.Errorf("a limit of %v: %+v, want %v withheld in all outcomes and one base that fills it", limit, reached[0], want)
		}
	}
}

// ARC-CO pays the farm a sure 40,000, so 20,000 to the operator: elected in place of PLC's 26,775 it loses 6,775,
// whichever of the two is the chosen one. A margin, ARC-CO less PLC, is given where the limit often
// cuts; a gain where another program was last elected.
func TestGainAndMarginByHand(t *testing.T) {
	m, f, elected := sureCorn(t, 30_000)
	plc, arcco := elected[0], otherProgram(elected[0])
	series := m.Buffers.Zeros()
	for i := range series {
		series[i] = 40_000
	}
	m.shared[arcco] = claimsByProducer{{0, payoff.Claims{{Claim: &payoff.Claim{Rates: series, Most: 40_000}, Share: 0.5}}}}
	of := FarmCommodity{f.Key(), crop.Corn}
	for _, c := range []struct {
		chosen       Election
		record       farm.Program
		chance       float64
		gain, margin *float64
	}{
		{plc, farm.PLC, 0, invented.Number(0), nil},
		{plc, farm.ARCCO, 0, invented.Number(6_775), nil},
		{plc, farm.ARCCO, 1, invented.Number(6_775), invented.Number(-6_775)},
		{arcco, farm.ARCCO, 1, invented.Number(0), invented.Number(-6_775)},
		{plc, "", 1, nil, invented.Number(-6_775)},
		{plc, "", 0, nil, nil},
	} {
		f.Record = map[crop.Commodity]farm.Program{}
		if c.record != "" {
			f.Record[crop.Corn] = c.record
		}
		changes, release := m.Changes([]Election{c.chosen}, true)
		got := changes.Differences(f, []Election{c.chosen}, c.chance)[of]
		release()
		if !near(got.Gain, c.gain) || !near(got.Margin, c.margin) {
			t.Errorf("%s chosen, %q last elected, limit in %v: gain %s and margin %s, want %s and %s", c.chosen.Program, c.record, c.chance, shown(got.Gain), shown(got.Margin), shown(c.gain), shown(c.margin))
		}
	}
}

func near(a, b *float64) bool {
	return a == nil && b == nil || a != nil && b != nil && math.Abs(*a-*b) < 1e-6
}

func shown(x *float64) string {
	if x == nil {
		return "none"
	}
	return fmt.Sprint(*x)
}

// What a producer earns in a pool is a copy, and nil where it earns nothing there.
func TestEarnedOfOneProducer(t *testing.T) {
	var e Earned
	e[0] = [][]crop.Money{{0, 5, 0}, {0, 0, 0}}
	one, none := e.Of(0), e.Of(1)
	if len(one[0]) != 3 || one[0][1] != 5 || one[1] != nil || none[0] != nil {
		t.Errorf("%v and %v", one, none)
	}
	if few := (Earned{{{0, 0.50}}}).Of(0); len(few[0]) != 2 {
		t.Errorf("half a dollar is nothing: %v", few)
	}
	if one[0][1] = 7; e[0][0][1] != 5 {
		t.Error("it is no copy")
	}
}

// The limit of 2024 is 125,000 (7 U.S.C. 1308(b)); that of 2025 is from P.L. 119-21.
func TestLimitOfTheCropYear(t *testing.T) {
	rules, err := NewRules(farm.Operation{Producers: []farm.Producer{{ID: "a", Kind: farm.Person}}}, 2024)
	if err != nil || rules.Limit.Value != 125_000 || rules.Limit.Status != crop.Law {
		t.Errorf("%+v, %v", rules.Limit, err)
	}
}

// Who has shares in ten acres of base or less in all is paid nothing (7 U.S.C. 9014(d)): 6 + 4 acres on two farms bar, 0.01 more does not.
func TestTenAcresOverAllFarms(t *testing.T) {
	farms := []farm.Farm{invented.OneFarm("1", invented.Base(crop.Corn, 6, 150)), invented.OneFarm("2", invented.Base(crop.Corn, 4, 150))}
	for i := range farms {
		farms[i].Shares.Every = &farm.Shares{"small": 0.5, "other": 0.5}
	}
	o := farm.Operation{Farms: farms, Producers: []farm.Producer{{ID: "small", Kind: farm.Person}, {ID: "other", Kind: farm.Person, OtherBaseAcres: 0.01}}}
	rule, err := newTenAcreRule(o, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range farms {
		if !rule.Bars("small", f.Key()) || rule.Bars("other", f.Key()) {
			t.Errorf("farm %s: %+v", f.Number, rule)
		}
	}
}
