package workbook

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// layOdds lays out the odds of every farm and crop as numbers.
func layOdds(c answer.Comparison) *cells.Sheet {
	s := cells.NewSheet("Odds", 13, 12, 17, 13, 11, 11, 12, 11, 11, 11, 17, 17, 17)
	s.Line(cells.Look{Title: true}, "Odds: dollars per base acre, before shares, payment limit and sequestration")
	s.Line(cells.Look{}, notLive+fmt.Sprintf(" They are from all %s outcomes.", wording.Grouped(float64(c.Draws), 0)))
	s.Frozen = len(s.Rows)
	for _, year := range c.CropYears {
		s.Gap()
		s.Heads("crop year", "farm", "crop", "base acres", "PLC yield", "last elected", "leans", "ARC-CO pays more, of 100", "PLC pays more", "neither pays", "ahead on average", "price or yield off: from", "to")
		eachPart(year, func(f answer.FarmPart, part answer.CommodityPart) { s.Add(leadRow(year, f, part)...) })
		s.Gap()
		s.Heads("farm", "crop", "program", "on average", "pays in, of 100", "1 in 10 is lower", "middle", "1 in 10 is higher", "the most")
		eachPart(year, func(f answer.FarmPart, part answer.CommodityPart) { paidRows(s, year, f, part) })
		peopleRows(s, year)
	}
	const onePage = 75 // rows that can be read on one
	s.Paper.High = 1 + len(s.Rows)/onePage
	return s
}

// eachPart goes through the crops of all farms.
func eachPart(year answer.YearPart, do func(answer.FarmPart, answer.CommodityPart)) {
	for _, f := range year.Farms {
		for _, part := range f.Commodities {
			do(f, part)
		}
	}
}

// Places of the 10th, 50th and 90th percentile among those of a program.
const poor, middle, good = 1, 3, 5

// peopleRows lays out what people are paid, as numbers.
func peopleRows(s *cells.Sheet, year answer.YearPart) {
	if len(year.Operation.ByPerson) == 0 {
		return
	}
	s.Gap()
	title := "What people are paid where every farm is in the program that averages most after limits, in dollars"
	for _, one := range []struct {
		words string
		is    crop.Status
	}{{"payment limit", year.Operation.ByPerson[0].LimitStatus}, {"sequestration", year.Operation.SequestrationStatus}} {
		if one.is.Marked() {
			title += fmt.Sprintf(" (%s: %s)", one.words, one.is)
		}
	}
	s.Line(cells.Look{Bold: true}, title)
	s.Heads("person", "own share, average", "reaches the limit, of 100", "after limit and sequestration", "1 in 10 is lower", "middle", "1 in 10 is higher")
	for _, p := range year.Operation.ByPerson {
		row := []cells.Cell{cells.Plain(p.ID), money(float64(p.Mean)), cells.Figure("0", 100*float64(p.ChanceOfLimit)), money(float64(p.MeanAfterLimit))}
		for _, at := range []int{poor, middle, good} {
			row = append(row, money(p.Percentiles[at]))
		}
		s.Add(row...)
	}
}

// leadRow says who pays more and how often.
func leadRow(year answer.YearPart, f answer.FarmPart, part answer.CommodityPart) []cells.Cell {
	row := []cells.Cell{yearCell(year.CropYear), cells.Plain(wording.Farm(f.Farm, year.Farms)), cells.Plain(part.Commodity.Name()),
		cells.Figure(cells.DecimalsFormat(2), float64(part.BaseAcres)), yieldCell(part.PaymentYield), cells.Plain(wording.LastElected(part.OnRecord)), cells.Plain(wording.Leads(part.Leader))}
	if part.Difference == nil {
		return append(row, cells.Plain(cells.Unknown+": "+part.LeaderReason))
	}
	for i, n := range wording.Hundred(part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceNeitherPays, part.ChanceEqual) {
		if i < 3 {
			row = append(row, cells.Figure("0", float64(n)))
		}
	}
	for _, x := range []answer.Dollars{part.Difference.Mean, part.Difference.Lowest, part.Difference.Highest} {
		row = append(row, cells.Figure(cells.AheadFormat, float64(x)))
	}
	return row
}

// paidRows are what each program pays.
func paidRows(s *cells.Sheet, year answer.YearPart, f answer.FarmPart, part answer.CommodityPart) {
	for _, one := range part.Programs {
		p := one.Figures
		if p == nil {
			continue
		}
		row := []cells.Cell{cells.Plain(wording.Farm(f.Farm, year.Farms)), cells.Plain(part.Commodity.Name()), cells.Plain(string(one.Program)), money(float64(p.Mean)), cells.Figure("0", 100*float64(p.ChanceOfPayment))}
		for _, at := range []int{poor, middle, good} {
			row = append(row, money(p.Percentiles[at]))
		}
		s.Add(append(row, money(float64(p.Maximum)))...)
	}
}

func money(x float64) cells.Cell { return cells.Figure(cells.MoneyFormat, program.Cent(x)) }

func yieldCell(yield *answer.Dollars) cells.Cell {
	if yield == nil {
		return cells.Plain(cells.Unknown)
	}
	return cells.Figure(cells.DecimalsFormat(2), float64(*yield))
}
