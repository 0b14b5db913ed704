package front

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// Columns of Checks. What stands after the printed ones is what the inputs were.
const (
	checkWhat = iota + 1
	checkLive
	checkOwn
	checkLiveARC
	checkOwnARC
	checkVerdict
	_
	checkChanged // how many inputs of the row and its crop differ from what they were
	checkStarts  // the first input
)

// Columns of the program's own odds, after the inputs of a county row.
const (
	startInputs = 8 // five adjusted yields, benchmark yield, county yield, PLC yield
	checkOdds   = checkStarts + startInputs
)

// onePage is how many county rows are checked on one page, next to the rest.
const onePage = 40

// layChecks lays out the program's own figures beside those of the sheets.
func (b *Book) layChecks() {
	s := b.Checks
	s.Paper.Columns, s.Paper.Upright, s.Paper.High = checkVerdict, true, 1+len(b.first().Rows)/onePage
	s.Line(cells.Look{Title: true}, "Checks: the sheets against the program")
	s.Line(cells.Look{}, "The program worked out the same figures for itself and wrote them here as values.")
	s.Frozen, s.Shown = 2, checkVerdict
	s.Gap()
	s.Add(cells.Words(cells.Look{Bold: true}, "All checks together"), cells.Cell{})
	overall := len(s.Rows)
	s.Gap()
	var ranges []cells.Span
	crops := b.cropChecks()
	rows := b.rowChecks(crops)
	ranges = append(ranges, crops, rows, b.frontChecks(rows))
	count := func(what string) (text string) {
		for i, r := range ranges {
			if i > 0 {
				text += "+"
			}
			text += "COUNTIF(" + r.From.Address() + ":" + r.To.Address() + ",\"" + what + "\")"
		}
		return text
	}
	all := s.Set(2, overall, formula(cells.Look{Bold: true}, "IF("+count(cells.Differs)+">0,\""+cells.Differs+"\",IF("+count(cells.Changed)+">0,\""+cells.Changed+"\",\""+cells.Equal+"\"))"))
	s.Name(all, "all_checks")
	s.Marks = append(ranges, cells.Between(all, all))
}

// verdict is equal where differences are 0, else whether an input was changed.
func verdict(differences []string, changed string) string {
	hold := ""
	for i, d := range differences {
		if i > 0 {
			hold += ","
		}
		hold += d + "=0"
	}
	return fmt.Sprintf("IF(IFERROR(IF(AND(%s),1,0),0)=1,\"%s\",IF(%s>0,\"%s\",\"%s\"))", hold, cells.Equal, changed, cells.Changed, cells.Differs)
}

// checked is a figure of the sheets with the program's own.
type checked struct {
	live     cells.Place
	own      *float64 // nil: not known
	format   string
	decimals int
}

// check appends a line: two figures, each beside the program's own, and the verdict. Where
// one is not known there is none.
func (b *Book) check(words string, pair [2]checked, inputs []cells.Place, more string) {
	s := b.Checks
	s.Add(cells.Plain(words))
	r := len(s.Rows)
	changed := s.Set(checkChanged, r, formula(cells.Look{Format: "General"}, "0"+b.changes(inputs, r)+more)).Address()
	var differences []string
	for i, one := range pair {
		column := checkLive + 2*i
		if one.own == nil {
			s.Set(column, r, cells.Plain(cells.Unknown))
			continue
		}
		live := s.Set(column, r, formula(cells.Look{Format: one.format}, one.live.Absolute()))
		own := s.Set(column+1, r, cells.Figure(one.format, *one.own))
		differences = append(differences, fmt.Sprintf("ROUND(%s-%s,%d)", live.Address(), own.Address(), one.decimals))
	}
	if len(differences) == 0 {
		s.Set(checkVerdict, r, cells.Plain("a figure is missing"))
		return
	}
	s.Set(checkVerdict, r, formula(cells.Look{}, verdict(differences, changed)))
}

// changes counts the inputs that are not what they were; what they were is kept in the row.
func (b *Book) changes(inputs []cells.Place, row int) (text string) {
	for i, at := range inputs {
		was := at.Cell()
		kept := cells.Cell{Value: was.Value, Look: cells.Look{Format: "General"}}
		if was.Value == nil {
			kept.Value = ""
		}
		text += "+IF(" + at.Absolute() + "=" + b.Checks.Set(checkStarts+i, row, kept).Address() + ",0,1)"
	}
	return text
}

// inputsOf are the cells of some columns that can be typed in.
func inputsOf(s *cells.Sheet, row int, columns ...int) (all []cells.Place) {
	for _, column := range columns {
		if at := cells.At(s, column, row); at.Cell().Look.Input {
			all = append(all, at)
		}
	}
	return all
}

// lines is the verdicts of the last n lines.
func (b *Book) lines(n int) cells.Span {
	last := len(b.Checks.Rows)
	b.Checks.Gap()
	return cells.Between(cells.At(b.Checks, checkVerdict, last-n+1), cells.At(b.Checks, checkVerdict, last))
}

// cropChecks checks the effective reference price and benchmark price of each crop.
func (b *Book) cropChecks() cells.Span {
	b.Checks.Heads("crop", "effective reference price, here", "by the program", "benchmark price, here", "by the program", "")
	const decimals = 6
	for i, row := range b.first().Crops {
		on, w := b.blocks[0].firstCrop+i, row.Working
		of := func(column int, f *farm.Figure) checked {
			one := checked{cells.At(b.Crops, column, on), nil, priceFormat, decimals}
			if f != nil {
				one.own = &f.Value
			}
			return one
		}
		b.check(w.Commodity.Name(), [2]checked{of(cropEffective, w.Target), of(cropBenchmark, w.Benchmark)},
			inputsOf(b.Crops, on, cropPrice, cropPast, cropPast+1, cropPast+2, cropPast+3, cropPastLast), "")
	}
	return b.lines(len(b.first().Crops))
}

// rowChecks checks what both programs pay in each county row at its figures.
func (b *Book) rowChecks(crops cells.Span) cells.Span {
	s := b.Checks
	s.Heads("county and crop, $ per base acre", "PLC pays, here", "by the program", "ARC-CO pays, here", "by the program", "")
	counties := shownCounties(b.first().Rows)
	for i, row := range b.first().Rows {
		on := b.blocks[0].firstRow + i
		pair := [2]checked{{live: cells.At(b.Counties, rowPLC, on)}, {live: cells.At(b.Counties, rowARC, on)}}
		if row.Paid != nil {
			pair[0].own, pair[1].own = &row.Paid.PLC.AtFigures, &row.Paid.ARCCO.AtFigures
		}
		for k := range pair {
			pair[k].format, pair[k].decimals = cells.MoneyFormat, 2
		}
		b.check(counties[row.County]+", "+cropShown(row.Commodity, practiceWord(row.Practice.Practice)), pair,
			inputsOf(b.Counties, on, rowAdjusted, rowAdjusted+1, rowAdjusted+2, rowAdjusted+3, rowAdjustedLast, rowTypedBenchmark, rowYield, rowPLCYield),
			"+"+cells.At(s, checkChanged, crops.From.Row+b.cropNumber(row)).Address())
		if row.Paid == nil {
			continue
		}
		for k, x := range ownOdds(*row.Paid) {
			s.Set(checkOdds+k, len(s.Rows), fixed(x))
		}
	}
	return b.lines(len(b.first().Rows))
}

// cropNumber is the place of a row's crop among the crops, from 0.
func (b *Book) cropNumber(row explain.CountyRow) int {
	for i, c := range b.first().Crops {
		if c.Working.Commodity == row.Commodity {
			return i
		}
	}
	panic("front: a county row without its crop")
}

// ownOdds are the program's own figures of a row, in the order of frontFigures.
func ownOdds(p explain.RowPaid) []float64 {
	const of100 = 100
	return []float64{p.PLC.AtFigures, p.PLC.Average, p.PLC.Low, p.PLC.High, p.ARCCO.AtFigures, p.ARCCO.Average, p.ARCCO.Low, p.ARCCO.High, of100 * p.ARCCOMore, of100 * p.PLCMore, of100 * p.Neither}
}

// frontFigures are the figures of Front that are checked, by name.
var frontFigures = []struct{ words, name string }{
	{"PLC pays, $ per base acre", "plc_pays"}, {"PLC, average", "plc_average"}, {"PLC, 1 outcome in 10 is lower", "plc_low"}, {"PLC, 1 outcome in 10 is higher", "plc_high"},
	{"ARC-CO pays, $ per base acre", "arc_co_pays"}, {"ARC-CO, average", "arc_co_average"}, {"ARC-CO, 1 outcome in 10 is lower", "arc_co_low"}, {"ARC-CO, 1 outcome in 10 is higher", "arc_co_high"},
	{"ARC-CO pays more, of 100 outcomes", "arc_co_more"}, {"PLC pays more, of 100 outcomes", "plc_more"}, {"neither pays, of 100 outcomes", "neither_pays"},
}

// frontChecks checks what Front shows of the chosen row.
func (b *Book) frontChecks(rows cells.Span) cells.Span {
	s := b.Checks
	starts := rows.To.Row - rows.From.Row + 1
	ofRow := func(column int) string {
		return fmt.Sprintf("INDEX(%s,row_used)", cells.Between(cells.At(s, column, rows.From.Row), cells.At(s, column, rows.To.Row)).Fixed())
	}
	s.Heads(frontTitle+", the chosen row", "here", "by the program", "", "", "")
	first := len(s.Rows) + 1
	changed := cells.At(s, checkChanged, first).Address()
	for i, one := range frontFigures {
		r := len(s.Rows) + 1
		s.Add(cells.Plain(one.words))
		live := s.Set(checkLive, r, formula(cells.Look{Format: cells.MoneyFormat}, one.name))
		own := s.Set(checkOwn, r, formula(cells.Look{Format: cells.MoneyFormat}, fmt.Sprintf("IF(row_used>%d,\"\",%s)", starts, ofRow(checkOdds+i))))
		s.Set(checkVerdict, r, formula(cells.Look{}, verdict([]string{"ROUND(" + cent(live.Address()) + "-ROUND(" + own.Address() + ",2),2)"}, changed)))
	}
	typed := "IF(price_from=\"sheet\",0,1)+IF(county_yield_from=\"sheet\",0,1)+IF(plc_yield_from=\"sheet\",0,1)"
	s.Set(checkChanged, first, formula(cells.Look{Format: "General"}, fmt.Sprintf("%s+IF(row_used>%d,1,%s)", typed, starts, ofRow(checkChanged))))
	return b.lines(len(frontFigures))
}
