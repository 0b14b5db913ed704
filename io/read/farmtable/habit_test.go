package farmtable_test

import (
	"fmt"
	"io"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// What spreadsheet programs make of a table is read as it was meant.
func TestHabitsOfSpreadsheets(t *testing.T) {
	const plain = "farm,county,commodity,base_acres\n0417,99001,corn,1234.5\n"
	want := Row{Operation: AllRows, Farm: "0417", County: "99001", Commodity: crop.Corn, BaseAcres: 1234.5}
	for _, c := range []struct{ habit, text string }{
		{"plain", plain},
		{"a byte order mark", "\ufeff" + plain},
		{"line ends of Windows", "farm,county,commodity,base_acres\r\n0417,99001,corn,1234.5\r\n"},
		{"no last line end", "farm,county,commodity,base_acres\n0417,99001,corn,1234.5"},
		{"semicolons", "farm;county;commodity;base_acres\n0417;99001;corn;1234.5\n"},
		{"semicolons and thousands with a point", "farm;county;commodity;base_acres\n0417;99001;corn;1,234.50\n"},
		{"tabs", "farm\tcounty\tcommodity\tbase_acres\n0417\t99001\tcorn\t1,234.50\n"},
		{"a line that states the separator", "sep=;\r\nfarm;county;commodity;base_acres\r\n0417;99001;corn;1234.5\r\n"},
		{"thousands in quotation marks", "farm,county,commodity,base_acres\n0417,99001,corn,\"1,234.50\"\n"},
		{"a dollar sign", "farm,county,commodity,base_acres\n0417,99001,corn,\"$1,234.50\"\n"},
		{"another order and case of the headings", "Base Acres,COMMODITY,County,Farm\n1234.5,corn,99001,0417\n"},
		{"headings without underscores", " baseacres , Commodity , county , FARM\n1234.5,corn,99001,0417\n"},
		{"blank rows before and between", "\n,,,\nfarm,county,commodity,base_acres\n,,,\n\n0417,99001,corn,1234.5\n , ,,\n"},
		{"blanks around values", "farm,county,commodity,base_acres\n 0417 ,\u00a099001 , corn , 1234.5 \n"},
		{"empty columns at the end", "farm,county,commodity,base_acres,,\n0417,99001,corn,1234.5,,\n"},
		{"fewer values than headings", "farm,county,commodity,base_acres,lease\n0417,99001,corn,1234.5\n"},
		{"columns not known", "farm,county,commodity,remark,base_acres\n0417,99001,corn,\"wet\nfield\",1234.5\n"},
		{"agency spelling of the commodity", "farm,county,commodity,base_acres\n0417,99001,CORN ,1234.5\n"},
		{"a formula that keeps zeros", "farm,county,commodity,base_acres\n=\"0417\",'99001,corn,1234.5\n"},
		{"a formula that keeps zeros, in quotation marks", "farm,county,commodity,base_acres\n\"=\"\"0417\"\"\",99001,corn,1234.5\n"},
		{"state and county apart", "farm,state,county,commodity,base_acres\n0417,99,1,corn,1234.5\n"},
		{"state and county apart with zeros", "farm,state,county,commodity,base_acres\n0417,99,001,corn,1234.5\n"},
		{"state and county with a hyphen", "farm,county,commodity,base_acres\n0417,99-001,corn,1234.5\n"},
		{"a code taken for a number", "farm,county,commodity,base_acres\n0417,99001.0,corn,1234.5\n"},
		{"a county by name", "farm,state,county,commodity,base_acres\n0417,99,Alder County,corn,1234.5\n"},
		{"digits of tiny noise", "farm,county,commodity,base_acres\n0417,99001,corn,1.2345E3\n"},
	} {
		t.Run(c.habit, func(t *testing.T) {
			rows, refused := readAll(t, put(t, "farms.csv", c.text))
			require.Empty(t, refused)
			require.Len(t, rows, 1)
			rows[0].Line = 0
			require.Equal(t, want, rows[0])
		})
	}
}

// Values of one cell that mean the same.
func TestSpellings(t *testing.T) {
	for _, c := range []struct {
		column string
		want   string
		typed  []string
	}{
		{"irrigated_share", "0.35", []string{"0.35", ".35", "35%", "35 %", "35.0%"}},
		{"share", "0.333", []string{"33.3%", "0.333", "+.333"}},
		{"election_on_record", string(farm.ARCCO), []string{"ARC-CO", "ARCCO", "ARC CO", "ARC County", "arc-county", "Arc/Co", "Agriculture Risk Coverage - County Option"}},
		{"election_on_record", string(farm.PLC), []string{"PLC", "plc", "Price Loss Coverage"}},
		{"election_on_record", string(farm.ARCIC), []string{"ARC-IC", "arcic", "ARC Individual"}},
		{"election_on_record", "", []string{"", "-", "n/a", "None"}},
		{"stax_bought", "yes", []string{"yes", "Y", "TRUE", "true", "1", "t"}},
		{"idle_2009_2017", "no", []string{"no", "N", "FALSE", "0", "f"}},
		{"lease", "cash", []string{"cash", "Cash", "CASH RENT", "cash lease"}},
		{"contract", "signed", []string{"signed", "Signed"}},
		{"crop_year", "2026", []string{"2026", "2026.0"}},
		{"commodity", "grain_sorghum", []string{"grain_sorghum", "SORGHUM, GRAIN", "Grain Sorghum"}},
		{"physical_county", "99003", []string{"99003", "99-003"}},
		{"physical_county", "99003A", []string{"99003A", "99003a"}},
		{"physical_county", "", []string{"99001", ""}},
		// Names and codes as FSA's county tables have them.
		{"physical_county", "19169", []string{"Story, Iowa", "Story County, IA", "story ia", "19169", "19-169", "Story"}},
		{"physical_county", "01001", []string{"01001", "1001", "Autauga, Alabama"}},
		{"county", "01001", []string{"01001", "1001", "1-001"}},
	} {
		for _, typed := range c.typed {
			t.Run(c.column+"="+typed, func(t *testing.T) {
				rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(but(cells{"payment_yield": "", c.column: typed})))))
				require.Empty(t, refused)
				require.Len(t, rows, 1)
				require.Equal(t, c.want, rows[0].Values()[slices.Index(Columns(), c.column)])
			})
		}
	}
	for _, state := range []string{"1", "01", "AL", "al", "Alabama", "ALABAMA", "1.0"} {
		rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(but(cells{"state": state, "county": "1"})))))
		require.Empty(t, refused)
		require.Equal(t, "01001", rows[0].County, "state %q", state)
	}
}

// Without an operation a row belongs to its client, without both to all rows.
func TestOperationOfARow(t *testing.T) {
	rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(
		but(cells{}), but(cells{"operation": ""}), but(cells{"operation": "", "client": ""})))))
	require.Empty(t, refused)
	require.Equal(t, []string{"home farms", "client 12", AllRows}, []string{rows[0].Operation, rows[1].Operation, rows[2].Operation})
}

// Columns and sheets not read are reported once.
func TestNotes(t *testing.T) {
	r, err := farmfile.Open(put(t, "farms.csv", "farm,county,remark,commodity,base_acres,Remark,remark\n"), nil)
	require.NoError(t, err)
	defer r.Close()
	require.Equal(t, []string{`column "remark" is not known and not read`, `column "Remark" is not known and not read`}, r.Notes())
	_, _, err = r.Next()
	require.Equal(t, io.EOF, err)
}

// A file that is no table is refused as a whole.
func TestFilesThatAreNoTable(t *testing.T) {
	for _, c := range []struct{ why, name, content, reason string }{
		{"another ending", "farms.ods", "", "no ending of a table"},
		{"an empty file", "farms.csv", "", "the table is empty"},
		{"blank lines alone", "farms.csv", "\n,,\n", "the table is empty"},
		{"no headings", "farms.csv", "417,99001,corn,100\n", "no column is headed base_acres"},
		{"a heading twice", "farms.csv", "farm,county,commodity,base_acres,Base Acres\n", "two columns are headed base_acres"},
		{"text of two bytes a letter without its mark", "farms.csv", "f\x00a\x00r\x00m\x00", "not text in UTF-8"},
		{"text of two bytes a letter", "farms.csv", "\xff\xfef\x00a\x00r\x00m\x00", "no column is headed base_acres"},
		{"headings with a loose quotation mark", "farms.csv", "fa\"rm,county\n", "line of headings"},
		{"an old workbook", "farms.xlsx", "\xD0\xCF\x11\xE0...", "old .xls workbook"},
		{"text with the ending of a workbook", "farms.xlsx", "farm,county\n", "not an .xlsx workbook"},
		{"text with the ending of a parquet file", "farms.parquet", "farm,county\n", "parquet file cannot be read"},
		{"an empty parquet file", "farms.parquet", "", "parquet file cannot be read"},
	} {
		t.Run(c.why, func(t *testing.T) {
			_, err := farmfile.Open(put(t, c.name, c.content), nil)
			wantMistake(t, err, c.reason)
		})
	}
	for _, name := range []string{"a.csv", "a.xlsx", "a.parquet"} {
		_, err := farmfile.Open(fmt.Sprintf("%s/%s", t.TempDir(), name), nil)
		wantMistake(t, err, "cannot be read")
	}
}

// A quotation mark that is never closed does not draw the file into memory.
func TestEndlessRow(t *testing.T) {
	long := make([]byte, 3*MostRecord)
	for i := range long {
		long[i] = 'x'
	}
	_, _, err := readTable(put(t, "farms.csv", "farm,county,commodity,base_acres\n1,99001,corn,\""+string(long)))
	wantMistake(t, err, "more than 1048576 bytes")
}
