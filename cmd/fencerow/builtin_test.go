package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/io/read/builtin"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// builtInCounty is a county whose corn stands in the built-in tables.
func builtInCounty(t *testing.T) string {
	t.Helper()
	all, err := builtin.Sources("")
	if err != nil {
		t.Fatal(err)
	}
	book := farm.CountyBook(all[:1])
	for _, code := range book.Codes("") {
		if entries := book.Entries(code, crop.Corn, farm.AllPractices); len(entries) == 1 && entries[0].BenchmarkYield[2025] > 0 {
			return code
		}
	}
	t.Fatal("no county has corn")
	return ""
}

// Every verb that asks about counties works from the built-in tables alone, names them,
// and says which of FSA's tables are not among them; --builtin none switches them off,
// and any other word is refused.
func TestBuiltInTables(t *testing.T) {
	county := builtInCounty(t)
	farms := filepath.Join(t.TempDir(), "farms.yaml")
	text := "format: fencerow/operation/1\nfarms:\n  - {farm: \"1\", county: \"" + county + "\", bases: [{commodity: corn, base_acres: 100, payment_yield: 120}]}\n"
	if err := os.WriteFile(farms, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	usual := []string{"--book", "none", "--today", demoToday, "--crop-year", "2026"}
	for _, verb := range [][]string{{"county", "show", county}, {"compare", farms, "--full", "--draws", "256"}, {"replay", farms}, {"handout", county, "--draws", "256", "--out", filepath.Join(t.TempDir(), "sheets")}} {
		args := append(verb, usual...)
		out, _ := talks(t, exitDone, args...)
		named := verb[0] == "handout" || strings.Contains(strings.Join(strings.Fields(out), " "), "built in")
		if !named {
			t.Errorf("%v does not name the built-in tables:\n%s", args, out)
		}
		if gap := "program years 2016, 2022"; (verb[0] == "replay" || verb[0] == "county") && !strings.Contains(strings.Join(strings.Fields(out), " "), gap) {
			t.Errorf("%v does not say that %s are missing:\n%s", args, gap, out)
		}
		if verb[0] == "handout" {
			continue // has no sheet without a source
		}
		if out, _ := talks(t, exitDone, append(args, "--builtin", "none")...); strings.Contains(out, "built in,") {
			t.Errorf("%v --builtin none:\n%s", args, out)
		}
		if _, talk := talks(t, exitUsage, append(args, "--builtin", "maybe")...); !strings.Contains(talk, "--builtin none") {
			t.Error(talk)
		}
	}
}
