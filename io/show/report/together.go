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
	said := "A low price in one year lowers the reference price and benchmark of later years, and these figures follow that. Later years are less certain."
	if c.ChangeFrom != 0 {
		said += fmt.Sprintf(" Only the choice for %d is made now. From %d the choice can be changed every year.", c.CropYears[0].CropYear, c.ChangeFrom)
	}
	r.text(said)
	r.text(aboutChoosingAgain(c))
	among := c.CropYears[0].Farms
	for _, t := range c.Together {
		name := "Farm " + wording.Farm(t.Farm, among) + ", " + t.Commodity.Name()
		r.table(togetherTable(t, name, partsOf(c, t)))
		r.text(togetherSentence(t, len(c.CropYears)))
		r.choosingAgain(t, name)
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
func togetherTable(t answer.Together, name string, years []answer.CommodityPart) Table {
	table := Table{
		Title:   name + ", dollars per base acre on average",
		Columns: []string{"crop year"},
	}
	programs := programsOf(years)
	marked := max(0, slices.IndexFunc(t.Years, func(y answer.YearLine) bool { return y.ShareAssumed }))
	for _, program := range programs {
		table.Columns = append(table.Columns, programName(years[marked], program))
	}
	table.Columns = append(table.Columns, "leans", "ahead by")
	for i, y := range t.Years {
		margin := "unknown"
		if y.Difference != nil {
			margin = ahead(float64(y.Difference.Mean))
		}
		row := []string{fmt.Sprint(y.CropYear)}
		for _, program := range programs {
			row = append(row, meanCell(years[i].Programs, program))
		}
		table.Rows = append(table.Rows, append(row, wording.Leads(y.Leader), margin))
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

// togetherSentence says how often one program in every year pays more over all years,
// between which sums 8 of 10 outcomes lie, and what the leader of each year would give.
func togetherSentence(t answer.Together, years int) string {
	if t.Total == nil {
		return "No sum: a year lacks a figure."
	}
	all := "Both years"
	if years != 2 {
		all = fmt.Sprintf("All %d years", years)
	}
	total := t.Total
	first, second, often := "ARC-CO", "PLC", []answer.Chance{total.ARCCOMore, total.PLCMore}
	if total.PLCMore > total.ARCCOMore {
		first, second, often = second, first, []answer.Chance{total.PLCMore, total.ARCCOMore}
	}
	said := fmt.Sprintf("%s added up: %s every year pays more in %s of 100 outcomes, %s every year in %s.", all, first, wording.InHundred(often[0]), second, wording.InHundred(often[1]))
	said += fmt.Sprintf(" In 8 of 10 outcomes PLC pays %s in all and ARC-CO %s.", eightInTen(total.PLC), eightInTen(total.ARCCO))
	said += fmt.Sprintf(" Taking each year the one that leans ahead averages %s.", wording.Whole(&total.EachYearsLead.Mean))
	if total.DiscountRate != 0 {
		said += fmt.Sprintf(" Each payment is discounted at %.4g percent a year from its first possible day.", 100*float64(total.DiscountRate))
	}
	return said
}

// eightInTen writes between which sums 8 of 10 outcomes lie: "$0 to $93".
func eightInTen(s answer.Sum) string {
	low, high := answer.Dollars(s.Percentiles[poor]), answer.Dollars(s.Percentiles[good])
	return wording.Whole(&low) + " to " + wording.Whole(&high)
}
