package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// ran carries out a command line and returns its exit code and its talk.
func ran(args ...string) (code int, talk string) {
	var stdout, stderr bytes.Buffer
	code = run(args, &stdout, &stderr)
	return code, stdout.String() + stderr.String()
}

// A number of draws below one is wrong use of every verb that draws, and is said
// before a file is opened: none of these files exists.
func TestDrawsBelowOne(t *testing.T) {
	folder := t.TempDir()
	out := filepath.Join(folder, "out")
	for _, verb := range [][]string{
		{"compare", "none.yaml"},
		{"handout", "none.yaml", "--out", out},
		{"batch", "none.csv", "--out", out},
		{"score", "--data", filepath.Join(folder, "none")},
	} {
		for _, draws := range []string{"0", "-1", "16777217"} {
			code, talk := ran(append(verb, "--draws", draws)...)
			if code != exitUsage || !strings.Contains(talk, "error: --draws is "+draws) || !strings.Contains(talk, "hint: give a number from 1 to 16777216") {
				t.Errorf("%s --draws %s: exit %d\n%s", verb[0], draws, code, talk)
			}
		}
	}
	if _, err := os.Stat(out); err == nil {
		t.Error("wrong use has made the folder of results")
	}
}

// What is no seed, and a margin or acreage that is no figure, is wrong use too.
func TestFlagsThatAreNoFigure(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct{ args, says string }{
		{"compare none.yaml --seed one", `"one" for "--seed"`},
		{"compare none.yaml --seed -1", `"-1" for "--seed"`},
		{"compare none.yaml --draws NaN", `"NaN" for "--draws"`},
		{"compare none.yaml --close NaN", "--close is NaN"},
		{"compare none.yaml --close -1", "--close is -1"},
		{"compare none.yaml --close Inf", "--close is +Inf"},
		{"compare none.yaml --until NaN", "--until is NaN"},
		{"batch none.csv --out none --close NaN", "--close is NaN"},
		{"score --data none --least-base NaN", "--least-base is NaN"},
		{"score --data none --least-base -1", "--least-base is -1"},
	} {
		if code, talk := ran(strings.Fields(c.args)...); code != exitUsage || !strings.Contains(talk, c.says) || !strings.Contains(talk, "hint: ") {
			t.Errorf("%s: exit %d, want %d and %q\n%s", c.args, code, exitUsage, c.says, talk)
		}
	}
}

// A county yield or price of what the farm does not have is an error that names
// what it has. The demo's farm 0417 has corn in county 99001 alone, with one
// practice; corn of farm 0588 lies in 99001 and in 99003, there by two practices.
func TestExplainOfWhatTheFarmHasNot(t *testing.T) {
	for _, c := range []struct{ farm, mya, yields, says, hint string }{
		{"0417", "4.10", "99009=180", "--county-yield names county 99009", "99001"},
		{"0417", "4.10", "99001=175,99009=180", "--county-yield names county 99009", "99001"},
		{"0417", "4.10", "175,99009:irrigated=180", "--county-yield names county 99009", "99001"},
		{"0417", "4.10", "99001:irrigated=175", "--county-yield names 99001:irrigated", "99001"},
		{"0588", "4.10", "99001=175,99003:all=180", "--county-yield names 99003:all", "99003:irrigated, 99003:nonirrigated"},
		{"0417", "4.10", "99001=175,99001=180", "--county-yield names 99001 twice", "once"},
		{"0417", "4.10", "175,180", "--county-yield names all counties twice", "once"},
		{"0417", "corn=4.10,oats=3", "175", "--mya names oats", "corn, soybeans"},
	} {
		code, talk := ran("explain", "--demo", "--farm", c.farm, "--commodity", "corn", "--crop-year", "2026", "--mya", c.mya, "--county-yield", c.yields)
		error, hint, _ := strings.Cut(talk, "hint: ")
		if code != exitUsage || !strings.Contains(strings.ToLower(error), strings.ToLower(c.says)) || !strings.Contains(hint, c.hint) {
			t.Errorf("%s of farm %s: exit %d, want %d, %q, hint %q\n%s", c.yields, c.farm, code, exitUsage, c.says, c.hint, talk)
		}
	}
}
