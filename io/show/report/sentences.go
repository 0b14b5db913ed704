package report

import (
	"fmt"
	"math"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// outcomes is the sentence that divides 100 outcomes of a commodity by who pays more.
func outcomes(c answer.CommodityPart) string {
	if c.ChanceNeitherPays == nil {
		return ""
	}
	n := wording.Chances(c.ChanceNeitherPays, c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceEqual)
	sentence := fmt.Sprintf("Of 100 outcomes like this: neither pays in %s, ARC-CO pays more in %s, PLC pays more in %s", n[0], n[1], n[2])
	if *c.ChanceEqual > 0 {
		sentence += fmt.Sprintf(", both pay the same in %s", n[3])
	}
	return sentence + "."
}

// verdict is the sentence that says who leads, by how much, and what could
// change it.
func verdict(c answer.CommodityPart) string {
	switch c.Leader {
	case answer.None:
		return "No lead can be given: " + c.LeaderReason + "."
	case answer.LittleChance:
		return fmt.Sprintf("Little at stake: %s. On average %s.", c.LeaderReason, leaning(c))
	case answer.Close:
		return fmt.Sprintf("A toss-up: %s. On average %s%s.", c.LeaderReason, leaning(c), moves(c))
	}
	return fmt.Sprintf("Leans %s: on average %s%s.", c.Leader, leaning(c), moves(c))
}

// leaning says which program averages more and by how much.
func leaning(c answer.CommodityPart) string {
	margin := "$" + program.Text(math.Abs(float64(c.Difference.Mean)), 2)
	if c.Leans == answer.Neither {
		return "both pay the same"
	}
	return fmt.Sprintf("%s pays %s per base acre more", c.Leans, margin)
}

// moves gives the band of the margin and what moves in it; "" where price and yield are
// known or told.
func moves(c answer.CommodityPart) string {
	if !c.Difference.Moves() {
		return ""
	}
	return " (from " + band(c) + " " + c.Difference.BandInWords() + ")"
}

// bandExplained says what a band is.
const bandExplained = "The band takes the price one usual error lower and higher, and the county yield by up to four estimates of its mean. It shows what the model does not know of the averages, and is no confidence interval."

// band writes the range of the margin over the band, from the smaller to the larger where one
// program leads throughout.
func band(c answer.CommodityPart) string {
	low, high := float64(c.Difference.Lowest), float64(c.Difference.Highest)
	if high < 0 {
		low, high = high, low
	}
	return ahead(low) + " to " + ahead(high)
}

// ahead writes a difference of ARC-CO less PLC as the program that has more, and by
// how much.
func ahead(difference float64) string {
	switch {
	case math.Abs(difference) < 0.005:
		return "even"
	case difference > 0:
		return "ARC-CO $" + program.Text(difference, 2)
	}
	return "PLC $" + program.Text(-difference, 2)
}

// leadSentence says who leads at which prices, at the mean county yield.
func leadSentence(c answer.CommodityPart) string {
	if len(c.LeadByPrice) == 0 {
		return ""
	}
	var parts []string
	from := ""
	for _, lead := range c.LeadByPrice {
		words := map[answer.Leader]string{answer.Neither: "neither pays", answer.Equal: "both pay the same"}[lead.Leader]
		if words == "" {
			words = string(lead.Leader) + " is ahead"
		}
		switch {
		case lead.Below == nil && from == "":
			parts = append(parts, words+" at any price")
		case lead.Below == nil:
			parts = append(parts, "from "+from+" "+words)
		case from == "":
			parts = append(parts, "below "+wording.Decimal(lead.Below)+" "+words)
		default:
			parts = append(parts, "from "+from+" to below "+wording.Decimal(lead.Below)+" "+words)
		}
		if lead.Below != nil {
			from = wording.Decimal(lead.Below)
		}
	}
	return fmt.Sprintf("With the county yield at its mean, by national price (%s): %s.", c.Commodity.Unit().Price(), strings.Join(parts, "; "))
}
