package farmtable_test

import (
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

const insuredTable = `farm,county,commodity,crop_year,base_acres,insured_layers,Insurance Plan,Coverage Level %,APH Yield,insured_acres,insured_practice,projected_price,volatility,expected_area_yield,insurance_closes,sco_premium,eco_trigger,eco_total_premium,my note
0417,99001,corn,2027,120,sco+eco,Revenue Protection,75,180,110.5,non-irrigated,$4.40,0.19,188,2027-03-15,6.20,95%,40,x
0417,99001,soybeans,2027,80,,,,,,,11.00,0.15,,,,,,x
`

// readInsured reads a table whose insurance is asked for, to its end.
func readInsured(t *testing.T, profile Profile, text string) (rows []Row, refused []Refusal, notes []string, blank farm.Mistakes) {
	path := put(t, "farms.csv", text)
	found, said, err := farmfile.Lines(path)
	require.NoError(t, err)
	r, err := Open(path, found, said, nil, profile)
	require.NoError(t, err)
	defer r.Close()
	for {
		row, why, err := r.Next()
		if err == io.EOF {
			return rows, refused, r.Notes(), r.InsuranceBlank()
		}
		require.NoError(t, err)
		rows, refused = append(rows, row), append(refused, why...)
	}
}

// The columns of insurance are what an insurance file says; figures of the county may stand in
// rows where nothing is insured. What is read survives JSON, in which rows wait to be sorted.
func TestInsuredRow(t *testing.T) {
	premium, total, volatility := 6.20, 40.0, 0.19
	want := farm.Insurance{CropYear: 2027, Commodity: crop.Corn, Practice: farm.Nonirrigated, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 180, Acres: 110.5, Share: 1, Projected: 4.40, Volatility: &volatility,
		ExpectedYield: 188, Closes: "2027-03-15", Layers: []farm.Layer{{Program: farm.SCO, Premium: &premium}, {Program: farm.ECO, Trigger: 0.95, Total: &total}}}
	rows, refused, notes, blank := readInsured(t, Profile{}.WithInsurance(), insuredTable)
	if len(refused)+len(blank) > 0 || len(rows) != 2 || rows[0].Insured == nil || !reflect.DeepEqual(*rows[0].Insured, want) || rows[1].Insured != nil {
		t.Fatalf("%+v, %v, %v", rows, refused, blank)
	}
	if len(notes) != 1 || !strings.Contains(notes[0], "my note") {
		t.Errorf("notes %v", notes)
	}
	text, err := json.Marshal(rows[0])
	var again Row
	if err != nil || json.Unmarshal(text, &again) != nil || !reflect.DeepEqual(again, rows[0]) {
		t.Errorf("as JSON %s (%v)", text, err)
	}
	o, misfits := Assemble(rows)
	if len(misfits) > 0 || len(o.Farms.Farms) != 1 || !reflect.DeepEqual(o.Farms.Farms[0].Insurance, []farm.Insurance{want}) {
		t.Errorf("%+v, %v", o.Farms.Farms, misfits)
	}
}

// Where insurance is not asked for, its columns are named and not read, whatever they hold.
func TestInsuranceNotAskedFor(t *testing.T) {
	rows, refused, notes, blank := readInsured(t, Profile{}, strings.Replace(insuredTable, "sco+eco", "TRUE", 1))
	if len(refused)+len(blank) > 0 || rows[0].Insured != nil || len(notes) != 14 || !strings.Contains(strings.Join(notes, "\n"), `column "APH Yield" is not read: area insurance is not asked for`) {
		t.Errorf("%+v, %v, %q", rows, refused, notes)
	}
}

// A columns file names the headings of insurance and what stands in every row; a value of every
// row insures nothing by itself.
func TestInsuredProfile(t *testing.T) {
	profile, err := ParseProfile("columns.yaml", []byte("format: fencerow/columns/1\ncolumns: {insured_layers: Bought}\nconstants: {insured_plan: RP, coverage_level: 0.75, projected_price: 4.40, expected_area_yield: 188, approved_yield: 180, sco_premium: 6.20}\n"))
	require.NoError(t, err)
	text := "farm,county,commodity,crop_year,base_acres,Bought,insured_acres\n0417,99001,corn,2027,120,SCO,100\n0418,99001,corn,2027,80,,\n0419,99001,corn,2027,80,,50\n"
	rows, refused, _, _ := readInsured(t, profile.WithInsurance(), text)
	if rows[0].Insured == nil || *rows[0].Insured.Layers[0].Premium != 6.20 || rows[1].Insured != nil || len(refused) != 1 || refused[0].Line != 4 || refused[0].Column != "insured_acres" || refused[0].Hint == "" {
		t.Errorf("%+v, %+v", rows, refused)
	}
	if rows, refused, _, _ := readInsured(t, profile, text); len(rows) != 3 || len(refused) > 0 {
		t.Errorf("not asked for: %d rows, %+v", len(rows), refused)
	}
}

// Insurance that is asked for and in no row is one mistake of the table.
func TestInsuranceBlank(t *testing.T) {
	for text, line := range map[string]int{
		"farm,county,commodity,base_acres\n1,99001,corn,120\n":                     1,
		"\nfarm,county,commodity,base_acres,insured_layers\n1,99001,corn,120,\n":   2,
		"farm,county,commodity,base_acres,insured_layers\n1,99001,corn,120,GRIP\n": 0,
		"farm,county,commodity,base_acres,insured_layer\n1,99001,corn,120,\n":      -1,
		"farm,county,commodity,base_acres,Planted Acres\n1,99001,corn,120,\n":      -1,
	} {
		if line < 0 { // near to a column of insurance, or unclear: refused at the headings
			path := put(t, "farms.csv", text)
			found, said, err := farmfile.Lines(path)
			require.NoError(t, err)
			_, err = Open(path, found, said, nil, Profile{}.WithInsurance())
			var mistakes farm.Mistakes
			if !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Hint, "did you mean insured_") {
				t.Errorf("%q: %v", text, err)
			}
			continue
		}
		_, _, _, blank := readInsured(t, Profile{}.WithInsurance(), text)
		if line == 0 && blank != nil || line > 0 && (len(blank) != 1 || blank[0].Line != line || blank[0].Hint == "") {
			t.Errorf("%q: %+v", text, blank)
		}
	}
}
