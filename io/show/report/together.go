package report

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// together adds the crop years side by side, commodity by commodity.
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
	r.text(aboutChoosingAgain(c))
	for _, t := range c.Together {
		r.table(togetherTable(t, partsOf(c, t)))
		r.text(togetherSentence(t))
		r.choosingAgain(t)
	}
}

// partsOf returns the commodity of a table in every crop year.
func partsOf(c answer.Comparison, t answer.Together) (years []answer.CommodityPart) {
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			for _, part := range f.Commodities {
				if f.Farm == t.Farm && part.Commodity == t.Commodity {
					years = append(years, part)
				}
			}
		}
	}
	return years
}

// programsOf returns the programs that any of the crop years has, in their order.
func programsOf(years []answer.CommodityPart) (all []farm.Program) {
	for _, part := range years {
		for _, one := range part.Programs {
			if !slices.Contains(all, one.Program) {
				all = append(all, one.Program)
			}
		}
	}
	return all
}

// togetherTable has a line for each crop year; "-" stands for a program that a year
// does not have. Only PLC and ARC-CO have totals.
func togetherTable(t answer.Together, years []answer.CommodityPart) Table {
	table := Table{
		Title:   fmt.Sprintf("Farm %s, %s, USD per base acre on average", t.Farm, t.Commodity.Name()),
		Columns: []string{"crop year"},
	}
	programs := programsOf(years)
	marked := max(0, slices.IndexFunc(t.Years, func(y answer.YearLine) bool { return y.ShareAssumed }))
	for _, program := range programs {
		table.Columns = append(table.Columns, programName(years[marked], program))
	}
	table.Columns = append(table.Columns, "lead", "margin")
	for i, y := range t.Years {
		margin := "unknown"
		if y.Difference != nil {
			margin = ahead(float64(y.Difference.Mean))
		}
		row := []string{fmt.Sprint(y.CropYear)}
		for _, program := range programs {
			row = append(row, meanCell(years[i].Programs, program))
		}
		table.Rows = append(table.Rows, append(row, leadWords[y.Leader], margin))
	}
	if t.Total != nil {
		row := []string{"all years"}
		for _, program := range programs {
			row = append(row, totalCell(*t.Total, program))
		}
		table.Rows = append(table.Rows, append(row, "", ahead(float64(t.Total.Difference.Mean))))
	}
	return table
}

// meanCell writes what a program averages in a crop year: "-" where the year does not
// have it, "unknown" where a figure is missing.
func meanCell(programs answer.Programs, program farm.Program) string {
	for _, one := range programs {
		if one.Program == program && one.Figures != nil {
			return wording.Money(&one.Figures.Mean)
		}
		if one.Program == program {
			return wording.Money(nil)
		}
	}
	return "-"
}

// totalCell writes the sum of a program over the crop years, "-" where there is none.
func totalCell(t answer.Total, program farm.Program) string {
	switch program {
	case farm.PLC:
		return wording.Money(&t.PLC.Mean)
	case farm.ARCCO:
		return wording.Money(&t.ARCCO.Mean)
	}
	return "-"
}

// togetherSentence says how often either program throughout pays more over all years,
// between which sums 8 of 10 outcomes lie, and what the leader of each year would
// give.
func togetherSentence(t answer.Together) string {
	if t.Total == nil {
		return "No sum: a year lacks a figure."
	}
	discount := "not discounted"
	if t.Total.DiscountRate != 0 {
		discount = fmt.Sprintf("each payment discounted at %.4g percent a year from its first possible day", 100*float64(t.Total.DiscountRate))
	}
	eightInTen := func(s answer.Sum) string {
		low, high := answer.Dollars(s.Percentiles[poor]), answer.Dollars(s.Percentiles[good])
		return fmt.Sprintf("%s to %s", wording.Money(&low), wording.Money(&high))
	}
	return fmt.Sprintf("All years together, %s: PLC throughout pays more in %s of 100 outcomes, ARC-CO throughout in %s. Eight outcomes in ten lie within %s for PLC and %s for ARC-CO. Taking in each year the one ahead on average: %s.",
		discount, wording.InHundred(t.Total.PLCMore), wording.InHundred(t.Total.ARCCOMore), eightInTen(t.Total.PLC), eightInTen(t.Total.ARCCO), wording.Money(&t.Total.EachYearsLead.Mean))
}
