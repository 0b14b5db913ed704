package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The line that yield_not_known shows can be put into a county file as it is, with a
// figure in place of YIELD, and then the flag is gone.
func TestLineOfYieldNotKnown(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"operation.yaml", "alder.yaml", "birch.yaml", "market.yaml"} {
		text, err := os.ReadFile(filepath.Join("demo", name))
		if err != nil {
			t.Fatal(err)
		}
		if name == "alder.yaml" { // the county of the first farm's corn and soybeans: nothing is known
			text = regexp.MustCompile(`(?m)^    outlook:\n(?:      202[56]: .*\n)+`).ReplaceAll(text, nil)
		}
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	lines := linesOfYieldNotKnown(t, filepath.Join(folder, "operation.yaml"))
	if len(lines) != 2 {
		t.Fatalf("%d lines, want those of corn and soybeans: %v", len(lines), lines)
	}
	text := "format: fencerow/county/1\ncode: \"99001\"\nname: Alder County\nyields:\n"
	for _, line := range lines {
		text += "  " + strings.Replace(line, "YIELD", "51.5", 1) + "\n"
	}
	own := filepath.Join(folder, "own.yaml")
	if err := os.WriteFile(own, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if left := linesOfYieldNotKnown(t, filepath.Join(folder, "operation.yaml"), "--county-file", own); len(left) != 0 {
		t.Errorf("with its lines in a county file the flag is still raised: %v", left)
	}
}

// linesOfYieldNotKnown are those that the flags of the first farm show.
func linesOfYieldNotKnown(t *testing.T, operation string, more ...string) (lines []string) {
	t.Helper()
	args := []string{"compare", operation, "--today", demoToday, "--book", "none", "--crop-year", "2026", "--draws", "1024", "--json"}
	var told struct {
		CropYears []struct {
			Farms []struct {
				Flags []struct{ Code, Message string }
			}
		} `json:"crop_years"`
	}
	if err := json.Unmarshal([]byte(runs(t, append(args, more...)...)), &told); err != nil {
		t.Fatal(err)
	}
	for _, flag := range told.CropYears[0].Farms[0].Flags {
		if flag.Code == "yield_not_known" {
			lines = append(lines, flag.Message[strings.Index(flag.Message, "- {"):])
		}
	}
	return lines
}
