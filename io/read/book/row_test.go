package book

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A row of an invented county and its prices, as an import leaves them; what each test does
// to them comes after.
const soundRows = `
	INSERT INTO file (id, name, sha256, agency, layout, subject, edition, imported, figures) VALUES
		(1, 'table.xlsx', '0000000000000000000000000000000000000000000000000000000000000001', 'FSA', 'ARC-CO county table', 'program year 2025', '2025-02-10', '2026-11-25', 7),
		(2, 'prices.csv', '0000000000000000000000000000000000000000000000000000000000000002', 'WASDE', 'report CSV', 'national prices', '2026-11-10', '2026-11-25', 1);
	INSERT INTO county VALUES ('99001', 'Alder', 1);
	INSERT INTO series VALUES (1, '99001', 'FSA', 'corn', 'all', 'adjusted'), (2, '99001', 'FSA', 'corn', 'all', 'benchmark_yield'), (3, '99001', 'FSA', 'corn', 'all', 'actual');
	INSERT INTO value VALUES (1, 2025, 0, 171, 1, 2), (1, 2025, 1, 172, 1, 2), (1, 2025, 2, 173, 1, 2), (1, 2025, 3, 174, 1, 2), (1, 2025, 4, 175, 1, 2), (2, 2025, 0, 173, 1, 2), (3, 2023, 0, 180, 1, 2);
	INSERT INTO price VALUES ('corn', 2026, 'WASDE projected', 4.55, 2, 3);`

// fileAfter is the file of bookAfter.
func fileAfter(t *testing.T, statements string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "counties.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(schema + soundRows + statements); err != nil {
		t.Fatal(err)
	}
	db.Close()
	return path
}

// bookAfter is a sound book that statements were carried out on, behind the program's back.
func bookAfter(t *testing.T, statements string) *Book {
	t.Helper()
	b, err := Open(fileAfter(t, statements), false)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// A sound book is used and found right.
func TestSoundRows(t *testing.T) {
	b := bookAfter(t, "")
	sources, err := b.Sources("99")
	if err != nil || len(sources) != 1 || len(sources[0].Notes) != 0 {
		t.Fatalf("%+v, %v", sources, err)
	}
	y := sources[0].Counties["99001"].Yields[0]
	if y.Adjusted[2025] != [5]crop.Yield{171, 172, 173, 174, 175} || y.BenchmarkYield[2025] != 173 || y.Actual[2023] != 180 {
		t.Errorf("%+v", y)
	}
	if m, ok, err := b.Market(); err != nil || !ok || m.Outlook[crop.Corn][2026].Value != 4.55 {
		t.Errorf("%+v, %v, %v", m, ok, err)
	}
	v, err := b.Verify()
	if err != nil || v.Files != 2 || v.Figures != 7 || v.Prices != 1 || len(v.LeftOut) != 0 {
		t.Errorf("%+v, %v", v, err)
	}
}

// What no agency's file can give refuses the book wherever it is read, with the place, the
// value and what to do: numbers that are none, negative ones, years, places and words that
// are not known.
func TestImpossibleRowsAreRefused(t *testing.T) {
	const set = "UPDATE value SET number = "
	for name, c := range map[string]struct{ statement, reason string }{
		"negative":             {set + "-50 WHERE series = 3", "FSA corn actual in county 99001, crop year 2023 is -50 (from table.xlsx line 2)"},
		"not a number":         {set + "'NaN' WHERE series = 3", "crop year 2023 is NaN"},
		"infinite":             {set + "9e999 WHERE series = 2", "corn benchmark yield in county 99001, crop year 2025 is +Inf"},
		"infinite as text":     {set + "'-inf' WHERE series = 1", "adjusted in county 99001, crop year 2025 is -Inf"},
		"text":                 {set + "'a lot' WHERE series = 3", "a row cannot be read: county 99001, name Alder, agency FSA, crop corn, practice all, kind actual, crop year 2023, place 0, number a lot"},
		"bytes":                {set + "x'00ff' WHERE series = 3", "a row cannot be read"},
		"huge":                 {set + "1e300 WHERE series = 3", "is 1e+300"},
		"place 5":              {"UPDATE value SET slot = 5 WHERE series = 1 AND slot = 4", "has place 5 among its yields"},
		"place -1":             {"UPDATE value SET slot = -1 WHERE series = 1 AND slot = 4", "has place -1"},
		"place of a single":    {"UPDATE value SET slot = 1 WHERE series = 3", "FSA corn actual in county 99001, crop year 2023 has place 1"},
		"place as text":        {"UPDATE value SET slot = 'first' WHERE series = 3", "place first"},
		"year 0":               {"UPDATE value SET crop_year = 0 WHERE series = 3", "the crop year of FSA corn actual in county 99001 is 0"},
		"year 9999":            {"UPDATE value SET crop_year = 9999 WHERE series = 2", "is 9999"},
		"half a year":          {"UPDATE value SET crop_year = 2023.5 WHERE series = 3", "crop year 2023.5"},
		"not covered":          {"UPDATE series SET commodity = 'seed_cotton' WHERE id = 2; UPDATE value SET crop_year = 2014, number = 900 WHERE series = 2", "no covered crop in crop year 2014"},
		"crop":                 {"UPDATE series SET commodity = 'maize' WHERE id = 3", `crop "maize" is not known`},
		"practice":             {"UPDATE series SET practice = 'wet' WHERE id = 3", `practice "wet" is not known`},
		"kind":                 {"UPDATE series SET kind = 'guess' WHERE id = 3", `kind "guess" of FSA is not known`},
		"kind of another":      {"UPDATE series SET agency = 'RMA' WHERE id = 3", `kind "actual" of RMA is not known`},
		"agency":               {"UPDATE series SET agency = 'me' WHERE id = 3", `agency "me" is not known`},
		"county code":          {"UPDATE series SET county = '99' WHERE id = 3", `a county code is "99"`},
		"control letters":      {"UPDATE county SET name = 'A' || char(27) || '[2J'", `the name of county 99001 is "A\x1b[2J"`},
		"a long name":          {"UPDATE county SET name = printf('%.200c', 'x')", "the name of county 99001 is"},
		"price not a number":   {"UPDATE price SET number = 'nan'", "the WASDE projected of corn, crop year 2026, is NaN"},
		"price below 0":        {"UPDATE price SET number = -4", "is -4"},
		"price of cents":       {"UPDATE price SET number = 455", "unit_suspect"},
		"price of no crop":     {"UPDATE price SET commodity = 'gold'", `crop "gold" of a price is not known`},
		"price of a far year":  {"UPDATE price SET crop_year = 3000", "is 3000"},
		"price of no kind":     {"UPDATE price SET kind = 'WASDE wish'", `kind "WASDE wish"`},
		"weight above 1":       {"UPDATE price SET kind = 'NASS weight 2026-09', number = 7", "is 7"},
		"edition":              {"UPDATE file SET edition = 'soon' WHERE id = 2", `is "soon"`},
		"price without number": {"UPDATE price SET number = 'dear'", "price dear"},
	} {
		b := bookAfter(t, c.statement)
		_, err := b.Sources("99")
		if _, _, of := b.Market(); err == nil {
			err = of
		}
		_, verified := b.Verify()
		for of, err := range map[string]error{"asked": err, "verified": verified} {
			var mistakes farm.Mistakes
			switch {
			case !errors.As(err, &mistakes):
				t.Errorf("%s: %s: %v", name, of, err)
			case !strings.Contains(mistakes.Error(), c.reason) || mistakes[0].File != b.Path() || !strings.Contains(mistakes[0].Hint, "county import FILE --book"):
				t.Errorf("%s: %s: %+v, want %q", name, of, mistakes, c.reason)
			}
		}
	}
}

// A yield that is a number and cannot be right, as the agencies' tables have some, is left
// out and told; one of five takes the other four with it. Base acres are no yields.
func TestImplausibleYieldsAreLeftOut(t *testing.T) {
	b := bookAfter(t, `UPDATE value SET number = 862.14 WHERE series = 3 OR series = 1 AND slot = 2;
		INSERT INTO series VALUES (4, '99001', 'FSA', 'corn', 'all', 'base_acres'); INSERT INTO value VALUES (4, 2023, 0, 1200.5, 1, 9); UPDATE file SET figures = 8`)
	sources, err := b.Sources("99")
	if err != nil || len(sources) != 1 {
		t.Fatal(sources, err)
	}
	y := sources[0].Counties["99001"].Yields[0]
	if len(y.Actual) != 0 || len(y.Adjusted) != 0 || y.BenchmarkYield[2025] != 173 || len(y.Harvested) != 0 {
		t.Errorf("%+v", y)
	}
	if notes := sources[0].Notes; len(notes) != 1 || !strings.Contains(notes[0], "2 of FSA ARC-CO county tables are not plausible and are left out") || !strings.Contains(notes[0], "county verify") {
		t.Errorf("notes %q", notes)
	}
	v, err := b.Verify()
	if err != nil || len(v.LeftOut) != 2 || v.Figures != 8 || !strings.Contains(strings.Join(v.LeftOut, "\n"), "FSA corn actual in county 99001, crop year 2023: 862.14 bu/acre is not plausible") {
		t.Errorf("%+v, %v", v, err)
	}
	b = bookAfter(t, "DELETE FROM value WHERE series = 1 AND slot = 3")
	if sources, err := b.Sources("99"); err != nil || len(sources[0].Counties["99001"].Yields[0].Adjusted) != 0 {
		t.Errorf("four of five yields are taken: %+v, %v", sources, err)
	}
}

// Many wrong rows are told at once, up to a bound.
func TestManyWrongRows(t *testing.T) {
	b := bookAfter(t, "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 50) INSERT INTO value SELECT 3, 1900 + i, 0, -1, 1, i FROM n")
	_, err := b.Sources("99")
	var mistakes farm.Mistakes
	if !errors.As(err, &mistakes) || len(mistakes) != mostWrong || !strings.Contains(mistakes[mostWrong-1].Reason, "(and 30 more rows)") {
		t.Errorf("%d mistakes, %v", len(mistakes), err)
	}
}

// A book of no byte, one that is cut short or written over, a folder and a book with other
// columns are refused with what to do, and are not touched; the path is taken as it is
// written.
func TestDamagedBooks(t *testing.T) {
	sound := bookAfter(t, "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 120) INSERT INTO value SELECT 3, 1900 + i, 0, 100, 1, i FROM n WHERE i <> 123")
	text, err := os.ReadFile(sound.Path())
	if err != nil {
		t.Fatal(err)
	}
	torn := bytes.Clone(text)
	for i := 8192; i < len(torn); i++ {
		torn[i] = 0xA5
	}
	changed, _ := os.ReadFile(fileAfter(t, "ALTER TABLE value ADD COLUMN more"))
	for name, c := range map[string]struct {
		text         []byte
		reason, hint string
	}{
		"no byte":       {nil, "the county book is empty", "fill it with: fencerow county import FILE --book "},
		"a heading":     {text[:100], "", "import"},
		"a half":        {text[:len(text)/2], "damaged or cut short", "import the agencies' files again"},
		"no whole page": {text[:len(text)-1000], "", "import"},
		"torn":          {torn, "damaged or cut short", "import the agencies' files again"},
		"text":          {bytes.Repeat([]byte("no database "), 1000), "a file of another kind", "--book"},
		"more columns":  {changed, `its table "value" has other columns`, "--book"},
	} {
		path := filepath.Join(t.TempDir(), "counties.db")
		if err := os.WriteFile(path, c.text, 0o600); err != nil {
			t.Fatal(err)
		}
		b, err := Open(path, false)
		if err == nil {
			_, err = b.Sources("99")
			if _, verified := b.Verify(); err == nil {
				err = verified
			}
			b.Close()
		}
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Reason, c.reason) || !strings.Contains(mistakes[0].Hint, c.hint) || mistakes[0].File != path {
			t.Errorf("%s: %v", name, err)
		}
		if after, _ := os.ReadFile(path); !bytes.Equal(after, c.text) {
			t.Errorf("%s: the file was changed", name)
		}
	}
	folder := t.TempDir()
	for _, path := range []string{folder, os.DevNull} {
		if _, err := Open(path, true); !errors.Is(err, errForeign) {
			t.Errorf("%s is opened: %v", path, err)
		}
	}
	odd := filepath.Join(folder, "50% of? #1.db")
	b, err := Open(odd, true)
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	if entries, _ := os.ReadDir(folder); len(entries) != 1 || entries[0].Name() != filepath.Base(odd) {
		t.Errorf("the folder has %v", entries)
	}
}

// The columns that are asked for are those of the schema.
func TestColumnsOfSchema(t *testing.T) {
	if err := openNew(t).ours(); err != nil {
		t.Error(err)
	}
}

// Verify reads an agency's file once more: the same file is found as it is in the book, one
// figure changed by hand is named with both values, and another file has not been imported.
func TestVerifyAgainstTheFile(t *testing.T) {
	b := openNew(t)
	path := rmaLines(t, "150.10", "161.20", "148.00")
	importInto(t, b, path)
	if v, err := b.Verify(path); err != nil || len(v.Again) != 1 || v.Figures != 3 || v.Files != 1 {
		t.Errorf("%+v, %v", v, err)
	}
	for statement, reason := range map[string]string{
		"UPDATE value SET number = 190 WHERE crop_year = 2016":     "is 190 in the book, and 161.2 in RMACountyYields.csv line 3",
		"UPDATE value SET crop_year = 1999 WHERE crop_year = 2016": "line 3, which does not have it",
		"INSERT INTO value VALUES (1, 1990, 0, 100, 1, 9)":         "has 4 figures in the book, and 3 were imported from it",
		"UPDATE value SET file = 8 WHERE crop_year = 2016":         "1 figures belong to no imported file",
		"UPDATE value SET series = 8 WHERE crop_year = 2016":       "1 figures belong to no series",
		"UPDATE file SET sha256 = 'x'":                             `the checksum of RMACountyYields.csv is "x"`,
		"UPDATE file SET imported = ''":                            "one is no date",
	} {
		b := openNew(t)
		importInto(t, b, path)
		if _, err := b.db.Exec("PRAGMA foreign_keys = 0;" + statement); err != nil {
			t.Fatal(statement, err)
		}
		files := []string{path}
		if strings.Contains(statement, "sha256") {
			files = nil
		}
		var mistakes farm.Mistakes
		if _, err := b.Verify(files...); !errors.As(err, &mistakes) || !strings.Contains(mistakes.Error(), reason) {
			t.Errorf("%s: %v, want %q", statement, err, reason)
		}
	}
	var mistakes farm.Mistakes
	if _, err := b.Verify(rmaLines(t, "150.20")); !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Reason, "no file with its checksum") {
		t.Errorf("another file: %v", err)
	}
}

// A full disk is no fault of the book: it is refused with what to do, and the book is as
// it was.
func TestFullDisk(t *testing.T) {
	b := openNew(t)
	before := dump(t, b)
	if _, err := b.db.Exec("PRAGMA max_page_count = 12"); err != nil {
		t.Fatal(err)
	}
	lines, err := os.ReadFile(rmaLines(t, "150.10"))
	if err != nil {
		t.Fatal(err)
	}
	for county := 2; county < 400; county++ {
		lines = fmt.Appendf(lines, "0041, Corn, 99, Nowhere, ZZ, %03d, Alder, 003, Non-Irrigated, 2015, 150\r\n", county)
	}
	_, err = b.Import(write(t, "many.csv", string(lines)), day, false)
	var refused *Refused
	if !errors.As(err, &refused) || !strings.Contains(refused.Reason, "the disk is full") || refused.Hint == "" {
		t.Fatalf("%v", err)
	}
	if after := dump(t, b); after != before {
		t.Errorf("the book changed to %s", after)
	}
}
