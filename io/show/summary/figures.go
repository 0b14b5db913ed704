package summary

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// figureRows are the lines by which every program of a crop is described.
var figureRows = []struct {
	name   string
	figure func(*answer.ProgramPart) string
}{
	{"on average", func(p *answer.ProgramPart) string { return wording.Money(&p.Mean) }},
	{"pays in, of 100 outcomes", func(p *answer.ProgramPart) string { return wording.InHundred(p.ChanceOfPayment) }},
	{"when it pays, on average", func(p *answer.ProgramPart) string {
		if p.MeanWhenPaying == nil {
			return none
		}
		return wording.Money(p.MeanWhenPaying)
	}},
	{"poor case (1 in 10 is lower)", percentile(answer.Tenth)},
	{"middle case", percentile(answer.Half)},
	{"good case (1 in 10 is higher)", percentile(answer.Ninetieth)},
	{"the most it can pay", func(p *answer.ProgramPart) string { return wording.Money(&p.Maximum) }},
}

func percentile(at int) func(*answer.ProgramPart) string {
	return func(p *answer.ProgramPart) string { d := answer.Dollars(p.Percentiles[at]); return wording.Money(&d) }
}

// cropsBeside is how many crops stand beside each other in a table of figures.
const cropsBeside = 3

// programGrids are the figures of each program of each crop, some crops to a table.
func programGrids(f answer.FarmPart) (grids []report.Block) {
	for crops := range slices.Chunk(f.Commodities, cropsBeside) {
		g := report.Grid{Columns: []report.Column{{Head: "dollars a base acre", Left: true}}}
		for _, c := range crops {
			for _, one := range c.Programs {
				head := string(one.Program)
				if c.AssumedShare != nil && one.Program == farm.ARCCO {
					head += "\n" + strings.TrimSpace(wording.Mark(c.AssumedShare.Status))
				}
				g.Columns = append(g.Columns, report.Column{Over: c.Commodity.Name(), Head: head})
			}
		}
		for _, row := range figureRows {
			cells := []string{row.name}
			for _, c := range crops {
				for _, one := range c.Programs {
					if one.Figures == nil {
						cells = append(cells, unknown)
						continue
					}
					cells = append(cells, row.figure(one.Figures))
				}
			}
			g.Rows = append(g.Rows, cells)
		}
		grids = append(grids, g)
	}
	return grids
}

// mostCombinations is how many combinations are listed one by one.
const mostCombinations = 8

// plain reports whether a choice is one program for all crops, the last election, or what
// each line leans to.
func plain(choice answer.Choice, y answer.YearPart, key string) bool {
	programs := slices.Sorted(maps.Values(choice))
	if len(slices.Compact(programs)) == 1 {
		return true
	}
	return slices.ContainsFunc(y.Operation.Under, func(u answer.UnderPart) bool { return maps.Equal(u.Choices[key], choice) })
}

// combinations are the whole farm under each combination of programs; of many, under some.
func combinations(f answer.FarmPart, y answer.YearPart) report.Grid {
	const all = "in dollars, before limits"
	g := report.Grid{
		Columns: []report.Column{{Head: "combination", Left: true, Wraps: true}, {Over: all, Head: "on average"}, {Over: all, Head: "poor"}, {Over: all, Head: "middle"}, {Over: all, Head: "good"}, {Over: "after", Head: "limits*"}},
		Notes:   []string{"* average after shares, limit and sequestration (a federal cut), this farm alone"},
	}
	shown := f.Elections
	if len(shown) > mostCombinations {
		shown = slices.DeleteFunc(slices.Clone(shown), func(e answer.Election) bool { return !plain(e.Choice, y, f.Farm) })
		g.Notes = append(g.Notes, fmt.Sprintf("%d more combinations: --full", len(f.Elections)-len(shown)))
	}
	for _, e := range shown {
		row := []string{wording.Programs(e.Choice), wording.Whole(e.Mean)}
		for _, at := range []int{answer.Tenth, answer.Half, answer.Ninetieth} {
			cell := unknown
			if e.Percentiles != nil {
				d := answer.Dollars(e.Percentiles[at])
				cell = wording.Whole(&d)
			}
			row = append(row, cell)
		}
		g.Rows = append(g.Rows, append(row, wording.Whole(e.MeanAfterLimit)))
	}
	return g
}

// noteList numbers sources in the order in which they are first named.
type noteList []string

// mark returns the number of a source in brackets.
func (n *noteList) mark(text string) string {
	at := slices.Index(*n, text)
	if at < 0 {
		at = len(*n)
		*n = append(*n, text)
	}
	return fmt.Sprintf("[%d]", at+1)
}

// lines are the notes, each with its number.
func (n noteList) lines() (said report.Lines) {
	for i, text := range n {
		said = append(said, fmt.Sprintf("[%d] %s", i+1, text))
	}
	return said
}
