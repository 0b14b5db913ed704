package chart

import (
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"fencerow/io/show/report"
)

var update = flag.Bool("update", false, "write the drawings of testdata anew, to be looked at")

// drawings are one of each kind.
var drawings = map[string]report.Drawing{
	"squares": report.Squares{{Kind: "neither pays", Count: 36, Words: "36"}, {Kind: "ARC-CO pays more", Count: 62, Words: "62"}, {Kind: "PLC pays more", Count: 2, Words: "2"}, {Kind: "both pay the same", Words: "less than 1"}},
	"curves": report.Curves{XAxis: "national price, USD/bu", YAxis: "USD per base acre", Lines: []report.Curve{
		{Name: "PLC", X: []float64{2, 4, 6}, Y: []float64{100, 20, 0}}, {Name: "ARC-CO, yield 100%", X: []float64{2, 4, 6}, Y: []float64{80, 80, 0}},
	}, Changes: []report.Change{{At: 2.6, Text: "2.60"}, {At: 5.9, Text: "5.90"}}, Ends: [2]report.Change{{At: 2, Text: "2.00"}, {At: 6, Text: "6.00"}}},
	"spans": report.Spans{YAxis: "USD per base acre", Names: []string{"PLC, average", "ARC-CO, average"}, Group: []report.SpanGroup{
		{Label: "2026", Members: []report.Span{{Poor: 0, Middle: 0, Good: 22, Average: 6}, {Poor: 0, Middle: 19, Good: 93, Average: 31}}},
		{Label: "2027", Members: []report.Span{{Poor: 0, Middle: 10, Good: 60, Average: 25}, {Poor: 5, Middle: 30, Good: 96, Average: 40}}},
	}},
	"columns": report.Columns{YAxis: "USD per base acre", Names: []string{"PLC", "ARC-CO"}, Labels: []string{"'23", "'24"}, Values: [][]float64{{0, 12}, {math.NaN(), 30}}},
}

// The same drawing gives the same bytes, is well-formed, is read aloud, and is the
// one that was looked at.
func TestDrawings(t *testing.T) {
	const says = `neither "pays" & more`
	for name, d := range drawings {
		first, err := SVG(d, says)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if again, _ := SVG(d, says); again != first {
			t.Errorf("%s: drawn twice, it differs", name)
		}
		decoder := xml.NewDecoder(strings.NewReader(first))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		if !strings.Contains(first, `role="img" aria-label="neither &#34;pays&#34; &amp; more"`) {
			t.Errorf("%s: what it says is not there", name)
		}
		golden := "testdata/" + name + ".svg"
		if *update {
			if err := os.WriteFile(golden, []byte(first+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil || string(want) != first+"\n" {
			t.Errorf("%s: not as in %s (%v); -update writes it anew", name, golden, err)
		}
	}
}

// A hundred squares stand for a hundred outcomes, in the order of the kinds.
func TestSquaresAreAHundred(t *testing.T) {
	drawn, err := SVG(drawings["squares"], "")
	if err != nil {
		t.Fatal(err)
	}
	const legend = 4
	if n := strings.Count(drawn, "<rect"); n != 100+legend {
		t.Errorf("%d squares with the legend, want %d", n, 100+legend)
	}
	if !strings.Contains(drawn, "both pay the same: less than 1") {
		t.Error("what can happen in less than 1 of 100 is not in the legend")
	}
}

// No drawing has a color: black, white and grays only.
func TestNoColors(t *testing.T) {
	for name, d := range drawings {
		drawn, err := SVG(d, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range strings.Split(drawn, "#")[1:] {
			if len(part) < 6 || strings.HasPrefix(part, "hatched") || strings.HasPrefix(part, "dotted") || strings.Contains(part[:4], ";") { // a pattern, or a character reference
				continue
			}
			if part[0:2] != part[2:4] || part[2:4] != part[4:6] {
				t.Errorf("%s: color #%s", name, part[:6])
			}
		}
	}
}

func TestCurvesOfUnequalLengthAreRefused(t *testing.T) {
	_, err := SVG(report.Curves{Lines: []report.Curve{{Name: "PLC", X: []float64{1, 2}, Y: []float64{1}}}}, "")
	if err == nil || !strings.Contains(err.Error(), `"PLC" has 2 places and 1 values`) {
		t.Errorf("got %v", err)
	}
}
