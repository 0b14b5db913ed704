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
	"squares":   report.Squares{{Kind: "neither pays", Count: 36, Words: "36"}, {Kind: "ARC-CO pays more", Count: 62, Words: "62"}, {Kind: "PLC pays more", Count: 2, Words: "2"}, {Kind: "both pay the same", Words: "less than 1"}},
	"dots":      demoDots,
	"priceline": demoPrices,
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

// No text of a drawing touches another, and none is cut.
func TestTextsDoNotTouch(t *testing.T) {
	for name, d := range drawings {
		textsApart(t, name, d)
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
