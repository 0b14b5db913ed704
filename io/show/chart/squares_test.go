package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"fencerow/io/show/report"
)

// squaresOf are the four kinds in the order in which reports name them.
func squaresOf(neither, arcco, plc, both int) report.Squares {
	var s report.Squares
	for i, name := range []string{"neither pays", "ARC-CO pays more", "PLC pays more", "both pay the same"} {
		one := report.Square{Kind: name, Count: []int{neither, arcco, plc, both}[i]}
		if one.Count > 0 {
			one.Words = strconv.Itoa(one.Count)
		} else if i == 2 {
			one.Words = "less than 1"
		}
		s = append(s, one)
	}
	return s
}

// A hundred squares stand for a hundred outcomes, each kind as many as it has, in runs
// from the bottom up; a kind that is none of the hundred is told beside them. The key has
// one square for each kind that can happen.
func TestSquaresAreAHundred(t *testing.T) {
	tried := 0
	for neither := 0; neither <= 100; neither += 9 {
		for arcco := 0; arcco+neither <= 100; arcco += 7 {
			for _, both := range []int{0, 1, 100 - neither - arcco} {
				plc := 100 - neither - arcco - both
				if plc < 0 {
					continue
				}
				tried++
				name := fmt.Sprint("neither, ARC-CO, PLC, both: ", neither, arcco, plc, both)
				s := squaresOf(neither, arcco, plc, both)
				drawn, texts := textsApart(t, name, s)
				block := map[string]int{}
				var ordered []shape
				for _, one := range shapesOf(t, drawn) {
					if one.box.right < blockSide+1 {
						block[one.fill]++
						ordered = append(ordered, one)
					}
				}
				if len(ordered) != 100 || block[black] != arcco || block[white] != neither+plc+both {
					t.Fatalf("%s: %d squares, %v", name, len(ordered), block)
				}
				byPlace := func(a, b shape) int {
					if a.box.bottom != b.box.bottom {
						return int(math.Copysign(1, b.box.bottom-a.box.bottom))
					}
					return int(math.Copysign(1, a.box.left-b.box.left))
				}
				if !slices.IsSortedFunc(ordered, byPlace) || arcco > 0 && ordered[arcco-1].fill != black {
					t.Fatalf("%s: not from the bottom up", name)
				}
				if plc == 0 && !slices.ContainsFunc(texts, func(w written) bool { return w.text == "<1" }) {
					t.Fatalf("%s: PLC, less than 1, is not told", name)
				}
			}
		}
	}
	t.Logf("%d blocks of squares", tried)
}

// A label stands at the height of its run where runs are tall enough for it: for 62
// ARC-CO, 2 PLC and 36 neither, ARC-CO's at 31 of 100 from below.
func TestSquaresAreLabelledAtTheirRuns(t *testing.T) {
	_, texts := textsApart(t, "demo", squaresOf(36, 62, 2, 0)[:3])
	for _, one := range texts {
		if one.text == "62" {
			if middle := (one.box.top + one.box.bottom) / 2; math.Abs(middle-0.69*blockSide) > 4 {
				t.Errorf("62 stands at %g of %g", middle, blockSide)
			}
			return
		}
	}
	t.Error("62 is not told")
}
