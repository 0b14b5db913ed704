package summary

import (
	"fmt"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// yearsBeside is how many later crop years stand beside each other in a table.
const yearsBeside = 2

// laterGrids are the lines of the crop years after the first, some years to a table.
func laterGrids(c answer.Comparison) (grids []report.Block) {
	for from := 1; from < len(c.CropYears); from += yearsBeside {
		g := laterGrid(c.CropYears[from:min(from+yearsBeside, len(c.CropYears))])
		var said []string
		if from == 1 {
			said = append(said, laterYears(c))
		}
		if years := c.CropYears[from:]; len(years) == 1 {
			said = append(said, fmt.Sprintf("For %d:", years[0].CropYear))
		}
		if len(said) > 0 {
			g.Title = []string{strings.Join(said, " ")}
		}
		grids = append(grids, g)
	}
	return grids
}

// laterGrid has a line for each farm and crop, with a few columns for each crop year. Of
// several years the outcomes in which neither program pays more are left out.
func laterGrid(years []answer.YearPart) report.Grid {
	g := report.Grid{Columns: []report.Column{{Head: "farm", Left: true}, {Head: "crop", Left: true, Wraps: true}}}
	several := len(years) > 1
	if several {
		g.Notes = []string{"Pays more, of 100 outcomes; in the others neither does."}
	}
	for _, y := range years {
		if several {
			over := fmt.Sprintf("in %d:", y.CropYear)
			g.Columns = append(g.Columns, report.Column{Over: over, Head: "ARC-CO"}, report.Column{Over: over, Head: "PLC"})
		} else {
			g.Columns = append(g.Columns, report.Column{Head: "ARC-CO more"}, report.Column{Head: "PLC more"}, report.Column{Head: "neither pays"})
		}
		g.Columns = append(g.Columns, report.Column{Head: "leans", Left: true, Wraps: true}, report.Column{Head: "ahead", Wraps: true})
	}
	for i, f := range years[0].Farms {
		for j, c := range f.Commodities {
			row := []string{wording.Farm(f.Farm, years[0].Farms), c.Commodity.Name()}
			for _, y := range years {
				part := y.Farms[i].Commodities[j]
				odds := oddsCells(part, false)
				if several {
					odds = odds[:2]
				}
				row = append(append(row, odds...), leans(part), margin(part))
			}
			g.Rows = append(g.Rows, row)
		}
	}
	return g
}

// laterYears says that only the first crop year is decided now.
func laterYears(c answer.Comparison) string {
	said := fmt.Sprintf("Only %d is decided now.", deciding(c).CropYear)
	if c.ChangeFrom != 0 {
		said += fmt.Sprintf(" From %d the choice can change every year.", c.ChangeFrom)
	}
	return said
}
