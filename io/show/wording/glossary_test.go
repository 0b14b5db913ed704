package wording

import (
	"strings"
	"testing"
)

// Every line is one or two short sentences, no word stands twice, and the figures are
// those of the crop year's law: the guarantee is 86 percent through 2024 and 90 after
// (7 U.S.C. 9017(c)(1), P.L. 119-21 sec. 10305).
func TestGlossary(t *testing.T) {
	seen := map[string]bool{}
	for _, term := range Glossary(2026) {
		if seen[term.Word] || !strings.HasSuffix(term.Line, ".") || len(strings.Fields(term.Line)) > 30 {
			t.Errorf("%s: %s", term.Word, term.Line)
		}
		seen[term.Word] = true
	}
	line := func(year int, word string) string {
		for _, term := range Glossary(year) {
			if term.Word == word {
				return term.Line
			}
		}
		return ""
	}
	for year, want := range map[int]string{2024: "86 percent", 2026: "90 percent"} {
		if got := line(year, "guarantee"); !strings.Contains(got, want) {
			t.Errorf("%d: %q does not say %s", year, got, want)
		}
	}
	if got := line(2026, "payment acres"); !strings.Contains(got, "85 of 100 for PLC and ARC-CO, 65 of 100 for ARC-IC") {
		t.Error(got)
	}
	if line(2026, "leans") == "" || line(1990, "guarantee") != "The revenue an acre below which ARC pays." {
		t.Error(line(1990, "guarantee"))
	}
}
