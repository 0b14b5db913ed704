package report

import (
	"math"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// HowOften is the picture of how often which program pays more.
func HowOften(part answer.CommodityPart) Picture {
	squares := SquaresOf([]string{"neither pays", "ARC-CO pays more", "PLC pays more", "both pay the same"}, part.ChanceNeitherPays, part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceEqual)
	return Picture{Says: wording.Odds(part), Drawing: squares}
}

// SquaresOf shows shares of all outcomes, one for each kind, as 100 squares.
func SquaresOf(kinds []string, shares ...*answer.Chance) (squares Squares) {
	counts, words := wording.Hundred(shares...), wording.Chances(shares...)
	for i, kind := range kinds {
		square := Square{Kind: kind}
		if *shares[i] > 0 {
			square.Count, square.Words = counts[i], wording.ShortCount(words[i])
		}
		squares = append(squares, square)
	}
	return squares
}

// HowMuch is the picture of what each program could pay.
func HowMuch(part answer.CommodityPart) Picture {
	var dots Dots
	var says []string
	for _, one := range part.Programs {
		if one.Figures == nil {
			continue
		}
		p := one.Figures
		d := ProgramDots{Name: string(one.Program), Average: float64(p.Mean), AverageText: wording.Money(&p.Mean), Most: float64(p.Maximum), MostText: wording.Whole(&p.Maximum)}
		for _, v := range p.OfFifty {
			d.Values = append(d.Values, float64(v))
		}
		dots = append(dots, d)
		says = append(says, d.Name+" averages "+d.AverageText+", pays in "+wording.InHundred(p.ChanceOfPayment)+" of 100 outcomes and can pay "+d.MostText+" at most.")
	}
	return Picture{Question: "What each could pay, dollars a base acre", Says: wording.Sentences(says...), Drawing: dots}
}

// AtPrices is the picture of the prices at which the lead changes.
func AtPrices(part answer.CommodityPart) Picture {
	m := part.MYA
	line := PriceLine{At: m.Mean.Value, AtText: wording.PriceText(&m.Mean) + wording.Mark(m.Status), Unit: "dollars a " + part.Commodity.Unit().Mass}
	if m.Low != nil && m.High != nil && m.Low.Value != m.High.Value {
		line.Low, line.LowText, line.High, line.HighText = m.Low.Value, wording.PriceText(m.Low), m.High.Value, wording.PriceText(m.High)
	}
	for _, lead := range wording.LeadAtPrices(part) {
		segment := PriceSegment{Ahead: aheadWords(lead.Leader), To: math.NaN()}
		if lead.Below != nil {
			segment.To, segment.ToText = lead.Below.Value, wording.PriceText(lead.Below)
		}
		line.Segments = append(line.Segments, segment)
	}
	at := wording.AtYield(part)
	question := "Prices that change it, " + strings.Replace(strings.ToLower(at[:1])+at[1:], " makes ", " makes just ", 1)
	return Picture{Question: question, Says: wording.Sentences(wording.PriceLeads(part), wording.PriceUsed(part)), Drawing: line}
}

func aheadWords(l answer.Leader) string {
	switch l {
	case answer.Neither:
		return "neither pays"
	case answer.Equal:
		return "both the same"
	}
	return string(l) + " more"
}
