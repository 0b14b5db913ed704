package farmtable_test

import (
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
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

// A heading that is not known and near a column that the table lacks is an error: its
// values would be left out. The words of the farm record are those of form FSA-156EZ as
// the tests' source describes it (../shared/facts/record/RECORD.md: crop table, land data).
func TestHeadingsNearKnownOnes(t *testing.T) {
	for heading, want := range map[string]string{
		"PLC yield": "payment_yield", "Yield": "payment_yield", "payment yeild": "payment_yield", "program yield": "payment_yield",
		"HIP": "irrigated_share", "irrigated percentage": "irrigated_share",
		"CCC-505 CRP Reduction Acres": "crp_reduction", "CCC-505 CRP Reduction": "crp_reduction",
		"Election": "election_on_record", "Crop Election Choice": "election_on_record", "elected program": "election_on_record",
		"Tract Number": "tract", "tracts": "tract", "FSA Physical Location": "physical_county",
		"Farmland": "total_acres", "Farm Land": "total_acres", "crop land acres": "cropland",
		"Operator Name": "producer", "producers": "producer", "customer": "client", "crop share": "share", "year": "crop_year", "Program Year": "crop_year",
		"State Code": "state", "stat": "state", "merge": "merge_with", "unassigned base": "unassigned_base_acres", "stax": "stax_bought", "leese": "lease",
	} {
		_, mistakes, _ := mistakesOf(t, "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,\n")
		if len(mistakes) != 1 || mistakes[0].Line != 1 || mistakes[0].Column != 5 || mistakes[0].Value != heading || !strings.Contains(mistakes[0].Hint, "did you mean "+want+"?") {
			t.Errorf("%s: %+v, want did you mean %s", heading, mistakes, want)
		}
	}
	for heading, want := range map[string]string{ // in place of a column that every table has
		"Farm Number": "farm", "FSN": "farm", "County Code": "county", "county name": "county", "FIPS": "county", "Admin County": "county", "Crop": "commodity", "Crop Name": "commodity", "comodity": "commodity",
		"base ac": "base_acres", "Base Acreage": "base_acres", "acres": "base_acres", "basacres": "base_acres",
	} {
		headings := strings.Replace(",farm,county,commodity,base_acres,", ","+want+",", ","+heading+",", 1)
		_, mistakes, _ := mistakesOf(t, strings.Trim(headings, ",")+"\n0417,99001,corn,120\n")
		if len(mistakes) != 1 || mistakes[0].Value != heading || !strings.Contains(mistakes[0].Hint, "did you mean "+want+"?") {
			t.Errorf("%s: %+v, want did you mean %s alone", heading, mistakes, want)
		}
	}
}

// What is near to no column, or to one that the table has, is named in a note as before.
func TestHeadingsOfOtherThings(t *testing.T) {
	for _, heading := range []string{"remark", "contact", "status", "DCP Cropland", "soil", "acres planted", "phone", "county name", "Farm Number", "PLC Yield 2014"} {
		rows, mistakes, notes := mistakesOf(t, "farm,county,commodity,base_acres,"+heading+"\n0417,99001,corn,120,x\n")
		if rows != 1 || len(mistakes) > 0 || len(notes) != 1 || !strings.Contains(notes[0], "not known and not read") {
			t.Errorf("%s: %d rows, %+v, notes %v", heading, rows, mistakes, notes)
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
