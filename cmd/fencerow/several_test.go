package main

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// longRun says that everything is to be checked: .ci/run sets it. Without it tests of very
// many farms, of kills and of sheets of paper take fewer of the same cases.
const longRun = "FENCEROW_LONG"

// ofLong is how many of something are tried: few, or all in a long run.
func ofLong(few, all int) int {
	if os.Getenv(longRun) != "" {
		return all
	}
	return few
}

// numberAt is a number of a line, 0 where it is blank.
func numberAt(t *testing.T, line []string, at int) float64 {
	t.Helper()
	if at >= len(line) || line[at] == "" {
		return 0
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(line[at], ",", ""), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// withLandlord gives one person half of the large farms of three operations of a client,
// and in a fourth of another client, who is somebody else.
func withLandlord(rows [][]string) [][]string {
	at := columnsOf(rows[0])
	for _, row := range rows[1:] {
		of := row[at["operation"]]
		if slices.Contains([]string{"operation 0000", "operation 0001", "operation 0002", "operation 0003"}, of) && strings.HasSuffix(row[at["producer"]], "-1") {
			row[at["producer"]] = "landlord"
		}
		if of <= "operation 0003" {
			row[at["base_acres"]] = strconv.Itoa(3000 + len(row[at["commodity"]]))
		}
	}
	return rows
}

// Of very many invented farms no line of the farms to change points against what is
// gained after limits, their sum is that of the results, and a person in three
// operations is flagged and has the limit once.
func TestTotalsOfManyFarms(t *testing.T) {
	farms := ofLong(500, 20_000)
	folder := t.TempDir()
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	writeRows(t, table, withLandlord(manyFarms(farms, 13)))
	runs(t, batchArgs(table, out, "--draws", "256")...)
	results := readRows(t, filepath.Join(out, "results.csv"))
	at := columnsOf(results[0])
	gained, gains, differs, flagged := 0.0, 0, 0, map[string]bool{}
	byLine := map[string][]string{}
	for _, r := range results[1:] {
		byLine[strings.Join([]string{r[at["operation"]], r[at["farm_number"]], r[at["commodity"]]}, "|")] = r
		gain := numberAt(t, r, at["gain_after_limit"])
		if gain < 0 || gain > 0 && r[at["differs_from_record"]] != "true" || (r[at["election_on_record"]] == "") != (r[at["gain_after_limit"]] == "") {
			t.Errorf("a gain of %v: %v", gain, r)
		}
		if gain > 0 {
			gains++
		}
		if r[at["differs_from_record"]] == "true" {
			differs++
		}
		gained += gain
		if strings.Contains(r[at["flags"]], "person_in_several_operations") {
			flagged[r[at["operation"]]] = true
		}
	}
	totals := sheetRows(t, filepath.Join(out, "summary.xlsx"), "Totals")
	heads := slices.IndexFunc(totals, func(row []string) bool { return len(row) > 0 && row[0] == "crop year" })
	column := columnsOf(totals[heads])
	sum, lines := 0.0, 0.0
	for _, row := range totals[heads+1:] {
		if len(row) == 0 {
			break
		}
		if row[0] == "all" {
			if all := numberAt(t, row, column["average dollars more"]); math.Abs(all-gained) > 0.005 || numberAt(t, row, column["differs from last election"]) != float64(gains) {
				t.Errorf("all: %v, want %.2f of %d lines", row, gained, gains)
			}
			continue
		}
		sum, lines = sum+numberAt(t, row, column["average dollars more"]), lines+numberAt(t, row, column["differs from last election"])
	}
	if math.Abs(sum-gained) > 0.005 || int(lines) != gains || gains == 0 {
		t.Errorf("the summary counts %v lines and %.2f USD, the results %d and %.2f", lines, sum, gains, gained)
	}
	toElectRows(t, filepath.Join(out, "summary.xlsx"), at, byLine)
	listed := toChangeRows(t, filepath.Join(out, "summary.xlsx"), at, byLine)
	if !slices.Equal(slices.Sorted(maps.Keys(flagged)), []string{"operation 0000", "operation 0001", "operation 0002"}) {
		t.Errorf("flagged are %v", flagged)
	}
	limited, loss := landlordRows(t, filepath.Join(out, "people.csv"))
	fmt.Printf("largest differences: checked %d of %d listed lines of %d that gain, %.2f USD in summary and results, %d differ from the record; %d lines of %d farms; a person in three operations is paid %.2f, %.2f less than each alone\n",
		listed, listed, gains, gained, differs, len(results)-1, farms, limited, loss)
}

// toElectRows checks the dollars on the sheet of elections against the results, of more lines
// than are read at once.
func toElectRows(t *testing.T, path string, at map[string]int, results map[string][]string) {
	t.Helper()
	rows := sheetRows(t, path, "Farms that need a 2026 election")
	heads := slices.IndexFunc(rows, func(row []string) bool { return len(row) > 0 && row[0] == "client" })
	column, checked := columnsOf(rows[heads]), 0
	for _, row := range rows[heads+1:] {
		if len(row) == 0 {
			break
		}
		r := results[strings.Join([]string{row[column["operation"]], row[column["farm"]], strings.ReplaceAll(row[column["crop"]], " ", "_")}, "|")]
		if math.Abs(numberAt(t, row, column["dollars after limits"])-numberAt(t, r, at["mean_after_limit"])) > 0.005 {
			t.Errorf("the sheet has %v, the results %v", row, r)
		}
		checked++
	}
	if checked != 1000 {
		t.Errorf("checked %d lines, want 1000", checked)
	}
}

// toChangeRows checks the sheet of largest differences against the results and returns how
// many lines it has.
func toChangeRows(t *testing.T, path string, at map[string]int, results map[string][]string) int {
	t.Helper()
	rows := sheetRows(t, path, "Largest differences")
	heads := slices.IndexFunc(rows, func(row []string) bool { return len(row) > 0 && row[0] == "client" })
	column := columnsOf(rows[heads])
	listed := 0
	for _, row := range rows[heads+1:] {
		if len(row) == 0 {
			break
		}
		listed++
		r := results[strings.Join([]string{row[column["operation"]], row[column["farm"]], strings.ReplaceAll(row[column["crop"]], " ", "_")}, "|")]
		gain := numberAt(t, row, column["dollars after limits"])
		against := gain <= 0 || math.Abs(gain-numberAt(t, r, at["gain_after_limit"])) > 0.005 || row[column["averages most"]] == row[column["last elected"]]
		if margin := numberAt(t, r, at["margin_after_limit"]); r[at["margin_after_limit"]] != "" {
			ahead := map[bool]string{true: "ARC-CO", false: "PLC"}[margin > 0]
			against = against || row[column["averages most"]] != ahead || math.Abs(math.Abs(margin)*numberAt(t, r, at["base_acres"])-gain) > 0.01*numberAt(t, r, at["base_acres"])
		}
		if against {
			t.Errorf("a line points against its gain: %v; result %v", row, r)
		}
	}
	return listed
}

// landlordRows checks that one limit holds for the person of three operations and
// returns what is left and what it takes.
func landlordRows(t *testing.T, path string) (left, loss float64) {
	t.Helper()
	rows := readRows(t, path)
	at := columnsOf(rows[0])
	parts, alone, found := 0.0, 0.0, 0
	for _, p := range rows[1:] {
		several := p[at["person"]] == "landlord" && p[at["client"]] == "client 000"
		if (p[at["operations"]] == "3") != several || !several && (p[at["operations"]] != "1" || p[at["mean_across"]] != p[at["mean_after_limit"]]) {
			t.Errorf("%v", p)
		}
		if !several {
			continue
		}
		found++
		left = numberAt(t, p, at["mean_across"])
		loss = numberAt(t, p, at["mean_each_alone"]) - left
		parts, alone = parts+numberAt(t, p, at["part_across"]), alone+numberAt(t, p, at["mean_after_limit"])
		if limit := numberAt(t, p, at["payment_limit"]); left > limit {
			t.Errorf("more than the limit is paid: %v", p)
		}
	}
	if found != 3 || math.Abs(parts-left) > 0.02 || math.Abs(alone-left-loss) > 0.02 || loss <= 0 {
		t.Errorf("%d lines, parts %.2f of %.2f, alone %.2f, %.2f less", found, parts, left, alone, loss)
	}
	return left, loss
}

// Shares of a table say what the undivided one says of persons of several operations,
// which lie in other shares too; the order of rows does not matter, nor does resuming.
func TestSharesSeePersonsOfSeveralOperations(t *testing.T) {
	folder := t.TempDir()
	rows := withLandlord(manyFarms(40, 13))
	table, whole := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "whole")
	writeRows(t, table, rows)
	_, talk := talks(t, exitDone, batchArgs(table, whole, "--draws", "256")...)
	if !strings.Contains(talk, "one person has a share in several operations of a client") {
		t.Errorf("nothing is said: %s", talk)
	}
	lines := func(pattern string) (all []string) {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			for _, row := range readRows(t, name)[1:] {
				all = append(all, strings.Join(row, "|"))
			}
		}
		slices.Sort(all)
		return all
	}
	shared := filepath.Join(folder, "shared")
	for share := range 4 {
		runs(t, batchArgs(table, shared, "--draws", "256", "--part", fmt.Sprintf("%d/4", share+1))...)
	}
	reversed := slices.Clone(rows[1:])
	slices.Reverse(reversed)
	backwards := filepath.Join(folder, "reversed.csv")
	writeRows(t, backwards, append([][]string{rows[0]}, reversed...))
	runs(t, batchArgs(backwards, filepath.Join(folder, "back"), "--draws", "256")...)
	for _, kind := range []string{"people", "results", "operations"} {
		want := lines(filepath.Join(whole, kind, "*.csv"))
		for _, other := range []string{"shared", "back"} {
			if got := lines(filepath.Join(folder, other, kind, "*.csv")); !slices.Equal(got, want) {
				t.Errorf("%s of %s: %d lines, want %d", kind, other, len(got), len(want))
			}
		}
	}
	os.Remove(filepath.Join(whole, "results", "part-00001.csv"))
	runs(t, batchArgs(table, whole, "--draws", "256", "--resume")...)
	again := filepath.Join(folder, "again")
	runs(t, batchArgs(table, again, "--draws", "256")...)
	same(t, again, whole)
	if text, _ := os.ReadFile(filepath.Join(whole, "run.json")); !bytes.Contains(text, []byte(`"persons_in_several_operations": 1`)) {
		t.Errorf("run.json: %s", text)
	}
}
