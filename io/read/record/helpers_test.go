package record

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fencerow/program/farm"
)

// invented are counties that do not exist, as the prints of the tests name them.
var invented = map[string]string{
	"heather ridge": "99011", "copper ford": "99013", "larkspur": "99021", "willow bench": "99031",
	"alderbrook": "99001", "quill lake": "99003", "sycamore bend": "99005", "juniper flat": "99007",
}

// findInvented finds them and no other.
func findInvented(_, county string) (string, *farm.Fault) {
	if code := invented[fold(county)]; code != "" {
		return code, nil
	}
	return "", &farm.Fault{Reason: "no such county"}
}

// sample is the text of an invented print.
func sample(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// parsed reads a text that has to be read.
func parsed(t *testing.T, text string) []*Record {
	t.Helper()
	records, err := Parse("print.txt", []byte(text))
	if err != nil {
		t.Fatalf("refused: %v", err)
	}
	return records
}

// table shows rows of base acres: "Corn 91.40 0.00 141 60".
func table(crops []*Crop) (rows []string) {
	for _, c := range crops {
		rows = append(rows, strings.Join(strings.Fields(strings.Join([]string{c.Name, c.Base.Text, c.Reduction.Text, dash(c.Yield), dash(c.HIP)}, " ")), " "))
	}
	return rows
}

func dash(f Figure) string {
	if f.Text == "" {
		return "-"
	}
	return f.Text
}

// lists shows the elections: "PLC corn".
func lists(r *Record) (all []string) {
	for _, e := range r.Elections {
		all = append(all, string(e.Program)+" "+string(e.Commodity))
	}
	return all
}

// bases shows the bases of a farm: "corn 91.4 @141 tract 8101 county 99013 0.6".
func bases(f farm.Farm) (all []string) {
	for _, b := range f.Bases {
		text := fmt.Sprintf("%s %s", b.Commodity, show(b.BaseAcres))
		if b.PaymentYield != nil {
			text += " @" + show(*b.PaymentYield)
		}
		if b.Tract != "" {
			text += " tract " + b.Tract
		}
		if b.County != "" {
			text += " county " + b.County
		}
		if b.IrrigatedShare != nil {
			text += " irrigated " + show(*b.IrrigatedShare)
		}
		if b.CRPReduction != 0 {
			text += " reduction " + show(b.CRPReduction)
		}
		all = append(all, text)
	}
	return all
}

func same(t *testing.T, what string, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s:\ngot  %s\nwant %s", what, strings.Join(got, "\n     "), strings.Join(want, "\n     "))
	}
}

// messages are the sentences of notes.
func messages(notes []Note) (all []string) {
	for _, n := range notes {
		all = append(all, n.Message)
	}
	return all
}

// said reports whether one of the notes has all of these words.
func said(notes []Note, words ...string) bool {
	return slices.ContainsFunc(notes, func(n Note) bool {
		return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(n.Message, w) })
	})
}

func contains(text, part string) bool { return strings.Contains(text, part) }

func asJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// shared returns one of the prints that the notes on the form made up.
func shared(name string) (string, bool) {
	text, err := os.ReadFile(filepath.Join("../../../../shared/facts/record/samples", name))
	return string(text), err == nil
}

// replaced puts new parts in place of old ones, each of which has to be there.
func replaced(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("%q is not in the text", pairs[i])
		}
		text = strings.ReplaceAll(text, pairs[i], pairs[i+1])
	}
	return text
}
