package farmtable_test

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/io/read/operation"
	"fencerow/program/farm"
)

// The operations that the tables of this file describe, as operation files. The farms are
// invented. Boone and Story are counties of Iowa in FSA's county tables: 19015, 19169.
const (
	threeFarms = `format: fencerow/operation/1
farms:
  - {farm: "0417", county: 99001, bases: [{commodity: corn, base_acres: 1120.5, payment_yield: 150}, {commodity: soybeans, base_acres: 80.25, payment_yield: 38}]}
  - {farm: "588", county: 99003, bases: [{commodity: corn, base_acres: 64, payment_yield: 141}, {commodity: wheat, base_acres: 50, payment_yield: 52}]}
  - {farm: "1203", county: 99001, bases: [{commodity: grain_sorghum, base_acres: 12, payment_yield: 78}]}
`
	irrigated = `format: fencerow/operation/1
farms:
  - {farm: "0417", county: 99001, bases: [{commodity: corn, base_acres: 120, irrigated_share: 0.35}, {commodity: soybeans, base_acres: 80, irrigated_share: 0}, {commodity: wheat, base_acres: 10, irrigated_share: 1}, {commodity: oats, base_acres: 5, irrigated_share: 0.125}]}
`
	tracts = `format: fencerow/operation/1
farms:
  - farm: "0417"
    county: 99001
    bases:
      - {commodity: corn, tract: "71", base_acres: 100, payment_yield: 150, crp_reduction: 13}
      - {commodity: soybeans, tract: "71", base_acres: 70}
      - {commodity: corn, tract: "72", county: 99003, base_acres: 20, payment_yield: 140}
`
	shares = `format: fencerow/operation/1
producers: [{id: Doña}, {id: bob}]
farms:
  - {farm: "0417", county: 99001, shares: {Doña: 0.6}, bases: [{commodity: corn, base_acres: 120}, {commodity: soybeans, base_acres: 80}]}
  - {farm: "588", county: 99001, shares: {bob: 0.333}, bases: [{commodity: corn, base_acres: 64}]}
`
	elected = `format: fencerow/operation/1
farms:
  - {farm: "0417", county: 99001, election_on_record: {corn: PLC, soybeans: ARC-CO}, bases: [{commodity: corn, base_acres: 120}, {commodity: soybeans, base_acres: 80}]}
`
	named = `format: fencerow/operation/1
farms:
  - {farm: "0417", county: "Boone, Iowa", bases: [{commodity: corn, base_acres: 120}, {commodity: soybeans, base_acres: 80, county: "Story, Iowa"}]}
`
)

// habit is a table as some program saves it or some person keeps it; form is "" for text,
// "xlsx" for a workbook of the same cells, or how the text is written.
type habit struct{ name, means, form, text string }

const rowsOfThree = "0417,99001,corn,1120.5,150\n0417,99001,soybeans,80.25,38\n588,99003,corn,64,141\n588,99003,wheat,50,52\n1203,99001,grain sorghum,12,78\n"

var habits = []habit{
	// headings
	{"our own names", threeFarms, "", "farm,county,commodity,base_acres,payment_yield\n" + rowsOfThree},
	{"as short as can be typed", threeFarms, "", "farm,county,crop,base,plc yield\n" + rowsOfThree},
	{"headings of the farm record", threeFarms, "", "Farm Number,State & County Name,Crop Name,Base Acres,PLC Yield\n" + strings.ReplaceAll(rowsOfThree, ",99", ",99 - ")},
	{"headings of the older record", threeFarms, "", "FARM,County Code,Crop,Base Acreage,PLC Yield,CTAP Tran Yield\n" + strings.ReplaceAll(strings.ToUpper(rowsOfThree), "\n", ",\n")},
	{"names of a database", threeFarms, "", "FARM_NBR,ST,CNTY,FIPS_CODE,CROP_NAME,CROP_BASE_ACRES,PLC_YLD\n0417,99,x,99001,CORN,1120.50,150\n0417,99,x,99001,SOYBEANS,80.25,38\n588,99,x,99003,CORN,64.00,141\n588,99,x,99003,WHEAT,50.00,52\n1203,99,x,99001,\"SORGHUM, GRAIN\",12.00,78\n"},
	{"units in brackets and numbers of farms", threeFarms, "", "Farm #,FIPS,Base Crop,Base Acres (ac.),PLC Yield [bu/acre]\n" + rowsOfThree},
	{"headings of two lines in a cell", threeFarms, "", "\"Farm\nNumber\",County,\"Crop\nName\",\"Base\nAcres\",\"PLC\nYield\"\n" + rowsOfThree},
	{"code and name of a place side by side", threeFarms, "", "State Name,State Code,County Name,County Code,Farm No.,Commodity,Base Ac,PLC Yield\nNowhere,99,Alder,1,0417,corn,1120.5,150\nNowhere,99,Alder,1,0417,soybeans,80.25,38\nNowhere,99,Birch,3,588,corn,64,141\nNowhere,99,Birch,3,588,wheat,50,52\nNowhere,99,Alder,1,1203,grain sorghum,12,78\n"},
	{"columns of other things", threeFarms, "", "Remark,farm,county,crop,base,Acres Planted,plc yield,Soil,\n" + "x,0417,99001,corn,1120.5,7,150,loam,\n,0417,99001,soybeans,80.25,,38,,\n,588,99003,corn,64,,141,,\n,588,99003,wheat,50,,52,,\n,1203,99001,grain sorghum,12,,78,,\n"},
	{"county and State in a cell", named, "", "Farm,State & County Name,Crop,Base Acres,FSA Physical Location\n0417,\"Boone, IA\",Corn,120,\n0417,\"BOONE COUNTY, IOWA\",Soybeans,80,IOWA/STORY\n"},
	{"State before county", named, "", "Farm,County,Crop,Base Acres,FSA Physical Location\n0417,Iowa - Boone,Corn,120,IOWA/BOONE\n0417,19-015,Soybeans,80,\"Story, IA\"\n"},
	{"State in a column of its own", named, "", "Farm,State,County,Crop,Base Acres,Physical Location\n0417,IA,Boone,Corn,120,Boone\n0417,Iowa,BOONE,Soybeans,80,Story\n"},
	{"the election in words", elected, "", "Farm,County,Crop,Base,Crop Election Choice\n0417,99001,corn,120,Price Loss Coverage\n0417,99001,soybeans,80,ARC County\n"},
	{"the election in short", elected, "", "Farm,County,Crop,Base,ARC/PLC\n0417,99001,corn,120,PLC\n0417,99001,soybeans,80,ARC-CO\n"},
	// titles, totals and pages
	{"titles above", threeFarms, "", "Farm records as of November 10, 2026\nPrepared for: home farms,,\n\nfarm,county,crop,base,plc yield\n" + rowsOfThree},
	{"titles with more commas than there are semicolons", threeFarms, "", "Farms, bases, yields, as of Tuesday, November 10, 2026, all\n\nfarm;county;crop;base;plc yield\n" + strings.ReplaceAll(rowsOfThree, ",", ";")},
	{"a title with a loose quotation mark", threeFarms, "", "Farms of \"home\" in 2026\nfarm,county,crop,base,plc yield\n" + rowsOfThree},
	{"titles in a workbook", threeFarms, "xlsx", "Farm records\nas of,2026-11-10\n,,\nfarm,county,crop,base,plc yield\n" + rowsOfThree},
	{"words above groups of headings", threeFarms, "", ",,,DCP Crop Data,\nfarm,county,crop,base,plc yield\n" + rowsOfThree},
	{"a total of each farm in the column of crops", threeFarms, "", "farm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n0417,99001,soybeans,80.25,38\n0417,99001,TOTAL,1200.75,\n588,99003,corn,64,141\n588,99003,wheat,50,52\n,,Total,114,\n1203,99001,grain sorghum,12,78\n"},
	{"subtotals of a spreadsheet program", threeFarms, "xlsx", "farm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n0417,99001,soybeans,80.25,38\n0417 Total,,,1200.75,\n588,99003,corn,64,141\n588,99003,wheat,50,52\n588 Total,,,114,\n1203,99001,grain sorghum,12,78\n1203 Total,,,12,\nGrand Total,,,1326.75,\n"},
	{"a total with its own words", threeFarms, "", "farm,county,crop,base,plc yield\n" + rowsOfThree + "Total Base Acres:,,,1326.75,\n"},
	{"headings and titles on every page", threeFarms, "", "Farm records\nfarm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n0417,99001,soybeans,80.25,38\nPage 1 of 2\nFarm records\nFarm,County,Crop,Base,PLC Yield\n588,99003,corn,64,141\n588,99003,wheat,50,52\n1203,99001,grain sorghum,12,78\nPage 2 of 2\n"},
	{"a note below", threeFarms, "", "farm,county,crop,base,plc yield\n" + rowsOfThree + "\nBase acres as of the last notice,,,,\n"},
	// merged cells
	{"merged farms in text", threeFarms, "", "farm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n,,soybeans,80.25,38\n588,99003,corn,64,141\n,,wheat,50,52\n1203,99001,grain sorghum,12,78\n"},
	{"merged farms in a workbook", threeFarms, "xlsx", "farm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n,,soybeans,80.25,38\n588,99003,corn,64,141\n,,wheat,50,52\n1203,99001,grain sorghum,12,78\n"},
	{"merged farms with totals and gaps", threeFarms, "xlsx", "farm,county,crop,base,plc yield\n0417,99001,corn,1120.5,150\n,,,,\n,,soybeans,80.25,38\n,,TOTAL,1200.75,\n588,99003,corn,64,141\n,,wheat,50,52\n1203,99001,grain sorghum,12,78\n,,TOTAL,12,\n"},
	{"merged tracts", tracts, "", "Farm Number,County,Tract Number,FSA Physical Location,Crop Name,Base Acres,CCC-505 CRP Reduction Acres,PLC Yield\n0417,99001,71,,Corn,100.00,13.00,150\n,,,,Soybeans,70.00,0.00,\n,,72,99/003,Corn,20.00,0.00,140\n"},
	{"merged operators and shares", shares, "", "Farm,County,Operator,Share,Crop,Base\n0417,99001,Doña,0.6,corn,120\n,,,,soybeans,80\n588,99001,bob,0.333,corn,64\n"},
	// shares and percentages
	{"percentages of the record", irrigated, "", "farm,county,crop,base,HIP\n0417,99001,corn,120,35\n0417,99001,soybeans,80,0\n0417,99001,wheat,10,100\n0417,99001,oats,5,12.5\n"},
	{"percentages with their sign", irrigated, "", "farm,county,crop,base,Irrigated %\n0417,99001,corn,120,35%\n0417,99001,soybeans,80,0%\n0417,99001,wheat,10,100 %\n0417,99001,oats,5,12.5\n"},
	{"parts of one", irrigated, "", "farm,county,crop,base,irrigated share\n0417,99001,corn,120,.35\n0417,99001,soybeans,80,0\n0417,99001,wheat,10,1\n0417,99001,oats,5,12.5%\n"},
	{"percentages in a workbook", irrigated, "xlsx", "farm,county,crop,base,Percent Irrigated\n0417,99001,corn,120,35\n0417,99001,soybeans,80,0\n0417,99001,wheat,10,100\n0417,99001,oats,5,12.5\n"},
	{"shares in percent", shares, "", "Farm,County,Producer Name,Share %,Crop,Base\n0417,99001,Doña,60,corn,120\n0417,99001,Doña,60%,soybeans,80\n588,99001,bob,33.3,corn,64\n"},
	// letters, separators and decimals
	{"Windows-1252", shares, "windows-1252", "Farm,County,Producer,Share,Crop,Base\n0417,99001,Doña,0.6,corn,120\n0417,99001,Doña,0.6,soybeans,80\n588,99001,bob,0.333,corn,64\n"},
	{"UTF-16, little end first, with tabs", shares, "utf-16le", "Farm\tCounty\tProducer\tShare\tCrop\tBase\r\n0417\t99001\tDoña\t0.6\tcorn\t120\r\n0417\t99001\tDoña\t0.6\tsoybeans\t80\r\n588\t99001\tbob\t0.333\tcorn\t64\r\n"},
	{"UTF-16, big end first, with commas", threeFarms, "utf-16be", "farm,county,crop,base,plc yield\n" + rowsOfThree},
	{"UTF-8 with its mark and semicolons", threeFarms, "", "\ufefffarm;county;crop;base;plc yield\r\n" + strings.ReplaceAll(strings.ReplaceAll(rowsOfThree, ",", ";"), "\n", "\r\n")},
	{"a line that states the separator, then a title", threeFarms, "", "sep=;\nFarms\nfarm;county;crop;base;plc yield\n" + strings.ReplaceAll(rowsOfThree, ",", ";")},
	{"tabs", threeFarms, "", "farm\tcounty\tcrop\tbase\tplc yield\n" + strings.ReplaceAll(rowsOfThree, ",", "\t")},
	{"decimal commas", threeFarms, "", "farm;county;crop;base;plc yield\n" + strings.ReplaceAll(strings.ReplaceAll(rowsOfThree, ",", ";"), ".", ",")},
	{"decimal commas and points of thousands", threeFarms, "", "farm;county;crop;base;plc yield\n0417;99001;corn;1.120,50;150,0\n0417;99001;soybeans;80,25;38,0\n588;99003;corn;64,00;141,0\n588;99003;wheat;50,00;52,0\n1203;99001;grain sorghum;12,00;78,0\n"},
	{"decimal commas with tabs", irrigated, "utf-16le", "farm\tcounty\tcrop\tbase\tirrigated share\n0417\t99001\tcorn\t120,0\t0,350\n0417\t99001\tsoybeans\t80,0\t0\n0417\t99001\twheat\t10,0\t1\n0417\t99001\toats\t5,0\t12,5%\n"},
	{"thousands and text of numbers", threeFarms, "", "farm,county,crop,base,plc yield\n=\"0417\",'99001,corn,\"1,120.50\",150\n\"=\"\"0417\"\"\",99001.0,soybeans,80.25,38\n588,99003,corn,64,141\n588,99003,wheat,50,52\n1203,99001,grain sorghum,12,78\n"},
}

// bytesOf writes a text as a program saves it.
func bytesOf(form, text string) string {
	var b []byte
	switch form {
	case "windows-1252":
		for _, letter := range text {
			b = append(b, byte(letter)) // those of the test are Unicode's below 256
		}
	case "utf-16le", "utf-16be":
		for _, unit := range utf16.Encode([]rune("\ufeff" + text)) {
			if form == "utf-16le" {
				b = append(b, byte(unit), byte(unit>>8))
			} else {
				b = append(b, byte(unit>>8), byte(unit))
			}
		}
	default:
		return text
	}
	return string(b)
}

// putHabit writes the table of a habit and returns its path.
func putHabit(t *testing.T, h habit) string {
	t.Helper()
	if h.form != "xlsx" {
		return put(t, "farms.csv", bytesOf(h.form, h.text))
	}
	in := csv.NewReader(strings.NewReader(h.text))
	in.FieldsPerRecord = -1
	lines, err := in.ReadAll()
	require.NoError(t, err)
	var cells [][]any
	for _, line := range lines {
		var row []any
		for _, text := range line {
			number, err := strconv.ParseFloat(text, 64)
			switch {
			case text == "":
				row = append(row, nil)
			case err == nil && text[0] != '0':
				row = append(row, number)
			default:
				row = append(row, text)
			}
		}
		cells = append(cells, row)
	}
	return putWorkbook(t, "Sheet7", cells)
}

// readHabit reads the one operation of a table.
func readHabit(t *testing.T, h habit) (farm.Operation, []string, error) {
	t.Helper()
	path := putHabit(t, h)
	rows, err := farmfile.Open(path, nil)
	if err != nil {
		return farm.Operation{}, nil, err
	}
	return ReadOperation(path, rows, true)
}

// asText shows an operation with what its pointers point to.
func asText(o farm.Operation) string {
	text, err := json.Marshal(o.Farms)
	return fmt.Sprintf("%s %+v %v", text, o.Producers, err)
}

// Tables in the habits of many programs and people are read as the operation file of the
// same farms is.
func TestTablesAsPeopleHaveThem(t *testing.T) {
	checked := 0
	for _, h := range habits {
		t.Run(h.name, func(t *testing.T) {
			want, err := operation.Parse("farms.yaml", []byte(h.means))
			require.NoError(t, err)
			got, notes, err := readHabit(t, h)
			require.NoError(t, err, "%v", notes)
			for i := range got.Farms { // an operation file without elections has none, a table an empty map
				if len(got.Farms[i].Record) == 0 {
					got.Farms[i].Record = nil
				}
			}
			if !reflect.DeepEqual(want, got) {
				t.Fatalf("got  %s\nwant %s", asText(got), asText(want))
			}
			checked++
		})
	}
	t.Logf("tables: checked %d of %d", checked, len(habits))
	if checked < 40 || checked != len(habits) {
		t.Errorf("%d tables are read, want all of %d, and no fewer than 40", checked, len(habits))
	}
}

// unreadable are tables that are refused: where, and what of the hint.
var unreadable = []struct {
	name, form, text string
	line             int
	hint             string
}{
	{"a yield of what kind", "", "farm,county,crop,base,Yield\n1,99001,corn,120,150\n", 1, "did you mean payment_yield?"},
	{"acres of what kind", "", "farm,county,crop,Acres,PLC Yield\n1,99001,corn,120,150\n", 1, "did you mean base_acres?"},
	{"irrigated how", "", "farm,county,crop,base,Irrigated\n1,99001,corn,120,1\n", 1, "did you mean irrigated_share?"},
	{"a slip in a heading below titles", "", "Farms\n\nas of 2026\nfarm,county,comodity,base\n1,99001,corn,120\n", 4, "did you mean commodity?"},
	{"a slip in a heading of the record", "", "Farm Number,County,Crop Name,Base Acres,PLC Yeild\n1,99001,corn,120,150\n", 1, "did you mean payment_yield?"},
	{"two columns of one meaning", "", "Title\nfarm,county,crop,commodity,base\n1,99001,corn,corn,120\n", 2, "keep one of them"},
	{"no county", "", "farm,crop,base\n1,corn,120\n", 1, "A table needs farm, county, commodity and base_acres"},
	{"no headings", "", "1,99001,corn,120\n2,99001,corn,80\n", 1, "A table needs farm, county, commodity and base_acres"},
	{"a part of one under a heading of percentages", "", "farm,county,crop,base,HIP\n1,99001,corn,120,35\n1,99001,oats,20,0.35\n", 3, "write 0.35%, or head the column irrigated_share"},
	{"one under a heading of percentages", "xlsx", "farm,county,crop,base,HIP\n1,99001,corn,120,1\n", 2, "head the column irrigated_share where 1 stands for all"},
	{"a percentage under a heading of shares", "", "farm,county,crop,base,irrigated share\n1,99001,corn,120,35\n", 2, "write 35 percent as 0.35 or 35%"},
	{"a producer's percentage under a heading of shares", "", "farm,county,crop,base,producer,share\n1,99001,corn,120,ann,60\n", 2, "write 60 percent as 0.6 or 60%"},
	{"a comma of decimals or thousands", "", "farm;county;crop;base\n1;99001;corn;1,204\n", 2, "write decimals with a point"},
	{"a decimal comma where commas part values", "", "farm,county,crop,base\n1,99001,corn,\"120,5\"\n", 2, "write decimals with a point"},
	{"decimals of two kinds", "", "farm;county;crop;base\n1;99001;corn;120,5\n1;99001;oats;1.204\n", 3, "write decimals alike in every row"},
	{"no farm above a row without one", "", "farm,county,crop,base\n,99001,corn,120\n1,99001,oats,80\n", 2, "give FSA farm number"},
	{"a row without a farm below a total", "", "farm,county,crop,base\n1,99001,corn,120\n,,TOTAL,120\n,,oats,80\n", 4, "give FSA farm number"},
	{"a farm number that was lost", "", "farm,county,crop,base\n1,99001,corn,120\n,99001,oats,80\n", 3, "give FSA farm number"},
	{"a row without a farm in another county", "", "farm,county,crop,base\n1,99001,corn,120\n,99003,oats,80\n", 3, "give FSA farm number"},
	{"a row without a producer where several have shares", "", "farm,county,crop,base,producer,share\n1,99001,corn,120,ann,60%\n,,corn,120,bob,40%\n,,oats,80,,\n", 4, "name the producer in every row"},
	{"a sum that is not named", "", "farm,county,crop,base\n1,99001,corn,120\n1,99001,oats,80\n,,,200\n", 4, "A row needs farm, county, commodity and base_acres"},
	{"a letter of no encoding", "", "farm,county,crop,base,producer\n1,99001,corn,120,Do\x81a\n", 2, "CSV UTF-8"},
	{"two bytes a letter without their mark", "", "f\x00a\x00r\x00m\x00,\x00", 0, "CSV UTF-8"},
	{"a county with a slip", "", "farm,State & County Name,crop,base\n1,\"Boonee, IA\",corn,120\n", 2, "did you mean Boone, Iowa (19015)"},
	{"base that no commodity has", "", "farm,county,crop,base\n1,99001,corn,120\n1,99001,Unassigned Generic Base,24\n", 3, "unassigned_base_acres"},
}

// What cannot be read for sure is refused at its line, with what to do.
func TestTablesRefusedWithAHint(t *testing.T) {
	checked := 0
	for _, c := range unreadable {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := readHabit(t, habit{form: c.form, text: c.text})
			var mistakes farm.Mistakes
			require.True(t, errors.As(err, &mistakes), "%v", err)
			require.Equal(t, c.line, mistakes[0].Line, "%+v", mistakes[0])
			require.Contains(t, mistakes[0].Hint, c.hint)
			checked++
		})
	}
	t.Logf("refusals: checked %d of %d", checked, len(unreadable))
	if checked < 20 || checked != len(unreadable) {
		t.Errorf("%d tables are refused as they should be, want all of %d, and no fewer than 20", checked, len(unreadable))
	}
}

// What is passed over or taken from the row above is noted, with its lines.
func TestNotesOfHabits(t *testing.T) {
	_, notes, err := readHabit(t, habit{text: "Farm records,as of 2026\n\nfarm,county,crop,base,producer\n1,99001,corn,120,Do\xf1a\n,,oats,80,\nPage 1 of 2\nfarm,county,crop,base,producer\n2,99001,corn,120,bob\n,,TOTAL,120,\n,,Grand total,320,\n"})
	require.NoError(t, err)
	require.Equal(t, []string{
		`the headings are on line 3. Passed over above them: line 1 "Farm records as of 2026"`,
		"2 rows of totals passed over (line 9, 10)",
		"1 row of headings again passed over (line 7)",
		"1 row of titles, page numbers or notes passed over (line 6)",
		"farm number taken from the row above in 1 row; county taken from the row above in 1 row; producer taken from the row above in 1 row",
		"the file is not in UTF-8: its letters are read as Windows-1252",
	}, notes)
}
