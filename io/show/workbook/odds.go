package workbook

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// layOdds lays out the odds of every farm and crop as numbers.
func layOdds(c answer.Comparison) *cells.Sheet {
	s := cells.NewSheet("Odds", 14, 12, 17, 12, 9, 10, 12, 9, 9, 9, 16, 16, 16, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9)
	s.Line(cells.Look{Title: true}, "Odds: dollars per base acre, before shares, payment limit and sequestration")
	s.Line(cells.Look{}, notLive+fmt.Sprintf(" They are from all %s outcomes.", wording.Grouped(float64(c.Draws), 0)))
	s.Frozen = len(s.Rows)
	for _, year := range c.CropYears {
		s.Gap()
		s.Line(cells.Look{Bold: true}, fmt.Sprintf("Crop year %d", year.CropYear))
		s.Heads("crop year", "farm", "crop", "base acres", "PLC yield", "last elected", "leans", "of 100: ARC-CO pays more", "PLC pays more", "neither pays", "ahead on average", "price or yield off: from", "to",
			"PLC, average", "pays in, of 100", "1 in 10 is lower", "middle", "1 in 10 is higher", "the most", "ARC-CO, average", "pays in, of 100", "1 in 10 is lower", "middle", "1 in 10 is higher", "the most")
		for _, f := range year.Farms {
			for _, part := range f.Commodities {
				oddsRow(s, year, f, part)
			}
		}
		peopleRows(s, year)
	}
	return s
}

// peopleRows lays out what people are paid, as numbers.
func peopleRows(s *cells.Sheet, year answer.YearPart) {
	if len(year.Operation.ByPerson) == 0 {
		return
	}
	s.Gap()
	title := "What people are paid where every farm is in the program that averages most after limits, in dollars"
	if limit, cut := year.Operation.ByPerson[0].LimitStatus, year.Operation.SequestrationStatus; limit.Marked() || cut.Marked() {
		title += fmt.Sprintf(" (payment limit: %s; sequestration: %s)", limit, cut)
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

// Places of the 10th, 50th and 90th percentile among those of a program.
const poor, middle, good = 1, 3, 5

func oddsRow(s *cells.Sheet, year answer.YearPart, f answer.FarmPart, part answer.CommodityPart) {
	row := []cells.Cell{yearCell(year.CropYear), cells.Plain(wording.Farm(f.Farm, year.Farms)), cells.Plain(part.Commodity.Name()),
		cells.Figure(cells.DecimalsFormat(2), float64(part.BaseAcres)), yieldCell(part.PaymentYield), cells.Plain(wording.LastElected(part.OnRecord)), cells.Plain(wording.Leads(part.Leader))}
	if part.Difference == nil {
		s.Add(append(row, cells.Plain(cells.Unknown+": "+part.LeaderReason))...)
		return
	}
	for i, n := range wording.Hundred(part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceNeitherPays, part.ChanceEqual) {
		if i < 3 {
			row = append(row, cells.Figure("0", float64(n)))
		}
	}
	for _, x := range []answer.Dollars{part.Difference.Mean, part.Difference.Lowest, part.Difference.Highest} {
		row = append(row, cells.Figure(cells.AheadFormat, float64(x)))
	}
	for _, of := range []farm.Program{farm.PLC, farm.ARCCO} {
		p := part.Programs.Of(of)
		row = append(row, money(float64(p.Mean)), cells.Figure("0", 100*float64(p.ChanceOfPayment)))
		for _, at := range []int{poor, middle, good} {
			row = append(row, money(p.Percentiles[at]))
		}
		row = append(row, money(float64(p.Maximum)))
	}
	s.Add(row...)
}

func money(x float64) cells.Cell { return cells.Figure(cells.MoneyFormat, program.Cent(x)) }

func yieldCell(yield *answer.Dollars) cells.Cell {
	if yield == nil {
		return cells.Plain(cells.Unknown)
	}
	return cells.Figure(cells.DecimalsFormat(2), float64(*yield))
}
