package wording

import (
	"fmt"
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

// Term is a word of the programs, or of this program, with what it means in one line.
type Term struct{ Word, Line string }

// Glossary explains the words of the answers, with the figures of the law in a crop year.
// A sheet prints those that it uses, by their word.
func Glossary(y crop.CropYear) []Term {
	margin := "$" + program.Text(answer.DefaultCloseMargin, 0)
	return []Term{
		{"base acres", "Acres on your FSA farm record that PLC and ARC-CO can pay on. What you plant does not change them."},
		{"payment acres", "The part of base acres that is paid on" + inLaw(": %s of 100 for PLC and ARC-CO", "payment_acre_share", y) + inLaw(", %s of 100 for ARC-IC", "payment_acre_share_individual", y) + "."},
		{"PLC yield", "Bushels or pounds an acre on your farm record that PLC pays on. Files call it payment_yield."},
		{"PLC", "Pays when the national price for the whole marketing year falls below the effective reference price. What you harvest does not matter."},
		{"ARC-CO", "Pays when the county's yield times the national price falls below the county guarantee."},
		{"ARC-IC", "Like ARC-CO, but on your own yields, for the whole farm at once. All producers must agree."},
		{"national price", "USDA's average price for the marketing year. It is final about a year after harvest."},
		{"marketing year", "The 12 months after harvest; for corn, September through August."},
		{"effective reference price", "The price that PLC pays up to in a year. The law sets it from a fixed price and past prices."},
		{"loan rate", "The lowest price that the formulas use. Below it, PLC stops growing."},
		{"benchmark", "The average of five past years without the highest and the lowest: benchmark yield, price and revenue."},
		{"guarantee", "The revenue an acre below which ARC pays" + inLaw(": %s percent of the benchmark revenue", "guarantee_share", y) + "."},
		{"election", "Your choice of program for each crop, entered at the county office."},
		{"contract", "The signature by which a farm is enrolled for a year. Without it nothing is paid."},
		{"last elected", "The program that FSA has on file from before."},
		{"leans", "Pays at least " + margin + " more a base acre on average, and still leads when price or yield is off by a usual error."},
		{"toss-up", "Too close to call: less than " + margin + " apart, or the lead changes when price or yield is off by a usual error."},
		{"little at stake", Capital(answer.LittlePays()) + " pay anything under either program."},
		{"outcome", "One possible end of the year: a national price together with a county yield."},
		{"poor, middle, good case", "1 outcome in 10 is lower than the poor case. Half are lower than the middle one. 1 in 10 is higher than the good one."},
		{"on average", "The average over all outcomes, also those that pay nothing."},
		{"share", "Your part of the crop, and so of the payment."},
		{"payment limit", "The most that one person can be paid in a year under these programs together."},
		{"sequestration", "A federal cut taken off every payment."},
		{"SCO, ECO, STAX", "Crop insurance on planted acres that pays on the county's yield or revenue. A licensed insurance agent quotes it."},
		{"projected, assumed, not confirmed", "Not final yet; an assumption of this program; not found in the law or a USDA table so far."},
	}
}

// inLaw writes a part of the law as whole hundredths into words; "" where the law has no
// such row in the crop year.
func inLaw(words, id string, y crop.CropYear) string {
	row, err := law.Find(id, "", y)
	if err != nil || math.IsNaN(row.Number) {
		return ""
	}
	return fmt.Sprintf(words, program.Text(100*row.Number, 0))
}
