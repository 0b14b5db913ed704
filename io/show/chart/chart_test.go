package chart

import (
	"encoding/xml"
	"flag"
	"io"
	"maps"
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
	"dots":      demoDots,
	"priceline": demoPrices,
	"columns":   report.Columns{YAxis: "USD per base acre", Names: []string{"PLC", "ARC-CO"}, Labels: []string{"'23", "'24"}, Values: [][]float64{{0, 12}, {math.NaN(), 30}}},
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

// crowded are drawings in which text has little room.
var crowded = map[string]report.Drawing{
	"curves with a band": report.Curves{XAxis: "national price, USD/bu", YAxis: "USD per base acre", Lines: []report.Curve{
		{Name: "PLC", X: []float64{2.73, 4.42, 5.92}, Y: []float64{132, 0, 0}},
		{Name: "ARC-CO, yield 90%", Family: "ARC-CO, by yield", Short: "90%", X: []float64{2.73, 4.55, 5.15, 5.92}, Y: []float64{96, 96, 0, 0}},
		{Name: "ARC-CO, yield 100%", Family: "ARC-CO, by yield", Short: "100%", X: []float64{2.73, 4.1, 4.66, 5.92}, Y: []float64{96, 96, 0, 0}},
		{Name: "ARC-CO, yield 110%", Family: "ARC-CO, by yield", Short: "110%", X: []float64{2.73, 3.75, 4.25, 5.92}, Y: []float64{96, 96, 0, 0}},
	}, Changes: []report.Change{{At: 3.2, Text: "3.20"}, {At: 4.6, Text: "4.60"}, {At: 4.66, Text: "4.66"}, {At: 4.7, Text: "4.70"}}, Ends: [2]report.Change{{At: 2.73, Text: "2.73"}, {At: 5.92, Text: "5.92"}},
		Band: &report.Band{Low: 4.15, At: 4.55, High: 4.97, Text: "price used 4.55 (8 in 10: 4.15 to 4.97)"}},
	"curves all alike": report.Curves{XAxis: "national price, USD/lb", YAxis: "USD per base acre", Lines: []report.Curve{
		{Name: "PLC", X: []float64{0.2, 0.3}, Y: []float64{0, 0}}, {Name: "ARC-CO, yield 90%", Family: "ARC-CO, by yield", Short: "90%", X: []float64{0.2, 0.3}, Y: []float64{0, 0}},
		{Name: "ARC-CO, yield 100%", Family: "ARC-CO, by yield", Short: "100%", X: []float64{0.2, 0.3}, Y: []float64{0, 0}},
	}, Ends: [2]report.Change{{At: 0.2, Text: "0.2000"}, {At: 0.3, Text: "0.3000"}}, Band: &report.Band{Low: 0.21, At: 0.21, High: 0.21, Text: "price used 0.2100"}},
	"spans of six years": report.Spans{YAxis: "USD per base acre", Names: []string{"PLC", "ARC-CO"}, Group: []report.SpanGroup{
		year("2026"), year("2027"), year("2028"), year("2029"), year("2030"), year("2031"),
	}},
	"columns of twelve years": report.Columns{YAxis: "USD per base acre", Names: []string{"PLC", "ARC-CO"}, Labels: []string{"'14", "'15", "'16", "'17", "'18", "'19", "'20", "'21", "'22", "'23", "'24", "'25"},
		Values: [][]float64{{0, 20, 1234.5, 3, 0, 0, 0, 40, 41, 39, 40, 1200}, {math.NaN(), 1, 2, math.NaN(), 3, 0, 0, math.NaN(), 40, 41, 39, 1199}}},
}

func year(label string) report.SpanGroup {
	return report.SpanGroup{Label: label, Members: []report.Span{{Poor: 0, Middle: 50, Good: 90, Average: 45}, {Poor: 10, Middle: 50, Good: 90, Average: 52}}}
}

// No text of a drawing touches another, and none is cut.
func TestTextsDoNotTouch(t *testing.T) {
	all := maps.Clone(drawings)
	maps.Copy(all, crowded)
	for name, d := range all {
		textsApart(t, name, d)
	}
}

// Names stand at their lines where they fit: then no legend repeats the long ones.
func TestNamesStandAtTheirLines(t *testing.T) {
	drawn, err := SVG(crowded["curves with a band"], "")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{">PLC<", ">90%<", ">100%<", ">110%<", ">ARC-CO, by yield<", ">price used 4.55 (8 in 10: 4.15 to 4.97)<"} {
		if strings.Count(drawn, want) != 1 {
			t.Errorf("%q stands there %d times, want once", want, strings.Count(drawn, want))
		}
	}
	if drawn, err = SVG(crowded["curves all alike"], ""); err != nil || !strings.Contains(drawn, ">ARC-CO, yield 90%<") {
		t.Errorf("lines on one another have no legend (%v)", err)
	}
}

// Steps are 1, 2 or 5 times a power of ten, three to five of them, and the last tick is
// the first that is not below the highest value; the cases are worked by hand.
func TestTicks(t *testing.T) {
	for highest, want := range map[float64]string{
		0: "0 0.2 0.4 0.6 0.8 1.0", 0.004: "0 0.001 0.002 0.003 0.004", 3: "0 1 2 3", 9.3: "0 2 4 6 8 10", 96: "0 20 40 60 80 100", 100: "0 20 40 60 80 100",
		101: "0 50 100 150", 131.56: "0 50 100 150", 1234: "0 500 1000 1500", math.NaN(): "0 0.2 0.4 0.6 0.8 1.0",
	} {
		var texts []string
		for _, tick := range ticks(highest) {
			texts = append(texts, tick.text)
		}
		if got := strings.Join(texts, " "); got != want {
			t.Errorf("ticks to %g: %s, want %s", highest, got, want)
		}
	}
}

func TestColumnsOfUnequalLengthAreRefused(t *testing.T) {
	_, err := SVG(report.Columns{Labels: []string{"'24"}, Values: [][]float64{{1}, {}}}, "")
	if err == nil || !strings.Contains(err.Error(), "columns 2 have 0 values at 1 places") {
		t.Errorf("got %v", err)
	}
}

func TestCurvesOfUnequalLengthAreRefused(t *testing.T) {
	_, err := SVG(report.Curves{Lines: []report.Curve{{Name: "PLC", X: []float64{1, 2}, Y: []float64{1}}}}, "")
	if err == nil || !strings.Contains(err.Error(), `"PLC" has 2 places and 1 values`) {
		t.Errorf("got %v", err)
	}
}
