package farmtable_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/program/farm"
)

// mistakesOf reads a table to its end or to what ends the reading.
func mistakesOf(t *testing.T, content string) (rows int, mistakes farm.Mistakes, notes []string) {
	t.Helper()
	r, err := farmfile.Open(put(t, "farms.csv", content), counties)
	for err == nil {
		notes = r.Notes()
		if _, _, err = r.Next(); err == nil {
			rows++
		}
	}
	if r != nil {
		r.Close()
	}
	if err != io.EOF {
		require.True(t, errors.As(err, &mistakes), "%v", err)
	}
	return rows, mistakes, notes
}

// What people head a column is understood, and the value below it is read as that column's.
// The words of the farm record are those of form FSA-156EZ as the tests' source describes
// it (../shared/facts/record/RECORD.md: crop table, land data).
func TestHeadingsUnderstood(t *testing.T) {
	for heading, want := range map[string]struct{ column, typed, value string }{
		"PLC yield": {"payment_yield", "150", "150"}, "PLC Yield (bu/ac)": {"payment_yield", "150", "150"}, "program yield": {"payment_yield", "150", "150"},
		"HIP": {"irrigated_share", "35", "0.35"}, "irrigated percentage": {"irrigated_share", "35", "0.35"}, "Irrigated %": {"irrigated_share", "35%", "0.35"}, "HIP %": {"irrigated_share", "33.3", "0.333"}, "pct. irrigated": {"irrigated_share", "100", "1"},
		"CCC-505 CRP Reduction Acres": {"crp_reduction", "4", "4"}, "CCC-505 CRP Reduction": {"crp_reduction", "4", "4"},
		"Election": {"election_on_record", "PLC", "PLC"}, "Crop Election Choice": {"election_on_record", "Price Loss Coverage", "PLC"}, "ARC/PLC": {"election_on_record", "ARC-CO", "ARC-CO"},
		"Tract Number": {"tract", "1203", "1203"}, "FSA Physical Location": {"physical_county", "99/003", "99003"}, "Farmland": {"total_acres", "200", "200"}, "Farm Land": {"total_acres", "200", "200"},
		"Operator Name": {"producer", "ann", "ann"}, "Operator": {"producer", "ann", "ann"}, "customer": {"client", "7", "7"}, "crop share": {"share", "0.5", "0.5"}, "Share (%)": {"share", "50", "0.5"},
		"year": {"crop_year", "2026", "2026"}, "Program Year": {"crop_year", "2026", "2026"}, "State Code": {"state", "99", "99"}, "unassigned base": {"unassigned_base_acres", "3", "3"}, "stax": {"stax_bought", "yes", "yes"},
	} {
		rows, refused := readAll(t, put(t, "farms.csv", "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,"+want.typed+"\n"))
		if len(rows) != 1 || len(refused) > 0 || rows[0].Values()[slices.Index(Columns(), want.column)] != want.value {
			t.Errorf("%s: %+v, %+v, want %s %s", heading, rows, refused, want.column, want.value)
		}
	}
	for heading, column := range map[string]string{ // in place of a column that every table has
		"Farm Number": "farm", "FSN": "farm", "FSA Farm #": "farm", "County Code": "county", "county name": "county", "FIPS": "county", "Admin County": "county", "State & County Name": "county",
		"Crop": "commodity", "Crop Name": "commodity", "base": "base_acres", "base ac": "base_acres", "Base Acreage": "base_acres", "Base Acres (ac.)": "base_acres",
	} {
		headings := strings.Replace(",farm,county,commodity,base_acres,", ","+column+",", ","+heading+",", 1)
		rows, refused := readAll(t, put(t, "farms.csv", strings.Trim(headings, ",")+"\n0417,99001,corn,120\n"))
		if len(rows) != 1 || len(refused) > 0 || rows[0].BaseAcres != 120 || rows[0].FarmKey() != "99001-0417" {
			t.Errorf("%s: %+v, %+v", heading, rows, refused)
		}
	}
}

// A slip, and a heading that may mean a column or something else, is an error where the
// table lacks the column: its values would be left out or taken for what they are not.
func TestHeadingsNearKnownOnes(t *testing.T) {
	for heading, want := range map[string]string{
		"Yield": "payment_yield", "payment yeild": "payment_yield", "PLC yeild": "payment_yield", "Irrigated": "irrigated_share", "tracts": "tract",
		"producers": "producer", "stat": "state", "merge": "merge_with", "leese": "lease", "elected programs": "election_on_record",
	} {
		_, mistakes, _ := mistakesOf(t, "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,\n")
		if len(mistakes) != 1 || mistakes[0].Line != 1 || mistakes[0].Column != 5 || mistakes[0].Value != heading || !strings.Contains(mistakes[0].Hint, "did you mean "+want+"?") {
			t.Errorf("%s: %+v, want did you mean %s", heading, mistakes, want)
		}
	}
	for heading, want := range map[string]string{"comodity": "commodity", "acres": "base_acres", "basacres": "base_acres"} {
		headings := strings.Replace(",farm,county,commodity,base_acres,", ","+want+",", ","+heading+",", 1)
		_, mistakes, _ := mistakesOf(t, strings.Trim(headings, ",")+"\n0417,99001,corn,120\n")
		if len(mistakes) != 1 || mistakes[0].Value != heading || !strings.Contains(mistakes[0].Hint, "did you mean "+want+"?") {
			t.Errorf("%s: %+v, want did you mean %s alone", heading, mistakes, want)
		}
	}
}

// What is near to no column, or is unclear where the table has the column, is named in a
// note. So is a name beside a code of one place, or the operator beside a producer.
func TestHeadingsOfOtherThings(t *testing.T) {
	for heading, note := range map[string]string{
		"remark": "not known and not read", "contact": "not known and not read", "status": "not known and not read", "DCP Cropland": "not known and not read", "soil": "not known and not read",
		"acres planted": "not known and not read", "acres": "not known and not read", "phone": "not known and not read", "PLC Yield 2014": "not known and not read",
		"county name": `"county name" is not read: "county" is taken for county`,
	} {
		rows, mistakes, notes := mistakesOf(t, "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,x\n")
		if rows != 1 || len(mistakes) > 0 || len(notes) != 1 || !strings.Contains(notes[0], note) {
			t.Errorf("%s: %d rows, %+v, notes %v", heading, rows, mistakes, notes)
		}
	}
	rows, mistakes, notes := mistakesOf(t, "operator,farm,state name,state code,county,commodity,base_acres,producer\nx,0417,x,99,1,corn,120,ann\n")
	if rows != 1 || len(mistakes) > 0 || len(notes) != 2 {
		t.Errorf("%d rows, %+v, notes %v", rows, mistakes, notes)
	}
}

// Two columns that mean the same are refused, and both named.
func TestTwoHeadingsOfOneColumn(t *testing.T) {
	for heading, column := range map[string]string{"Farm Number": "farm", "Crop": "commodity", "base": "base_acres", "FIPS": "county"} {
		_, mistakes, _ := mistakesOf(t, "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,1\n")
		if want := fmt.Sprintf("two columns are headed %s or stand for it: %q and %q", column, column, heading); len(mistakes) != 1 || mistakes[0].Reason != want || mistakes[0].Line != 1 || mistakes[0].Column != 5 {
			t.Errorf("%s: %+v, want %s", heading, mistakes, want)
		}
	}
}

// docs/formats.md names every heading that is understood, and no other.
func TestDocumentedHeadings(t *testing.T) {
	formats, err := os.ReadFile("../../../docs/formats.md")
	require.NoError(t, err)
	for column, headings := range Headings() {
		line := "| `" + column + "` | " + strings.Join(headings, "; ") + " |\n"
		if len(headings) > 0 && !strings.Contains(string(formats), line) {
			t.Errorf("docs/formats.md, Table of farms, lacks the line %s", line)
		}
		for _, heading := range headings {
			if c, ok := Understood(heading); !ok || c != column {
				t.Errorf("%q is understood as %q", heading, c)
			}
		}
	}
}

// A column that every row needs and that is blank throughout is one error of the table,
// not one of each row. A value anywhere, even a refused one, makes it one of rows.
func TestKeyColumnBlankThroughout(t *testing.T) {
	for at, name := range []string{"farm", "county", "commodity", "base_acres"} {
		cells := []string{"0417", "99001", "corn", "120"}
		good := strings.Join(cells, ",")
		cells[at] = " "
		blank := strings.Join(cells, ",")
		_, mistakes, _ := mistakesOf(t, "\nfarm,county,commodity,base_acres\n"+blank+"\n\n"+blank+"\n")
		if len(mistakes) != 1 || mistakes[0].Line != 2 || mistakes[0].Column != at+1 || mistakes[0].Reason != name+" is blank in every row" || mistakes[0].Hint == "" {
			t.Errorf("%s: %+v", name, mistakes)
		}
		cells[at] = "#REF!"
		for _, other := range []string{good, strings.Join(cells, ",")} {
			if rows, mistakes, _ := mistakesOf(t, "farm,county,commodity,base_acres\n"+blank+"\n"+other+"\n"); rows != 2 || len(mistakes) > 0 {
				t.Errorf("%s: %d rows, %+v", name, rows, mistakes)
			}
		}
	}
	if rows, mistakes, _ := mistakesOf(t, "farm,county,commodity,base_acres\n"); rows != 0 || len(mistakes) > 0 {
		t.Errorf("a table without rows: %d rows, %+v", rows, mistakes)
	}
}

// A crop_year column without any year is reported; the command decides whether it matters.
func TestCropYearBlankThroughout(t *testing.T) {
	for content, want := range map[string]int{
		"farm,crop_year,county,commodity,base_acres\n1,,99001,corn,120\n2,-,99001,corn,120\n":    2,
		"farm,crop_year,county,commodity,base_acres\n1,,99001,corn,120\n2,2026,99001,corn,120\n": 0,
		"farm,county,commodity,base_acres\n1,99001,corn,120\n":                                   0,
		"farm,crop_year,county,commodity,base_acres\n":                                           0,
	} {
		r, err := farmfile.Open(put(t, "farms.csv", content), nil)
		require.NoError(t, err)
		for err == nil {
			_, _, err = r.Next()
		}
		require.Equal(t, io.EOF, err)
		blank := r.CropYearBlank()
		if want == 0 && blank != nil || want > 0 && (len(blank) != 1 || blank[0].Column != want || blank[0].Reason != "crop_year is blank in every row" || !strings.Contains(blank[0].Hint, "--crop-year")) {
			t.Errorf("%q: %+v", content, blank)
		}
		r.Close()
	}
}
