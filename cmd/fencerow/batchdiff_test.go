package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
)

// ofAnotherLaw runs a program that is built with another row of the law, crop year 2025's
// reference price of corn, and returns what it prints. 3.70 is that of crop year 2024.
func ofAnotherLaw(t *testing.T, args ...string) string {
	t.Helper()
	rows, _ := filepath.Abs("../../program/law/reference_price.csv")
	text, err := os.ReadFile(rows)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	other := strings.Replace(string(text), "reference_price,corn,2025,2031,4.10", "reference_price,corn,2025,2031,3.70", 1)
	if other == string(text) {
		t.Fatal("no such row")
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {rows: filepath.Join(folder, "other.csv")}})
	if err != nil {
		t.Fatal(err)
	}
	for name, content := range map[string]string{"other.csv": other, "overlay.json": string(overlay)} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	program := filepath.Join(folder, "other.exe")
	if said, err := exec.Command("go", "build", "-overlay", filepath.Join(folder, "overlay.json"), "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	said, err := exec.Command(program, args...).Output()
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	return string(said)
}

// A run of a program with another reference price: every line that moved is put down to
// the law, named from old to new, and no lead flips otherwise than by asking the same
// table again.
func TestBatchDiffOfAnotherLaw(t *testing.T) {
	if !invented.LongRun {
		t.Skip("builds the program once more: FENCEROW_LONG")
	}
	folder := t.TempDir()
	table, before, after := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "before"), filepath.Join(folder, "after")
	writeRows(t, table, manyFarms(200, 7))
	market := filepath.Join(folder, "market.yaml")
	if err := os.WriteFile(market, []byte("format: fencerow/market/1\nas_of: 2026-11-10\nsource: invented\noutlook: {corn: {2026: {price: 4.00}}, soybeans: {2026: {price: 10.60}}, wheat: {2026: {price: 5.60}}}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	ofAnotherLaw(t, batchArgs(table, before, "--draws", "1024", "--market", market)...)
	runs(t, batchArgs(table, after, "--draws", "1024", "--market", market)...)
	lines := filepath.Join(folder, "diff.csv")
	runs(t, "batch", "diff", before, after, "--out", lines)
	flipped := 0
	rows := readRows(t, lines)
	for _, row := range rows[1:] {
		if row[3] != "corn" || row[17] != "law" || row[20] != "reference price corn 3.70 -> 4.10" {
			t.Errorf("%v", row)
		}
		if row[5] == "true" {
			flipped++
		}
	}
	if len(rows) < 100 || flipped == 0 {
		t.Errorf("%d lines moved, %d flipped: the case shows too little", len(rows)-1, flipped)
	}
	t.Logf("%d lines moved, %d flipped", len(rows)-1, flipped)
}

// An answer of a program with another reference price: every line that moved is one of corn,
// put down to the law, named from old to new, and no other line has moved.
func TestSinceAnotherLaw(t *testing.T) {
	if !invented.LongRun {
		t.Skip("builds the program once more: FENCEROW_LONG")
	}
	last := writeText(t, filepath.Join(t.TempDir(), "last.json"), ofAnotherLaw(t, "compare", "--demo", "--json"))
	var since struct {
		Since answer.Since `json:"since"`
	}
	if err := json.Unmarshal([]byte(runs(t, "compare", "--demo", "--since", last, "--json")), &since); err != nil {
		t.Fatal(err)
	}
	if since.Since.Moved == 0 || !slices.Equal(since.Since.Inputs, []answer.Cause{answer.CauseLaw}) {
		t.Errorf("%d moved by %v", since.Since.Moved, since.Since.Inputs)
	}
	for _, l := range since.Since.Lines {
		if l.Commodity != crop.Corn || l.Cause != answer.CauseLaw || len(l.Changed) != 1 || l.Changed[0].What != "reference_price corn" || l.Changed[0].Before != "3.70" || l.Changed[0].After != "4.10" {
			t.Errorf("%+v", l)
		}
	}
	if said := runs(t, "compare", "--demo", "--since", last); !strings.Contains(said, "The law's reference price of corn did it on") {
		t.Error(said)
	}
	t.Logf("%d lines moved, %d flipped", since.Since.Moved, since.Since.Flipped)
}
