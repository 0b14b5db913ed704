package front

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
)

// Variables that name the soffice program of a LibreOffice, and a Python with openpyxl.
const (
	officeVariable = "FENCEROW_OFFICE"
	readerVariable = "FENCEROW_OPENPYXL"
)

// addRow fills in the first spare row of Counties with a county of the user's own, whose
// outcomes follow a row that is there.
func (b *Book) addRow(t *testing.T, county string, like explain.CountyRow, used usedFigures, r *rand.Rand) usedFigures {
	t.Helper()
	row := b.blocks[0].lastStart + 1
	at := func(column int) cells.Place { return cells.At(b.Counties, column, row) }
	put(at(rowCounty), county)
	put(at(rowCrop), like.Commodity.Name())
	put(at(rowPractice), practiceWord(like.Practice.Practice))
	var five [5]float64
	for i := range five {
		five[i] = program.Round(used.yield*(0.9+0.2*r.Float64()), 2)
		put(at(rowAdjusted+i), five[i])
	}
	used.benchmarkYield = program.BenchmarkYield(five, used.crop.Working.Terms.YieldDecimals)
	used.yield, used.plcYield = program.Round(used.yield*0.97, 1), program.Round(used.plcYield*1.1, 0)
	put(at(rowYield), used.yield)
	put(at(rowPLCYield), used.plcYield)
	put(at(rowFollows), shownCounties(b.first().Rows)[like.County]+" / "+cropShown(like.Commodity, practiceWord(like.Practice.Practice)))
	return used
}

// wrong is put in place of what formulas come to, so that a missing recalculation is seen.
const wrong = 999

// alwaysRecalculate tells LibreOffice not to trust what formulas carry.
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// LibreOffice's odds follow what is chosen and typed as package program has them, rows
// that are added too, and all its cells are those that the file carries.
func TestFrontInLibreOffice(t *testing.T) {
	office := os.Getenv(officeVariable)
	if office == "" {
		fmt.Printf("NOT CHECKED: Front's odds in LibreOffice; set %s to its soffice\n", officeVariable)
		t.Skip()
	}
	ways := 10
	switch {
	case invented.LongRun:
		ways = 50
	case invented.UnderRace:
		ways = 2
	}
	years, r := testYears(t), rand.New(rand.NewPCG(11, 12))
	folder, out := t.TempDir(), t.TempDir()
	var tried []way
	var books []*Book
	for i := range ways {
		b := Lay(years)
		tried, books = append(tried, tryRandomly(t, b, r)), append(books, b)
		if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("way%02d.xlsx", i)), written(t, b, stale(b)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	converted(t, office, folder, out, ways)
	figures, equal, carried := 0, 0, 0
	for i, w := range tried {
		f, err := excelize.OpenFile(filepath.Join(out, fmt.Sprintf("way%02d.xlsx", i)))
		if err != nil {
			t.Fatal(err)
		}
		for name, want := range w.used.figures() {
			figures++
			if got := number(t, f, books[i].figure(t, name)); !near(name, got, want) {
				t.Errorf("%s: %s is %v in LibreOffice, package program says %v", w.what, name, got, want)
				continue
			}
			equal++
		}
		carried += sameAsOurs(t, f, books[i], w.what)
		f.Close()
	}
	fmt.Printf("checked %d of %d figures of Front in LibreOffice, used in %d random ways, and %d cells as the file carries them\n", equal, figures, ways, carried)
	if equal != figures || figures != ways*len(frontFigures) {
		t.Error("some are not equal")
	}
}

// stale are wrong results for all formulas.
func stale(b *Book) cells.FormulaValues {
	found := cells.FormulaValues{}
	for _, s := range b.all() {
		for at := range s.Formulas() {
			found[at] = float64(wrong)
		}
	}
	return found
}

// converted has LibreOffice open the workbooks and save them anew.
func converted(t *testing.T, office, folder, out string, n int) {
	t.Helper()
	profile := t.TempDir()
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(alwaysRecalculate), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"--headless", "-env:UserInstallation=file://" + filepath.ToSlash(profile), "--convert-to", "xlsx", "--outdir", out}
	for i := range n {
		args = append(args, filepath.Join(folder, fmt.Sprintf("way%02d.xlsx", i)))
	}
	if text, err := exec.Command(office, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
}

func raw(t *testing.T, f *excelize.File, at cells.Place) string {
	t.Helper()
	text, err := f.GetCellValue(at.On.Title, at.Address(), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func number(t *testing.T, f *excelize.File, at cells.Place) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(raw(t, f, at), 64)
	if err != nil {
		t.Fatalf("%s carries %q", at.Absolute(), raw(t, f, at))
	}
	return x
}

// sameAsOurs counts the formulas that LibreOffice works out as this package does: texts
// alike, numbers to a millionth.
func sameAsOurs(t *testing.T, f *excelize.File, b *Book, what string) (same int) {
	t.Helper()
	ours, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	const most = 1e-6
	for at, want := range ours {
		got, off := raw(t, f, at), false
		switch x := want.(type) {
		case string:
			off = got != x
		case float64:
			y, err := strconv.ParseFloat(got, 64)
			off = err != nil || math.Abs(x-y) > most*max(1, math.Abs(x))
		}
		if off {
			t.Errorf("%s: %s is %q in LibreOffice, %v here: %s", what, at.Absolute(), got, want, at.Cell().Formula)
			continue
		}
		same++
	}
	return same
}

// Another library opens the file without a warning and finds its sheets, names and checks.
func TestAnotherReaderOpensIt(t *testing.T) {
	python := os.Getenv(readerVariable)
	if python == "" {
		fmt.Printf("NOT CHECKED: the workbook in openpyxl; set %s to a Python that has it\n", readerVariable)
		t.Skip()
	}
	b := Lay(testYears(t))
	found, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "book.xlsx")
	if err := os.WriteFile(path, written(t, b, found), 0o600); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	c := exec.Command(python, "-W", "error", filepath.Join("testdata", "open.py"), path)
	c.Stdout, c.Stderr = &stdout, &stderr
	if err := c.Run(); err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	const want = "opens on Front; hidden: Lists, Outcomes; lists: listed_counties, listed_crops; price of plausible size: price_least to price_most; all checks: equal\n"
	if stdout.String() != want {
		t.Errorf("it finds %q, want %q", stdout.String(), want)
	}
	fmt.Println("checked 1 of 1 workbooks opened by openpyxl with warnings as errors")
}
