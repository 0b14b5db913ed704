package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/program"
)

// demoDots are invented: 18 and 33 dots of 50 that pay nothing, and a payment of 96 that
// no more is paid than.
var demoDots = report.Dots{
	{Name: "ARC-CO", Values: values(18, 7, 96, 1.1), Average: 31, AverageText: "$31", Most: 96, MostText: "$96"},
	{Name: "PLC", Values: values(33, 0, 60, 3), Average: 6, AverageText: "$6", Most: 117, MostText: "$117"},
}

// values are 50: so many zeros, then rising by a power to most, which so many have.
func values(zeros, atMost int, most, power float64) []float64 {
	all := make([]float64, 50)
	rising := len(all) - zeros - atMost
	for i := range all[zeros:] {
		all[zeros+i] = most * math.Pow(min(1, (float64(i)+0.5)/float64(rising)), power)
	}
	return all
}

// dotsHold asserts what every such drawing must: as many dots as values, those that pay
// nothing left of the axis, all in the drawing and on no text.
func dotsHold(t *testing.T, name string, d report.Dots) {
	t.Helper()
	drawn, texts := textsApart(t, name, d)
	width, height, _ := viewBox(d)
	zeros, others := 0, 0
	for _, one := range d {
		for _, v := range one.Values {
			if v < 0.005 {
				zeros++
			} else {
				others++
			}
		}
	}
	for _, dot := range shapesOf(t, drawn) {
		if dot.box.right < axisLeft {
			zeros--
		} else {
			others--
		}
		if !dot.box.grown(0.4).within(box{0, 0, width, height}) {
			t.Errorf("%s: a dot at %v is cut", name, dot.box)
		}
		for _, one := range texts {
			if dot.box.meets(one.box) {
				t.Errorf("%s: a dot at %v is under %q", name, dot.box, one.text)
			}
		}
	}
	if zeros != 0 || others != 0 {
		t.Errorf("%s: %d dots that pay nothing and %d others are missing", name, zeros, others)
	}
	p := planDots(d)
	for _, one := range p.rows {
		both := &note{text: "average " + one.AverageText + ", most " + one.MostText, size: small}
		if !strings.Contains(drawn, "average "+one.AverageText) || one.MostText != "" && both.width() <= fitsAlways && !strings.Contains(drawn, one.MostText) {
			t.Errorf("%s: average %s or most %s is not told", name, one.AverageText, one.MostText)
		}
		triangle := box{p.at(one.Average) - 3.5, one.axis + 1.5, p.at(one.Average) + 3.5, one.axis + 8}
		for _, other := range texts {
			if triangle.meets(other.box) {
				t.Errorf("%s: the mark of the average %s is under %q", name, one.AverageText, other.text)
			}
		}
		if most := slices.Max(one.Values); one.MostText != "" && one.Most >= most && p.roomBelow(one) {
			for column := int((p.at(one.Most)-axisLeft)/p.pitch) + 1; column < len(one.stacks); column++ {
				if one.stacks[column] > 0 {
					t.Errorf("%s: dots stand beyond the most, %g", name, one.Most)
				}
			}
		}
	}
}

// fitsAlways is how wide a text may be to have room at one side of a mark, wherever it is.
const fitsAlways = 130

// roomBelow reports whether the columns up to the most have room for all that is paid.
func (p *dotPlan) roomBelow(row dotRow) bool {
	columns := int((p.at(row.Most)-axisLeft)/p.pitch) + 1
	return columns*int(tallestStack/p.pitch) >= len(row.Values)-row.zeros
}

func TestDots(t *testing.T) {
	nothing := report.ProgramDots{Name: "PLC", Values: make([]float64, 50), AverageText: "$0", MostText: "$0"}
	third := report.ProgramDots{Name: "ARC-IC", Values: values(25, 4, 70, 1), Average: 22, AverageText: "$22", Most: 75, MostText: "$75"}
	for name, d := range map[string]report.Dots{
		"demo": demoDots, "one program": demoDots[:1], "three programs": append(slices.Clone(demoDots), third), "nothing at all": {nothing, nothing}, "one pays nothing": {demoDots[0], nothing},
		"all alike":  {{Name: "ARC-CO", Values: values(0, 50, 96, 1), Average: 96, AverageText: "$96", Most: 96, MostText: "$96"}, demoDots[1]},
		"huge":       {{Name: "ARC-CO", Values: values(5, 5, 2e9, 1), Average: 9e8, AverageText: "$900,000,000", Most: 2e9, MostText: "$2,000,000,000"}, demoDots[1]},
		"cents":      {{Name: "ARC-CO", Values: values(40, 1, 0.04, 1), Average: 0.01, AverageText: "$0.01", Most: 0.05, MostText: "$0.05"}, nothing},
		"not known":  {{Name: "PLC", Values: values(20, 1, 30, 1), Average: 10, AverageText: "$10 (projected)"}, demoDots[0]},
		"long names": {{Name: "ARC-CO, irrigated part", Values: values(20, 1, 30, 1), Average: 10, AverageText: "$10"}, {Name: "PLC, the whole base of the farm", Values: values(20, 1, 30, 1), Average: 1, AverageText: "$1", Most: 2, MostText: "$2"}},
	} {
		dotsHold(t, name, d)
	}
}

// Whatever the figures are, nothing touches and every dot is there.
func TestDotsOfManyFigures(t *testing.T) {
	const tries = 400
	random := rand.New(rand.NewPCG(1, 2))
	for i := range tries {
		var d report.Dots
		scale := math.Pow(10, 6*random.Float64()-2)
		for _, name := range []string{"ARC-CO", "PLC", "ARC-IC"}[:1+random.IntN(3)] {
			one := report.ProgramDots{Name: name, Most: scale * random.Float64()}
			zeros := random.IntN(51)
			one.Values = values(zeros, random.IntN(51-zeros), one.Most*random.Float64(), 4*random.Float64())
			for _, v := range one.Values {
				one.Average += v / float64(len(one.Values))
			}
			one.AverageText, one.MostText = "$"+program.Text(one.Average, 2), "$"+program.Text(one.Most, random.IntN(3))
			d = append(d, one)
		}
		dotsHold(t, fmt.Sprintf("try %d, %d programs up to $%g", i, len(d), scale), d)
	}
}

// A dot stands where its value is, to a column or, in a stack that is full, to strays: seven
// at 96 of a most of 117 are one stack over 96/117 of the axis.
func TestDotsStandAtTheirValues(t *testing.T) {
	p := planDots(demoDots)
	if p.pitch != pitches[0] {
		t.Fatalf("dots are %g apart, want %g", p.pitch, pitches[0])
	}
	for column, n := range p.rows[0].stacks {
		left, right := axisLeft+float64(column)*p.pitch, axisLeft+float64(column+1)*p.pitch
		if at := p.at(96); at >= left && at < right && n < 7 {
			t.Errorf("%d dots at 96, want 7", n)
		}
	}
	if share := (p.at(96) - axisLeft) / (p.at(117) - axisLeft); math.Abs(share-96.0/117) > 1e-9 {
		t.Errorf("96 stands at %g of 117", share)
	}
}

func TestDotsThatCannotBeDrawnAreRefused(t *testing.T) {
	one := func(v ...float64) report.ProgramDots { return report.ProgramDots{Name: "PLC", Values: v} }
	for want, d := range map[string]report.Dots{
		"dots of no program": {}, `"PLC": 0 values`: {one()}, `"PLC": 3 values`: {one(1, 2, 3)}, `"PLC": 1 values`: {one(1, 2), one(1)},
		"-1 is not an amount": {one(-1)}, "NaN is not an amount": {one(math.NaN())}, "+Inf is not an amount": {one(math.Inf(1))},
	} {
		if _, err := SVG(d, ""); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
