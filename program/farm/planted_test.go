package farm

import (
	"strings"
	"testing"

	"fencerow/program/crop"
)

func acres(x float64) *float64 { return &x }

// Plantings of a crop and year add up over practices; other years and crops do not count.
func TestPlantingsAddUp(t *testing.T) {
	f := Farm{Planted: []Planting{
		{CropYear: 2026, Commodity: "corn", Practice: Irrigated, Acres: 100, Prevented: 3},
		{CropYear: 2026, Commodity: "corn", Practice: Nonirrigated, Acres: 30, Prevented: 4},
		{CropYear: 2027, Commodity: "corn", Acres: 7, Prevented: 1},
		{CropYear: 2026, Commodity: "soybeans", Acres: 11},
	}}
	for y, want := range map[int][2]float64{2025: {0, 0}, 2026: {100 + 30, 3 + 4}, 2027: {7, 1}} {
		if planted, prevented := f.PlantedAcres("corn", y), f.PreventedAcres("corn", y); planted != want[0] || prevented != want[1] {
			t.Errorf("%d: %v planted and %v prevented, want %v", y, planted, prevented, want)
		}
	}
}

// Acres on base count where they are stated; of a planting that does not say, all count and the sum is not stated.
func TestPlantedOnBase(t *testing.T) {
	f := Farm{Planted: []Planting{
		{CropYear: 2026, Commodity: "fruit_vegetables", Acres: 10, OnBase: acres(4)},
		{CropYear: 2026, Commodity: "fruit_vegetables", Acres: 6, OnBase: acres(1)},
		{CropYear: 2027, Commodity: "fruit_vegetables", Acres: 10, OnBase: acres(4)},
		{CropYear: 2027, Commodity: "fruit_vegetables", Acres: 5},
	}}
	for _, c := range []struct {
		y      int
		acres  float64
		stated bool
	}{{2025, 0, true}, {2026, 4 + 1, true}, {2027, 4 + 5, false}} {
		if got, stated := f.PlantedOnBase("fruit_vegetables", c.y); got != c.acres || stated != c.stated {
			t.Errorf("%d: %v acres, stated %v, want %v, %v", c.y, got, stated, c.acres, c.stated)
		}
	}
}

// A joint operation is limited by its members in every year, a pass-through entity from crop
// year 2026 on (P.L. 119-21, sec. 10306), others never: only the former need members.
func TestMembersAreNeededWhereTheLimitGoesByThem(t *testing.T) {
	for _, c := range []struct {
		kind  ProducerKind
		y     int
		wrong bool
	}{{JointOperation, 2024, true}, {JointOperation, 2026, true}, {PassThrough, 2024, false}, {PassThrough, 2026, true}, {Corporation, 2026, false}, {Person, 2026, false}} {
		without := Producer{ID: "a", Kind: c.kind}
		if fault := without.CheckMembers(c.y); (fault != nil) != c.wrong {
			t.Errorf("%s of %d without members: %v", c.kind, c.y, fault)
		}
		with := Producer{ID: "a", Kind: c.kind, Members: []Member{{ID: "b", Share: 1}}}
		if fault := with.CheckMembers(c.y); fault != nil {
			t.Errorf("%s of %d with a member: %v", c.kind, c.y, fault)
		}
	}
}

// A choice names crops with base, and ARC-IC for all of them or none (7 U.S.C. 9015(b)).
func TestChoicesThatNoFarmCanMake(t *testing.T) {
	for _, c := range []struct {
		why    string
		choice map[crop.Commodity]Program
		at     crop.Commodity
		wrong  bool
	}{
		{"none", nil, "", false},
		{"PLC and ARC-CO", map[crop.Commodity]Program{crop.Corn: PLC, crop.Soybeans: ARCCO}, "", false},
		{"ARC-IC for all", map[crop.Commodity]Program{crop.Corn: ARCIC, crop.Soybeans: ARCIC}, "", false},
		{"ARC-IC for one", map[crop.Commodity]Program{crop.Corn: ARCIC, crop.Soybeans: PLC}, "", true},
		{"ARC-IC for one alone", map[crop.Commodity]Program{crop.Corn: ARCIC}, "", true},
		{"a crop without base", map[crop.Commodity]Program{crop.Wheat: PLC}, crop.Wheat, true},
	} {
		f := Farm{Number: "1", Bases: []Base{{Commodity: crop.Corn, BaseAcres: 10}, {Commodity: crop.Soybeans, BaseAcres: 5}}, Choice: map[int]map[crop.Commodity]Program{2026: c.choice}}
		if at, fault := f.CheckChoice(2026); at != c.at || (fault != nil) != c.wrong {
			t.Errorf("%s: at %q, %v", c.why, at, fault)
		}
		if _, fault := f.CheckChoice(2026); fault != nil && !strings.Contains(fault.Reason, "farm 1 of crop year 2026") {
			t.Errorf("%s: %q names another farm or year", c.why, fault.Reason)
		}
		if _, fault := f.CheckChoice(2027); fault != nil {
			t.Errorf("%s: of another year: %v", c.why, fault)
		}
	}
}

// Newer takes what the base market does not know, and leaves what it knows.
func TestNewerPricesFillWhatIsNotKnown(t *testing.T) {
	known := func(prices map[int]float64) Market {
		m := Market{MYA: map[crop.Commodity]map[crop.CropYear]Figure{crop.Corn: {}}}
		for y, price := range prices {
			m.MYA[crop.Corn][y] = Figure{Value: price, Status: crop.Agency}
		}
		return m
	}
	got := known(map[int]float64{2023: 9, 2024: 4.24}).Newer(known(map[int]float64{2023: 4.55}))
	if all := got.MYA[crop.Corn]; len(all) != 1 || all[2024].Value != 4.24 {
		t.Errorf("%+v, want 4.24 of 2024 alone", all)
	}
}
