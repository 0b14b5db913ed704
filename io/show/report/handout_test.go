package report

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// ofAFarm are flags about what a farm's file says of people, acres and papers. A county
// sheet stands on one base with all that a payment needs, and has none of that.
var ofAFarm = []string{
	"contract_missed", "base_idle_2009_2017", "ten_acres", "income_over_limit", "payment_yield_missing", "irrigated_history_missing", "two_counties", "base_exceeds_cropland",
	"record_before_notice", "unassigned_base", "crp_reduction", "planted_without_base", "fruit_vegetables", "prevented_planting", "stax_with_cotton_base", "no_planting_arc_ic",
	"entity_rule_by_year", "flex_lease", "operator_changed", "merge_needs_same_election", "limit_reached", "no_rules",
	"insurance_given", "insurance_open", "insurance_day_unknown", "layer_not_offered", "sco_barred_with_arc", "layers_not_together", "stax_test_day", "harvest_price_not_typed", "insured_not_planted",
}

// Every flag that package flag raises is sorted: it can reach a county sheet, and then it is
// known who is told what, or it needs a farm's own data.
func TestEveryFlagIsSorted(t *testing.T) {
	names, err := filepath.Glob("../../../sim/flag/*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{answer.NewElectionFlag: true}
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil || strings.HasSuffix(name, "_test.go") {
			continue
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if pair, is := n.(*ast.KeyValueExpr); is {
				if key, named := pair.Key.(*ast.Ident); named && key.Name == "Code" {
					if value, text := pair.Value.(*ast.BasicLit); text {
						code, _ := strconv.Unquote(value.Value)
						found[code] = true
					}
				}
			}
			return true
		})
	}
	for code := range found {
		told, sorted := sheetFlags[code]
		if sorted == slices.Contains(ofAFarm, code) {
			t.Errorf("%s: say in sheetFlags who is told what, or that it is of a farm", code)
		}
		if sorted && !told.Above && told.Sentences == 0 && told.Instead == "" && told.Notes == "" {
			t.Errorf("%s is told to nobody", code)
		}
	}
	for code := range sheetFlags {
		if !found[code] {
			t.Errorf("%s is raised nowhere", code)
		}
	}
	if sorted := len(sheetFlags) + len(ofAFarm); len(found) != sorted || sorted < 30 {
		t.Errorf("%d flags found, %d sorted", len(found), sorted)
	}
}

// A flag that nobody sorted is no reader's, and stands in the notes whole.
func TestUnsortedFlagGoesToTheNotes(t *testing.T) {
	h := explain.Handout{Sheets: []explain.CountySheet{{Number: 1, Flags: []answer.Flag{{Code: "of_tomorrow", Message: "One. Two."}}}}}
	if said := paperFlags(h.Sheets[0]); len(said) != 0 {
		t.Errorf("paper says %q", said)
	}
	all := notesOf(h, nil)
	if len(all) != 1 || !slices.Equal(all[0].lines, []string{"One. Two."}) || !strings.Contains(all[0].head, "of_tomorrow") {
		t.Errorf("%+v", all)
	}
}

// The notes name sheets in runs, what is to be done once, and a line to copy by itself.
func TestNotesAreShort(t *testing.T) {
	var h explain.Handout
	for _, n := range []int{1, 2, 3, 5, 8, 9} {
		message := "A has ended. B is not known. C stays. Enter it here: - {commodity: corn, practice: all}"
		h.Sheets = append(h.Sheets, explain.CountySheet{Number: n, Flags: []answer.Flag{{Code: "yield_not_known", Message: message}}})
	}
	n := notesOf(h, nil)[0]
	if got := n.concerns(); got != "Sheets 1 to 3, 5, 8 to 9." {
		t.Error(got)
	}
	if !slices.Equal(n.do, []string{"Enter it here:"}) || !slices.Equal(n.copied, []string{"{commodity: corn, practice: all}"}) || len(n.lines) != 0 {
		t.Errorf("%+v", n)
	}
	h.Missing = []string{"a", "b", "c", "d", "e", "f"}
	if talk := HandoutTalk(h, nil); len(talk) != 6 || talk[4] != "no sheet for 2 more counties or crops" {
		t.Errorf("%q", talk)
	}
}

// twoStates are sheets of three counties: one in Iowa with two crops, one with one, and one
// of a State without a name.
func twoStates(t *testing.T) explain.Handout {
	t.Helper()
	q := cases.Corn()
	q.Draws = 1024
	invented.Project(q.Market, crop.Wheat, 2026, 5.35, -1)
	for i, price := range []float64{3.36, 3.36, 3.61, 3.56} { // FSA's of 2016 to 2019
		q.Market.MYA[crop.Corn][2016+i] = farm.Figure{Value: price, Status: crop.Agency, Source: "test prices"}
	}
	corn := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188)})
	wheat := corn
	wheat.Commodity = crop.Wheat
	wheat.Adjusted = map[crop.CropYear][5]float64{2026: {47.20, 39.80, 51.60, 44.30, 49.10}}
	wheat.Outlook = map[crop.CropYear]farm.YieldOutlook{2026: {Yield: invented.Number(46)}}
	q.Counties = invented.BookOf(
		farm.County{Code: "19001", Name: "Alder", Yields: []farm.CountyYield{wheat, corn}},
		farm.County{Code: "19003", Name: "Birch", Yields: []farm.CountyYield{corn}}, farm.County{Code: "99001", Name: "Cedar", Yields: []farm.CountyYield{corn}})
	h, err := explain.MakeHandout(q, []string{"99001", "19003", "19001"}, []crop.Commodity{crop.Corn, crop.Wheat}, func(int) {})
	if err != nil || len(h.Sheets) != 4 {
		t.Fatalf("%d sheets, %v", len(h.Sheets), err)
	}
	return h
}

// The cover groups lines by State and county; a county with one sheet has one line.
func TestCoverGroups(t *testing.T) {
	h := twoStates(t)
	var first []string
	for _, row := range coverTable(h).Rows {
		first = append(first, strings.Join([]string{row[0], row[len(row)-1]}, "|"))
	}
	want := []string{"Iowa|Iowa", "Alder County|Alder County", "wheat|1", "corn|2", "Birch County, corn|3", "Other counties|Other counties", "Cedar County, corn|4"}
	if !slices.Equal(first, want) {
		t.Errorf("%q, want %q", first, want)
	}
	if said := notInSheets(h); said != "Not in these sheets, because a figure is missing: wheat in Birch County and Cedar County." {
		t.Error(said)
	}
	dates := coverDates(h).Rows
	if len(dates) != 2 || !slices.Equal(dates[1], []string{"corn", "November 24, 2026", "August 31, 2027", "October 1, 2027"}) {
		t.Errorf("%q", dates)
	}
}

// The columns of past years hold the prices and yields behind the benchmark and what was
// paid. By hand: in 2022 PLC paid up to 3.70, for 85 percent of the middle three of 2016 to
// 2020 is less. The price was 6.54, so PLC paid 0. No county yield of 2022 is known.
func TestPastColumns(t *testing.T) {
	s := twoStates(t).Sheets[1]
	table := pastTable(s)
	at := slices.Index(table.Columns, "2022")
	if at < 0 || len(table.Columns) > 1+mostPast+1 {
		t.Fatalf("columns %q", table.Columns)
	}
	var got []string
	for _, row := range table.Rows {
		got = append(got, row[at])
	}
	if want := []string{"6.54", "193.10", "$0.00", "-"}; !slices.Equal(got, want) {
		t.Errorf("2022: %q, want %q", got, want)
	}
	if last := table.Rows[1][len(table.Columns)-1]; last != "187.30 (assumed)" { // the middle three of the five
		t.Errorf("benchmark yield %s", last)
	}
}

// A break-even PLC yield that some farms have is told, another is not: 160 bushels are 80
// percent of the benchmark of 200, so usual yields run from 80 to 280.
func TestBreakEven(t *testing.T) {
	s := explain.CountySheet{Commodity: crop.Corn, PaymentYield: 160}
	for even, want := range map[answer.Dollars][2]string{
		200: {"200", "The break-even PLC yield is 200 bushels an acre. Above it PLC pays more on average, below it ARC-CO."},
		300: {"none in use", "At any PLC yield from 80 to 280 bushels an acre, ARC-CO pays more on average."},
		50:  {"none in use", "At any PLC yield from 80 to 280 bushels an acre, PLC pays more on average."},
		-1:  {"none in use", "PLC pays in none of these outcomes, whatever the PLC yield."},
	} {
		s.Part.EvenPaymentYield = &even
		if even < 0 {
			s.Part.EvenPaymentYield = nil
		}
		if got := [2]string{breakEven(s), evenSentence(s)}; got != want {
			t.Errorf("%v: %q, want %q", even, got, want)
		}
	}
}
