package workbook

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// layPast lays out what past crop years would have paid, as numbers: a line for each
// figure, a column for each year.
func layPast(past explain.Replayed) *cells.Sheet {
	var years []crop.CropYear
	each := func(do func(f explain.FarmReplay, c explain.CommodityReplay)) {
		for _, f := range past.Farms {
			for _, c := range f.Commodities {
				do(f, c)
			}
		}
	}
	each(func(_ explain.FarmReplay, c explain.CommodityReplay) {
		for _, y := range c.Years {
			if !slices.Contains(years, y.CropYear) {
				years = append(years, y.CropYear)
			}
		}
	})
	if len(years) == 0 {
		return nil
	}
	slices.Sort(years)
	widths := []float64{12, 17, 40}
	heads := []string{"farm", "crop", "figure"}
	for _, y := range years {
		widths, heads = append(widths, 10), append(heads, fmt.Sprint(y))
	}
	s := cells.NewSheet("Past years", widths...)
	s.Paper.High = 1
	s.Line(cells.Look{Title: true}, fmt.Sprintf("Past years under the rules in force then, and under the %d rules", past.CropYear))
	s.Line(cells.Look{}, notLive+" Dollars are per base acre, before shares, payment limit and sequestration.")
	s.Heads(heads...)
	s.Frozen = len(s.Rows)
	var keys []string
	for _, f := range past.Farms {
		keys = append(keys, f.Farm)
	}
	each(func(f explain.FarmReplay, c explain.CommodityReplay) {
		pastRows(s, wording.Number(f.Farm, keys), c, years)
	})
	s.Gap()
	for _, note := range slices.Concat(missingIn(past), past.Notes) {
		s.Running("- ", note)
	}
	return s
}

// pastRows lays out the lines of one farm and crop.
func pastRows(s *cells.Sheet, farm string, c explain.CommodityReplay, years []crop.CropYear) {
	unit := c.Commodity.Unit()
	for i, line := range []struct {
		words, format string
		kind          explain.RulesKind
		of            func(y explain.YearReplay) *answer.Dollars
	}{
		{"national price, " + unit.Price(), "#,##0.00##", explain.OfTheTime, func(y explain.YearReplay) *answer.Dollars { return answer.DollarsOf(y.MYA.Value) }},
		{"county yield, " + unit.Yield(), cells.MoneyFormat, explain.OfTheTime, func(y explain.YearReplay) *answer.Dollars { return y.CountyYield }},
		{"PLC, rules then", cells.MoneyFormat, explain.OfTheTime, func(y explain.YearReplay) *answer.Dollars { return y.PLC }},
		{"ARC-CO, rules then", cells.MoneyFormat, explain.OfTheTime, func(y explain.YearReplay) *answer.Dollars { return y.ARCCO }},
		{"PLC, rules now", cells.MoneyFormat, explain.OfCropYear, func(y explain.YearReplay) *answer.Dollars { return y.PLC }},
		{"ARC-CO, rules now", cells.MoneyFormat, explain.OfCropYear, func(y explain.YearReplay) *answer.Dollars { return y.ARCCO }},
	} {
		row := []cells.Cell{cells.Plain(""), cells.Plain(""), cells.Plain(line.words)}
		if i == 0 {
			row[0], row[1] = cells.Plain(farm), cells.Plain(c.Commodity.Name())
		}
		for _, year := range years {
			row = append(row, pastCell(c.Years, year, line.kind, line.format, line.of))
		}
		s.Add(row...)
	}
}

func pastCell(all []explain.YearReplay, year crop.CropYear, kind explain.RulesKind, format string, of func(explain.YearReplay) *answer.Dollars) cells.Cell {
	for _, y := range all {
		if y.CropYear != year || y.Rules != kind {
			continue
		}
		if x := of(y); x != nil {
			return cells.Figure(format, float64(*x))
		}
	}
	return cells.Words(cells.Look{Right: true}, cells.Unknown)
}

// missingIn names what unknown figures lack, each once.
func missingIn(past explain.Replayed) (notes []string) {
	for _, f := range past.Farms {
		for _, c := range f.Commodities {
			for _, y := range c.Years {
				if note := "Unknown in some years: " + y.Missing + "."; y.Missing != "" && !slices.Contains(notes, note) {
					notes = append(notes, note)
				}
			}
		}
	}
	return notes
}
