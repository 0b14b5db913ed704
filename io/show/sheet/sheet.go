package sheet

import (
	"fmt"
	"strings"

	"fencerow/io/show/insurance"
	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// Of lays an operation out for paper: a sheet for the operation where it has several
// farms, then one for each farm, and one with its area insurance where it has some. The first crop year is shown in full, later ones in a
// line. With changesOnly a year that asks for no new election lists on the first sheet only
// what differs from the last election.
func Of(c answer.Comparison, changesOnly bool) report.Report {
	var s sheets
	several := len(c.CropYears[0].Farms) > 1
	if several {
		s.operation(c, changesOnly)
	}
	for i := range c.CropYears[0].Farms {
		if several {
			s.add(report.Sheet{})
		}
		s.farm(c, i)
		if insured := insurance.Of(c, insurance.Options{Farm: c.CropYears[0].Farms[i].Farm, Pictures: true}); insured != nil {
			s.add(report.Sheet{})
			s.add(insured...)
		}
	}
	return report.Report{Blocks: s}
}

// sheets are blocks in reading order.
type sheets []report.Block

// add appends blocks, leaving out empty text.
func (s *sheets) add(blocks ...report.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case report.Text:
			if b == "" {
				continue
			}
		case report.Lead:
			if b == "" {
				continue
			}
		case report.Small:
			if b == "" {
				continue
			}
		case report.List:
			if len(b) == 0 {
				continue
			}
		}
		*s = append(*s, b)
	}
}

// made says what a sheet is about, on which prices, and when it was made.
func made(c answer.Comparison) report.Small {
	said := fmt.Sprintf("PLC or ARC-CO for crop year %d. Prices of %s (%s). Made %s.", c.CropYears[0].CropYear, wording.Date(c.Market.AsOf), c.Market.Source, wording.Date(c.Today))
	if c.Model.Note != "" {
		said += " " + wording.Capital(c.Model.Note) + "."
	}
	return report.Small(said)
}

// foot ends a sheet: what its dollars are, the caution and what the figures were made from.
func (s *sheets) foot(c answer.Comparison, dollars string) {
	s.add(report.Small(wording.Sentences(dollars, "Caution. ") + strings.Join(c.Caution, " ") + fmt.Sprintf(" (seed %d, %s draws)", c.Seed, wording.Grouped(float64(c.Draws), 0))))
}

// common returns the flags that every farm of a year has in the same words: with several
// farms they stand on the sheet of the operation.
func common(farms []answer.FarmPart) (all []answer.Flag) {
	if len(farms) < 2 {
		return nil
	}
	return report.CommonFlags(farms)
}

// linesOf are the lines of one farm in the standing of a year.
func linesOf(y answer.YearPart, farm string) (lines []answer.StandingLine) {
	for _, l := range y.Standing.Lines {
		if l.Farm == farm {
			lines = append(lines, l)
		}
	}
	return lines
}

// lineOf is the line of a crop of a farm, nil where it has none.
func lineOf(lines []answer.StandingLine, part answer.CommodityPart) *answer.StandingLine {
	for i, l := range lines {
		if l.Commodity == part.Commodity {
			return &lines[i]
		}
	}
	return nil
}
