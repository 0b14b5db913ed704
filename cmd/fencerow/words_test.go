package main

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// Words that people are not shown: they promise, or sound like advice to sign, or are
// the trade's of those who make odds. "Draws" stands in the line of the run alone.
var unwanted = regexp.MustCompile(`(?i)\b(expected value|best|recommend(ed|ation|s)?|optimal|safe|guaranteed|simulat(ion|ed|ions)|regret)\b`)

var draws = regexp.MustCompile(`(?i)\bdraws?\b`)

// unwantedWords returns the lines of a text with words that are not used.
func unwantedWords(text string) (lines []string) {
	run := false
	for _, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		// the line of the run may be wrapped
		run = strings.HasPrefix(line, "Run: ") || run && line != "" && !strings.HasPrefix(line, "Caution.")
		if unwanted.MatchString(line) || draws.MatchString(line) && !run {
			lines = append(lines, line)
		}
	}
	return lines
}

func TestWordsNotUsed(t *testing.T) {
	page := func(path string) string {
		source, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		_, body, _ := strings.Cut(string(source), "</style>")
		return html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(body, "\n"))
	}
	outputs := map[string]string{
		"compare": runs(t, "compare", "--demo"), "criteria": runs(t, "compare", "--demo", "--criterion", "all", "--draws", "1024"),
		"history": runs(t, "compare", "--demo", "--model", "history", "--draws", "1024"), "stress": runs(t, "compare", "--demo", "--tail", "t", "--draws", "1024"),
		"explain": runs(t, "explain", "--demo", "--farm", "0417", "--commodity", "corn", "--crop-year", "2026", "--mya", "4.10", "--county-yield", "170"),
		"check":   runs(t, "check", "--demo"), "replay": runs(t, "replay", "--demo"), "base": runs(t, "base", "--demo"),
		"rules": runs(t, "rules", "corn", "--crop-year", "2026"), "market": runs(t, "market", "show", "corn", "--today", demoToday, "--book", "none"),
		"page": page(demoPage(t)), "handout": page(demoHandout(t)), "workbook": demoWorkbook(t),
	}
	for name, text := range outputs {
		if len(text) < 200 {
			t.Errorf("%s: only %d bytes to look at", name, len(text))
		}
		for _, line := range unwantedWords(text) {
			t.Errorf("%s: %s", name, line)
		}
	}
}

// demoWorkbook is the text of all sheets of the demo's workbook.
func demoWorkbook(t *testing.T) string {
	path := filepath.Join(t.TempDir(), "demo.xlsx")
	runs(t, "compare", "--demo", "--workbook", path)
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	text := ""
	for _, sheet := range book.GetSheetList() {
		text += sheet + "\n" + wholeSheet(t, book, sheet) + "\n\n"
	}
	return text
}

// The words are found where they stand.
func TestUnwantedWordsAreFound(t *testing.T) {
	for text, want := range map[string]int{
		"the best choice": 1, "Guaranteed by none": 1, "guarantee $847.91": 0, "draws\n": 1, "Run: today, 16384 draws.": 0,
		"Run: today,\n16384 draws.\nCaution. None": 0, "Caution. draws": 1, "the expected value": 1,
	} {
		if got := len(unwantedWords(text)); got != want {
			t.Errorf("%q: %d lines, want %d", text, got, want)
		}
	}
}
