package main

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Words that people are not shown: they promise, sound like advice to sign, blame, are the
// trade's of those who make odds, or are no plain American English.
var unwanted = regexp.MustCompile(`(?i)\b(best|recommend(ed|ation|s)?|optimal|safe|guaranteed|simulat(ion|ed|ions)|regret|` +
	`probabilit(y|ies)|percentiles?|means?|standard (deviation|error)s?|spreads?|distributions?|expected|likely|should|wrong pick|` +
	`anew|mind|mend|wants|stands with|on record|told|comes out|so many|beside the choice|in place of|thereof|from memory|` +
	`what to sign|to change first|choose another|target price|give or take|machines?|the own)\b`)

var draws = regexp.MustCompile(`(?i)\bdraw(s|n)?\b`)

// oneName is one name for one thing: the old on the left is nowhere, for people read the
// new on the right.
var oneName = map[string]string{
	"payment yield": "PLC yield", "commodity": "crop", "commodities": "crops", "persons": "people", "usd per base acre": "dollars per base acre",
	"middle outcome": "middle case", "payment-acre share": "the part of base acres that is paid on", "mya price": "national price",
	"marketing-year average price": "national price", "election on record": "last election", "price projection": "projected price",
	"what was told": "your figures", "what comes out": "payments at these figures", "agency's table": "FSA's table", "by combination": "by election",
	"cost of the wrong pick": "average given up", "farms to change": "largest differences from the last election",
}

var oldNames = regexp.MustCompile(`(?i)\b(` + strings.Join(slices.Sorted(maps.Keys(oneName)), "|") + `)\b`)

// unwantedWords returns what is wrong with the words of a unit.
func unwantedWords(unit string) (wrong []string) {
	for _, left := range leftOut {
		unit = left.ReplaceAllString(unit, "")
	}
	unit = inFiles.ReplaceAllString(unit, "")
	wrong = append(wrong, unwanted.FindAllString(unit, -1)...)
	for _, s := range sentences(unit) {
		if found := draws.FindString(s); found != "" && !lineOfTheRun.MatchString(s) {
			wrong = append(wrong, found)
		}
	}
	for _, old := range oldNames.FindAllString(unit, -1) {
		wrong = append(wrong, old+" (say "+oneName[strings.ToLower(old)]+")")
	}
	return wrong
}

// inFiles are names in files and flags, which stay as they are, and a question that no
// other word asks.
var inFiles = regexp.MustCompile(`--[a-z-]+|add [a-z_]+:|[a-z]+_[a-z_]+: |(?i:the key) can be .*| has no [a-z_]+$|needs farm, county, commodity and base_acres|\(commodity, base_acres, payment_yield\)|commodity is "|^commodity$|[Dd]id you mean `)

// lineOfTheRun is where the number of draws stands.
var lineOfTheRun = regexp.MustCompile(`^\(?(Run: |Made |[Ss]eed )`)

func TestWords(t *testing.T) {
	outputs := allOutputs(t)
	var all lengths
	for _, name := range slices.Sorted(maps.Keys(outputs)) {
		var l lengths
		for _, unit := range outputs[name] {
			for _, s := range sentences(unit) {
				if isSentence(s) {
					l = append(l, longBy(s))
				}
				if n := longBy(s); n > longest {
					t.Errorf("%s: %d words: %s", name, n, s)
				}
			}
			for _, word := range unwantedWords(unit) {
				t.Errorf("%s: %q in: %s", name, word, unit)
			}
		}
		if len(outputs[name]) == 0 {
			t.Errorf("%s: nothing to look at", name)
		}
		t.Logf("%-20s %v", name, l)
		all = append(all, l...)
		if dir := os.Getenv("WORDS_DIR"); dir != "" {
			os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, " ", "_")), []byte(strings.Join(outputs[name], "\n")+"\n"), 0o600)
		}
	}
	t.Logf("%-20s %v", "in all", all)
}

// The words are found where they stand, and names in files and the line of the run are let
// by.
func TestUnwantedWordsAreFound(t *testing.T) {
	for text, want := range map[string]int{
		"the best choice": 1, "Guaranteed by none": 1, "guarantee $847.91": 0, "1,024 draws": 1, "Run: today, seed 1, 1,024 draws.": 0, "Run: today. The draws": 1,
		"the expected value of the mean": 2, "did you mean corn?": 0, "the key can be commodity, base_acres": 0, "a base has no commodity": 0, "of each commodity": 1,
		"Payment yield 92": 1, "on record: PLC": 1, "It is so. Source: the likely best book.": 0, "see --commodity": 0, "A safe bet, give or take": 2,
	} {
		if got := unwantedWords(text); len(got) != want {
			t.Errorf("%q: %q, want %d", text, got, want)
		}
	}
}
