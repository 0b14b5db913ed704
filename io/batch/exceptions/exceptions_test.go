package exceptions

import (
	"slices"
	"testing"

	"fencerow/sim/answer"
)

// A line comes back as it was written, and the code is the last column.
func TestLineIsReadBack(t *testing.T) {
	for _, l := range []Line{
		{Severity: answer.Error, Client: "c", Operation: "o", Farm: "0417", CountyCode: "99001", County: "Alder County", Crops: "corn", CropYear: "2026", Words: "a, \"b\"\nc", Cents: 123, Known: true, Farms: 1, Code: "x"},
		{Severity: answer.Info, Words: "w", Farms: 7, Code: "y"},
	} {
		r := l.Record()
		if got := parse(r); got != l || len(r) != len(Columns) || Columns[len(Columns)-1] != "code" {
			t.Errorf("%+v is read as %+v", l, got)
		}
	}
}

// A farm whose rows were refused says so; a flag of the law is listed by farm only where it
// stops something.
func TestOfOneFarm(t *testing.T) {
	part := answer.FarmPart{Farm: "99001-0417", Flags: []answer.Flag{{Code: "sco_by_year", Severity: answer.Info, Message: "i"}, {Code: "yield_missing", Severity: answer.Error, Message: "e"}}}
	var got []string
	for _, l := range Of(Farm{Number: "0417", Part: part, Refused: true, Words: func(text string) string { return "<" + text + ">" }}) {
		got = append(got, l.Code+" "+l.Farm+" "+l.Words[:2])
		if l.Known {
			t.Errorf("%s: dollars without a figure", l.Code)
		}
	}
	if want := []string{"sco_by_year  <i", "yield_missing 0417 <e", "farm_incomplete 0417 <R"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if len(part.Flags) != 2 {
		t.Error("the flags of the answer were changed")
	}
}

// A crop is named where it stands as a word, also at an end.
func TestHasWord(t *testing.T) {
	for text, want := range map[string]bool{"the corn base": true, "corn": true, "popcorn": false, "corny": false, "popcorn, corn": true, "": false, "corn_x": false} {
		if hasWord(text, "corn") != want {
			t.Errorf("%q: %t", text, !want)
		}
	}
	for s, want := range map[answer.Severity]string{answer.Error: "Stops payment or a figure", answer.Warning: "Check", answer.Info: "Good to know"} {
		if Severity(s) != want {
			t.Errorf("%s: %s", s, Severity(s))
		}
	}
}
