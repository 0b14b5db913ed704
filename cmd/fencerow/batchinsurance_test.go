package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/io/read/farmtable"
)

// insuredFarms adds the columns of area insurance to manyFarms: corn of every other farm has
// SCO and ECO, wheat STAX, which there is not, and farm 0001 an ECO without a premium.
func insuredFarms(farms int, seed uint64) [][]string {
	rows := manyFarms(farms, seed)
	heads := farmtable.InsuranceColumns()
	at := columnsOf(heads)
	before := ""
	for i, row := range rows {
		cells := make([]string, len(heads))
		put := func(values map[string]string) {
			for name, value := range values {
				cells[at[name]] = value
			}
		}
		number, commodity, county := row[2], row[4], row[3]
		corn := map[string]string{"insured_layers": "SCO, ECO", "insured_plan": "rp", "coverage_level": "75%", "approved_yield": "150", "insured_acres": "110.5", "insured_share": "0.5", "insured_practice": "nonirrigated",
			"projected_price": "$4.62", "volatility": "0.18", "expected_area_yield": "170", "sco_premium": "6.20", "eco_trigger": "0.95", "eco_total_premium": "40"}
		switch {
		case i == 0:
			cells = heads
		case commodity == "corn" && county == "99001":
			put(corn)
			if number == "0001" {
				put(map[string]string{"eco_total_premium": ""})
			}
		case commodity == "wheat" && row[2] != before: // in the first row of the base alone
			put(map[string]string{"insured_layers": "STAX", "insured_plan": "RP", "insured_acres": "90", "projected_price": "5.80", "harvest_price": "5.10", "expected_area_yield": "46", "final_area_yield": "40", "stax_trigger": "0.9", "stax_range": "0.2"})
		}
		before = number
		rows[i] = append(row, cells...)
	}
	return rows
}

// insuranceFileOf is an insurance file that says what insuredFarms(4, ...) does.
const insuranceFileOf = `format: fencerow/insurance/1
insurance:
  - {farm: "0001", crop_year: 2026, commodity: corn, plan: RP, coverage_level: 0.75, approved_yield: 150, acres: 110.5, share: 0.5, practice: nonirrigated, projected_price: 4.62, volatility: 0.18, expected_area_yield: 170,
     layers: [{layer: SCO, premium: 6.20}, {layer: ECO, trigger: 0.95}]}
  - {farm: "0003", crop_year: 2026, commodity: corn, plan: RP, coverage_level: 0.75, approved_yield: 150, acres: 110.5, share: 0.5, practice: nonirrigated, projected_price: 4.62, volatility: 0.18, expected_area_yield: 170,
     layers: [{layer: SCO, premium: 6.20}, {layer: ECO, trigger: 0.95, total_premium: 40}]}
  - {farm: "0002", crop_year: 2026, commodity: wheat, plan: RP, acres: 90, projected_price: 5.80, harvest_price: 5.10, expected_area_yield: 46, final_area_yield: 40, layers: [{layer: STAX, trigger: 0.9, range: 0.2}]}
  - {farm: "0004", crop_year: 2026, commodity: wheat, plan: RP, acres: 90, projected_price: 5.80, harvest_price: 5.10, expected_area_yield: 46, final_area_yield: 40, layers: [{layer: STAX, trigger: 0.9, range: 0.2}]}
`

// insuredAnswer is the part of compare's JSON that is held against a batch.
type insuredAnswer struct {
	CropYears []struct {
		Farms []struct {
			Farm      string
			Insurance *struct {
				Crops []struct {
					Commodity string
					Missing   string
					Layers    []struct {
						Layer, Missing string
						Net            *float64 `json:"net_average"`
						Paying         *float64 `json:"chance_of_payment"`
					}
					Together []insuredRow
					Overlap  []struct {
						Program, Layer string
						Both           float64 `json:"both_pay"`
						Neither        float64 `json:"neither_pays"`
					}
				}
				WholeFarm []insuredRow `json:"whole_farm"`
			}
		}
	} `json:"crop_years"`
}

type insuredRow struct {
	Program string
	Choice  map[string]string
	Layers  []string
	Average *float64
	Poor    *float64 `json:"p10"`
	Worst   *float64 `json:"average_of_worst_tenth"`
}

// texts are the figures of a row as the batch writes them.
func (r insuredRow) texts() string {
	var all []string
	for _, x := range []*float64{r.Average, r.Poor, r.Worst} {
		all = append(all, textOf(x, 2))
	}
	return strings.Join(all, " ")
}

func textOf(x *float64, decimals int) string {
	if x == nil {
		return "-"
	}
	return strconv.FormatFloat(*x, 'f', decimals, 64)
}

// lines are what a batch has to say of an answer: figures by farm, crop, program and layers.
func (a insuredAnswer) lines() map[string]string {
	want := map[string]string{}
	for _, f := range a.CropYears[0].Farms {
		if f.Insurance == nil {
			continue
		}
		for _, k := range f.Insurance.Crops {
			for _, row := range k.Together {
				layers, line := strings.Join(row.Layers, " "), row.texts()+" "
				for _, o := range k.Overlap {
					if o.Program == row.Program && o.Layer == layers {
						line += textOf(&o.Both, 6) + " " + textOf(&o.Neither, 6)
					}
				}
				for _, l := range k.Layers {
					if row.Program == "" && l.Layer == layers {
						line += textOf(l.Net, 2) + " " + textOf(l.Paying, 6)
					}
				}
				want[strings.Join([]string{f.Farm, k.Commodity, row.Program, layers}, "|")] = line
			}
			for _, l := range k.Layers {
				if l.Missing != "" {
					want[strings.Join([]string{f.Farm, k.Commodity, "", l.Layer}, "|")] = "- - - " + l.Missing
				}
			}
		}
		for _, row := range f.Insurance.WholeFarm {
			want[strings.Join([]string{f.Farm, row.Choice["wheat"] + row.Choice["corn"] + row.Choice["soybeans"], "", strings.Join(row.Layers, " ")}, "|")] = row.texts() + " "
		}
	}
	return want
}

// linesOfBatch are the same lines of insurance.csv.
func linesOfBatch(t *testing.T, path string) map[string]string {
	rows := readRows(t, path)
	at := columnsOf(rows[0])
	got := map[string]string{}
	for _, row := range rows[1:] {
		of := func(column string) string {
			if row[at[column]] == "" {
				return "-"
			}
			return row[at[column]]
		}
		name, crop := row[at["commodity"]], row[at["program"]]
		if name == "" {
			for _, pair := range strings.Fields(row[at["choice"]]) {
				_, program, _ := strings.Cut(pair, "=")
				name += program
			}
		}
		line := of("mean") + " " + of("p10") + " " + of("mean_of_worst_tenth") + " " + row[at["missing"]]
		layers := row[at["layers"]]
		switch {
		case row[at["missing"]] != "" || row[at["commodity"]] == "":
		case crop != "" && layers != "" && !strings.Contains(layers, " "):
			line += of("chance_both_pay") + " " + of("chance_neither_pays")
		case crop == "" && !strings.Contains(layers, " "):
			line += of("layer_net_mean") + " " + of("layer_chance_of_payment")
		}
		key := strings.Join([]string{row[at["farm"]], name, crop, layers}, "|")
		if _, twice := got[key]; twice {
			t.Errorf("%s stands twice", key)
		}
		got[key] = line
	}
	return got
}

// The lines of a batch are those of compare, with the columns of the table and with a file that
// says the same.
func TestInsuranceOfBatchEqualsCompare(t *testing.T) {
	folder := t.TempDir()
	table, plain, file := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "plain.csv"), filepath.Join(folder, "insurance.yaml")
	writeRows(t, table, insuredFarms(4, 7))
	writeRows(t, plain, manyFarms(4, 7))
	if err := os.WriteFile(file, []byte(insuranceFileOf), 0o600); err != nil {
		t.Fatal(err)
	}
	runs(t, batchArgs(table, filepath.Join(folder, "out"), "--draws", "4096", "--insurance")...)
	got := linesOfBatch(t, filepath.Join(folder, "out", "insurance.csv"))
	for _, asked := range [][]string{{table, "--with-insurance"}, {plain, "--insurance", file}} {
		demo, _ := filepath.Abs("demo")
		args := append([]string{"compare", "--draws", "4096", "--json", "--book", "none", "--today", demoToday, "--market", filepath.Join(demo, "market.yaml"),
			"--county-file", filepath.Join(demo, "alder.yaml"), "--county-file", filepath.Join(demo, "birch.yaml")}, asked...)
		var c insuredAnswer
		if err := json.Unmarshal([]byte(runs(t, args...)), &c); err != nil {
			t.Fatal(err)
		}
		want := c.lines()
		for key, line := range want {
			if got[key] != line {
				t.Errorf("%s: batch %q, compare %q", key, got[key], line)
			}
		}
		fmt.Printf("insurance of batch and compare: checked %d of %d lines\n", len(want), len(got))
		if len(got) != len(want) || len(want) < 30 {
			t.Errorf("%d lines in the batch, %d in compare, want the same and 30 or more", len(got), len(want))
		}
	}
	for _, key := range []string{"99001-0003|corn|PLC|SCO", "99001-0003|corn||SCO ECO", "99003-0002|wheat||STAX"} {
		if _, has := got[key]; !has {
			t.Errorf("no line %s among %d", key, len(got))
		}
	}
}

// insuranceBreaks are ways in which the insurance of a row is broken: the row is refused in this
// column, with what to do.
var insuranceBreaks = []struct{ column, value, where, reason string }{
	{"insured_layers", "SCO FCO", "insured_layers", "FCO"}, {"insured_layers", "SCO ECO SCO", "insured_layers", "SCO ECO SCO"}, {"insured_layers", "", "insured_plan", "insured_layers is blank"},
	{"insured_layers", "SCO", "eco_trigger", "insured_layers has no ECO"}, {"insured_plan", "ARP", "insured_plan", "ARP"}, {"insured_plan", "", "insured_plan", "is blank"},
	{"coverage_level", "75", "coverage_level", "75"}, {"coverage_level", "", "coverage_level", "is blank"}, {"approved_yield", "9000", "approved_yield", "9000"}, {"approved_yield", "", "approved_yield", "is blank"},
	{"insured_acres", "-3", "insured_acres", "-3"}, {"insured_acres", "0", "insured_acres", "0"}, {"insured_acres", "", "insured_acres", "is blank"}, {"insured_share", "1.5", "insured_share", "1.5"},
	{"insured_practice", "wet", "insured_practice", "wet"}, {"projected_price", "462", "projected_price", "462"}, {"projected_price", "", "projected_price", "is blank"}, {"harvest_price", "low", "harvest_price", "low"},
	{"volatility", "18", "volatility", "18"}, {"expected_area_yield", "1", "expected_area_yield", "1"}, {"expected_area_yield", "", "expected_area_yield", "is blank"}, {"final_area_yield", "-1", "final_area_yield", "-1"},
	{"area_yield_ratio", "4", "area_yield_ratio", "4"}, {"insurance_closes", "March 15", "insurance_closes", "March 15"}, {"sco_premium", "-6", "sco_premium", "-6"}, {"sco_coverage", "1.2", "sco_coverage", "1.2"},
	{"sco_total_premium", "12", "sco_total_premium", "both given"}, {"eco_trigger", "95", "eco_trigger", "95"}, {"stax_range", "0.2", "stax_range", "insured_layers has no STAX"}, {"crop_year", "", "insured_layers", "no crop_year"},
	{"insured_layers", "SCO ECO STAX", "insured_plan", "STAX"},
}

// A row whose insurance has a bad value is refused with its line, its column and what to do; the
// others are answered.
func TestInsuranceOfBatchIsRefused(t *testing.T) {
	folder := t.TempDir()
	rows := insuredFarms(2*len(insuranceBreaks)+2, 7)
	at := columnsOf(rows[0])
	line := map[int]int{} // by place of the break, of the first row of corn of a farm of its own
	for i := 1; i < len(rows) && len(line) < len(insuranceBreaks); i++ {
		if rows[i][3] != "99001" || rows[i][4] != "corn" || rows[i][2] == rows[i-1][2] {
			continue
		}
		b := insuranceBreaks[len(line)]
		line[len(line)] = i + 1
		if rows[i][at[b.column]] = b.value; strings.Contains(b.value, "STAX") {
			rows[i][at["insured_plan"]] = "YP"
		}
	}
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	writeRows(t, table, rows)
	runsTo(t, exitSome, batchArgs(table, out, "--draws", "64", "--insurance")...)
	refused := readRows(t, filepath.Join(out, "refused.csv"))
	checked := 0
	for i, b := range insuranceBreaks {
		found := slices.ContainsFunc(refused[1:], func(r []string) bool {
			return r[0] == fmt.Sprint(line[i]) && r[1] == b.where && strings.Contains(r[2]+r[3], b.reason) && r[4] != ""
		})
		if !found {
			t.Errorf("%s %q: no line %d of %s with %q in %v", b.column, b.value, line[i], b.where, b.reason, refused[1:])
			continue
		}
		checked++
	}
	last := fmt.Sprintf("99001-%04d|corn||SCO", 2*len(insuranceBreaks)+1)
	if got := linesOfBatch(t, filepath.Join(out, "insurance.csv")); got[last] == "" {
		t.Errorf("%s has no line", last)
	}
	fmt.Printf("broken insurance: checked %d of %d values\n", checked, len(insuranceBreaks))
}

// Insurance that rows of one crop say otherwise is refused with both lines; a table that has
// none is refused before anything is written.
func TestInsuranceOfBatchMustAgree(t *testing.T) {
	folder := t.TempDir()
	rows := insuredFarms(4, 7)
	rows[10][columnsOf(rows[0])["sco_premium"]] = "6.30"
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	writeRows(t, table, rows)
	runsTo(t, exitSome, batchArgs(table, out, "--draws", "64", "--insurance")...)
	if refused := readRows(t, filepath.Join(out, "refused.csv")); len(refused) != 2 || refused[1][0] != "11" || !strings.Contains(refused[1][3], "line 10") {
		t.Errorf("refused %v, want line 11 beside line 10", refused)
	}
	none := filepath.Join(folder, "none.csv")
	writeRows(t, none, manyFarms(4, 7))
	var stdout, stderr bytes.Buffer
	if code := run(batchArgs(none, filepath.Join(folder, "nothing"), "--insurance"), &stdout, &stderr); code != exitInput || !strings.Contains(stderr.String(), "no column is headed insured_layers") {
		t.Errorf("a table without insurance: exit %d, %s", code, stderr.String())
	}
	if _, err := os.Stat(filepath.Join(folder, "nothing")); err == nil {
		t.Error("a folder was made")
	}
}

// filesOf are the files of a folder but what names the table, by name.
func filesOf(t *testing.T, folder string) map[string]string {
	all := map[string]string{}
	for _, pattern := range []string{"*", filepath.Join("*", "*")} {
		names, _ := filepath.Glob(filepath.Join(folder, pattern))
		for _, name := range names {
			if text, err := os.ReadFile(name); err == nil && !strings.HasSuffix(name, "begun.json") && filepath.Base(name) != "run.json" {
				all[strings.TrimPrefix(name, folder)] = string(text)
			}
		}
	}
	return all
}

// Without --insurance the columns change no byte, and with it every file is as before but for
// flags, which name what hinders the insurance.
func TestInsuranceIsAskedFor(t *testing.T) {
	folder := t.TempDir()
	with, plain := filepath.Join(folder, "with.csv"), filepath.Join(folder, "plain.csv")
	writeRows(t, with, insuredFarms(12, 3))
	writeRows(t, plain, manyFarms(12, 3))
	runs(t, batchArgs(plain, filepath.Join(folder, "plain"), "--draws", "64")...)
	var stdout, stderr bytes.Buffer
	if code := run(batchArgs(with, filepath.Join(folder, "unasked"), "--draws", "64"), &stdout, &stderr); code != exitDone || !strings.Contains(stderr.String(), `column "insured_plan" is not read: area insurance is not asked for`) {
		t.Errorf("exit %d, %s", code, stderr.String())
	}
	want, got := filesOf(t, filepath.Join(folder, "plain")), filesOf(t, filepath.Join(folder, "unasked"))
	for name, text := range want {
		if got[name] != text && name != "/summary.xlsx" {
			t.Errorf("%s differs", name)
		}
	}
	if len(got) != len(want) || len(want) < 15 {
		t.Errorf("%d files, and %d without the columns", len(got), len(want))
	}
	runs(t, batchArgs(with, filepath.Join(folder, "asked"), "--draws", "64", "--insurance")...)
	asked := filesOf(t, filepath.Join(folder, "asked"))
	for _, name := range []string{"/people.csv", "/farms.csv", "/operations.csv", "/refused.csv", "/counties.csv"} {
		if asked[name] != want[name] {
			t.Errorf("%s differs with --insurance", name)
		}
	}
	if !strings.Contains(asked["/results.csv"], "insurance_given") || asked["/insurance.parquet"] == "" {
		t.Error("no flag of insurance, or no insurance.parquet")
	}
}

// Runs that were interrupted, or shared out and joined, end with the same bytes; masked ones
// hold no name.
func TestInsuranceOfBatchInParts(t *testing.T) {
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	rows := insuredFarms(ofLong(60, 1200), 13) // of the longer one each share has several parts
	writeRows(t, table, rows)
	args := func(out string, more ...string) []string {
		return batchArgs(table, filepath.Join(folder, out), append(more, "--draws", "64", "--insurance")...)
	}
	runs(t, args("whole")...)
	runs(t, args("again")...)
	for _, name := range []string{"results/part-00001.csv", "insurance/part-00001.csv", "insurance/part-00001.parquet", "insurance.csv", "insurance.parquet", "run.json"} {
		if err := os.Remove(filepath.Join(folder, "again", filepath.FromSlash(name))); err != nil {
			t.Fatal(err)
		}
	}
	runs(t, args("again", "--resume")...)
	runs(t, args("one", "--part", "1/2")...)
	runs(t, args("two", "--part", "2/2")...)
	runs(t, "batch", "join", "--out", filepath.Join(folder, "joined"), filepath.Join(folder, "one"), filepath.Join(folder, "two"))
	for _, other := range []string{"again", "joined"} {
		for _, name := range append([]string{"insurance.csv", "insurance.parquet"}, joinedFiles...) {
			want, err := os.ReadFile(filepath.Join(folder, "whole", name))
			got, failed := os.ReadFile(filepath.Join(folder, other, name))
			if err != nil || failed != nil || !bytes.Equal(got, want) {
				t.Errorf("%s: %s differs, %v %v", other, name, err, failed)
			}
		}
	}
	var stdout, stderr bytes.Buffer
	if code := run(batchArgs(table, filepath.Join(folder, "whole"), "--draws", "64", "--resume"), &stdout, &stderr); code != exitUsage || !strings.Contains(stderr.String(), "--insurance was true and is now false") {
		t.Errorf("resumed without --insurance: exit %d, %s", code, stderr.String())
	}
	runs(t, args("masked", "--mask")...)
	text, err := os.ReadFile(filepath.Join(folder, "masked", "insurance.csv"))
	if err != nil || bytes.Contains(text, []byte("tenant")) || bytes.Contains(text, []byte("99001-0")) || bytes.Count(text, []byte("\n")) != len(readRows(t, filepath.Join(folder, "whole", "insurance.csv"))) {
		t.Errorf("masked: %v, %.300s", err, text)
	}
}
