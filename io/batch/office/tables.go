package office

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"fencerow/io/batch/summary"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// Run is what a summary says of the run.
type Run struct {
	Rows, Answered, Refused, Operations, Farms int
	Note                                       string // above all; "" for none
	Masked                                     bool   // names are numbers, and texts that may hold one are not shown
	Market, Source, Today                      string // day of the prices, who gave them, day of the run; days as 2026-11-25
	Seed                                       uint64
}

// WriteSummary writes the workbook.
func (s *Sums) WriteSummary(w io.Writer, r Run) error {
	made := fmt.Sprintf("Prices of %s: %s. Made %s (seed %d).", wording.Date(r.Market), r.Source, wording.Date(r.Today), r.Seed)
	return summary.Write(w, s.tables(r), append([]string{made}, answer.Caution()...))
}

// tables are the sheets in the order in which an office works: what was left out, what to
// mend, whom to call, what to elect, then where the dollars are. One without lines is left
// out.
func (s *Sums) tables(run Run) []summary.Table {
	all := []summary.Table{s.overall(run), s.refusedRows(run), s.exceptions(), s.generally(), s.callList(), s.toElect(), s.differences(), s.operations(), s.limitedOperations(), s.payees(), s.limitedPeople(), s.severalOperations()}
	return slices.DeleteFunc(all, func(t summary.Table) bool { return len(t.Rows) == 0 })
}

// overall has one line for each crop year and commodity, and their total.
func (s *Sums) overall(run Run) summary.Table {
	t := summary.Table{Name: "Totals", Columns: columnsOf("crop year:y", "crop", "farms:n", "base acres:a", "lean PLC:n", "lean ARC-CO:n", "toss-up:n", "little at stake:n", "unknown:n", "differs from last election:n", "average dollars more:$")}
	t.Said = []string{fmt.Sprintf("%s rows: %s answered, %s refused. %s operations, %s farms.", counted(run.Rows), counted(run.Answered), counted(run.Refused), counted(run.Operations), counted(run.Farms))}
	if run.Note != "" {
		t.Said = append([]string{run.Note}, t.Said...)
	}
	t.Notes = []string{
		"Lean: farms and crops that lean to a program on average. Toss-up: too close to call.",
		"Differs from last election: another program averages more than the one last elected, " + wording.AfterLimit + ". The last column says by how much.",
		"Each line is counted by itself, with the program that averages most on all others. Where a limit is reached, several together come to another sum.",
		fmt.Sprintf("Not compared: %s lines with no last election, with ARC-IC and no figures for it, or of a year that pays the higher of both.", counted(s.unknown)),
	}
	keys := slices.SortedFunc(maps.Keys(s.groups), func(a, b group) int {
		return cmp.Or(cmp.Compare(a.cropYear, b.cropYear), strings.Compare(a.commodity, b.commodity))
	})
	for _, key := range keys {
		g := s.groups[key]
		t.Rows = append(t.Rows, []any{key.cropYear, cropName(key.commodity), g.lines, g.acres, g.leaders["PLC"], g.leaders["ARC-CO"], g.leaders["close"], g.leaders["little_chance"], g.leaders["none"], g.gains, g.gained})
	}
	t.Total = []any{"all", nil, nil, nil, nil, nil, nil, nil, nil, s.gains, s.gained}
	return t
}

func (s *Sums) refusedRows(run Run) summary.Table {
	t := summary.Table{Name: "Refused rows", Title: "Rows that were refused, and are in no figure", Columns: columnsOf("row of the table:n", "column", "value", "what is wrong:w", "what to do:w")}
	t.Said = append(s.refused.cut("refused.csv"), "Fix these rows and run the table again.")
	for _, line := range s.refused.lines {
		row := cells(line.cells)
		if run.Masked { // a value or a reason may hold a name
			row[2], row[3], row[4] = nil, "see refused.csv, which names what this sheet hides", nil
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// cells are a line of a file.
func cells(line []string) []any {
	all := make([]any, len(line))
	for i, text := range line {
		all[i] = text
	}
	return all
}

// differences are lines of the results by what another program averages more.
func (s *Sums) differences() summary.Table {
	t := summary.Table{Name: "Largest differences", Title: "Largest differences from the last election",
		Columns: columnsOf("client", "operation", "farm", "county", "crop", "crop year:y", "base acres:a", "last elected", "averages most", "leans before limits", "dollars a base acre after limits:p", "dollars after limits:$")}
	listed := 0.0
	for _, v := range s.change.Lines {
		r := v.Line
		listed += v.Value
		t.Rows = append(t.Rows, []any{r.Client, r.Operation, r.Farm, r.County, cropName(r.Commodity), r.CropYear, r.BaseAcres, r.OnRecord, r.Highest, leans(r), v.Value / r.BaseAcres, v.Value})
	}
	t.Said = []string{fmt.Sprintf("%s lines, together $%s, where another program averages more than the one last elected. There are %s in all, together $%s %s.",
		counted(len(s.change.Lines)), wording.Grouped(listed, 0), counted(s.gains), wording.Grouped(s.gained, 0), wording.AfterLimit)}
	return t
}

// electName is the name of the sheet of farms without a contract: of one crop year, or of
// several.
func (s *Sums) electName() string {
	years := map[int32]bool{}
	for _, v := range s.elect.Lines {
		years[v.Line.CropYear] = true
	}
	if len(years) != 1 {
		return "Farms that need a new election"
	}
	for year := range years {
		return fmt.Sprintf("Farms that need a %d election", year)
	}
	return ""
}

func (s *Sums) toElect() summary.Table {
	t := summary.Table{Name: s.electName(), Columns: columnsOf("client", "operation", "farm", "county", "crop", "crop year:y", "base acres:a", "contract", "last elected", "leans", "who signs:w", "dollars after limits:$")}
	t.Said = []string{"A farm needs a new election and a signed contract to be paid, even to keep the same program."}
	if len(s.elect.Lines) < s.waiting {
		t.Said = append(t.Said, fmt.Sprintf("Listed are the %s farms and crops with the most base acres and no signed contract, of %s. All are in results.csv.", counted(len(s.elect.Lines)), counted(s.waiting)))
	}
	for _, v := range s.elect.Lines {
		r := v.Line
		t.Rows = append(t.Rows, []any{r.Client, r.Operation, r.Farm, r.County, cropName(r.Commodity), r.CropYear, r.BaseAcres, cmp.Or(contracts[r.Contract], r.Contract), r.OnRecord, leans(r), r.Producers, known(r.AfterLimit)})
	}
	return t
}
