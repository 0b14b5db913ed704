package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// mostKeystrokes is how many letters, line ends included, the README's table of three farms
// and six bases may have.
const mostKeystrokes = 260

// The first table of the README's "Your own farms" is short to type and is answered, from a
// file and from standard input alike.
func TestReadmeTable(t *testing.T) {
	readme, err := os.ReadFile(root + "/README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(readme), "## Your own farms")
	_, section, _ = strings.Cut(section, "\n\n    ")
	block, _, _ := strings.Cut(section, "\n\n")
	table := strings.ReplaceAll(block, "\n    ", "\n") + "\n"
	if n := len([]rune(table)); n > mostKeystrokes || strings.Count(table, "\n") != 7 {
		t.Errorf("%d letters in %d lines, want at most %d in 7:\n%s", n, strings.Count(table, "\n"), mostKeystrokes, table)
	} else {
		t.Logf("the README's table has %d letters", n)
	}
	path := filepath.Join(t.TempDir(), "farms.csv")
	if err := os.WriteFile(path, []byte(table), 0o600); err != nil {
		t.Fatal(err)
	}
	answer := runs(t, "compare", path, "--county-table", countyWorkbook(t), "--book", "none", "--today", demoToday, "--crop-year", "2026", "--draws", "256", "--full")
	for _, line := range []string{"Farm 101, ", "Farm 102, ", "Farm 103, ", "  103 corn", "Corn: 200.5 base acres, PLC yield 148 bu/acre"} {
		if !strings.Contains(answer, line) {
			t.Errorf("the answer lacks %q", line)
		}
	}
}
