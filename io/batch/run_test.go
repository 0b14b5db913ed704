package batch_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/batch"
	"fencerow/io/disk"
	"fencerow/io/source"
)

// files are an invented price, far under the reference price and all but certain, and an
// invented county; 99 is no State.
var files = fstest.MapFS{
	"market.yaml": {Data: []byte(`format: fencerow/market/1
as_of: 2026-11-10
source: invented
outlook: {corn: {2026: {price: 3.50, volatility: 0.01}}}
`)},
	"county.yaml": {Data: []byte(`format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [180, 182, 184, 178, 181]}, outlook: {2026: {yield: 180, known_from: local_harvest}}}
`)},
}

// question is about every operation of a table that follows.
func question() (source.Found, error) {
	return source.Question(source.Request{Files: files, Market: "market.yaml", CountyFiles: []string{"county.yaml"}, ManyOperations: true,
		Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 1024})
}

const fewFarms = `operation,farm,county,commodity,crop_year,base_acres,payment_yield,producer,share
north,0001,99001,corn,2026,100,150,ann,1
north,0002,99001,corn,2026,-20,150,ann,1
south,0003,99001,corn,2026,40,100,bo,1
`

// asked are the options of a run over a table of this text, into a folder that is not
// there yet.
func asked(t testing.TB, text string) batch.Options {
	t.Helper()
	found, err := question()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	if err := os.WriteFile(table, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return batch.Options{Files: disk.Files{}, Tables: disk.Tables{}, Table: table, Out: filepath.Join(folder, "out"), Question: found.Question, County: source.CountyNames(found.Question.Counties), Least: 1,
		Talk: func(string) {}, Progress: func(int, int) {}, Version: "test"}
}

func rowsOf(t testing.TB, o batch.Options, name string) (rows []map[string]string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(o.Out, name))
	if err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// Good rows are answered and a bad one is refused with its line. By hand: the effective
// reference price of 2026 is 88 percent (P.L. 119-21) of the Olympic average of 4.53,
// 6.00, 6.54, 4.55 and 4.24 (2020 to 2024, io/read/market/builtin.csv), 4.42; at 3.50 PLC
// pays 0.92 x 85 percent of the payment yield per base acre: 117.30 at 150 bushels, 78.20
// at 100. The price is drawn within a percent, so its average is within a dollar.
func TestRunAnswersGoodRowsAndRefusesBadOnes(t *testing.T) {
	o := asked(t, fewFarms)
	reported := 0
	o.Progress = func(done, all int) {
		if reported = done; all != 3 {
			t.Errorf("reported %d of %d rows", done, all)
		}
	}
	counts, err := batch.Run(o)
	if want := (batch.Counts{Rows: 3, Answered: 2, Refused: 1, Operations: 2, Farms: 2, Results: 2}); err != nil || counts != want || reported != want.Rows {
		t.Fatalf("%+v, %v, reported %d rows; want %+v", counts, err, reported, want)
	}
	results := rowsOf(t, o, "results.csv")
	for i, want := range []struct {
		farm string
		mean float64
	}{{"0001", 117.30}, {"0003", 78.20}} {
		r := results[i]
		mean, err := strconv.ParseFloat(r["plc_mean"], 64)
		if err != nil || !strings.HasSuffix(r["farm"], want.farm) || r["commodity"] != "corn" || math.Abs(mean-want.mean) > 1 {
			t.Errorf("farm %s: PLC averages %v, want %.2f within 1: %v", want.farm, r["plc_mean"], want.mean, r)
		}
	}
	refused := rowsOf(t, o, "refused.csv")
	if len(refused) != 1 || refused[0]["row"] != "3" || !strings.Contains(refused[0]["reason"], "-20") {
		t.Errorf("refused: %v, want line 3 for -20 acres", refused)
	}
	people := rowsOf(t, o, "people.csv")
	if len(people) != 2 || people[0]["person"] != "ann" || people[1]["person"] != "bo" {
		t.Errorf("people: %v, want ann and bo", people)
	}
}

// bytesOf are all files of a folder, by name.
func bytesOf(t testing.TB, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := fs.WalkDir(os.DirFS(folder), ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			content, failed := os.ReadFile(filepath.Join(folder, name))
			all[name], err = string(content), failed
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// The same run gives the same bytes, and so does one that is taken up after a part was
// lost.
func TestRunAgainGivesTheSameBytes(t *testing.T) {
	o := asked(t, fewFarms)
	if _, err := batch.Run(o); err != nil {
		t.Fatal(err)
	}
	want := bytesOf(t, o.Out)
	same := func(what string) {
		t.Helper()
		got := bytesOf(t, o.Out)
		for name, content := range want {
			if got[name] != content {
				t.Errorf("%s: %s differs", what, name)
			}
		}
		if len(got) != len(want) || len(want) == 0 {
			t.Errorf("%s: %d files, want %d", what, len(got), len(want))
		}
	}
	parts, _ := filepath.Glob(filepath.Join(o.Out, "results", "part-*.csv"))
	if len(parts) != 1 {
		t.Fatalf("parts %v, want one", parts)
	}
	if err := os.Remove(parts[0]); err != nil {
		t.Fatal(err)
	}
	o.Resume = true
	if _, err := batch.Run(o); err != nil {
		t.Fatal(err)
	}
	same("taken up")
	o.Resume, o.Out = false, o.Out+"2"
	if _, err := batch.Run(o); err != nil {
		t.Fatal(err)
	}
	same("elsewhere")
}

// A run begun by another format of run.json, or by what cannot be read, is not gone on with.
// A newer number, an older one and none are refused alike, and nothing is written.
func TestRunOfAnotherFormat(t *testing.T) {
	o := asked(t, fewFarms)
	if _, err := batch.Run(o); err != nil {
		t.Fatal(err)
	}
	begun := filepath.Join(o.Out, "counts", "run-begun.json")
	usual, err := os.ReadFile(begun)
	if err != nil {
		t.Fatal(err)
	}
	o.Resume = true
	for text, want := range map[string]string{
		strings.Replace(string(usual), batch.AuditFormat, "fencerow/run/3", 1): `has the format "fencerow/run/3", and this version of fencerow goes on with fencerow/run/2`,
		strings.Replace(string(usual), batch.AuditFormat, "fencerow/run/0", 1): `has the format "fencerow/run/0"`,
		"{}": `has the format ""`,
		"{":  "cannot be read",
	} {
		if err := os.WriteFile(begun, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := batch.Run(o); !errors.Is(err, batch.ErrOtherRun) || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), begun) {
			t.Errorf("%v, want %q", err, want)
		}
		if left, err := os.ReadFile(begun); err != nil || string(left) != text {
			t.Errorf("%s was written over, %v", begun, err)
		}
	}
	if err := os.WriteFile(begun, usual, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := batch.Run(o); err != nil {
		t.Error(err)
	}
}

// Two shares come to the rows of the whole, each row in one of them.
func TestSharesAddToTheWhole(t *testing.T) {
	o := asked(t, fewFarms)
	var sum batch.Counts
	o.Parts = 2
	for o.Part = 1; o.Part <= o.Parts; o.Part++ {
		counts, err := batch.Run(o)
		if err != nil {
			t.Fatal(err)
		}
		sum.Rows, sum.Answered, sum.Refused, sum.Results = sum.Rows+counts.Rows, sum.Answered+counts.Answered, sum.Refused+counts.Refused, sum.Results+counts.Results
	}
	if want := (batch.Counts{Rows: 3, Answered: 2, Refused: 1, Results: 2}); sum != want {
		t.Errorf("two shares: %+v, want %+v", sum, want)
	}
}

// A table that is none is refused before anything is written.
func TestRunRefusesBeforeItWrites(t *testing.T) {
	for name, text := range map[string]string{"empty": "", "other columns": "invoice,amount\n1,2\n", "no commodity": "farm,county,base_acres\n1,99001,2\n"} {
		o := asked(t, text)
		if _, err := batch.Run(o); err == nil {
			t.Errorf("%s: no error", name)
		}
		if _, err := os.Stat(o.Out); err == nil {
			t.Errorf("%s: the folder was made", name)
		}
	}
	o := asked(t, fewFarms)
	o.Table += ".none"
	if _, err := batch.Run(o); err == nil {
		t.Error("a table that is not there: no error")
	}
}

// A table of three rows, of which one is refused.
func ExampleRun() {
	folder, err := os.MkdirTemp("", "batch")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	table := filepath.Join(folder, "farms.csv")
	os.WriteFile(table, []byte(fewFarms), 0o600)
	found, err := question()
	if err != nil {
		fmt.Println(err)
		return
	}
	counts, err := batch.Run(batch.Options{Files: disk.Files{}, Tables: disk.Tables{}, Table: table, Out: filepath.Join(folder, "out"), Question: found.Question, County: source.CountyNames(found.Question.Counties), Least: 10,
		Talk: func(note string) {}, Progress: func(done, all int) {}})
	fmt.Println(counts.Answered, "answered,", counts.Refused, "refused,", err)
	// Output: 2 answered, 1 refused, <nil>
}
