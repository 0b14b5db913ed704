package wording

import (
	"fmt"
	"math"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Odds divides 100 outcomes of a crop by which program pays more, "" where the figures
// are missing: "ARC-CO pays more in 62 of 100 outcomes, PLC in 2, and neither pays in 36."
func Odds(c answer.CommodityPart) string {
	if c.ChanceNeitherPays == nil {
		return ""
	}
	n := Chances(c.ChanceNeitherPays, c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceEqual)
	first, second, of := "ARC-CO", "PLC", []string{n[1], n[2]}
	if *c.ChancePLCMore > *c.ChanceARCCOMore {
		first, second, of = second, first, []string{n[2], n[1]}
	}
	if min(*c.ChanceARCCOMore, *c.ChancePLCMore) == 0 {
		of[1] = "none"
	}
	if *c.ChanceARCCOMore == 0 && *c.ChancePLCMore == 0 && *c.ChanceEqual == 0 {
		return "Neither program pays in any of 100 outcomes."
	}
	parts := []string{first + " pays more in " + of[0] + " of 100 outcomes", second + " in " + of[1]}
	if *c.ChanceEqual > 0 && n[3] != fewer { // else it is no part of the 100
		parts = append(parts, "both the same in "+n[3])
	}
	if *c.ChanceNeitherPays > 0 {
		parts = append(parts, "neither pays in "+n[0])
	}
	last := len(parts) - 1
	return strings.Join(parts[:last], ", ") + ", and " + parts[last] + "."
}

// Average says which program is ahead on average, zeros included. total is the margin on
// all base in USD, nil where it is not known.
func Average(c answer.CommodityPart, total *answer.Dollars) string {
	if c.Difference == nil {
		return ""
	}
	if c.Leans == answer.Neither {
		return "Averaged over all 100, zeros included, both pay the same."
	}
	said := fmt.Sprintf("Averaged over all 100, zeros included, %s is %s a base acre ahead", c.Leans, Margin(c.Difference.Mean))
	if total != nil {
		all := answer.Dollars(math.Abs(float64(*total)))
		said += ", or " + Whole(&all) + " in all"
	}
	return said + "."
}

// centsBelow is the margin in USD a base acre under which cents are written.
const centsBelow = 5

// Margin writes the size of a margin in a sentence: whole dollars, with cents below $5.
func Margin(d answer.Dollars) string {
	size := math.Abs(float64(d))
	if size < centsBelow {
		return signed(size, 2)
	}
	return signed(size, 0)
}

// Range says how the lead moves with what the model does not know of the averages, ""
// where price and yield are known.
func Range(c answer.CommodityPart) string {
	d := c.Difference
	if d == nil || !d.Moves() {
		return ""
	}
	off := program.Text(100*math.Expm1(float64(d.UsualError)), 0) + " percent"
	over := "If the price ends " + off + " higher or lower"
	switch {
	case d.UsualError == 0:
		over = fmt.Sprintf("With %d ways to estimate the county yield", d.YieldMeans)
	case d.YieldMeans > 0:
		over = fmt.Sprintf("With the price %s off and %d ways to estimate the county yield", off, d.YieldMeans)
	}
	return over + ", that lead runs " + Between(*d) + "."
}

// Between writes the lowest and highest margin of the band: "from $10 to $41" where one
// program leads throughout, else with the names of both. Both are whole dollars unless both
// are below $5.
func Between(d answer.Difference) string {
	low, high := float64(d.Lowest), float64(d.Highest)
	small := max(math.Abs(low), math.Abs(high)) < centsBelow
	size := func(x float64) string {
		if small || math.Abs(x) < 0.5 {
			return signed(math.Abs(x), 2)
		}
		return signed(math.Abs(x), 0)
	}
	switch {
	case low >= 0:
		return "from " + size(low) + " to " + size(high)
	case high <= 0:
		return "from " + size(high) + " to " + size(low)
	}
	return "from " + size(low) + " for PLC to " + size(high) + " for ARC-CO"
}

// narrowest is the width, as a share of the price used, from which an interval of prices is
// worth telling.
const narrowest = 0.01

// LeadAtPrices returns the leads by price without those of intervals too narrow to tell.
func LeadAtPrices(c answer.CommodityPart) (told []answer.Lead) {
	from := 0.0
	for _, lead := range c.LeadByPrice {
		if lead.Below != nil && c.MYA != nil {
			if lead.Below.Value-from < narrowest*c.MYA.Mean.Value {
				continue
			}
			from = lead.Below.Value
		}
		if n := len(told); n > 0 && told[n-1].Leader == lead.Leader {
			told = told[:n-1]
		}
		told = append(told, lead)
	}
	return told
}

// PriceLeads says at which national prices which program pays more, at the county yields
// used.
func PriceLeads(c answer.CommodityPart) string {
	leads := LeadAtPrices(c)
	if len(leads) == 0 {
		return ""
	}
	var parts []string
	from := ""
	for _, lead := range leads {
		words := paysMore(lead.Leader)
		switch {
		case lead.Below == nil && from == "":
			words += " at any price"
		case lead.Below == nil:
			words += " from " + from + " up"
		case from == "":
			words += " below " + PriceText(lead.Below)
		default:
			words += " from " + from + " to " + PriceText(lead.Below)
		}
		if lead.Below != nil {
			from = PriceText(lead.Below)
		}
		parts = append(parts, words)
	}
	const inOne = 3 // so many fit one sentence
	switch last := len(parts) - 1; {
	case last == 0:
		return AtYield(c) + ": " + parts[0] + "."
	case last < inOne:
		return AtYield(c) + ": " + strings.Join(parts[:last], ", ") + ", and " + parts[last] + "."
	}
	said := AtYield(c) + ": " + parts[0] + ", and " + parts[1] + "."
	for _, part := range parts[2:] {
		said += " " + Capital(part) + "."
	}
	return said
}

func paysMore(l answer.Leader) string {
	switch l {
	case answer.Neither:
		return "neither pays"
	case answer.Equal:
		return "both pay the same"
	}
	return string(l) + " pays more"
}

// AtYield says at which county yield a statement about prices holds: "If the county makes
// 182 bushels".
func AtYield(c answer.CommodityPart) string {
	paid := -1
	for i, b := range c.Bases {
		if b.BaseAcres == 0 || b.CountyYield == nil {
			continue
		}
		if paid >= 0 && c.Bases[paid].CountyYield.Mean != b.CountyYield.Mean {
			return "At the county yields used"
		}
		paid = i
	}
	if paid < 0 {
		return "At the county yield used"
	}
	return "If the county makes " + YieldText(c.Commodity, c.Bases[paid].CountyYield.Mean)
}

// YieldText writes a yield in a sentence: "182 bushels".
func YieldText(c crop.Commodity, y answer.Dollars) string {
	return yieldNumber(y) + " " + c.Unit().Mass + "s"
}

// yieldNumber writes a yield: whole, with a tenth below 100, where a reader's own sum would
// show what is left out.
func yieldNumber(y answer.Dollars) string {
	if y >= 100 {
		return Grouped(float64(y), 0)
	}
	return strings.TrimSuffix(Grouped(float64(y), 1), ".0")
}

// PriceText writes a price in a sentence: "$4.55".
func PriceText(p *answer.Price) string {
	if p == nil {
		return "unknown"
	}
	return "$" + Decimal(p)
}
