package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// glossary explains the words of a sheet, which may be read by itself.
func glossary() string {
	return "Words. PLC, Price Loss Coverage: pays on base acres and payment yield when the national price of the marketing year is below the effective reference price. ARC-CO, Agriculture Risk Coverage by county: pays when that price times the county's yield is below the guarantee. Base acres and payment yield stand on the farm record of the Farm Service Agency (FSA); what is planted does not count. A lead is clear on average and throughout its band; else it is a toss-up. " + bandExplained + " Give or take: two of three outcomes are closer than that."
}

// shortPrice writes the price of the odds, with its standard deviation.
func shortPrice(c answer.CommodityPart) string {
	between := ""
	if words := tenths(c.MYA); words != "" {
		between = " (" + words + ")"
	}
	return fmt.Sprintf("National price %s %s%s, give or take %s%s; effective reference price %s%s.",
		wording.Price(c.Commodity, &c.MYA.Mean), c.Commodity.Unit().Price(), wording.Mark(c.MYA.Status), wording.Decimal(&c.MYA.SD), between, wording.Price(c.Commodity, c.EffectiveReferencePrice), wording.Mark(c.ReferencePriceStatus))
}

// shortYields writes the county yields of the odds, with their standard deviations.
func shortYields(c answer.CommodityPart) string {
	var words []string
	for _, b := range c.Bases {
		if b.CountyYield == nil || b.BaseAcres == 0 {
			continue
		}
		where := strings.TrimSpace(b.County + " " + b.CountyName)
		if b.Practice != "all" {
			where += " " + b.Practice
		}
		words = append(words, fmt.Sprintf("%s (%s base acres) %s%s, give or take %s, guarantee %s", where, wording.Plain(&b.BaseAcres), wording.Plain(&b.CountyYield.Mean), wording.Mark(b.CountyYield.Status), wording.Plain(&b.CountyYield.SD), wording.Money(b.Guarantee)))
	}
	if len(words) == 0 {
		return ""
	}
	return fmt.Sprintf("County yield, %s: %s.", c.Commodity.Unit().Yield(), strings.Join(slices.Compact(words), "; "))
}

// nothingAtMean says, where neither program pays at the mean price and yields, that
// averages come from other outcomes; else "".
func nothingAtMean(c answer.CommodityPart) string {
	if m := c.Elsewhere[len(c.Elsewhere)/2]; m.PLC != 0 || m.ARCCO != 0 {
		return ""
	}
	return "At the mean price and yields neither pays: the averages come from lower prices and yields."
}

// squaresOf is the picture of how often which program pays more.
func squaresOf(c answer.CommodityPart) Picture {
	shares := []*answer.Chance{c.ChanceNeitherPays, c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceEqual}
	counts, words := wording.Hundred(shares...), wording.Chances(shares...)
	names := []string{"neither pays", "ARC-CO pays more", "PLC pays more", "both pay the same"}
	var s Squares
	for i, name := range names {
		if *shares[i] > 0 {
			s = append(s, Square{name, counts[i], words[i]})
		} else {
			s = append(s, Square{Kind: name})
		}
	}
	return Picture{Question: "How often does which pay more, of 100 outcomes?", Says: outcomes(c), Drawing: s}
}

// curvesOf is the picture of payments against the national price.
func curvesOf(c answer.CommodityPart) Picture {
	d := Curves{XAxis: "national price, " + c.Commodity.Unit().Price(), YAxis: "USD per base acre"}
	d.Lines = make([]Curve, 1+len(answer.CurveYields))
	d.Lines[0].Name = "PLC"
	for k, part := range answer.CurveYields {
		d.Lines[1+k].Family, d.Lines[1+k].Short = "ARC-CO, by yield", program.Text(100*part, 0)+"%"
		d.Lines[1+k].Name = "ARC-CO, yield " + d.Lines[1+k].Short
	}
	for _, at := range c.ByPrice {
		values := append([]answer.Dollars{at.PLC}, at.ARCCO[:]...)
		for i, v := range values {
			d.Lines[i].X, d.Lines[i].Y = append(d.Lines[i].X, at.Price.Value), append(d.Lines[i].Y, float64(v))
		}
	}
	first, last := c.ByPrice[0].Price, c.ByPrice[len(c.ByPrice)-1].Price
	low, high := first.Value, last.Value
	d.Ends = [2]Change{{low, wording.Decimal(&first)}, {high, wording.Decimal(&last)}}
	for _, lead := range c.LeadByPrice {
		if lead.Below != nil && lead.Below.Value > low && lead.Below.Value < high {
			d.Changes = append(d.Changes, Change{lead.Below.Value, wording.Decimal(lead.Below)})
		}
	}
	d.Band = bandOf(c)
	return Picture{Question: "What is paid at other prices? Vertical lines: where the lead changes at the mean yields", Says: wording.Sentences(leadSentence(c), shortPrice(c)), Drawing: d}
}

// bandOf returns the mean price with the prices between which 8 of 10 outcomes lie.
func bandOf(c answer.CommodityPart) *Band {
	m := c.MYA
	b := &Band{Low: m.Mean.Value, At: m.Mean.Value, High: m.Mean.Value, Text: "price used " + wording.Price(c.Commodity, &m.Mean)}
	if words := tenths(m); words != "" {
		b.Low, b.High = m.Low.Value, m.High.Value
		b.Text += " (" + words + ")"
	}
	return b
}

// tenths writes between which prices 8 of 10 outcomes lie, "" where the answer does
// not have them.
func tenths(m *answer.PriceView) string {
	if m.Low == nil || m.High == nil || m.Low.Value == m.High.Value {
		return ""
	}
	return fmt.Sprintf("8 in 10: %s to %s", wording.Decimal(m.Low), wording.Decimal(m.High))
}

// spansOf is the picture of poor, middle and good case in every crop year; a program
// that a year does not have leaves its place empty.
func spansOf(c answer.Comparison, years []answer.CommodityPart) Picture {
	d := Spans{YAxis: "USD per base acre"}
	for _, program := range programsOf(years) {
		d.Names = append(d.Names, string(program))
	}
	var says []string
	for i, part := range years {
		y := c.CropYears[i].CropYear
		if part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.ARCCO) == nil {
			continue
		}
		group := SpanGroup{Label: fmt.Sprint(y)}
		for _, name := range d.Names {
			p := part.Programs.Of(farm.Program(name))
			group.Members = append(group.Members, spanOf(p))
			if p != nil {
				says = append(says, spanWords(y, name, p))
			}
		}
		d.Group = append(d.Group, group)
	}
	return Picture{Question: "From poor case (1 in 10 lower) to good case (1 in 10 higher); line: middle, circle: average", Says: strings.Join(says, " "), Drawing: d}
}

func spanOf(p *answer.ProgramPart) Span {
	if p == nil {
		unknown := math.NaN()
		return Span{unknown, unknown, unknown, unknown}
	}
	return Span{p.Percentiles[poor], p.Percentiles[middle], p.Percentiles[good], float64(p.Mean)}
}

func spanWords(y crop.CropYear, name string, p *answer.ProgramPart) string {
	return fmt.Sprintf("%d %s: poor %s, middle %s, good %s, on average %s.", y, name, percentile(poor)(p), percentile(middle)(p), percentile(good)(p), wording.Money(&p.Mean))
}
