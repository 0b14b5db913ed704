package report

import (
	"fmt"
	"math"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// outcomes is the sentence that divides 100 outcomes of a crop by who pays more.
func outcomes(c answer.CommodityPart) string { return wording.Odds(c) }

// verdict says who leads, by how much, and what could change it.
func verdict(c answer.CommodityPart) string { return verdictOnAll(c, nil) }

// verdictOnAll is verdict with the margin on all base in USD, where it is known.
func verdictOnAll(c answer.CommodityPart, total *answer.Dollars) string {
	switch c.Leader {
	case answer.None:
		return "No lead can be given. " + wording.Capital(c.LeaderReason) + "."
	case answer.LittleChance:
		return fmt.Sprintf("Little at stake: %s. %s", c.LeaderReason, wording.Average(c, total))
	case answer.Close:
		return wording.Sentences(fmt.Sprintf("A toss-up: %s.", c.LeaderReason), wording.Average(c, total), wording.Range(c))
	}
	return wording.Sentences(fmt.Sprintf("Leans %s.", c.Leader), wording.Average(c, total), wording.Range(c))
}

// band writes the range of the margin for a table, from the smaller to the larger where one
// program leads throughout: "$10.46 to $40.85", "PLC $1.04 to ARC-CO $7.20".
func band(c answer.CommodityPart) string {
	low, high := c.Difference.Lowest, c.Difference.Highest
	switch {
	case low >= 0:
		return wording.Money(&low) + " to " + wording.Money(&high)
	case high <= 0:
		low, high = -high, -low
		return wording.Money(&low) + " to " + wording.Money(&high)
	}
	return ahead(float64(low)) + " to " + ahead(float64(high))
}

// ahead writes a difference of ARC-CO less PLC as the program that has more, and by
// how much.
func ahead(difference float64) string {
	switch {
	case math.Abs(difference) < program.HalfCent:
		return "even"
	case difference > 0:
		return "ARC-CO $" + program.Text(difference, 2)
	}
	return "PLC $" + program.Text(-difference, 2)
}

// leadSentence says who leads at which prices, at the county yields used.
func leadSentence(c answer.CommodityPart) string { return wording.PriceLeads(c) }

// neitherSentence says, where neither program pays at the price and yields used, that
// averages come from other outcomes; else "".
func neitherSentence(c answer.CommodityPart) string {
	if m := c.Elsewhere[len(c.Elsewhere)/2]; m.PLC != 0 || m.ARCCO != 0 {
		return ""
	}
	return "At the price and county yield used neither pays. The averages come from lower prices and yields."
}

// evenYieldSentence says at which PLC yield both programs average the same, where that is near
// the farm's own; else "".
func evenYieldSentence(c answer.CommodityPart) string {
	const most = 2 // how many times the farm's own PLC yield still gets a sentence
	even := c.EvenPaymentYield
	if even == nil || c.PaymentYield == nil || *even >= most*(*c.PaymentYield) {
		return ""
	}
	return fmt.Sprintf("With a PLC yield of %s, both would average the same.", wording.YieldText(c.Commodity, *even))
}
