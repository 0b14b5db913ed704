package batch

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"fencerow/program"
	"fencerow/sim/answer"
)

// summarize writes summary.xlsx and counties.csv from the joined parts.
func (o Options) summarize(f folder, a audit) error {
	s, err := gather(f)
	if err != nil {
		return err
	}
	if err := f.whole(filepath.Join(f.path, "counties.csv"), func(w io.Writer) error { return s.writeCounties(w, o.Least) }); err != nil {
		return err
	}
	return f.whole(filepath.Join(f.path, "summary.xlsx"), func(w io.Writer) error { return o.writeSummary(w, s, a) })
}

// table is one sheet of the summary.
type table struct {
	name  string
	said  []string // lines above the table
	heads []string
	lines [][]any
}

func (o Options) writeSummary(w io.Writer, s *sums, a audit) error {
	book := excelize.NewFile()
	defer book.Close()
	for i, t := range []table{overall(s, a), s.operations(), s.toChange(), s.toElect(), s.persons(), s.severalOperations(), s.exceptions(*a.Counts)} {
		if i == 0 {
			if err := book.SetSheetName(book.GetSheetName(0), t.name); err != nil {
				return err
			}
		} else if _, err := book.NewSheet(t.name); err != nil {
			return err
		}
		if err := o.writeTable(book, t); err != nil {
			return err
		}
	}
	var written bytes.Buffer
	if err := book.Write(&written); err != nil {
		return err
	}
	return settled(w, written.Bytes())
}

// writeTable writes one sheet: what is said, the table, the caution.
func (o Options) writeTable(book *excelize.File, t table) error {
	out, err := book.NewStreamWriter(t.name)
	if err != nil {
		return err
	}
	const columnWidth, mostColumns = 18, 14
	if err := out.SetColWidth(1, mostColumns, columnWidth); err != nil {
		return err
	}
	rows := [][]any{{t.name}}
	for _, line := range t.said {
		rows = append(rows, []any{line})
	}
	rows = append(rows, []any{fmt.Sprintf("Prices as of %s: %s. Run: today %s, seed %d.", o.Question.Market.AsOf.Format(time.DateOnly), o.Question.Market.Source, o.Question.Today.Format(time.DateOnly), o.Question.Seed)}, nil, texts(t.heads))
	rows = append(rows, t.lines...)
	rows = append(rows, nil)
	for _, line := range answer.Caution() {
		rows = append(rows, []any{line})
	}
	for i, row := range rows {
		if err := out.SetRow(fmt.Sprintf("A%d", i+1), row); err != nil {
			return err
		}
	}
	return out.Flush()
}

func texts(words []string) (cells []any) {
	for _, word := range words {
		cells = append(cells, word)
	}
	return cells
}

// overall has one line for each crop year and commodity, and their total.
func overall(s *sums, a audit) table {
	counts := *a.Counts
	t := table{name: "Totals", heads: []string{"crop year", "commodity", "farms", "base acres", "lean PLC", "lean ARC-CO", "toss-up", "little at stake", "unknown", "farms to change", "USD that averages more"}}
	t.said = []string{
		fmt.Sprintf("%d rows: %d answered, %d refused (refused.csv says why). %d operations, %d farms.", counts.Rows, counts.Answered, counts.Refused, counts.Operations, counts.Farms),
		"Farms to change: the choice with the highest average gains over what is on record, after share, limit and sequestration. The last column is what they gain.",
		"Each line by itself while all others follow the choices: where a limit is reached, several changes together bring another sum.",
		fmt.Sprintf("Not compared: %d lines with nothing on record, with ARC-IC on record and no figures for it, or of a year that pays the higher of both.", s.unknown),
	}
	if a.EachAlone {
		t.said = append([]string{eachFarmAlone}, t.said...)
	}
	keys := slices.SortedFunc(maps.Keys(s.groups), func(a, b group) int {
		if a.cropYear != b.cropYear {
			return int(a.cropYear - b.cropYear)
		}
		return strings.Compare(a.commodity, b.commodity)
	})
	for _, key := range keys {
		g := s.groups[key]
		t.lines = append(t.lines, []any{key.cropYear, key.commodity, g.lines, program.Cent(g.acres), g.leaders["PLC"], g.leaders["ARC-CO"], g.leaders["close"], g.leaders["little_chance"], g.leaders["none"], g.gains, program.Cent(g.gained)})
	}
	t.lines = append(t.lines, []any{"all", "", nil, nil, nil, nil, nil, nil, nil, s.gains, program.Cent(s.gained)})
	return t
}

func (s *sums) operations() table {
	t := table{name: "Operations", heads: operationColumns, said: []string{
		"The operations with the highest average after share, limit and sequestration; then those whom the payment limit costs most. All are in operations.csv.",
		"Bound: no choice of PLC and ARC-CO averages more. Simplest: the same program on all farms for each commodity."}}
	for _, list := range [][]valued[[]string]{s.largest.lines, s.limited.lines} {
		for _, v := range list {
			t.lines = append(t.lines, texts(v.line))
		}
		t.lines = append(t.lines, nil)
	}
	return t
}

func (s *sums) toChange() table {
	t := table{name: "Farms to change first", heads: []string{"client", "operation", "farm", "commodity", "crop year", "base acres", "on record", "highest average", "lead before limits", "USD per base acre after limits", "USD after limits"}}
	listed := 0.0
	for _, v := range s.change.lines {
		r := v.line
		listed += v.value
		t.lines = append(t.lines, []any{r.Client, r.Operation, r.Farm, r.Commodity, r.CropYear, program.Cent(r.BaseAcres), r.OnRecord, r.Highest, r.Leader, program.Cent(v.value / r.BaseAcres), program.Cent(v.value)})
	}
	t.said = []string{fmt.Sprintf("%d lines gain over what is on record, together %s USD after share, limit and sequestration. These are the %d that gain most, together %s USD.",
		s.gains, program.Text(s.gained, money), len(s.change.lines), program.Text(listed, money))}
	return t
}

func (s *sums) toElect() table {
	t := table{name: "To elect anew", heads: []string{"client", "operation", "farm", "commodity", "crop year", "base acres", "contract", "on record", "lead"}}
	t.said = []string{"In a year that asks for a new election every farm has to elect and sign, also where the choice stays: without it nothing is paid.",
		fmt.Sprintf("%d farms and commodities in such a year; the %d with the most base acres and no signed contract:", s.flags[answer.NewElectionFlag], len(s.elect.lines))}
	for _, v := range s.elect.lines {
		r := v.line
		t.lines = append(t.lines, []any{r.Client, r.Operation, r.Farm, r.Commodity, r.CropYear, program.Cent(r.BaseAcres), r.Contract, r.OnRecord, r.Leader})
	}
	return t
}

func (s *sums) persons() table {
	t := table{name: "Persons", heads: personColumns, said: []string{"The persons with the highest average after share, limit and sequestration; then those who reach a limit most often. All are in people.csv.",
		fmt.Sprintf("%d persons' totals leave out farms whose rows were refused or lack a figure (column left_out).", s.left)}}
	for _, list := range [][]valued[[]string]{s.people.lines, s.reached.lines} {
		for _, v := range list {
			t.lines = append(t.lines, texts(v.line))
		}
		t.lines = append(t.lines, nil)
	}
	return t
}

func (s *sums) severalOperations() table {
	t := table{name: "Several operations", heads: personColumns, said: []string{
		"Persons with a share in several operations of a client: one payment limit holds for all of them. Those come first whom it takes most from.",
		"mean_each_alone: what all their operations pay on average, each with a limit of its own. mean_across: what one limit leaves. part_across: of it for this operation."}}
	for _, v := range s.across.lines {
		t.lines = append(t.lines, texts(v.line))
	}
	return t
}

func (s *sums) exceptions(counts Counts) table {
	t := table{name: "Exceptions", heads: []string{"flag", "farms and commodities"}, said: []string{fmt.Sprintf("%d rows were refused.", counts.Refused)}}
	for _, flag := range slices.Sorted(maps.Keys(s.flags)) {
		t.lines = append(t.lines, []any{flag, s.flags[flag]})
	}
	return t
}
