package batch

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
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
	name  string   // of the sheet
	title string   // above all; "": the name
	said  []string // lines above the table
	heads []string
	lines [][]any
}

func (o Options) writeSummary(w io.Writer, s *sums, a audit) error {
	book := excelize.NewFile()
	defer book.Close()
	for i, t := range []table{overall(s, a), s.operations(), s.differences(), s.toElect(), s.payees(), s.severalOperations(), s.exceptions(*a.Counts)} {
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
	rows := [][]any{{cmp.Or(t.title, t.name)}}
	for _, line := range t.said {
		rows = append(rows, []any{line})
	}
	rows = append(rows, []any{fmt.Sprintf("Prices of %s: %s. Made %s (seed %d).", day(o.Question.Market.AsOf), o.Question.Market.Source, day(o.Question.Today), o.Question.Seed)}, nil, texts(t.heads))
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

// day writes a day for people.
func day(t time.Time) string { return wording.Date(t.Format(time.DateOnly)) }

// headWords are the columns of operations.csv and people.csv in words.
var headWords = map[string]string{
	"mean_after_limit": "average after limits, $", "bound": "most possible, $", "gap": "most possible less average, $", "exact": "no mix averages more", "cost_of_limit": "the limit costs, $",
	"simplest_choice": "one program per crop", "simplest_mean_after_limit": "its average, $", "mean_after_limit_across": "average with one limit across operations, $",
	"mean": "average before limits, $", "p10_after_limit": "1 in 10 is lower, $", "p25_after_limit": "1 in 4 is lower, $", "p50_after_limit": "half are lower, $",
	"chance_of_limit": "reaches the limit, part of outcomes", "payment_limit": "payment limit, $", "mean_each_alone": "each operation alone, $", "mean_across": "one limit, $",
	"part_across": "of it for this operation, $", "chance_of_limit_across": "reaches the one limit, part of outcomes",
}

// heads are columns in words.
func heads(columns []string) (words []string) {
	for _, column := range columns {
		words = append(words, cmp.Or(headWords[column], strings.ReplaceAll(column, "_", " ")))
	}
	return words
}

// contracts are the states of a contract in words.
var contracts = map[string]string{string(farm.Open): "not signed"}

func texts(words []string) (cells []any) {
	for _, word := range words {
		cells = append(cells, word)
	}
	return cells
}

// overall has one line for each crop year and commodity, and their total.
func overall(s *sums, a audit) table {
	counts := *a.Counts
	t := table{name: "Totals", heads: []string{"crop year", "crop", "farms", "base acres", "lean PLC", "lean ARC-CO", "toss-up", "little at stake", "unknown", "differs from last election", "average dollars more"}}
	t.said = []string{
		fmt.Sprintf("%d rows: %d answered, %d refused (refused.csv says why). %d operations, %d farms.", counts.Rows, counts.Answered, counts.Refused, counts.Operations, counts.Farms),
		"Differs from last election: another program averages more than the one last elected, " + wording.AfterLimit + ". The last column says by how much.",
		"Each line is counted by itself, with the program that averages most on all others. Where a limit is reached, several together come to another sum.",
		fmt.Sprintf("Not compared: %d lines with no last election, with ARC-IC and no figures for it, or of a year that pays the higher of both.", s.unknown),
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
		t.lines = append(t.lines, []any{key.cropYear, cropName(key.commodity), g.lines, program.Cent(g.acres), g.leaders["PLC"], g.leaders["ARC-CO"], g.leaders["close"], g.leaders["little_chance"], g.leaders["none"], g.gains, program.Cent(g.gained)})
	}
	t.lines = append(t.lines, []any{"all", "", nil, nil, nil, nil, nil, nil, nil, s.gains, program.Cent(s.gained)})
	return t
}

func (s *sums) operations() table {
	t := table{name: "Operations", heads: heads(operationColumns), said: []string{
		"The operations that average most " + wording.AfterLimit + ". Below them those that the payment limit costs most. All are in operations.csv.",
		"Most possible: no mix of PLC and ARC-CO averages more. One program per crop: the same program on every farm for each crop."}}
	for _, list := range [][]valued[[]string]{s.largest.lines, s.limited.lines} {
		for _, v := range list {
			t.lines = append(t.lines, texts(v.line))
		}
		t.lines = append(t.lines, nil)
	}
	return t
}

func (s *sums) differences() table {
	t := table{name: "Largest differences", title: "Largest differences from the last election",
		heads: []string{"client", "operation", "farm", "crop", "crop year", "base acres", "last elected", "averages most", "leans before limits", "dollars a base acre after limits", "dollars after limits"}}
	listed := 0.0
	for _, v := range s.change.lines {
		r := v.line
		listed += v.value
		t.lines = append(t.lines, []any{r.Client, r.Operation, r.Farm, cropName(r.Commodity), r.CropYear, program.Cent(r.BaseAcres), r.OnRecord, r.Highest, leans(r), program.Cent(v.value / r.BaseAcres), program.Cent(v.value)})
	}
	t.said = []string{
		fmt.Sprintf("The %d lines where another program averages more than the one last elected, largest dollars first: $%s.", len(s.change.lines), wording.Grouped(listed, money)),
		fmt.Sprintf("There are %d such lines in all, together $%s %s.", s.gains, wording.Grouped(s.gained, money), wording.AfterLimit),
	}
	return t
}

// electName is the name of the sheet of farms without a contract: of one crop year, or of
// several.
func (s *sums) electName() string {
	var years []int32
	for _, v := range s.elect.lines {
		if !slices.Contains(years, v.line.CropYear) {
			years = append(years, v.line.CropYear)
		}
	}
	if len(years) != 1 {
		return "Farms that need a new election"
	}
	return fmt.Sprintf("Farms that need a %d election", years[0])
}

// cropName is the name of a crop for people.
func cropName(key string) string { return crop.Commodity(key).Name() }

// leans is the lead of a line in words.
func leans(r Result) string { return wording.Leads(answer.Leader(r.Leader)) }

func (s *sums) toElect() table {
	t := table{name: s.electName(), heads: []string{"client", "operation", "farm", "crop", "crop year", "base acres", "contract", "last elected", "leans"}}
	t.said = []string{"A farm needs a new election and a signed contract to be paid, even to keep the same program.",
		fmt.Sprintf("%d farms and crops are in such a year. Listed are the %d with the most base acres and no signed contract.", s.flags[answer.NewElectionFlag], len(s.elect.lines))}
	for _, v := range s.elect.lines {
		r := v.line
		t.lines = append(t.lines, []any{r.Client, r.Operation, r.Farm, cropName(r.Commodity), r.CropYear, program.Cent(r.BaseAcres), cmp.Or(contracts[r.Contract], r.Contract), r.OnRecord, leans(r)})
	}
	return t
}

func (s *sums) payees() table {
	t := table{name: "People", heads: heads(personColumns), said: []string{"The people who average most " + wording.AfterLimit + ". Below them those who reach a limit most often. All are in people.csv.",
		fmt.Sprintf("The totals of %d people leave out farms whose rows were refused or lack a figure (column \"left out\").", s.left)}}
	for _, list := range [][]valued[[]string]{s.people.lines, s.reached.lines} {
		for _, v := range list {
			t.lines = append(t.lines, texts(v.line))
		}
		t.lines = append(t.lines, nil)
	}
	return t
}

func (s *sums) severalOperations() table {
	t := table{name: "Several operations", heads: heads(personColumns), said: []string{
		"People with a share in several operations of a client: one payment limit holds for all of them. Those it takes most from come first.",
		"Each operation alone: what all their operations pay on average, each with its own limit. One limit: what is left of that."}}
	for _, v := range s.across.lines {
		t.lines = append(t.lines, texts(v.line))
	}
	return t
}

func (s *sums) exceptions(counts Counts) table {
	t := table{name: "Exceptions", heads: []string{"flag", "farms and crops"}, said: []string{fmt.Sprintf("%d rows were refused.", counts.Refused)}}
	for _, flag := range slices.Sorted(maps.Keys(s.flags)) {
		t.lines = append(t.lines, []any{flag, s.flags[flag]})
	}
	return t
}
