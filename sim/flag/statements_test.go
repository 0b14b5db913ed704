package flag

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// flagRaised returns the first flag of a code that the first farm raises.
func flagRaised(t *testing.T, c answer.Question, y crop.CropYear, code string) (answer.Flag, bool) {
	t.Helper()
	people, err := limits.NewRules(c.Operation, y)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
		if f.Code == code {
			return f, true
		}
	}
	return answer.Flag{}, false
}

// Says wants each of some words in a flag.
func says(t *testing.T, c answer.Question, y crop.CropYear, code string, words ...string) {
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
	says(t, cases.Corn(), 2026, "new_election_needed", "nothing is paid for 2026", "start from the coverage of 2025, until it is changed", "without a signed contract pays nothing", "not confirmed in the words of the law", "P.L. 119-21")
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
	c := cases.HigherOf2025()
	cases.Record(&c, farm.PLC)
	if f, _ := flagRaised(t, c, 2025, "higher_of_2025"); f.Severity != answer.Info || strings.Contains(f.Message, "ARC-IC") {
		t.Errorf("with PLC on record: %+v", f)
	}
	cases.Record(&c, farm.ARCIC)
	says(t, c, 2025, "higher_of_2025", "ARC-IC was last elected", "not confirmed")
}

// STAX is barred on a farm enrolled for seed cotton from crop year 2019.
//
// Source: 7 U.S.C. 1508b(f).
func TestSTAXIsBarredFrom2019(t *testing.T) {
	for y := 2018; y <= 2026; y += 8 {
		f := farm.Farm{STAXBought: map[crop.CropYear]bool{y: true}}
		if row, barred := STAXBars(f, crop.SeedCotton, y); barred != (y >= 2019) || barred && row.Citation() != "7 U.S.C. 1508b(f)" {
			t.Errorf("crop year %d: barred %v by %s", y, barred, row.Citation())
		}
	}
}

// Farms merge only with the same election for every covered commodity, with or
// without base of it.
//
// Source: 7 CFR 1412.73(b).
func TestMergeLooksAtEveryCommodity(t *testing.T) {
	merged := func(here, there map[crop.Commodity]farm.Program) answer.Question {
		c := cases.Corn()
		other := invented.OneFarm("0588", invented.Base(crop.Corn, 50, 150))
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
