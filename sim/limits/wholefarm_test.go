package limits

import (
	"maps"
	"math"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/scenario"
)

// surely are payments of one person with a limit, the same in every outcome and not sequestered.
func surely(limit, used float64, paid map[Election]float64) Payments {
	size := odds.NewScenarios(1, randomScenarios)
	m := NewPayments(Rules{}, &scenario.Buffers{Size: size})
	m.CropYear, m.Producers = 2026, []farm.Producer{{ID: "operator", Kind: farm.Person, LimitUsed: map[crop.CropYear]farm.LimitUsed{2026: {General: used}}}}
	for e, money := range paid {
		series := slices.Repeat([]crop.Money{money}, size.N())
		m.Totals[e] = payoff.ClaimsOf(series)
		m.shared[e] = claimsByProducer{{0, m.Totals[e]}}
	}
	m.follow(program.NewAttribution(m.Producers, program.LimitRule{Limit: limit, CropYear: 2026}))
	return m
}

// Of a farm with corn and soybeans: what each program surely pays.
func paidOnTwoCrops() map[Election]float64 {
	return map[Election]float64{
		{"f", crop.Corn, farm.PLC}: 10_000, {"f", crop.Corn, farm.ARCCO}: 12_000, {"f", crop.Corn, farm.ARCIC}: 9_000,
		{"f", crop.Soybeans, farm.PLC}: 3_000, {"f", crop.Soybeans, farm.ARCCO}: 1_000, {"f", crop.Soybeans, farm.ARCIC}: 5_000,
	}
}

// ARC-IC is elected for a whole farm: where it is chosen or was elected last, the gain of the whole farm stands
// with its first crop. ARC-CO on corn and PLC on soybeans pay 15,000, ARC-IC on both 14,000, PLC on both 13,000.
func TestGainOfAWholeFarmByHand(t *testing.T) {
	mixed, plc, arcic := []farm.Program{farm.ARCCO, farm.PLC}, []farm.Program{farm.PLC, farm.PLC}, []farm.Program{farm.ARCIC, farm.ARCIC}
	zero, none := invented.Number(0), (*float64)(nil)
	for _, c := range []struct {
		why            string
		limit          float64
		chosen, record []farm.Program
		corn, soybeans *float64
	}{
		{"ARC-IC was elected last", 1e6, mixed, arcic, invented.Number(1_000), zero},
		{"the limit leaves 14,500 of 15,000", 14_500, mixed, arcic, invented.Number(500), zero},
		{"the limit leaves the same of both", 10_000, mixed, arcic, zero, zero},
		{"ARC-IC is chosen", 1e6, arcic, plc, invented.Number(1_000), zero},
		{"ARC-IC is chosen and was elected last", 1e6, arcic, arcic, zero, zero},
		{"ARC-IC on record pays more", 1e6, plc, arcic, zero, zero},
		{"without ARC-IC each crop has its own", 1e6, mixed, []farm.Program{farm.PLC, farm.ARCCO}, invented.Number(2_000), invented.Number(2_000)},
		{"a crop without an election has no figures", 1e6, mixed, []farm.Program{farm.ARCIC, ""}, none, none},
	} {
		f := farm.Farm{Number: "f", Record: map[crop.Commodity]farm.Program{crop.Corn: c.record[0], crop.Soybeans: c.record[1]}}
		chosen := []Election{{"f", crop.Corn, c.chosen[0]}, {"f", crop.Soybeans, c.chosen[1]}}
		changes, release := surely(c.limit, 0, paidOnTwoCrops()).Changes(chosen, false)
		all := changes.Differences(f, chosen, 0)
		release()
		if corn, soybeans := all[FarmCommodity{"f", crop.Corn}].Gain, all[FarmCommodity{"f", crop.Soybeans}].Gain; !near(corn, c.corn) || !near(soybeans, c.soybeans) {
			t.Errorf("%s: gains %s and %s, by hand %s and %s", c.why, shown(corn), shown(soybeans), shown(c.corn), shown(c.soybeans))
		}
	}
}

// The most that any choice pays is ARC-CO on corn and ARC-IC on soybeans, 17,000: a limit of so much can be reached, one of a
// cent more cannot, and then no outcome is looked at.
func TestWhetherALimitCanBeReached(t *testing.T) {
	chosen := []Election{{"f", crop.Corn, farm.PLC}, {"f", crop.Soybeans, farm.PLC}}
	for limit, possible := range map[float64]bool{17_000: true, 17_000.01: false} {
		m := surely(limit, 0, paidOnTwoCrops())
		// ARC-IC is no choice of PLC and ARC-CO, so that neverLimited says nothing of it.
		changes, release := m.Changes(chosen, true)
		release()
		if changes.limitPossible != possible {
			t.Errorf("a limit of %v can be reached: %v", limit, changes.limitPossible)
		}
	}
	// 13,000 under PLC: never limited at 13,000.01, perhaps at 13,000.
	if !surely(13_000.01, 0, paidOnTwoCrops()).neverLimited(chosen) || surely(13_000, 0, paidOnTwoCrops()).neverLimited(chosen) {
		t.Error("13,000 reaches a limit of 13,000 and not one of a cent more")
	}
	// A limit used up elsewhere cuts nothing where nothing is earned.
	if !surely(13_000, 13_000, paidOnTwoCrops()).neverLimited(nil) {
		t.Error("nothing is earned, and a limit is reached")
	}
}

// A limit that is used up elsewhere withholds even half a dollar, and is filled by it; where nothing arrives
// it is not.
func TestFiftyCentsFillALimitUsedUp(t *testing.T) {
	e := Election{"f", crop.Corn, farm.PLC}
	m := surely(155_000, 155_000, map[Election]float64{e: 0.50})
	series := m.Totals[e][0].Rates
	for i := 0; i < len(series); i += 2 {
		series[i] = 0
	}
	got := m.ByRecipient([]Election{e})
	if got.AtLimit[0] != 0.5 || math.Abs(got.Withheld[0]-0.25) > 1e-12 || got.Paid[0] != 0 || got.withinLimit[0] != 0 || !got.limitExceeded {
		t.Errorf("%+v; by hand filled in half of the outcomes, 0.25 withheld", got)
	}
	if m.limitBinds([]Election{e}) != true {
		t.Error("the limit does not bind")
	}
}

// Half a dollar cut in a single outcome is a limit exceeded.
func TestFiftyCentsInOneOutcome(t *testing.T) {
	e := Election{"f", crop.Corn, farm.PLC}
	m := surely(155_000, 0, map[Election]float64{e: 0})
	series := m.Totals[e][0].Rates
	series[3], m.Totals[e][0].Claim.Most = 155_000.50, 155_000.50
	outcomes := float64(len(series))
	got := m.ByRecipient([]Election{e})
	if !got.limitExceeded || math.Abs(got.Withheld[0]-0.50/outcomes) > 1e-12 || got.AtLimit[0] != 1/outcomes {
		t.Errorf("%+v; by hand 50 cents withheld in one of %v outcomes", got, outcomes)
	}
	if cost := m.CostOfLimit([]Election{e}, got); math.Abs(cost-0.50/outcomes) > 1e-9 {
		t.Errorf("the limit costs %v, by hand %v", cost, 0.50/outcomes)
	}
}

// What fills a limit exactly reaches it, and nothing of it is cut.
func TestALimitFilledExactly(t *testing.T) {
	e := Election{"f", crop.Corn, farm.PLC}
	for paid, filled := range map[float64]float64{155_000: 1, 154_999.99: 0} {
		got := surely(155_000, 0, map[Election]float64{e: paid}).ByRecipient([]Election{e})
		if got.AtLimit[0] != filled || got.Withheld[0] != 0 || got.limitExceeded || math.Abs(got.Total-paid) > 1e-9 {
			t.Errorf("%v of a limit of 155,000: %+v", paid, got)
		}
	}
}

// A tenth is sequestered of all that the limit of 100,000 leaves. Corn alone, 150,000, fills it; with soybeans, 30,000, so
// that 80,000 are cut, 72,000 after sequestration. Corn leaves the others nothing; soybeans alone fill no limit.
func TestLimitsReachedAfterSequestration(t *testing.T) {
	corn, soybeans := Election{"f", crop.Corn, farm.PLC}, Election{"f", crop.Soybeans, farm.PLC}
	m := surely(100_000, 0, map[Election]float64{corn: 150_000, soybeans: 30_000})
	m.Sequestration.Value = 0.1
	both := []Election{corn, soybeans}
	means := m.ByRecipient(both)
	got := m.LimitsReached(both, means)
	if len(got) != 1 || got[0].Recipient != "operator" || got[0].Limit != 100_000 || got[0].Chance != 1 || math.Abs(got[0].Withheld-72_000) > 1e-6 || math.Abs(means.Total-90_000) > 1e-6 {
		t.Errorf("%+v, paid %v", got, means.Total)
	}
	if bases := got[0].BasesAtLimit; len(bases) != 1 || bases[0].Election != corn || bases[0].Chance != 1 || bases[0].OthersAtMost != 0 {
		t.Errorf("bases that fill the limit: %+v", bases)
	}
	if got := m.CostOfLimit(both, means); math.Abs(got-72_000) > 1e-6 {
		t.Errorf("the limit costs %v", got)
	}
}

// The chance of a limit is that of who is paid for the farm, of several the highest; a stranger's does not count.
func TestChanceOfALimitByHand(t *testing.T) {
	e := Election{"f", crop.Corn, farm.PLC}
	m := surely(100, 0, map[Election]float64{e: 150})
	changes, release := m.Changes([]Election{e}, false)
	defer release()
	for who, want := range map[string]float64{"operator": 1, "stranger": 0} {
		f := farm.Farm{Number: "f", Bases: []farm.Base{invented.Base(crop.Corn, 10, 100)}, Shares: farm.ByCropYear[farm.Shares]{Every: &farm.Shares{who: 1}}}
		if got := changes.ChanceOfLimit(f); got != want {
			t.Errorf("%s: a limit is reached in %v, by hand %v", who, got, want)
		}
	}
}

// A search may begin where all crops of a group have the other program.
func TestGroupsThatAreFlipped(t *testing.T) {
	start := []Election{{"1", crop.Corn, farm.PLC}, {"2", crop.Corn, farm.PLC}, {"1", crop.Soybeans, farm.PLC}}
	other := slices.Clone(start)
	other[0].Program, other[1].Program = farm.ARCCO, farm.ARCCO
	if got := flippedGroups(other, start, [][]int{{0, 1}, {2}}); !slices.Equal(got, []bool{true, false}) {
		t.Errorf("flipped: %v", got)
	}
}

// Each producer's claims under one program are beside its own under the other, also where somebody has none there.
func TestClaimsStandBesideTheOwn(t *testing.T) {
	of := func(money float64) payoff.Claims { return payoff.ClaimsOf([]crop.Money{money}) }
	mine := claimsByProducer{{0, of(1)}, {1, of(2)}, {2, of(3)}}
	for _, c := range []struct {
		theirs claimsByProducer
		want   map[int][2]float64
	}{
		{claimsByProducer{{1, of(20)}, {2, of(30)}}, map[int][2]float64{0: {1, 0}, 1: {2, 20}, 2: {3, 30}}},
		{claimsByProducer{{0, of(10)}, {1, of(20)}, {2, of(30)}}, map[int][2]float64{0: {1, 10}, 1: {2, 20}, 2: {3, 30}}},
		{claimsByProducer{{2, of(30)}}, map[int][2]float64{0: {1, 0}, 1: {2, 0}, 2: {3, 30}}},
		{nil, map[int][2]float64{0: {1, 0}, 1: {2, 0}, 2: {3, 0}}},
	} {
		got := map[int][2]float64{}
		mine.beside(c.theirs, func(producer int, a, b payoff.Claims) { got[producer] = [2]float64{a.Most(), b.Most()} })
		if !maps.Equal(got, c.want) {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
}
