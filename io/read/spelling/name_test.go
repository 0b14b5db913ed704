package spelling

import (
	"strings"
	"testing"
)

// Names of people and farms are taken, also with accents and signs of their own; what could
// be taken for another name, steers a screen or works out in a spreadsheet is not.
func TestNameFault(t *testing.T) {
	for _, name := range []string{"", "0417", "-12", "+5", "-", "Ann O'Brien & Sons, LLC", "Doña Ana", "Jürgen Größe", "山田", "José", strings.Repeat("x", mostName), strings.Repeat("ä", mostName), "a=b", "12-3", "Farm @ Creek"} {
		if reason, hint := NameFault(name); reason != "" || hint != "" {
			t.Errorf("%q %s; %s", name, reason, hint)
		}
	}
	for name, want := range map[string]string{
		"=1+1": `begins with "="`, "+1+1": `begins with "+"`, "-2+3": `begins with "-"`, "@SUM(A1)": `begins with "@"`, "=cmd|' /C calc'!A0": "a formula",
		"a\tb": "control character", "a\rb": "control character", "a\x1b[2Jb": "control character", "a\u202eb": "not seen, U+202E", "a\u200bb": "not seen, U+200B", "a\u00adb": "not seen, U+00AD",
		"\uff10417": "(U+FF10)", "\u0664": "(U+0664)", "\u0410nn": "(U+0410)", "\u0391nn": "(U+0391)", "\U0001d7d8": "(U+1D7D8)", "Ann\u00a0Lee": "(U+00A0)", "Ann\u2009Lee": "(U+2009)",
		strings.Repeat("x", mostName+1): "more than 100 letters", strings.Repeat("ä", mostName+1): "more than 100 letters",
	} {
		if reason, hint := NameFault(name); !strings.Contains(strings.ReplaceAll(reason, "'", `"`), want) || hint == "" {
			t.Errorf("%q %s; %s; want %q", name, reason, hint, want)
		}
	}
}

// A number stays a number.
func TestBeginsFormula(t *testing.T) {
	for text, want := range map[string]bool{"": false, "-": false, "-3": false, "+4.5e3": false, "-1,200": true, "=": false, "=A1": true, "\t1": true, "\rx": true, "@x": true, "x=1": false, "'=1": false} {
		if got := BeginsFormula(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}
