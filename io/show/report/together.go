package report

import (
	"fmt"

	"fencerow/sim/answer"
)

// together sets the crop years side by side, commodity by commodity.
func (r *Report) together(c answer.Comparison) {
	if len(c.Together) == 0 {
		return
	}
	r.heading(2, "The crop years side by side")
	first := c.CropYears[0].CropYear
	said := fmt.Sprintf("Each outcome is one course of prices and yields through all years: what happens in one year moves the reference price and the benchmarks of the later ones. Only crop year %d is decided now", first)
	if c.ChangeFrom != 0 {
		said += fmt.Sprintf(": from %d the choice can be changed every year (%s)", c.ChangeFrom, c.ChangeSource)
	}
	r.text(said + ". The further off a year, the less its figures say.")
	for _, t := range c.Together {
		r.table(togetherTable(t))
		r.text(togetherSentence(t))
	}
}

func togetherTable(t answer.Together) Table {
	table := Table{
		Title:   fmt.Sprintf("Farm %s, %s, USD per base acre on average", t.Farm, t.Commodity.Name()),
		Columns: []string{"crop year", "PLC", "ARC-CO", "lead", "margin"},
	}
	for _, y := range t.Years {
		if y.ShareTaken {
			table.Columns[2] = "ARC-CO (assumed)"
		}
		margin := "unknown"
		if y.Difference != nil {
			margin = ahead(float64(y.Difference.Mean))
		}
		table.Rows = append(table.Rows, []string{fmt.Sprint(y.CropYear), money(y.PLC), money(y.ARCCO), leadWords[y.Leader], margin})
	}
	if t.Total != nil {
		table.Rows = append(table.Rows, []string{"all years", money(&t.Total.PLC.Mean), money(&t.Total.ARCCO.Mean), "", ahead(float64(t.Total.Difference.Mean))})
	}
	return table
}

// togetherSentence says how sure the sum is and what changing every year gives.
func togetherSentence(t answer.Together) string {
	if t.Total == nil {
		return "No sum: a year lacks a figure."
	}
	discount := "not discounted"
	if t.Total.DiscountRate != 0 {
		discount = fmt.Sprintf("each payment discounted at %.4g percent a year from its first possible day", 100*float64(t.Total.DiscountRate))
	}
	range90 := func(s answer.Sum) string {
		low, high := answer.Dollars(s.Percentiles[poor]), answer.Dollars(s.Percentiles[good])
		return fmt.Sprintf("%s to %s", money(&low), money(&high))
	}
	return fmt.Sprintf("All years together, %s: PLC throughout pays more in %s of 100 outcomes, ARC-CO throughout in %s. Eight outcomes in ten lie within %s for PLC and %s for ARC-CO. Taking in each year the one ahead on average: %s.",
		discount, inHundred(t.Total.PLCMore), inHundred(t.Total.ARCCOMore), range90(t.Total.PLC), range90(t.Total.ARCCO), money(&t.Total.EachYearsLead.Mean))
}
