package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fencerow/io/read/table"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// childVariable makes the test binary import one file and end: "FILE|BOOK".
const childVariable = "FENCEROW_BOOK_CHILD"

func TestMain(m *testing.M) {
	if file, path, is := strings.Cut(os.Getenv(childVariable), "|"); is {
		b, err := Open(path, true)
		if err == nil {
			_, err = b.Import(file, day, false)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// day is the date of the imports of these tests.
var day = time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC)

func importInto(t testing.TB, b *Book, path string) Imported {
	t.Helper()
	done, err := b.Import(path, day, false)
	if err != nil {
		t.Fatal(err)
	}
	return done
}

// dump writes every table of a book in one order, to compare books.
func dump(t testing.TB, b *Book) string {
	t.Helper()
	var out strings.Builder
	for _, query := range []string{
		"SELECT name || '|' || subject || '|' || edition || '|' || figures || '|' || (replaced_by IS NULL) FROM file ORDER BY id",
		"SELECT code || '|' || name FROM county ORDER BY code",
		"SELECT s.county || '|' || s.agency || '|' || s.commodity || '|' || s.practice || '|' || s.kind || '|' || v.crop_year || '|' || v.slot || '|' || v.number || '|' || v.line FROM series s JOIN value v ON v.series = s.id ORDER BY 1",
		"SELECT commodity || '|' || crop_year || '|' || kind || '|' || number FROM price ORDER BY 1",
	} {
		rows, err := b.db.Query(query)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			var line string
			if err := rows.Scan(&line); err != nil {
				t.Fatal(err)
			}
			fmt.Fprintln(&out, line)
		}
		rows.Close()
	}
	return out.String()
}

// rmaLines is a small RMA report of an invented county (state code 99).
func rmaLines(t testing.TB, yields ...string) string {
	t.Helper()
	text := "Commodity Code,Commodity Name,State Code,State Name,State Abbreviation,County Code,County Name,Irrigation Practice Code,Irrigation Practice Name,Yield Year,Yield Amount\r\n"
	for i, y := range yields {
		text += fmt.Sprintf("0041, Corn, 99, Nowhere, ZZ, 001, Alder, 003, Non-Irrigated, %d, %s\r\n", 2015+i, y)
	}
	return write(t, "RMACountyYields.csv", text)
}

func write(t testing.TB, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// The same file again changes nothing.
func TestImportTwiceChangesNothing(t *testing.T) {
	b := openNew(t)
	path := rmaLines(t, "150.10", "161.20", "148.00")
	if done := importInto(t, b, path); done.Figures != 3 || done.Already {
		t.Errorf("first import: %+v", done)
	}
	before := dump(t, b)
	if done := importInto(t, b, path); !done.Already || done.Figures != 3 {
		t.Errorf("second import: %+v", done)
	}
	if after := dump(t, b); after != before {
		t.Errorf("the book changed:\n%s\nto\n%s", before, after)
	}
}

// A file that is not understood leaves the book as it was; with strict so does a
// file with one bad line, which is otherwise named and passed over.
func TestRefusedFilesChangeNothing(t *testing.T) {
	b := openNew(t)
	before := dump(t, b)
	bad := rmaLines(t, "150.10", "a lot")
	var mistakes farm.Mistakes
	for name, path := range map[string]string{"unknown headings": write(t, "x.csv", "a,b,c\n1,2,3\n"), "empty": write(t, "y.csv", ""), "binary": write(t, "z.csv", "\x00\x01\x02\n\xff\xfe")} {
		if _, err := b.Import(path, day, false); !errors.As(err, &mistakes) || mistakes[0].Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := b.Import(bad, day, true); !errors.As(err, &mistakes) {
		t.Errorf("strict: %v", err)
	}
	if after := dump(t, b); after != before {
		t.Errorf("the book changed to\n%s", after)
	}
	if done := importInto(t, b, bad); done.Figures != 1 || done.Noted != 1 || !strings.Contains(done.Notes[0], "line 3") {
		t.Errorf("forgiving: %+v", done)
	}
}

// A newer edition of a county table takes the place of the older, whose entry
// stays; an older one is kept on record only.
func TestNewerEditionsReplaceOlder(t *testing.T) {
	needsShared(t, sharedFSA)
	early, _ := countyWorkbook(t, "2023", "ARCCO 2023 (2024-05-01)", 500)
	late, _ := countyWorkbook(t, "2023", "ARCCO 2023 (2025-02-03)", 600)
	for name, order := range map[string][2]string{"early first": {early, late}, "late first": {late, early}} {
		b := openNew(t)
		importInto(t, b, order[0])
		second := importInto(t, b, order[1])
		if (second.Took != "") != (order[1] == late) || second.Older != (order[1] == early) {
			t.Errorf("%s: %+v", name, second)
		}
		files, err := b.Files()
		if err != nil || len(files) != 2 {
			t.Fatal(err, files)
		}
		var rows int
		if err := b.db.QueryRow("SELECT COUNT(*) FROM value v JOIN series s ON s.id = v.series WHERE s.kind = 'benchmark_yield'").Scan(&rows); err != nil || rows != 600 {
			t.Errorf("%s: %d benchmark yields, want those of the later edition, 600 (%v)", name, rows, err)
		}
	}
}

// Two processes may write at once: the second waits.
func TestTwoProcesses(t *testing.T) {
	b := openNew(t)
	first, second := rmaLines(t, "150.10"), rmaLines(t, "150.10", "161.20")
	tx, err := b.db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	child := childImport(t, first, b.Path())
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(300 * time.Millisecond)
	if err := tx.Rollback(); err != nil {
		t.Fatal(err)
	}
	if err := child.Wait(); err != nil {
		t.Fatal("the second process did not wait: ", err)
	}
	importInto(t, b, second)
	if files, err := b.Files(); err != nil || len(files) != 2 {
		t.Errorf("%d files, %v", len(files), err)
	}
}

func childImport(t testing.TB, file, path string) *exec.Cmd {
	t.Helper()
	child := exec.CommandContext(context.Background(), os.Args[0])
	child.Env = append(os.Environ(), childVariable+"="+file+"|"+path)
	child.Stderr = os.Stderr
	return child
}

// Killed at random points the book stays sound, holds a file whole or not at
// all, and the next import completes it.
func TestKilledImports(t *testing.T) {
	const kills = 50
	report := filepath.Join("..", "..", "..", "..", "shared", "data", "rma", "RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz")
	needsShared(t, report)
	path := filepath.Join(t.TempDir(), "counties.db")
	start := time.Now()
	whole := childImport(t, report, filepath.Join(t.TempDir(), "whole.db"))
	if err := whole.Run(); err != nil {
		t.Fatal(err)
	}
	takes := time.Since(start)
	random := rand.New(rand.NewPCG(1, 1))
	cut := 0
	for range kills {
		child := childImport(t, report, path)
		child.Stderr = nil
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.Float64() * float64(takes)))
		child.Process.Kill()
		child.Wait()
		if _, err := os.Stat(path); err != nil {
			continue // killed before the book was begun
		}
		b, err := Open(path, true)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Check(); err != nil {
			t.Fatal("after a kill: ", err)
		}
		var files, figures int
		if err := b.db.QueryRow("SELECT (SELECT COUNT(*) FROM file), (SELECT COUNT(*) FROM value)").Scan(&files, &figures); err != nil {
			t.Fatal(err)
		}
		if files == 0 && figures == 0 {
			cut++
		} else if files != 1 || figures != rmaFigures {
			t.Fatalf("%d files with %d figures", files, figures)
		}
		b.Close()
		if files == 1 {
			os.Remove(path)
		}
	}
	b, err := Open(path, true)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if done := importInto(t, b, report); done.Figures != rmaFigures {
		t.Errorf("the last import has %d figures", done.Figures)
	}
	fmt.Printf("killed imports: checked %d of %d, %d of them before the end\n", kills, kills, cut)
	if cut < kills/5 {
		t.Errorf("only %d of %d kills fell into the import", cut, kills)
	}
}

// rmaFigures is counted by
//
//	zcat RMACountyYieldsReport_*.csv.gz | awk 'NR>1' | wc -l
const rmaFigures = 34_712

// The whole county table of 2023, written in the agency's layout, is read back
// cell by cell, and the book has as many figures as a second program counts:
//
//	zcat arcco_county_py2019_2025.csv.gz | awk -F, '$1==2023{r++; for(i=9;i<=14;i++) if($i!="")f++; if($19!="")f++} END{print r, f}'
//	18153 127059
//	... | awk -F, '$1==2023{print $2 $5}' | sort -u | wc -l
//	2743
func TestWholeCountyTable(t *testing.T) {
	const rows, figures, counties = 18_153, 127_059, 2_743
	needsShared(t, sharedFSA)
	path, written := countyWorkbook(t, "2023", "ARCCO 2023 (2025-02-03)", 0)
	if written != rows {
		t.Fatalf("%d rows written", written)
	}
	_, read, notes, err := table.ReadSheet(path)
	if err != nil || len(notes) > 0 || len(read) != rows {
		t.Fatalf("%d rows, %d notes, %v", len(read), len(notes), err)
	}
	cells, i := 0, 0
	sharedRows(t, sharedFSA, func(r map[string]string) {
		if r["program_year"] != "2023" {
			return
		}
		got := read[i]
		i++
		if got.Code != r["st_cty"]+r["sub_county"] || !strings.EqualFold(strings.ReplaceAll(string(got.Practice), "all", "All"), r["yield_designation"]) {
			t.Fatalf("row %d is %s %s, want %v", i, got.Code, got.Practice, r)
		}
		for column, figure := range map[string]*float64{"yield_lag6": got.Adjusted[0], "yield_lag2": got.Adjusted[4], "benchmark_yield": got.BenchmarkYield, "benchmark_price": got.BenchmarkPrice,
			"benchmark_revenue": got.BenchmarkRevenue, "guarantee_revenue": got.Guarantee, "max_payment_rate": got.MaximumRate, "actual_yield": got.ActualYield, "national_price": got.NationalPrice, "payment_rate": got.PaymentRate} {
			var want float64
			_, err := fmt.Sscan(r[column], &want)
			if (err != nil) != (figure == nil) || figure != nil && *figure != want {
				t.Fatalf("row %d, %s: %v, want %q", i, column, figure, r[column])
			}
			cells++
		}
	})
	b := openNew(t)
	done := importInto(t, b, path)
	listed, err := b.List("")
	if err != nil || done.Figures != figures || len(listed) != counties || done.Edition != "2025-02-03" {
		t.Errorf("%d figures of %d counties, edition %s, %v; want %d of %d", done.Figures, len(listed), done.Edition, err, figures, counties)
	}
	fmt.Printf("county table 2023: checked %d of %d rows, %d cells, %d figures in the book\n", i, rows, cells, done.Figures)
}

// NASS's county yields, written in the layout of the bulk file, come in as a
// second program counts them (without net-planted yields and other counties):
//
//	zcat county_yields_1980_2025.csv.gz | awk -F'"' 'NR>1 && $2 ~ /MEASURED IN BU \/ ACRE$/ && $1 !~ /^[0-9]+,998,/' | wc -l
//	399309
func TestWholeNASSFile(t *testing.T) {
	const lines, figures = 476_285, 399_309
	needsShared(t, sharedNASS)
	path, written := nassBulk(t)
	b := openNew(t)
	done := importInto(t, b, path)
	if written != lines || done.Figures != figures || done.Noted != 0 || done.Edition != "2026-06-27" {
		t.Errorf("%d lines written; %+v; want %d figures", written, done, figures)
	}
	// McLean, Illinois, 2025, as the web download prints it: 243.1
	sources, err := b.Sources("17113")
	if err != nil || len(sources) != 1 {
		t.Fatal(err, sources)
	}
	for _, y := range sources[0].Counties["17113"].Yields {
		if y.Commodity == crop.Corn && y.Practice == farm.AllPractices && y.Harvested[2025] != 243.1 {
			t.Errorf("corn 2025 is %v, want 243.1", y.Harvested[2025])
		}
	}
	fmt.Printf("NASS bulk layout: checked %d of %d figures\n", done.Figures, figures)
}

// The agency's own small workbooks: prices come in with their date, others are
// named and refused, an old .xls with its sentence.
func TestGenuineWorkbooks(t *testing.T) {
	raw := filepath.Join("..", "..", "..", "..", "shared", "data", "fsa", "raw")
	needsShared(t, raw)
	b := openNew(t)
	for name, want := range map[string]struct {
		figures int
		edition string
	}{
		"MYA_2024.xlsx": {161, "2025-04-10"}, "ERP_2025.xlsx": {115, "2024-12-31"}, "PLC_2024.xlsx": {23, "2025-01-10"}, "ARC_CO_2024.xlsx": {23, "2025-04-10"},
		"arcco_county_py2023_five_states_cut.xlsx": {14_222, "2025-02-03"},
	} {
		if done := importInto(t, b, filepath.Join(raw, name)); done.Figures != want.figures || done.Edition != want.edition || done.Noted != 0 {
			t.Errorf("%s: %+v, want %+v", name, done, want)
		}
	}
	for name, says := range map[string]string{
		"2024_enrolled_base_web.xlsx": "enrolled base acres", "ARCCO_19_23.xlsx": "payments by State", "ARC_IC_2024.xlsx": "ARC-IC prices", "ARC_CO_2019.xls": "old .xls",
	} {
		var mistakes farm.Mistakes
		if _, err := b.Import(filepath.Join(raw, name), day, false); !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Reason, says) {
			t.Errorf("%s: %v, want a refusal that says %q", name, err, says)
		}
	}
	// FSA's first final price of sorghum 2022 is 5.94; the 2024 corn price was a
	// projection of 4.35 in Table 1 of April 2025.
	m, ok, err := b.Market()
	if err != nil || !ok || m.MYA[crop.GrainSorghum][2022].Value != 5.94 || m.Outlook[crop.Corn][2024].Value != 4.35 || m.MYA[crop.SeedCotton][2023].Value != 0.3949 {
		t.Errorf("market %+v, %v", m, err)
	}
}

// A newer projection and a first final price win, whatever the order of imports.
func TestPricesByEdition(t *testing.T) {
	csv := func(number int, release, year, flag string, price float64) string {
		return write(t, fmt.Sprintf("wasde-%d.csv", number), fmt.Sprintf("WasdeNumber,ReportDate,ReportTitle,Attribute,ReliabilityProjection,Commodity,Region,MarketYear,ProjEstFlag,AnnualQuarterFlag,Value,Unit,ReleaseDate,ReleaseTime,ForecastYear,ForecastMonth\n"+
			"%d,November 2026,U.S. Feed Grain and Corn Supply and Use,Avg. Farm Price,,Corn,United States,%s,%s,Annual,%.2f,$/bu,%s,12:00:00,2026,11\n", number, year, flag, price, release))
	}
	early, late := csv(675, "2026-09-11", "2026/27", "Proj.", 4.80), csv(677, "2026-11-10", "2026/27", "Proj.", 4.55)
	for _, order := range [][]string{{early, late}, {late, early}} {
		b := openNew(t)
		for _, path := range order {
			importInto(t, b, path)
		}
		m, ok, err := b.Market()
		if got := m.Outlook[crop.Corn][2026]; err != nil || !ok || got.Value != 4.55 || got.AsOf.Format(time.DateOnly) != "2026-11-10" {
			t.Errorf("%v: %+v, %v", order, got, err)
		}
	}
}

// Base acres by county: with codes as in 2014, with names alone as from 2021 on.
func TestBaseAcres(t *testing.T) {
	b := openNew(t)
	importInto(t, b, rmaLines(t, "150.10")) // the book knows the name of county 99001
	stateCodes["NOWHERE"] = "99"
	defer delete(stateCodes, "NOWHERE")
	named := sheetOf(t, [][]any{{"Program Year", "Admin State", "Admin County", "Crop Base Name", "Crop Base Acres"},
		{2023, "Nowhere", "Alder", "CORN", 1200.5}, {2023, "Nowhere", "Alder", "SEED COTTON-UPLAND - Blank", 10}, {2023, "Nowhere", "Birch", "CORN", 7}, {nil, nil, nil, nil, 1217.5}})
	done := importInto(t, b, named)
	if done.Figures != 2 || done.Noted != 1 || !strings.Contains(done.Notes[0], "Birch") {
		t.Errorf("names only: %+v", done)
	}
	coded := sheetOf(t, [][]any{{"State", "County", "State Code", "County Code", "Crop", "Crop Type", "Base Acres", "Avg PLC Yield"},
		{"Nowhere   ", "Alder   ", "99", "001", "BARLY", "", 33.3, 50}, {"Nowhere", "Alder", "99", "001", "PNUTS", "", 4, 3000}})
	if done := importInto(t, b, coded); done.Figures != 2 || done.Noted != 0 {
		t.Errorf("with codes: %+v", done)
	}
}

// A look-up of one county takes well under a millisecond once warm; the time is
// printed, the bound is ten times it, for noisy machines.
func TestCountyLookUp(t *testing.T) {
	needsShared(t, sharedFSA)
	path, _ := countyWorkbook(t, "2023", "ARCCO 2023 (2025-02-03)", 0)
	b := openNew(t)
	importInto(t, b, path)
	const times, most = 200, 10 * time.Millisecond
	if _, err := b.Sources("19153"); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	for range times {
		if _, err := b.Sources("19153"); err != nil {
			t.Fatal(err)
		}
	}
	each := time.Since(start) / times
	fmt.Printf("county look-up, warm: %v\n", each)
	if each > most {
		t.Errorf("a look-up takes %v", each)
	}
}

// A file of another kind or version is not touched.
func TestOtherDatabases(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec("PRAGMA user_version = 7; CREATE TABLE mine (x)"); err != nil {
		t.Fatal(err)
	}
	db.Close()
	if _, err := Open(path, true); err == nil || !strings.Contains(err.Error(), "version 7") {
		t.Errorf("opened with %v", err)
	}
	if _, err := Open(filepath.Join(t.TempDir(), "none.db"), false); !errors.Is(err, ErrNoBook) {
		t.Errorf("a missing book: %v", err)
	}
}
