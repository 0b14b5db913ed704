package batch_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
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
	"fencerow/sim/answer"
	"fencerow/sim/invented"
)

// change says which inputs of the invented farms are those of the second run.
type change struct{ price, yield, record bool }

// counties of the invented farms: 99001 to 99019.
const inventedCounties = 10

// movedFiles are invented prices and counties; a change makes corn cheaper, or the county
// yield of one county lower.
func movedFiles(c change) (fstest.MapFS, []string) {
	price := 4.30
	if c.price {
		price = 4.10
	}
	files := fstest.MapFS{"market.yaml": {Data: fmt.Appendf(nil, "format: fencerow/market/1\nas_of: 2026-11-10\nsource: invented\noutlook: {corn: {2026: {price: %.2f, volatility: 0.10}}, soybeans: {2026: {price: 10.20, volatility: 0.10}}}\n", price)}}
	var names []string
	for i := range inventedCounties {
		height := 170 + i
		now := height - 4
		if c.yield && i == 0 {
			now = height + 16
		}
		name := fmt.Sprintf("county%d.yaml", i)
		files[name] = &fstest.MapFile{Data: fmt.Appendf(nil, `format: fencerow/county/1
code: "%d"
name: County %d
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [%d, %d, %d, %d, %d]}, outlook: {2026: {yield: %d, known_from: local_harvest}}}
  - {commodity: soybeans, practice: all, adjusted: {2026: [50, 52, 54, 48, 51]}, outlook: {2026: {yield: 50, known_from: local_harvest}}}
`, 99001+2*i, i, height, height+2, height+4, height-2, height+1, now)}
		names = append(names, name)
	}
	return files, names
}

// movedTable are invented farms from one seed, two to an operation; a change gives ten of
// them lower PLC yields and more base acres.
func movedTable(farms int, c change) string {
	r := rand.New(rand.NewPCG(20261130, 1))
	var out bytes.Buffer
	rows := csv.NewWriter(&out)
	rows.Write(strings.Fields("operation farm county commodity crop_year base_acres payment_yield producer share"))
	for i := range farms {
		acres, corn, soy := 20+300*r.Float64(), 90+120*r.Float64(), 30+30*r.Float64()
		county := strconv.Itoa(99001 + 2*(i%inventedCounties))
		if c.record && i%(farms/10) == 3*(i/(farms/10)%2) {
			corn, soy, acres = corn*0.7, soy*0.5, acres+10
		}
		for _, one := range []struct {
			crop  string
			yield float64
		}{{"corn", corn}, {"soybeans", soy}} {
			rows.Write([]string{fmt.Sprintf("operation %04d", i/2), fmt.Sprintf("%04d", i+1), county, one.crop, "2026", fmt.Sprintf("%.2f", acres), fmt.Sprintf("%.2f", one.yield), fmt.Sprintf("tenant %d", i/2), "1"})
		}
	}
	rows.Flush()
	return out.String()
}

// movedRun answers the invented farms.
func movedRun(t *testing.T, farms int, c change) batch.Options {
	t.Helper()
	files, counties := movedFiles(c)
	found, err := source.Question(source.Request{Files: files, Market: "market.yaml", CountyFiles: counties, ManyOperations: true, WithoutBuiltIn: true,
		Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256})
	if err != nil {
		t.Fatal(err)
	}
	o := asked(t, movedTable(farms, c))
	found.Question.Brief = true
	o.Question, o.County = found.Question, source.CountyNames(found.Question.Counties)
	if counts, err := batch.Run(o); err != nil || counts.Refused > 0 {
		t.Fatal(counts, err)
	}
	return o
}

// difference compares two runs and returns the lines that moved by farm and crop.
func difference(t *testing.T, before, after batch.Options) (batch.Difference, map[string]map[string]string) {
	t.Helper()
	var out bytes.Buffer
	d, err := batch.Diff(batch.DiffOptions{Files: disk.Files{}, Tables: disk.Tables{}, Before: before.Out, After: after.Out}, &out)
	if err != nil {
		t.Fatal(err)
	}
	return d, byLine(t, out.String())
}

func byLine(t *testing.T, text string) map[string]map[string]string {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]map[string]string{}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		all[row["farm"]+" "+row["commodity"]] = row
	}
	return all
}

func resultsByLine(t *testing.T, o batch.Options) map[string]map[string]string {
	text, err := os.ReadFile(filepath.Join(o.Out, "results.csv"))
	if err != nil {
		t.Fatal(err)
	}
	return byLine(t, string(text))
}

// figuresOf are the figures that move a line.
func figuresOf(row map[string]string) string {
	return strings.Join([]string{row["leader"], row["difference_mean"], row["plc_mean"], row["arc_co_mean"], row["base_acres"]}, " ")
}

// Every line is put down to the one input that alone flips it, or alone moves it, as a
// whole run of batch with that input alone changed says; else to several together.
func TestDiffNamesTheInputThatAloneDoesIt(t *testing.T) {
	farms := 300
	if invented.LongRun {
		farms = 5000
	}
	before, after := movedRun(t, farms, change{}), movedRun(t, farms, change{true, true, true})
	alone := map[answer.Cause]map[string]map[string]string{}
	for k, c := range map[answer.Cause]change{answer.CausePrice: {price: true}, answer.CauseCounty: {yield: true}, answer.CauseRecord: {record: true}} {
		alone[k] = resultsByLine(t, movedRun(t, farms, c))
	}
	d, lines := difference(t, before, after)
	old, now := resultsByLine(t, before), resultsByLine(t, after)
	counted, usd := map[answer.Cause]int{}, 0.0
	for key, was := range old {
		is, line := now[key], lines[key]
		if figuresOf(was) == figuresOf(is) {
			if line != nil {
				t.Errorf("%s did not move: %v", key, line)
			}
			continue
		}
		if line == nil {
			t.Errorf("%s moved from %s to %s and is not listed", key, figuresOf(was), figuresOf(is))
			continue
		}
		var doing []answer.Cause
		flipped := was["leader"] != is["leader"]
		for k, results := range alone {
			one := results[key]
			if flipped && one["leader"] == is["leader"] || !flipped && figuresOf(one) != figuresOf(was) {
				doing = append(doing, k)
			}
		}
		want := answer.CauseJoint
		if len(doing) == 1 {
			want = doing[0]
		}
		if line["cause"] != string(want) || line["flipped"] != strconv.FormatBool(flipped) || line["leader_before"] != was["leader"] || line["leader_after"] != is["leader"] {
			t.Errorf("%s: %v, want %s (%v alone)", key, line, want, doing)
		}
		if flipped {
			counted[want]++
		}
		moved := margin(t, is) - margin(t, was)
		usd += moved
		if got, err := strconv.ParseFloat(line["usd_moved"], 64); err != nil || math.Abs(got-moved) > 0.006 {
			t.Errorf("%s moved $%.2f, line says %s", key, moved, line["usd_moved"])
		}
	}
	for _, k := range []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseRecord, answer.CauseJoint} {
		if counted[k] == 0 {
			t.Errorf("no lead is flipped by %s: the case shows too little: %v", k, counted)
		}
	}
	for _, c := range d.Causes {
		if c.Flipped != counted[c.Cause] {
			t.Errorf("%s: %d flipped, want %d", c.Cause, c.Flipped, counted[c.Cause])
		}
	}
	if d.InBoth != 2*farms || d.Moved != len(lines) || math.Abs(float64(d.USD)-usd) > 0.01 || len(d.Largest) != 10 {
		t.Errorf("%d lines, %d moved, $%.2f, %d named; want %d, %d, $%.2f, 10", d.InBoth, d.Moved, float64(d.USD), len(d.Largest), 2*farms, len(lines), usd)
	}

	t.Logf("checked %d lines that moved of %d farms; flipped: %v", len(lines), farms, counted)
}

// margin is ARC-CO less PLC on all base acres of a line of results, USD.
func margin(t *testing.T, row map[string]string) float64 {
	a, err := strconv.ParseFloat(row["difference_mean"], 64)
	b, bad := strconv.ParseFloat(row["base_acres"], 64)
	if err != nil || bad != nil {
		t.Fatal(row)
	}
	return a * b
}

// A table in another order, with one farm gone and one added, moves no line: the two farms
// are listed as lines of one run alone, two crops each. A record that changes after the
// run is no record of it.
func TestDiffOfAnotherOrderOfRows(t *testing.T) {
	before := movedRun(t, 40, change{})
	heads, rest, _ := strings.Cut(movedTable(40, change{}), "\n")
	rows := strings.Split(strings.TrimSpace(rest), "\n")
	last := len(rows) - 2
	added := strings.Replace(strings.Join(rows[last:], "\n"), ",0040,", ",0041,", -1)
	rows = append(rows[:last:last], strings.Split(added, "\n")...)
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	after := asked(t, heads+"\n"+strings.Join(rows, "\n")+"\n")
	after.Question, after.County = before.Question, before.County
	if _, err := batch.Run(after); err != nil {
		t.Fatal(err)
	}
	d, lines := difference(t, before, after)
	if d.Moved != 0 || d.InBoth != 78 || d.OnlyOne != [2]int{2, 2} || len(lines) != 4 {
		t.Errorf("%d moved of %d, %v in one alone, %d lines; want 0, 78, [2 2], 4", d.Moved, d.InBoth, d.OnlyOne, len(lines))
	}
	for key, line := range lines {
		if want := map[bool]string{true: "only_in_before", false: "only_in_after"}[strings.Contains(key, "0040")]; line["cause"] != want || line["usd_moved"] != "" {
			t.Errorf("%s: %v, want %s", key, line, want)
		}
	}
	if err := os.WriteFile(before.Table, []byte(heads+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := batch.Diff(batch.DiffOptions{Files: disk.Files{}, Tables: disk.Tables{}, Before: before.Out, After: after.Out}, &bytes.Buffer{})
	if err == nil || !strings.Contains(err.Error(), "is not the table that") {
		t.Errorf("a table that has changed: %v", err)
	}
}

// Results that this version does not give are refused, not explained.
func TestDiffRefusesResultsOfAnotherBuild(t *testing.T) {
	before, after := movedRun(t, 20, change{}), movedRun(t, 20, change{price: true})
	for _, name := range []string{"results.csv", filepath.Join("results", "part-00001.csv")} {
		path := filepath.Join(before.Out, name)
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, bytes.ReplaceAll(text, []byte(",ARC-CO,"), []byte(",PLC,")), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	_, err := batch.Diff(batch.DiffOptions{Files: disk.Files{}, Tables: disk.Tables{}, Before: before.Out, After: after.Out}, &bytes.Buffer{})
	if err == nil || !strings.Contains(err.Error(), "what this version of fencerow does not answer") {
		t.Errorf("%v", err)
	}
}
