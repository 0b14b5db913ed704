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

// demoPrices: PLC is ahead below 3.20, ARC-CO below 4.66, then neither pays.
var demoPrices = report.PriceLine{
	Segments: []report.PriceSegment{{Ahead: "PLC more", To: 3.2, ToText: "$3.20"}, {Ahead: "ARC-CO more", To: 4.66, ToText: "$4.66"}, {Ahead: "neither pays", To: math.Inf(1)}},
	At:       4.55, AtText: "$4.55", Low: 4.15, LowText: "$4.15", High: 4.97, HighText: "$4.97", Unit: "dollars a bushel",
}

// changes is demoPrices with other changes of the lead, written with some decimals.
func changes(decimals int, at ...float64) report.PriceLine {
	d := demoPrices
	names := []string{"PLC more", "ARC-CO more", "both the same", "PLC more", "ARC-CO more", "neither pays"}
	d.Segments = nil
	for i, x := range at {
		d.Segments = append(d.Segments, report.PriceSegment{Ahead: names[i%len(names)], To: x, ToText: "$" + program.Text(x, decimals)})
	}
	d.Segments = append(d.Segments, report.PriceSegment{Ahead: names[len(at)%len(names)], To: math.NaN()})
	return d
}

// pricesHold asserts what every such drawing must: no text touches another, a mark or a
// thin line of another, and every text is there.
func pricesHold(t *testing.T, name string, d report.PriceLine) {
	t.Helper()
	drawn, texts := textsApart(t, name, d)
	has := func(want string) {
		if want != "" && !slices.ContainsFunc(texts, func(w written) bool { return w.text == want }) {
			t.Errorf("%s: %q is not there", name, want)
		}
	}
	for i, s := range d.Segments {
		if has(s.Ahead); i < len(d.Segments)-1 {
			has(s.ToText)
		}
	}
	has(d.Unit)
	p := planPrices(d)
	if p.hasBar() {
		has(d.LowText)
		has(d.HighText)
		if strings.Count(drawn, outcomes) != 1 {
			t.Errorf("%s: what the bar is stands there %d times", name, strings.Count(drawn, outcomes))
		}
	}
	if d.AtText != "" {
		has("price used " + d.AtText)
		mark := box{p.x(d.At) - markHalf, p.down + barMiddle - 9, p.x(d.At) + markHalf, p.down + bandTop}
		for _, one := range p.top {
			if one.box().meets(mark) {
				t.Errorf("%s: %q at %v is under the mark %v", name, one.text, one.box(), mark)
			}
		}
	}
	bottom := p.down + bandTop + bandTall
	for _, one := range p.below {
		for _, other := range p.below {
			if one.from != other.from && (one.from < other.from) != (one.path[0] < other.path[0]) {
				t.Errorf("%s: the lines of %q and %q cross", name, one.text, other.text)
			}
			for row := range one.row {
				if b := other.label(bottom).box(); other.row == row && one.path[row] > b.left && one.path[row] < b.right {
					t.Errorf("%s: the line of %q crosses %q", name, one.text, other.text)
				}
			}
		}
	}
}

func TestPriceLine(t *testing.T) {
	known := demoPrices
	known.Low, known.High = known.At, known.At
	bare := report.PriceLine{Segments: []report.PriceSegment{{Ahead: "neither pays"}}}
	noPrice := demoPrices
	noPrice.AtText, noPrice.At = "", 0
	long := demoPrices
	long.AtText, long.Low, long.High = "$4.55 (projected, not confirmed)", 3, 5
	outside := demoPrices
	outside.At, outside.AtText = 5.1, "$5.10"
	pound := changes(4, 0.2712, 0.3105)
	pound.At, pound.AtText, pound.Low, pound.LowText, pound.High, pound.HighText, pound.Unit = 0.2405, "24.05 cents (projected)", 0.2211, "22.11 cents", 0.2599, "25.99 cents", "a pound"
	for name, d := range map[string]report.PriceLine{
		"demo": demoPrices, "known": known, "bare": bare, "no price": noPrice, "long": long, "outside": outside, "pound": pound,
		"no change": changes(2), "a cent apart": changes(2, 4.5, 4.51), "four changes": changes(2, 3, 3.8, 4.4, 5.2), "four a cent apart": changes(2, 4.5, 4.51, 4.52, 4.53),
		"far below": changes(2, 0.5), "far above": changes(2, 40, 400), "alike": changes(2, 4.5, 4.5), "four decimals": changes(4, 4.5001, 4.5002, 4.5003, 4.5004), "huge": changes(2, 1e6, 1e9),
	} {
		pricesHold(t, name, d)
	}
}

// Whatever the prices are, nothing touches and all is there.
func TestPriceLineOfManyFigures(t *testing.T) {
	const tries = 2000
	random := rand.New(rand.NewPCG(3, 4))
	for i := range tries {
		scale, decimals := math.Pow(10, 4*random.Float64()-1), 2+2*random.IntN(2)
		price := func() float64 { return program.Round(scale*(1+random.Float64()), decimals) }
		at := make([]float64, random.IntN(5))
		for k := range at {
			at[k] = price()
		}
		if random.IntN(4) == 0 {
			for k := range at {
				at[k] = at[0] + float64(k)/100
			}
		}
		slices.Sort(at)
		d := changes(decimals, at...)
		three := []float64{price(), price(), price()}
		if random.IntN(8) > 0 {
			slices.Sort(three)
		}
		d.Low, d.At, d.High = three[0], three[1], three[2]
		d.LowText, d.AtText, d.HighText = "$"+program.Text(d.Low, decimals), "$"+program.Text(d.At, decimals), "$"+program.Text(d.High, decimals)
		pricesHold(t, fmt.Sprintf("try %d, %v, %v", i, at, three), d)
	}
}

// Prices stand where they are: 4.66 is (4.66-3.20)/(4.97-3.20) of the way from 3.20 to 4.97.
func TestPricesStandToScale(t *testing.T) {
	p := planPrices(demoPrices)
	if got, want := (p.x(4.66)-p.x(3.2))/(p.x(4.97)-p.x(3.2)), 1.46/1.77; math.Abs(got-want) > 1e-9 {
		t.Errorf("4.66 stands at %g of the way, want %g", got, want)
	}
	if p.x(3.2) < 0 || p.x(4.97) > acrossPx {
		t.Errorf("3.20 at %g and 4.97 at %g are not both in the drawing", p.x(3.2), p.x(4.97))
	}
	if n := p.namesInside(); n != 3 {
		t.Errorf("%d names stand in the band, want 3", n)
	}
}

func TestPricesThatCannotBeDrawnAreRefused(t *testing.T) {
	noFigure := demoPrices
	noFigure.At = math.NaN()
	for want, d := range map[string]report.PriceLine{
		"without segments": {}, `segment 2, "ARC-CO more", ends at 3, want a price not below 4`: changes(2, 4, 3), "ends at NaN": changes(2, math.NaN()), "with NaN": noFigure,
	} {
		if _, err := SVG(d, ""); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
