package spelling_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmtable"
	"fencerow/io/read/operation"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// cell is one value of an invented farm as people write it, and what both files read.
// A reason is a part of what both say where they refuse it.
type cell struct {
	column, typed, want string
	reason, hint        string
}

var cells = []cell{
	{"base_acres", "1204.5", "1204.5", "", ""},
	{"base_acres", "1,204.5", "1204.5", "", ""},
	{"base_acres", "1,204", "1204", "", ""},
	{"base_acres", "12,345,678", "", "is 12345678", ""}, // read, and more than a farm has
	{"base_acres", "1,204.", "1204", "", ""},
	{"base_acres", "+120", "120", "", ""},
	{"base_acres", "1,5", "", `is "1,5", with a comma that may stand for decimals or for thousands`, "write decimals with a point: 1234.5"},
	{"base_acres", "1204,5", "", "with a comma that may", "with a point"},
	{"base_acres", "1.204,5", "", "with a comma that may", "with a point"},
	{"base_acres", "12,04.5", "", "not a number", ""},
	{"base_acres", "50%", "", `is "50%", not a number`, ""},
	{"base_acres", "120 ac", "", "not a number", ""},
	{"base_acres", "-1,204.5", "", "is -1204.5", "negative"},
	{"base_acres", strings.Repeat("9", 31), "", "with too many digits", "look for digits too many"},
	{"share", "50%", "0.5", "", ""},
	{"share", "50 %", "0.5", "", ""},
	{"share", "33.3%", "0.333", "", ""},
	{"share", "0.5", "0.5", "", ""},
	{"share", "100%", "1", "", ""},
	{"share", "1", "1", "", ""},
	{"share", "50", "", "is 50", "a share is from 0 to 1; write 50 percent as 0.5"},
	{"share", "150%", "", "is 1.5", "a share is from 0 to 1"},
	{"share", "-5%", "", "is -0.05", "a share is from 0 to 1"},
	{"share", "12,5%", "", `is "12,5%", with a comma that may`, "with a point"},
	{"share", "half", "", `is "half", not a number`, ""},
	{"share", "5%%", "", "not a number", ""},
	{"irrigated_share", "35%", "0.35", "", ""},
	{"irrigated_share", "35", "", "is 35", "write 35 percent as 0.35"},
	{"payment_yield", "$150", "150", "", ""},
	{"election_on_record", "PLC", "PLC", "", ""},
	{"election_on_record", "plc", "PLC", "", ""},
	{"election_on_record", "Price Loss Coverage", "PLC", "", ""},
	{"election_on_record", "ARC County", "ARC-CO", "", ""},
	{"election_on_record", "arc-co", "ARC-CO", "", ""},
	{"election_on_record", "Agriculture Risk Coverage - County", "ARC-CO", "", ""},
	{"election_on_record", "ARC County Option", "ARC-CO", "", ""},
	{"election_on_record", "ARC Individual", "ARC-IC", "", ""},
	{"election_on_record", "ARC_IC", "ARC-IC", "", ""},
	{"election_on_record", "ARC", "", `is "ARC"`, "ARC-CO"}, // it may be either
	{"election_on_record", "ARC Country", "", `is "ARC Country"`, "ARC-CO"},
	{"contract", "Signed", "signed", "", ""},
	{"contract", "OPEN", "open", "", ""},
	{"contract", "maybe", "", `is "maybe"`, "open, signed"},
	{"lease", "Cash rent", "cash", "", ""},
	{"lease", "crop share", "share", "", ""},
	{"lease", "FLEX LEASE", "flex", "", ""},
	{"lease", "rent", "", `is "rent"`, "cash, share"},
	{"idle_2009_2017", "Y", "yes", "", ""},
	{"idle_2009_2017", "1", "yes", "", ""},
	{"idle_2009_2017", "True", "yes", "", ""},
	{"idle_2009_2017", "f", "no", "", ""},
	{"idle_2009_2017", "perhaps", "", `is "perhaps"`, ""},
}

// A value reads the same in a table and in a YAML file, bare or in quotes, and is refused
// in both for the same reason, at its place.
func TestBothReadTheSame(t *testing.T) {
	for _, c := range cells {
		t.Run(c.column+" "+c.typed, func(t *testing.T) {
			o, err := fromTable(c)
			c.hold(t, o, err, 2)
			texts := []string{c.typed, `"` + c.typed + `"`}
			if !strings.ContainsAny(c.typed, ",%$ ") {
				texts = texts[:1] // a plain number in quotes is refused, see below
			}
			for _, text := range texts {
				o, err = fromYAML(c, text)
				c.hold(t, o, err, lineOf[c.column])
			}
		})
	}
}

// hold compares what was read, or why and where it was refused, with what is wanted.
func (c cell) hold(t *testing.T, o farm.Operation, err error, line int) {
	t.Helper()
	if c.reason == "" {
		require.NoError(t, err)
		require.Equal(t, c.want, readOf(c.column, o))
		return
	}
	var mistakes farm.Mistakes
	require.True(t, errors.As(err, &mistakes), "%v", err)
	require.Len(t, mistakes, 1)
	m := mistakes[0]
	require.Contains(t, m.Reason, c.reason)
	require.Contains(t, m.Hint, c.hint)
	require.NotEmpty(t, m.Hint)
	require.Equal(t, line, m.Line)
	require.Greater(t, m.Column, 0)
	require.Equal(t, c.typed, m.Value)
}

var names = []string{"farm", "county", "commodity", "base_acres", "payment_yield", "irrigated_share", "election_on_record", "contract", "lease", "idle_2009_2017", "producer", "share"}

// good are the values beside the one that is tested.
var good = map[string]string{"farm": "0417", "county": "99001", "commodity": "corn", "base_acres": "120", "producer": "ann"}

func fromTable(c cell) (farm.Operation, error) {
	row := make([]string, len(names))
	for i, name := range names {
		if row[i] = good[name]; name == c.column {
			row[i] = c.typed
		}
	}
	var text strings.Builder
	if err := csv.NewWriter(&text).WriteAll([][]string{names, row}); err != nil {
		return farm.Operation{}, err
	}
	file, err := fstest.MapFS{"farms.csv": {Data: []byte(text.String())}}.Open("farms.csv")
	if err != nil {
		return farm.Operation{}, err
	}
	lines, err := farmtable.CSV("farms.csv", file)
	if err != nil {
		return farm.Operation{}, err
	}
	rows, err := farmtable.Open("farms.csv", lines, nil, nil, farmtable.Profile{})
	if err != nil {
		return farm.Operation{}, err
	}
	defer rows.Close()
	o, _, err := farmtable.ReadOperation("farms.csv", rows, true)
	return o, err
}

// lineOf is where each value stands in the file of fromYAML.
var lineOf = map[string]int{"election_on_record": 6, "share": 8, "contract": 9, "lease": 10, "idle_2009_2017": 11, "base_acres": 14, "payment_yield": 15, "irrigated_share": 16}

func fromYAML(c cell, text string) (farm.Operation, error) {
	value := func(column string) string {
		if column == c.column {
			return text
		}
		return good[column]
	}
	return operation.Parse("farm.yaml", fmt.Appendf(nil, `format: fencerow/operation/1
farms:
  - farm: 0417
    county: 99001
    election_on_record:
      corn: %s
    shares:
      ann: %s
    contract: %s
    lease: %s
    idle_2009_2017: %s
    bases:
      - commodity: corn
        base_acres: %s
        payment_yield: %s
        irrigated_share: %s
`, value("election_on_record"), value("share"), value("contract"), value("lease"), value("idle_2009_2017"), value("base_acres"), value("payment_yield"), value("irrigated_share")))
}

// readOf is the value that was read, in one spelling.
func readOf(column string, o farm.Operation) string {
	f := o.Farms[0]
	switch column {
	case "election_on_record":
		return string(f.Record[crop.Corn])
	case "contract":
		c, _ := f.Contract.In(2026)
		return string(c)
	case "lease":
		return string(f.Lease)
	case "share":
		shares, _ := f.Shares.In(2026)
		return fmt.Sprint(shares["ann"])
	case "base_acres":
		return fmt.Sprint(f.Bases[0].BaseAcres)
	case "payment_yield":
		return fmt.Sprint(*f.Bases[0].PaymentYield)
	case "irrigated_share":
		return fmt.Sprint(*f.Bases[0].IrrigatedShare)
	case "idle_2009_2017":
		return map[bool]string{true: "yes", false: "no"}[f.Idle20092017]
	}
	return ""
}
