package farmtable_test

import (
	"strings"
	"testing"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
)

// refusals of one row: what is changed in a good one, and what is said of it.
var refusals = []struct {
	rule    string
	changed cells
	column  string
	reason  string
}{
	{"a row names its farm", cells{"farm": ""}, "farm", "farm is blank"},
	{"a row names its county", cells{"county": " "}, "county", "county is blank"},
	{"a row names its commodity", cells{"commodity": ""}, "commodity", "commodity is blank"},
	{"a row has base acres", cells{"base_acres": ""}, "base_acres", "base_acres is blank"},
	{"a dash is no base", cells{"base_acres": "-"}, "base_acres", "base_acres is -"},
	{"base acres are not negative", cells{"base_acres": "-20"}, "base_acres", "base_acres is -20"},
	{"base acres are above zero", cells{"base_acres": "0"}, "base_acres", "base_acres is 0"},
	{"base acres are no more than a farm can have", cells{"base_acres": "2,000,000"}, "base_acres", "base_acres is 2000000"},
	{"base acres are a number", cells{"base_acres": "about 120"}, "base_acres", `"about 120", not a number`},
	{"a number has no unit", cells{"base_acres": "120 ac"}, "base_acres", "not a number"},
	{"acres are no percentage", cells{"base_acres": "50%"}, "base_acres", "not a number"},
	{"not a number is no number", cells{"base_acres": "NaN"}, "base_acres", "not a number"},
	{"a decimal comma is ambiguous", cells{"base_acres": "120,5"}, "base_acres", "a comma that may stand for"},
	{"a number has few digits", cells{"base_acres": "0.1234567890123456789e-20"}, "base_acres", "too many digits"},
	{"a number fits", cells{"base_acres": "1e999"}, "base_acres", "too many digits"},
	{"an error of the spreadsheet is no value", cells{"base_acres": "#REF!"}, "base_acres", "an error of the spreadsheet"},
	{"a column too narrow is no value", cells{"base_acres": "####"}, "base_acres", "an error of the spreadsheet"},
	{"the commodity is a covered one", cells{"commodity": "pumpkins"}, "commodity", `commodity is "pumpkins"`},
	{"a yield in pounds is no yield in bushels", cells{"payment_yield": "8400"}, "payment_yield", "unit_suspect"},
	{"a yield of rice in hundredweight is no yield in pounds", cells{"commodity": "long grain rice", "payment_yield": "70"}, "payment_yield", "unit_suspect"},
	{"a yield is not zero", cells{"payment_yield": "0"}, "payment_yield", "payment_yield of corn is 0"},
	{"a yield is not negative", cells{"payment_yield": "-1"}, "payment_yield", "payment_yield of corn is -1"},
	{"a yield is a number", cells{"payment_yield": "unknown"}, "payment_yield", "not a number"},
	{"the irrigated share is at most one", cells{"irrigated_share": "35"}, "irrigated_share", "irrigated_share is 35"},
	{"the irrigated share is at most all", cells{"irrigated_share": "135%"}, "irrigated_share", "irrigated_share is 1.35"},
	{"the irrigated share is not negative", cells{"irrigated_share": "-0.1"}, "irrigated_share", "irrigated_share is -0.1"},
	{"a percentage has a number", cells{"irrigated_share": "%"}, "irrigated_share", "not a number"},
	{"acres in the reserve are not negative", cells{"crp_reduction": "-1"}, "crp_reduction", "crp_reduction is -1"},
	{"the election is a program", cells{"election_on_record": "SCO"}, "election_on_record", `election_on_record is "SCO"`},
	{"ARC alone may be either of two", cells{"election_on_record": "ARC"}, "election_on_record", `election_on_record is "ARC"`},
	{"the contract is open, signed or missed", cells{"contract": "maybe"}, "contract", `contract is "maybe"`},
	{"the lease is cash, share or flex", cells{"lease": "barter"}, "lease", `lease is "barter"`},
	{"stax_bought is yes or no", cells{"stax_bought": "perhaps"}, "stax_bought", `stax_bought is "perhaps"`},
	{"idle_2009_2017 is yes or no", cells{"idle_2009_2017": "2"}, "idle_2009_2017", `idle_2009_2017 is "2"`},
	{"a share is at most one", cells{"share": "1.01"}, "share", "share is 1.01"},
	{"a share is a number", cells{"share": "half"}, "share", `share is "half"`},
	{"all acres are not negative", cells{"total_acres": "-5"}, "total_acres", "total_acres is -5"},
	{"cropland is not negative", cells{"cropland": "-5"}, "cropland", "cropland is -5"},
	{"unassigned base is not negative", cells{"unassigned_base_acres": "-5"}, "unassigned_base_acres", "unassigned_base_acres is -5"},
	{"the crop year has four digits", cells{"crop_year": "2026/27"}, "crop_year", `crop_year is "2026/27"`},
	{"the crop year is one of the law", cells{"crop_year": "2013"}, "crop_year", "crop_year is 2013"},
	{"the commodity is covered in the crop year", cells{"commodity": "seed cotton", "payment_yield": "", "crop_year": "2017"}, "crop_year", "no covered crop in crop year 2017"},
	{"a county code has five digits", cells{"county": "99001AB"}, "county", `county is "99001AB"`},
	{"three digits need their state", cells{"county": "1"}, "county", `county is "1", without its state`},
	{"a name needs its state", cells{"county": "Alder County"}, "county", "without its state"},
	{"a county lies in its state", cells{"county": "19001", "state": "99"}, "county", "county 19001 is not in state 99"},
	{"a name without state is that of one county", cells{"county": "Washington"}, "county", `county is "Washington", a name of 31 counties`},
	{"a name is in the state it names", cells{"county": "Stroy, Iowa"}, "county", `county "Stroy, Iowa" is not known in Iowa`},
	{"a county that names its state lies in the state of the row", cells{"county": "Story, Iowa", "state": "99"}, "county", "county 19169 is not in state 99"},
	{"a county's name is known", cells{"county": "Elder", "state": "99"}, "county", `county "Elder" is not known in state 99`},
	{"a state's digits are known", cells{"county": "03001"}, "county", "which no county has"},
	{"a state as a whole is no county", cells{"county": "99000"}, "county", "which no county has"},
	{"the state is one", cells{"state": "Nowhere"}, "state", `state is "Nowhere"`},
	{"the county of the land is known", cells{"physical_county": "Elder", "state": "99"}, "physical_county", `physical_county "Elder" is not known`},
	{"the county of the land is a code", cells{"physical_county": "99000"}, "physical_county", "which no county has"},
	{"a value is text", cells{"client": "a\x01b"}, "client", "control character"},
	{"a value is on one line", cells{"operation": "home\nfarms"}, "operation", "line break"},
	{"a value is in UTF-8 or Windows-1252", cells{"operation": "Do\xf1a \x81"}, "operation", "not text in UTF-8"},
	{"a value is short", cells{"farm": strings.Repeat("9", 101)}, "farm", "more than 100 letters"},
	{"a farm is merged with another", cells{"merge_with": "0417"}, "merge_with", "the farm itself"},
	{"a farm is merged with another, by key", cells{"merge_with": "99001-0417"}, "merge_with", "the farm itself"},
}

// misfits are rows that are good alone and do not fit together; the refusal is
// told of the last row.
var misfits = []struct {
	rule   string
	rows   []cells
	column string
	reason string
}{
	{"a base stands once", []cells{{}, {}}, "commodity", "stands twice"},
	{"the shares of a base are at most one", []cells{{"producer": "a", "share": "0.7"}, {"producer": "b", "share": "0.4"}}, "share", "add to 1.1"},
	{"several producers have shares", []cells{{"producer": "a", "share": "0.7"}, {"producer": "b"}}, "share", "no share of b"},
	{"every row names its producer, or none", []cells{{"producer": "a", "share": "0.7"}, {"commodity": "oats", "payment_yield": ""}}, "producer", "has no producer"},
	{"a base has the same acres for every producer", []cells{{"producer": "a", "share": "0.5"}, {"producer": "b", "share": "0.5", "base_acres": "121"}}, "base_acres", "is 121, and 120 on line 2"},
	{"a base has one payment yield", []cells{{"producer": "a", "share": "0.5"}, {"producer": "b", "share": "0.5", "payment_yield": "151"}}, "payment_yield", "is 151, and 150 on line 2"},
	{"a base has one irrigated share", []cells{{"irrigated_share": "0", "producer": "a", "share": "0.5"}, {"irrigated_share": "0.1", "producer": "b", "share": "0.5"}}, "irrigated_share", "is 0.1, and 0 on line 2"},
	{"a base has one reduction", []cells{{"crp_reduction": "1", "producer": "a", "share": "0.5"}, {"crp_reduction": "2", "producer": "b", "share": "0.5"}}, "crp_reduction", "is 2, and 1 on line 2"},
	{"without tracts a commodity has one payment yield", []cells{{}, {"physical_county": "99003", "payment_yield": "140"}}, "payment_yield", "two PLC yields"},
	{"a commodity has one election", []cells{{"tract": "1", "election_on_record": "PLC"}, {"tract": "2", "election_on_record": "ARC-CO"}}, "election_on_record", "is ARC-CO, and PLC on line 2"},
	{"ARC-IC stands for all commodities", []cells{{"election_on_record": "PLC"}, {"commodity": "oats", "payment_yield": "", "election_on_record": "ARC-IC"}}, "election_on_record", "mixes ARC-IC"},
	{"a farm has one contract", []cells{{"tract": "1", "contract": "open"}, {"tract": "2", "contract": "signed"}}, "contract", "is signed, and open on line 2"},
	{"a farm has one lease", []cells{{"tract": "1", "lease": "cash"}, {"tract": "2", "lease": "flex"}}, "lease", "is flex, and cash on line 2"},
	{"a farm has one answer on STAX", []cells{{"tract": "1", "stax_bought": "no"}, {"tract": "2", "stax_bought": "yes"}}, "stax_bought", "is yes, and no on line 2"},
	{"a farm has one size", []cells{{"tract": "1", "total_acres": "200"}, {"tract": "2", "total_acres": "201"}}, "total_acres", "is 201, and 200 on line 2"},
	{"a farm has one cropland", []cells{{"tract": "1", "cropland": "200"}, {"tract": "2", "cropland": "201"}}, "cropland", "is 201, and 200 on line 2"},
	{"a farm has one unassigned base", []cells{{"tract": "1", "unassigned_base_acres": "2"}, {"tract": "2", "unassigned_base_acres": "3"}}, "unassigned_base_acres", "is 3, and 2 on line 2"},
	{"a farm was idle or not", []cells{{"tract": "1", "idle_2009_2017": "no"}, {"tract": "2", "idle_2009_2017": "yes"}}, "idle_2009_2017", "is yes, and no on line 2"},
	{"a farm is merged with one", []cells{{"tract": "1", "merge_with": "1"}, {"tract": "2", "merge_with": "2"}}, "merge_with", "is 2, and 1 on line 2"},
	{"cropland is part of all acres", []cells{{"tract": "1", "total_acres": "200"}, {"tract": "2", "cropland": "201"}}, "cropland", "more than its total_acres 200"},
	{"a farm number is typed alike", []cells{{"tract": "1"}, {"tract": "2", "farm": "417"}}, "farm", `farm is "417", and "0417" on line 2`},
	{"a producer has one share of a base", []cells{{"crop_year": "2026", "share": "0.5"}, {"crop_year": "2027", "share": "0.6"}}, "share", "is 0.6, and 0.5 on line 2"},
	{"every base has every crop year", []cells{{"crop_year": "2026"}, {"crop_year": "2027"}, {"crop_year": "2026", "tract": "1"}}, "crop_year", "no row for crop year 2027"},
	{"a crop year stands in all rows or in none", []cells{{"crop_year": "2026"}, {}, {"tract": "1"}}, "crop_year", "no row for crop year 2026"},
}

// lineFaults are lines of text that are no row at all.
var lineFaults = []struct{ rule, text, reason string }{
	{"a row has no more values than there are headings", "farm,county,commodity,base_acres\n1,99001,corn,1,200\n", "under no heading"},
	{"a value stands under a heading", "farm,county,commodity,,base_acres\n1,99001,corn,x,100\n", "under no heading"},
	{"a quotation mark is in its place", "farm,county,commodity,base_acres\n1,99001,co\"rn,100\n", "quotation mark out of place"},
	{"with semicolons a comma may be a decimal comma", "farm;county;commodity;base_acres\n1;99001;corn;1,234\n", "a comma that may stand for"},
}

func TestEveryKindOfRefusal(t *testing.T) {
	checked := 0
	for _, c := range refusals {
		checked += one(t, c.rule, c.column, c.reason, 2, func(t *testing.T) []Refusal {
			// A good row follows: a column blank throughout is a mistake of the table.
			rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(but(c.changed), but(cells{"tract": "good"})))))
			if len(rows) != 1 || rows[0].Tract != "good" {
				t.Errorf("the row is read, or the good one is not: %+v", rows)
			}
			return refused
		})
	}
	for _, c := range misfits {
		checked += one(t, c.rule, c.column, c.reason, len(c.rows)+1, func(t *testing.T) []Refusal {
			var table []cells
			for _, changed := range c.rows {
				table = append(table, but(changed))
			}
			rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(table...))))
			if len(refused) > 0 || len(rows) != len(c.rows) {
				t.Fatalf("%d rows alone are good: %v", len(rows), refused)
			}
			found, refused := Assemble(rows)
			if key := rows[len(rows)-1].FarmKey(); !found.Incomplete[key] {
				t.Errorf("farm %s is not told to be incomplete", key)
			}
			return lastOf(refused)
		})
	}
	for _, c := range lineFaults {
		checked += one(t, c.rule, "", c.reason, 2, func(t *testing.T) []Refusal {
			_, refused := readAll(t, put(t, "farms.csv", c.text))
			return refused
		})
	}
	all := len(refusals) + len(misfits) + len(lineFaults)
	t.Logf("refusals: checked %d of %d kinds", checked, all)
	if checked != all {
		t.Errorf("%d of %d kinds are refused as they should be", checked, all)
	}
}

// lastOf leaves of several refusals the last: rows that contradict each other in
// two ways are not what a case is about.
func lastOf(refused []Refusal) []Refusal {
	if len(refused) == 0 {
		return nil
	}
	return refused[len(refused)-1:]
}

// one runs a case that wants a single refusal, and counts it where it is right.
func one(t *testing.T, rule, column, reason string, line int, run func(*testing.T) []Refusal) (right int) {
	t.Run(rule, func(t *testing.T) {
		refused := run(t)
		switch {
		case len(refused) != 1:
			t.Errorf("%d refusals, want 1: %+v", len(refused), refused)
		case column != "" && refused[0].Column != column, !strings.Contains(refused[0].Reason, reason), refused[0].Line != line, refused[0].Hint == "":
			t.Errorf("got %+v\nwant line %d, column %s, %q and a hint", refused[0], line, column, reason)
		default:
			right = 1
		}
	})
	return right
}

// Every mistake of a row is reported at once, and the row still names its farm.
func TestAllReasonsOfARow(t *testing.T) {
	r, err := farmfile.Open(put(t, "farms.csv", text(t, grid(but(cells{"commodity": "x", "base_acres": "y", "share": "z"})))), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	row, refused, err := r.Next()
	if err != nil || len(refused) != 3 || row.FarmKey() != "99001-0417" || row.Operation != "home farms" {
		t.Errorf("row %+v, refusals %+v, error %v", row, refused, err)
	}
	if m := r.Mistake(refused[0]); m.Column != 8 || m.Line != 2 || !strings.HasSuffix(m.File, "farms.csv") {
		t.Errorf("mistake %+v, want line 2, column 8", m)
	}
}
