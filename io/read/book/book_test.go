package book

import (
	"bytes"
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
		status, _ := os.ReadFile("/proc/self/status") // its peak of memory, on Linux
		os.Stdout.Write(status)
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
	wholeFile(t)
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
	wholeFile(t)
	kills := 8
	if longRun {
		kills = 50
	}
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
		if _, err := b.Verify(); err != nil {
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

// A file of another kind or version is refused, and not touched; a new one is made.
func TestOtherDatabases(t *testing.T) {
	for name, c := range map[string]struct {
		statements string
		create     bool
		want       error
		word       string
	}{
		"newer":                        {schema + "PRAGMA user_version = 2", true, errOtherVersion, "version 2, this program reads version 1"},
		"newer, other tables":          {"PRAGMA user_version = 7; CREATE TABLE mine (x)", true, errOtherVersion, "version 7"},
		"another program's":            {"CREATE TABLE mine (x)", true, errForeign, `the table "mine"`},
		"another program's, read":      {"CREATE TABLE mine (x)", false, errForeign, `the table "mine"`},
		"another program's version 1":  {"PRAGMA user_version = 1; CREATE TABLE mine (x)", true, errForeign, `no table "file"`},
		"another program's version -1": {"PRAGMA user_version = -1; CREATE TABLE mine (x)", true, errForeign, `the table "mine"`},
		"half of a book":               {"PRAGMA user_version = 1; CREATE TABLE file (x); CREATE TABLE county (x)", false, errForeign, `its table "file" has other columns`},
		"empty, read":                  {"", false, errEmpty, "the county book is empty"},
		"empty, made":                  {"", true, nil, ""},
		"a book":                       {schema, false, nil, ""},
	} {
		path := filepath.Join(t.TempDir(), "other.db")
		db, err := sql.Open("sqlite", path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := db.Exec("CREATE TABLE gone (x); DROP TABLE gone;" + c.statements); err != nil {
			t.Fatal(name, err)
		}
		db.Close()
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Open(path, c.create)
		if !errors.Is(err, c.want) || err != nil && !strings.Contains(err.Error(), c.word) {
			t.Errorf("%s: %v, want %v with %q", name, err, c.want, c.word)
		}
		if b != nil {
			b.Close()
			continue
		}
		if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
			t.Errorf("%s: the file was changed, %v", name, err)
		}
	}
	if _, err := Open(filepath.Join(t.TempDir(), "none.db"), false); !errors.Is(err, ErrNoBook) {
		t.Errorf("a missing book: %v", err)
	}
}
