package workbook

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
)

// officeVariable names the soffice program of a LibreOffice to check against.
const officeVariable = "FENCEROW_OFFICE"

// wrong is put in place of what formulas come to, so that a missing
// recalculation is noticed.
const wrong = 999

// alwaysRecalculate tells LibreOffice not to trust what formulas carry.
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// stale is a workbook whose formulas carry wrong figures, with what is right.
type stale struct {
	name string
	want map[cells.Place]float64
}

// LibreOffice comes to what package program comes to.
func TestForLibreOffice(t *testing.T) {
	office := os.Getenv(officeVariable)
	if office == "" {
		fmt.Printf("NOT CHECKED: the workbook's formulas in LibreOffice; set %s to its soffice\n", officeVariable)
		t.Skip()
	}
	const books = 20
	folder, out := t.TempDir(), t.TempDir()
	all := staleBooks(t, folder, books)
	converted(t, office, folder, out, all)
	checked, expected := 0, 0
	for _, b := range all {
		before, after := openedFile(t, filepath.Join(folder, b.name)), openedFile(t, filepath.Join(out, b.name))
		for at, want := range b.want {
			expected++
			if carried := carriedBy(t, before, at); carried != wrong {
				t.Fatalf("%s of %s carries %v before: a missing recalculation would go unseen", at.Absolute(), b.name, carried)
			}
			if got := carriedBy(t, after, at); math.Abs(got-want) > halfCent {
				t.Errorf("%s of %s: LibreOffice %v, program %v: %s", at.Absolute(), b.name, got, want, at.On.Rows[at.Row-1][at.Column-1].Formula)
				continue
			}
			checked++
		}
	}
	fmt.Printf("checked %d of %d formula cells of %d workbooks in LibreOffice\n", checked, expected, books)
	if checked != expected || expected == 0 {
		t.Errorf("%d of %d", checked, expected)
	}
}

// staleBooks writes workbooks with random figures typed in and wrong results.
func staleBooks(t *testing.T, folder string, n int) []stale {
	t.Helper()
	a := ask(t, testCase())
	r := rand.New(rand.NewPCG(3, 4))
	var all []stale
	for i := range n {
		sheets, want, _ := typedBook(a, r)
		found := cells.FormulaValues{}
		for _, s := range sheets {
			for at := range s.Formulas() {
				found[at] = wrong
			}
		}
		var buffer bytes.Buffer
		if err := cells.Write(&buffer, sheets, found); err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("book%02d.xlsx", i)
		if err := os.WriteFile(filepath.Join(folder, name), buffer.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		all = append(all, stale{name, want})
	}
	return all
}

// converted has LibreOffice open the workbooks and save them anew.
func converted(t *testing.T, office, folder, out string, all []stale) {
	t.Helper()
	profile := t.TempDir()
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(alwaysRecalculate), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"--headless", "-env:UserInstallation=file://" + filepath.ToSlash(profile), "--convert-to", "xlsx", "--outdir", out}
	for _, b := range all {
		args = append(args, filepath.Join(folder, b.name))
	}
	if text, err := exec.Command(office, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
}

func openedFile(t *testing.T, path string) *excelize.File {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return opened(t, data)
}

// carriedBy is the figure that a cell carries in its file.
func carriedBy(t *testing.T, f *excelize.File, at cells.Place) float64 {
	t.Helper()
	text, err := f.GetCellValue(at.On.Title, at.Address(), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("%s carries %q", at.Absolute(), text)
	}
	return x
}
