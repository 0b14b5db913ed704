package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// manyFarms writes an invented table of operations of four farms, each row a line;
// its heads come first.
func manyFarms(farms int, seed uint64) [][]string {
	r := rand.New(rand.NewPCG(seed, 1))
	rows := [][]string{strings.Fields("client operation farm county commodity crop_year base_acres payment_yield irrigated_share election_on_record contract producer share")}
	for i := range farms {
		operation := i / 4
		for _, c := range []struct {
			commodity, county, irrigated string
			yield                        int
		}{{"corn", "99001", "", 140}, {"soybeans", "99001", "", 44}, {"wheat", "99003", "", 42}, {"corn", "99003", "0.35", 130}}[2*(i%2) : 2*(i%2)+2] {
			record := []string{"PLC", "ARC-CO", ""}[r.IntN(3)]
			for k, share := range []string{"0.6", "0.4"} {
				rows = append(rows, []string{fmt.Sprintf("client %03d", operation/3), fmt.Sprintf("operation %04d", operation), fmt.Sprintf("%04d", i+1), c.county, c.commodity, "2026",
					strconv.FormatFloat(10+300*r.Float64(), 'f', 2, 64), strconv.Itoa(c.yield + r.IntN(20)), c.irrigated, record, "open", fmt.Sprintf("tenant %d-%d", operation, k), share})
				if k == 1 { // the same base with the other producer
					last := rows[len(rows)-2]
					rows[len(rows)-1][6], rows[len(rows)-1][7] = last[6], last[7]
				}
			}
		}
	}
	return rows
}

func writeRows(t *testing.T, path string, rows [][]string) {
	t.Helper()
	var text bytes.Buffer
	if err := csv.NewWriter(&text).WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

func readRows(t *testing.T, path string) [][]string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// batchArgs answer a table on the demo's counties and prices.
func batchArgs(table, out string, more ...string) []string {
	demo, _ := filepath.Abs("demo")
	return append([]string{"batch", table, "--out", out, "--county-file", filepath.Join(demo, "alder.yaml"), "--county-file", filepath.Join(demo, "birch.yaml"),
		"--market", filepath.Join(demo, "market.yaml"), "--book", "none", "--today", demoToday}, more...)
}

// runsTo carries out a command line that ends with a code.
func runsTo(t *testing.T, code int, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if got := run(args, &stdout, &stderr); got != code {
		t.Fatalf("%v: exit %d, want %d: %s", args, got, code, stderr.String())
	}
	return stdout.String()
}

// A batch of one operation says what compare says of it at the same draws, to the
// cent.
func TestBatchOfOneEqualsCompare(t *testing.T) {
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	writeRows(t, table, manyFarms(4, 7))
	runs(t, batchArgs(table, filepath.Join(folder, "out"), "--draws", "4096")...)
	demo, _ := filepath.Abs("demo")
	market := filepath.Join(demo, "market.yaml")
	args := []string{"compare", table, "--draws", "4096", "--json", "--book", "none", "--today", demoToday, "--market", market}
	for _, county := range []string{"alder.yaml", "birch.yaml"} {
		args = append(args, "--county-file", filepath.Join(demo, county))
	}
	var c struct {
		CropYears []struct {
			Farms []struct {
				Farm        string
				Commodities []struct {
					Commodity  string
					Difference struct{ Mean float64 }
					Neither    float64 `json:"chance_neither_pays"`
					Leader     string
					Programs   map[string]struct {
						Mean        float64
						Percentiles map[string]float64
					}
				}
			}
			Operation struct {
				ByPerson []struct {
					ID   string
					Mean float64 `json:"mean_after_limit"`
				} `json:"by_person"`
			}
		} `json:"crop_years"`
	}
	if err := json.Unmarshal([]byte(runs(t, args...)), &c); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{}
	money := func(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
	for _, f := range c.CropYears[0].Farms {
		for _, k := range f.Commodities {
			want[f.Farm+" "+k.Commodity] = strings.Join([]string{money(k.Programs["PLC"].Mean), money(k.Programs["PLC"].Percentiles["10"]), money(k.Programs["ARC-CO"].Mean),
				money(k.Programs["ARC-CO"].Percentiles["90"]), money(k.Difference.Mean), strconv.FormatFloat(k.Neither, 'f', 6, 64), k.Leader}, " ")
		}
	}
	rows := readRows(t, filepath.Join(folder, "out", "results.csv"))
	at := columnsOf(rows[0])
	for _, row := range rows[1:] {
		var got []string
		for _, column := range strings.Fields("plc_mean plc_p10 arc_co_mean arc_co_p90 difference_mean chance_neither_pays leader") {
			got = append(got, row[at[column]])
		}
		key := row[at["farm"]] + " " + row[at["commodity"]]
		if strings.Join(got, " ") != want[key] {
			t.Errorf("%s: batch %v, compare %s", key, got, want[key])
		}
	}
	people := readRows(t, filepath.Join(folder, "out", "people.csv"))
	for i, p := range c.CropYears[0].Operation.ByPerson {
		if got := people[i+1]; got[3] != p.ID || got[5] != money(p.Mean) {
			t.Errorf("person %s: batch %v, compare %s", p.ID, got, money(p.Mean))
		}
	}
	fmt.Printf("batch and compare: checked %d of %d farms and commodities\n", len(rows)-1, len(want))
	if len(rows)-1 != len(want) || len(want) != 8 {
		t.Errorf("%d results, %d in compare, want 8", len(rows)-1, len(want))
	}
}

func columnsOf(heads []string) map[string]int {
	at := map[string]int{}
	for i, head := range heads {
		at[head] = i
	}
	return at
}

// Ways in which a row is broken: each is refused with its line.
var breaks = []struct {
	kind, column, value string
}{
	{"negative acres", "base_acres", "-20"}, {"acres are text", "base_acres", "many"}, {"no acres", "base_acres", ""}, {"absurd acres", "base_acres", "9e12"},
	{"acres of two points", "base_acres", "1.2.3"}, {"unknown crop", "commodity", "gold"}, {"no commodity", "commodity", ""}, {"unknown county", "county", "9X001"},
	{"county of six digits", "county", "990011"}, {"no county", "county", ""}, {"no farm", "farm", ""}, {"share above one", "share", "1.4"}, {"share is text", "share", "half of it"},
	{"negative share", "share", "-0.1"}, {"share without producer", "producer", ""}, {"yield is text", "payment_yield", "good"}, {"negative yield", "payment_yield", "-5"},
	{"yield of another unit", "payment_yield", "90000"}, {"irrigated above one", "irrigated_share", "3.5"}, {"irrigated is text", "irrigated_share", "some"},
	{"unknown election", "election_on_record", "BOTH"}, {"unknown contract", "contract", "maybe"}, {"year before the law", "crop_year", "1999"}, {"year is text", "crop_year", "next"},
	{"year after the law", "crop_year", "2099"}, {"year of a fraction", "crop_year", "2026.5"},
}

// Every good row is answered and every broken one refused with its line and a reason;
// good rows of a farm with a refused one are answered too, and the farm says so.
func TestBatchRefusesBrokenRowsAlone(t *testing.T) {
	farms := 400
	if text := os.Getenv("FENCEROW_FARMS"); text != "" { // a long run by hand or in .ci/run
		farms, _ = strconv.Atoi(text)
	}
	folder := t.TempDir()
	rows := manyFarms(farms, 3)
	at := columnsOf(rows[0])
	r := rand.New(rand.NewPCG(9, 9))
	broken := map[int]string{}
	for len(broken) < min(500, len(rows)/6) {
		i := 1 + r.IntN(len(rows)-1)
		if _, done := broken[i+1]; done {
			continue
		}
		b := breaks[len(broken)%len(breaks)]
		rows[i][at[b.column]] = b.value
		broken[i+1] = b.kind
	}
	table := filepath.Join(folder, "farms.csv")
	writeRows(t, table, rows)
	out := runsTo(t, exitSome, batchArgs(table, filepath.Join(folder, "out"), "--draws", "256", "--json")...)
	var counts struct{ Rows, Answered, Refused int }
	if err := json.Unmarshal([]byte(out), &counts); err != nil {
		t.Fatal(err)
	}
	refused := map[int]string{}
	for _, row := range readRows(t, filepath.Join(folder, "out", "refused.csv"))[1:] {
		line, err := strconv.Atoi(row[0])
		if err != nil || row[3] == "" || row[4] == "" {
			t.Errorf("refused row without line, reason or hint: %v", row)
		}
		refused[line] = row[3]
	}
	missed, others := 0, 0
	for line, kind := range broken {
		if refused[line] == "" {
			missed++
			t.Errorf("line %d (%s) is not refused", line, kind)
		}
	}
	for line, reason := range refused {
		if broken[line] == "" { // a row whose partner is broken may no longer fit
			others++
			if others < 5 {
				t.Logf("line %d: %s", line, reason)
			}
		}
	}
	if counts.Rows != len(rows)-1 || counts.Answered+counts.Refused != counts.Rows || counts.Refused != len(refused) {
		t.Errorf("%+v, %d rows, %d refused", counts, len(rows)-1, len(refused))
	}
	fmt.Printf("refused rows of %d kinds: checked %d of %d in %d rows of %d farms; %d more no longer fit\n", len(breaks), len(broken)-missed, len(broken), counts.Rows, farms, others)
}

// A run that is killed again and again and taken up by --resume ends with the bytes
// of one that was not; so does the order of the rows not matter to any farm.
func TestBatchKilledAndShuffled(t *testing.T) {
	kills, farms := ofLong(2, 20), ofLong(300, 1500)
	if text := os.Getenv("FENCEROW_KILLS"); text != "" {
		kills, _ = strconv.Atoi(text)
	}
	folder := t.TempDir()
	const program = "fencerow" // this test itself, which TestMain puts in the path under that name
	rows := manyFarms(farms, 5)
	table, whole := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "whole")
	writeRows(t, table, rows)
	begun := time.Now()
	if out, err := exec.Command(program, batchArgs(table, whole, "--draws", "1024")...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	took := time.Since(begun)
	r := rand.New(rand.NewPCG(4, 2))
	stopped := 0
	for k := range kills {
		broken := filepath.Join(folder, fmt.Sprint("broken", k))
		command := exec.Command(program, batchArgs(table, broken, "--draws", "1024")...)
		if err := command.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(float64(took) * r.Float64()))
		command.Process.Kill()
		if command.Wait() != nil {
			stopped++
		}
		runs(t, batchArgs(table, broken, "--draws", "1024", "--resume")...)
		same(t, whole, broken)
	}
	shuffled := filepath.Join(folder, "shuffled.csv")
	some := slices.Clone(rows[1:])
	r.Shuffle(len(some), func(i, j int) { some[i], some[j] = some[j], some[i] })
	writeRows(t, shuffled, append([][]string{rows[0]}, some...))
	runs(t, batchArgs(shuffled, filepath.Join(folder, "mixed"), "--draws", "1024")...)
	sorted := func(folder string) []string {
		var lines []string
		for _, row := range readRows(t, filepath.Join(folder, "results.csv"))[1:] {
			lines = append(lines, strings.Join(row, "|"))
		}
		slices.Sort(lines)
		return lines
	}
	if !slices.Equal(sorted(whole), sorted(filepath.Join(folder, "mixed"))) {
		t.Error("shuffled rows change results")
	}
	fmt.Printf("killed %d times at random moments, %d of them under way, and resumed: the same bytes; shuffled: the same results of %d farms\n", kills, stopped, farms)
}

// same compares all files of two folders.
func same(t *testing.T, one, other string) {
	t.Helper()
	files := 0
	err := filepath.WalkDir(one, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		files++
		rest, _ := filepath.Rel(one, path)
		a, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		b, err := os.ReadFile(filepath.Join(other, rest))
		if err != nil || !bytes.Equal(a, b) {
			t.Errorf("%s differs (%v)", rest, err)
		}
		return nil
	})
	left := 0
	filepath.WalkDir(other, func(_ string, entry fs.DirEntry, _ error) error {
		if entry != nil && !entry.IsDir() {
			left++
		}
		return nil
	})
	if err != nil || files == 0 || left != files {
		t.Errorf("%d files, %d in the other, %v", files, left, err)
	}
}

// With --mask no name of the table is in any file; groups of few farms are hidden.
func TestBatchMasksNames(t *testing.T) {
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	rows := manyFarms(40, 3)
	writeRows(t, table, rows)
	out := filepath.Join(folder, "out")
	runs(t, batchArgs(table, out, "--draws", "256", "--mask", "--least", "15")...)
	namesNobody(t, out)
	shown := readRows(t, filepath.Join(out, "counties.csv"))
	for _, row := range shown[1:] {
		if farms, err := strconv.Atoi(row[3]); row[0] != "" && (err != nil || farms < 15) {
			t.Errorf("a group of few farms is shown: %v", row)
		}
	}
	if len(shown) < 3 {
		t.Errorf("no group is shown: %v", shown)
	}
}
