package farmtable_test

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/io/read/operation"
	"fencerow/program/farm"
)

// unusual is a table whose headings are nobody's, and profiled says what they mean.
const (
	unusual  = "My farms\nUnit;What;Ar;Yield;Wet;Operator\n0417;corn;120;;35;x\n0417;soybeans;80;;0;x\n0417;wheat;10;;100;x\n0417;oats;5;;12,5;x\nUnit;What;Ar;Yield;Wet;Operator\n"
	profiled = "format: fencerow/columns/1\ncolumns:\n  farm: Unit\n  commodity: what\n  base_acres: Ar\n  payment_yield: Yield\n  irrigated_percent: Wet\nconstants:\n  county: 99001\n  producer: operator\n"
)

// openWith opens a table of text with a columns file.
func openWith(t *testing.T, table, columns string) (*Reader, error) {
	t.Helper()
	profile, err := ParseProfile("columns.yaml", []byte(columns))
	require.NoError(t, err)
	path := put(t, "farms.csv", table)
	found, notes, err := farmfile.Lines(path)
	require.NoError(t, err)
	return Open("farms.csv", found, notes, nil, profile)
}

// A columns file makes any table the operation file of the same farms.
func TestColumnsFile(t *testing.T) {
	rows, err := openWith(t, unusual, profiled)
	require.NoError(t, err)
	got, notes, err := ReadOperation("farms.csv", rows, true)
	require.NoError(t, err)
	want, err := operation.Parse("farms.yaml", []byte(irrigated))
	require.NoError(t, err)
	got.Farms[0].Record = nil
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %s\nwant %s", asText(got), asText(want))
	}
	require.Contains(t, strings.Join(notes, "; "), `column "Operator" is not read: columns.yaml gives producer`)
	require.Contains(t, strings.Join(notes, "; "), "1 row of headings again")
}

// What a columns file cannot say is refused at its line.
func TestColumnsFileRefused(t *testing.T) {
	for text, want := range map[string]string{
		"columns: {farm: Unit}\n":                                                  "has no format",
		"format: fencerow/columns/2\n":                                             "the format is",
		"format: fencerow/columns/1\ncolumns:\n  frm: Unit\n":                      `line 3: "frm" is no key`,
		"format: fencerow/columns/1\ncolumns:\n  share: A\n  share_percent: B\n":   "line 4: share stands twice",
		"format: fencerow/columns/1\ncolumns:\n  farm: A\n  tract: a\n":            `line 4: the heading "a" stands for two columns`,
		"format: fencerow/columns/1\ncolumns:\n  farm: A\nconstants:\n  farm: 1\n": "line 5: farm has a heading and a constant",
		"format: fencerow/columns/1\nconstants:\n  share_percent: 1\n":             `"share_percent" is no key`,
	} {
		_, err := ParseProfile("columns.yaml", []byte(text))
		mistakes, _ := err.(farm.Mistakes)
		if len(mistakes) == 0 || mistakes[0].Hint == "" {
			t.Errorf("%q: %v", text, err)
			continue
		}
		shown := strings.ReplaceAll(mistakes.Error(), " column ", " column")
		for at := 1; at < 40; at++ { // the column does not matter
			shown = strings.ReplaceAll(shown, " column"+string(rune('0'+at%10))+":", ":")
		}
		if !strings.Contains(shown, want) {
			t.Errorf("%q: %s, want %s", text, shown, want)
		}
	}
	_, err := openWith(t, unusual, strings.Replace(profiled, "Ar\n", "Area\n", 1))
	wantMistake(t, err, `farms.csv line 2 has no heading "Area"`)
	_, err = openWith(t, unusual, strings.Replace(profiled, "Yield\n", "Yeild\n", 1))
	wantMistake(t, err, `has no heading "Yeild"`)
	require.Contains(t, err.(farm.Mistakes)[0].Hint, `did you mean "Yield"?`)
}

// A suggested columns file is one, and says of each guess and of what it leaves out that it does.
func TestSuggest(t *testing.T) {
	found, _, err := farmfile.Lines(put(t, "farms.csv", "Farms of 2026\nFarm Number,State & County Name,Crop,Acres,PLC Yeild,Crop Name,Soil\n1,99001,corn,120,150,x,y\n"))
	require.NoError(t, err)
	text, err := Suggest("farms.csv", found)
	require.NoError(t, err)
	require.Equal(t, `# Columns of farms.csv, by the headings on line 2. Look at each line with a comment.
format: fencerow/columns/1
columns:
  farm: "Farm Number"
  county: "State & County Name"
  commodity: "Crop"
  base_acres: "Acres" # a guess: it may be something else
  payment_yield: "PLC Yeild" # a guess: it may be something else
# commodity too? "Crop Name"; above it is "Crop"
# not understood: "Soil"
# constants:
#   state: "99"
`, string(text))
	rows, err := openWith(t, "Farm Number,State & County Name,Crop,Acres,PLC Yeild,Crop Name,Soil\n1,99001,corn,120,150,x,y\n", string(text))
	require.NoError(t, err)
	row, refused, err := rows.Next()
	require.NoError(t, err)
	require.Empty(t, refused)
	require.Equal(t, []any{120.0, 150.0}, []any{row.BaseAcres, *row.PaymentYield})
	_, err = os.Stat("farms.csv")
	require.Error(t, err) // nothing is written
}
