package farmtable_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	. "fencerow/io/read/farmtable"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// readText reads a table in memory.
func readText(content string) (rows []Row, refused []Refusal, err error) {
	r, err := OpenText(strings.NewReader(content), counties)
	if err != nil {
		return nil, nil, err
	}
	for {
		row, why, err := r.Next()
		if err == io.EOF {
			return rows, refused, nil
		}
		if err != nil {
			return rows, refused, err
		}
		if refused = append(refused, why...); len(why) == 0 {
			rows = append(rows, row)
		}
	}
}

// written returns rows as the program writes them.
func written(rows []Row) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	if err := w.Write(Columns()); err != nil {
		return "", err
	}
	for _, row := range rows {
		if err := w.Write(row.Values()); err != nil {
			return "", err
		}
	}
	w.Flush()
	return b.String(), w.Error()
}

// survives returns why rows are not the same after writing and reading, or nil.
func survives(rows []Row) error {
	content, err := written(rows)
	if err != nil {
		return err
	}
	again, refused, err := readText(content)
	switch {
	case err != nil:
		return err
	case len(refused) > 0:
		return fmt.Errorf("refused again: %+v\n%s", refused, content)
	case !reflect.DeepEqual(withoutLines(rows), withoutLines(again)):
		return fmt.Errorf("read   %+v\nagain  %+v\n%s", rows, again, content)
	}
	return nil
}

// maybe draws a number or nothing.
func maybe(t *rapid.T, name string, most float64) *float64 {
	return rapid.Ptr(rapid.Custom(func(t *rapid.T) float64 {
		return float64(rapid.IntRange(0, 1_000_000).Draw(t, name)) / 1_000_000 * most
	}), true).Draw(t, name)
}

// drawRow draws a row that a table can hold.
func drawRow(t *rapid.T) Row {
	word := rapid.StringMatching(`[A-Za-z0-9=",;.'#%]([ A-Za-zé0-9=",;.'-]{0,12}[A-Za-z0-9=",;.'])?`).Filter(func(s string) bool {
		reason, _ := spelling.NameFault(s)
		return Typed(s) == s && !SpreadsheetError.MatchString(s) && reason == ""
	})
	name := func(what string) string { return rapid.OneOf(rapid.Just(""), word).Draw(t, what) }
	county := func(what string) string { return fmt.Sprintf("99%03d", rapid.IntRange(1, 999).Draw(t, what)) }
	r := Row{
		Client: name("client"), Farm: word.Draw(t, "farm"), County: county("county"), Tract: name("tract"),
		Commodity: rapid.SampledFrom(crop.Commodities()).Draw(t, "commodity"),
		CropYear:  rapid.SampledFrom([]int{0, 2019, 2026, 2031}).Draw(t, "crop year"),
		BaseAcres: rapid.Float64Range(0.01, 1e6).Draw(t, "acres"),
		Election:  rapid.SampledFrom([]farm.Program{"", farm.PLC, farm.ARCCO, farm.ARCIC}).Draw(t, "election"),
		Contract:  rapid.SampledFrom([]farm.Contract{"", farm.Open, farm.Signed, farm.Missed}).Draw(t, "contract"),
		Lease:     rapid.SampledFrom([]farm.Lease{"", farm.CashLease, farm.ShareLease, farm.FlexLease}).Draw(t, "lease"),
		Producer:  name("producer"), STAXBought: rapid.Ptr(rapid.Bool(), true).Draw(t, "stax"), Idle20092017: rapid.Ptr(rapid.Bool(), true).Draw(t, "idle"),
		IrrigatedShare: maybe(t, "irrigated", 1), Share: maybe(t, "share", 1), CRPReduction: maybe(t, "crp", 500),
		TotalAcres: maybe(t, "total", 1000), Cropland: maybe(t, "cropland", 1000), Unassigned: maybe(t, "unassigned", 10),
	}
	least, most := farm.YieldBounds(r.Commodity, farm.Usual)
	if rapid.Bool().Draw(t, "yield given") {
		r.PaymentYield = pointer(rapid.Float64Range(least, most).Draw(t, "yield"))
	}
	if other := county("physical county"); other != r.County {
		r.PhysicalCounty = other
	}
	if r.Operation = name("operation"); r.Operation == "" {
		r.Operation = r.Client
	}
	if r.Operation == "" {
		r.Operation = AllRows
	}
	return r
}

// What a table can hold survives writing and reading.
func TestRowsSurviveValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.Custom(drawRow), 1, 5).Draw(t, "rows")
		if err := survives(rows); err != nil {
			t.Fatal(err)
		}
	})
}

// Any text is read without a panic; what is accepted is read again the same
// from what the program writes; what is refused has line, reason and hint.
func FuzzCSV(f *testing.F) {
	var starts []string
	for _, c := range lineFaults {
		starts = append(starts, c.text)
	}
	for _, c := range refusals {
		starts = append(starts, text(f, grid(but(cells{"producer": "a", "share": "35%"}), but(c.changed))))
	}
	starts = append(starts, "sep=;\r\nFarm;State;County;Commodity;Base Acres;Share;remark\r\n=\"0417\";99;Alder County;CORN;$1,234.50;35 %;x\r\n;;;;;;\r\n")
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, content []byte) {
		rows, refused, err := readText(string(content))
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Fatalf("%v is not farm.Mistakes", err)
		}
		for _, m := range mistakes {
			if m.File == "" || m.Reason == "" || m.Hint == "" {
				t.Errorf("incomplete mistake %+v", m)
			}
		}
		for _, one := range refused {
			if one.Line < 1 || one.Reason == "" || one.Hint == "" {
				t.Errorf("incomplete refusal %+v", one)
			}
		}
		if err := survives(rows); err != nil {
			t.Error(err)
		}
		o, misfits := Assemble(rows)
		for _, one := range misfits {
			if one.Line < 1 || one.Column == "" || one.Reason == "" || one.Hint == "" {
				t.Errorf("incomplete refusal %+v", one)
			}
		}
		if err := sound.Finite(o); err != nil {
			t.Error(err)
		}
	})
}

// endless is a table of many rows that is never in memory.
type endless struct {
	rows int
	left []byte
}

func (e *endless) Read(into []byte) (int, error) {
	if len(e.left) == 0 {
		if e.rows == 0 {
			return 0, io.EOF
		}
		e.rows--
		e.left = []byte("client,home farms,0417,99001,corn,120.5,150\n")
	}
	n := copy(into, e.left)
	e.left = e.left[n:]
	return n, nil
}

// Memory does not grow with the file: ten times the rows keep no more.
func TestMemoryDoesNotGrow(t *testing.T) {
	kept := func(count int) uint64 {
		r, err := OpenText(io.MultiReader(strings.NewReader("client,operation,farm,county,commodity,base_acres,payment_yield\n"), &endless{rows: count}), nil)
		require.NoError(t, err)
		for range count {
			_, refused, err := r.Next()
			require.NoError(t, err)
			require.Empty(t, refused)
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		runtime.KeepAlive(r)
		return m.HeapAlloc
	}
	few, many := kept(3_000), kept(30_000)
	const slack = 2 << 20 // bytes; 27,000 rows would take three times that
	if many > few+slack {
		t.Errorf("%d bytes are kept after 3,000 rows, %d after 30,000", few, many)
	}
}
