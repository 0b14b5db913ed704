package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

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
	return Picture{Question: "Which one pays more, in 100 outcomes?", Says: outcomes(c), Drawing: s}
}

// curvesOf is the picture of payments against the national price.
func curvesOf(c answer.CommodityPart) Picture {
	d := Curves{XAxis: "national price, dollars a " + c.Commodity.Unit().Mass, YAxis: "dollars per base acre"}
	one := oneYield(c)
	d.Lines = make([]Curve, 1+len(answer.CurveYields))
	d.Lines[0].Name = "PLC"
	for k, part := range answer.CurveYields {
		d.Lines[1+k].Family, d.Lines[1+k].Short = "ARC-CO, by county yield", program.Text(100*part, 0)+"%"
		if one != nil {
			d.Lines[1+k].Short = wording.Grouped(part*float64(*one), 0)
		}
		d.Lines[1+k].Name = "ARC-CO, county yield " + d.Lines[1+k].Short
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
	return Picture{Question: "What each pays at other prices (the lead changes at the vertical lines)", Says: wording.Sentences(leadSentence(c), wording.PriceUsed(c)), Drawing: d}
}

// bandOf returns the price used with the prices between which 8 of 10 outcomes lie.
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
	return fmt.Sprintf("8 of 10 outcomes: %s to %s", wording.Decimal(m.Low), wording.Decimal(m.High))
}
