package answer

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// flagRaised returns the first flag of a code that the first farm raises.
func flagRaised(t *testing.T, c Case, y crop.CropYear, code string) (Flag, bool) {
	t.Helper()
	people, err := newPayer(c.Operation, y)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
		if f.Code == code {
			return f, true
		}
	}
	return Flag{}, false
}

// says wants each of some words in a flag.
func says(t *testing.T, c Case, y crop.CropYear, code string, words ...string) {
	t.Helper()
	f, raised := flagRaised(t, c, y, code)
	if !raised {
		t.Errorf("%s is not raised in crop year %d", code, y)
	}
	for _, w := range words {
		if !strings.Contains(f.Message+" | "+f.Source, w) {
			t.Errorf("%s of crop year %d does not say %q: %s | %s", code, y, w, f.Message, f.Source)
		}
	}
}

// The 2026 election has two halves, and neither is confirmed in the words of the law.
//
// Source: P.L. 119-21, print p. 19-20, in a digest; FSA news, 9 February 2021.
func TestBothHalvesOfThe2026Election(t *testing.T) {
	says(t, designCase(), 2026, "new_election_needed", "nothing is paid for 2026", "start from the coverage of 2025, until it is changed", "without a signed contract pays nothing", "not confirmed in the words of the law", "P.L. 119-21")
}

// A limit that is projected says so and how it was made, wherever it stands.
//
// Source: 7 CFR 1400.106(d).
func TestLimitOf2026IsProjected(t *testing.T) {
	says(t, designCase(), 2026, "unverified_figure", "Projected for crop year 2026: the payment limit, $159,000 (155,000 raised once by the CPI-U, 319.205 over 310.955", "settings in the operation file")
	c := sharedOperation(3000, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	c.Operation.Settings.PaymentLimit = nil
	year := compare(t, c).CropYears[0]
	if p := year.Operation.ByPerson[0]; p.Limit != 159_000 || p.LimitStatus != crop.Projected {
		t.Errorf("limit %v, %s; want 159000, projected", p.Limit, p.LimitStatus)
	}
	for _, f := range year.Farms[0].Flags {
		if f.Code == "limit_reached" && !strings.Contains(f.Message, "$159,000 (projected)") {
			t.Errorf("the limit is not marked: %s", f.Message)
		}
	}
	c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: 161_000}
	if p := compare(t, c).CropYears[0].Operation.ByPerson[0]; p.Limit != 161_000 || p.LimitStatus != crop.Assumed {
		t.Errorf("own limit %v, %s; want 161000, assumed", p.Limit, p.LimitStatus)
	}
	says(t, case2025(), 2025, "unverified_figure", "Not confirmed for crop year 2025: the payment limit, $155,000")
}

// Nobody is shown memory as a source.
func TestNoRowIsFromMemory(t *testing.T) {
	for _, id := range law.IDs() {
		for _, row := range law.Rows(id) {
			if text := strings.ToLower(row.Citation() + row.Note + law.SourceOf(row).Title); strings.Contains(text, "memory") {
				t.Errorf("%s %d: %s", id, row.First, text)
			}
		}
	}
}

// What 2025 pays a farm with ARC-IC on record is not confirmed.
//
// Source: 7 U.S.C. 9015 as amended by P.L. 119-21 names PLC and ARC-CO only.
func TestHigherOf2025WithARCICOnRecord(t *testing.T) {
	c := case2025()
	record(&c, farm.PLC)
	if f, _ := flagRaised(t, c, 2025, "higher_of_2025"); f.Severity != Info || strings.Contains(f.Message, "ARC-IC") {
		t.Errorf("with PLC on record: %+v", f)
	}
	record(&c, farm.ARCIC)
	says(t, c, 2025, "higher_of_2025", "ARC-IC is on record", "not confirmed")
}

// STAX is barred on a farm enrolled for seed cotton from crop year 2019.
//
// Source: 7 U.S.C. 1508b(f).
func TestSTAXIsBarredFrom2019(t *testing.T) {
	for y := 2018; y <= 2026; y += 8 {
		f := farm.Farm{STAXBought: map[crop.CropYear]bool{y: true}}
		if row, barred := staxBars(f, crop.SeedCotton, y); barred != (y >= 2019) || barred && row.Citation() != "7 U.S.C. 1508b(f)" {
			t.Errorf("crop year %d: barred %v by %s", y, barred, row.Citation())
		}
	}
}

// Farms merge only with the same election for every covered commodity, with or
// without base of it.
//
// Source: 7 CFR 1412.73(b).
func TestMergeLooksAtEveryCommodity(t *testing.T) {
	merged := func(here, there map[crop.Commodity]farm.Program) Case {
		c := designCase()
		other := oneFarm("0588", base(crop.Corn, 50, 150))
		c.Operation.Farms[0].MergeWith, c.Operation.Farms[0].Record, other.Record = "0588", here, there
		c.Operation.Farms = append(c.Operation.Farms, other)
		return c
	}
	wheatApart := map[crop.Commodity]farm.Program{crop.Corn: farm.PLC, crop.Wheat: farm.ARCCO} // neither farm has wheat base
	alike := map[crop.Commodity]farm.Program{crop.Corn: farm.PLC, crop.Wheat: farm.PLC}
	says(t, merged(wheatApart, alike), 2026, "merge_needs_same_election", "wheat (ARC-CO here, PLC there)", "whether or not the farm has base of it", "7 CFR 1412.73(b)")
	says(t, merged(alike, map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}), 2026, "merge_needs_same_election", "not given for wheat")
	if f, raised := flagRaised(t, merged(alike, alike), 2026, "merge_needs_same_election"); raised {
		t.Errorf("raised for equal records: %s", f.Message)
	}
}

// Fruit and vegetables cut payment acres only where they are planted on base: 40 acres
// on 100 base acres cut 40 - 15 = 25; of them 20 on base cut 5, and 10 on base nothing.
//
// Source: 7 U.S.C. 9014(e).
func TestFruitAndVegetablesOnBase(t *testing.T) {
	for name, one := range map[string]struct {
		onBase *float64
		want   float64
		says   string
	}{
		"not stated":                  {nil, 85 - 25, "assumed to be planted on base"},
		"20 of them on base":          {number(20), 85 - 5, "20.00 acres of fruit"},
		"10 of them on base":          {number(10), 85, "they cut nothing"},
		"all of them beside the base": {number(0), 85, "they cut nothing"},
	} {
		c := designCase()
		c.Operation.Farms[0].Bases = []farm.Base{base(crop.Corn, 100, 150)}
		plant(&c, "fruit_vegetables", 40, 0)
		c.Operation.Farms[0].Planted[0].OnBase = one.onBase
		if got := float64(only(t, c).Bases[0].PaymentAcres); math.Abs(got-one.want) > 1e-9 {
			t.Errorf("%s: %v payment acres, want %v", name, got, one.want)
		}
		says(t, c, 2026, "fruit_vegetables", one.says)
	}
}

// A pass-through entity without members is refused in a crop year whose limit goes by
// them, and is one of one limit before.
func TestEntityWithoutMembers(t *testing.T) {
	c := sharedOperation(1500, []farm.Producer{{ID: "firm", Kind: farm.PassThrough}}, farm.Shares{"firm": 1})
	if _, err := Compare(c); err == nil || !strings.Contains(err.Error(), `producer "firm" is a pass_through without members`) {
		t.Errorf("crop year 2026: %v", err)
	}
	if _, err := newPayer(c.Operation, 2025); err != nil {
		t.Errorf("crop year 2025: %v", err)
	}
}
