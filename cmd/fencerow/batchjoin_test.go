package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// joinedFiles are those that a join writes as a run in one piece does.
var joinedFiles = strings.Fields("results.csv results.parquet people.csv farms.csv operations.csv refused.csv exceptions.csv calls.csv counties.csv summary.xlsx run.json figures/market.json figures/counties.json.gz figures/law.csv")

// Shares joined are the run in one piece, byte for byte, for a table in order, one in another
// order, and one of several parts with people of several operations and refused rows.
func TestJoinedSharesAreTheWholeRun(t *testing.T) {
	folder := t.TempDir()
	rows := withLandlord(manyFarms(ofLong(700, 3000), 13)) // more than one part in a share
	rows[5][6], rows[90][4], rows[200][6] = "-3", "gold", "many"
	reversed := slices.Clone(rows[1:])
	slices.Reverse(reversed)
	for name, some := range map[string][][]string{"in order": rows, "reversed": append([][]string{rows[0]}, reversed[len(reversed)-900:]...)} {
		of := filepath.Join(folder, name)
		table, whole, joined := filepath.Join(folder, name+".csv"), filepath.Join(of, "whole"), filepath.Join(of, "joined")
		writeRows(t, table, some)
		runsTo(t, exitSome, batchArgs(table, whole, "--draws", "64")...)
		var shares []string
		for i := range 3 {
			share := filepath.Join(of, fmt.Sprint("share", i+1))
			shares = append(shares, share)
			var stdout, stderr bytes.Buffer
			if code := run(batchArgs(table, share, "--draws", "64", "--part", fmt.Sprintf("%d/3", i+1)), &stdout, &stderr); code != exitDone && code != exitSome {
				t.Fatalf("share %d: exit %d: %s", i+1, code, stderr.String())
			}
		}
		slices.Reverse(shares)
		runsTo(t, exitSome, append([]string{"batch", "join", "--out", joined}, shares...)...)
		checked := 0
		for _, file := range joinedFiles {
			want, err := os.ReadFile(filepath.Join(whole, file))
			got, failed := os.ReadFile(filepath.Join(joined, file))
			if err != nil || failed != nil || !bytes.Equal(got, want) {
				t.Errorf("%s: %s differs: %d bytes, want %d, %v %v", name, file, len(got), len(want), err, failed)
				continue
			}
			checked++
		}
		parts, _ := filepath.Glob(filepath.Join(whole, "results", "part-*.csv"))
		fmt.Printf("shares joined, table %s: checked %d of %d files against a run of %d parts\n", name, checked, len(joinedFiles), len(parts))
		if name == "in order" && len(parts) < 2 {
			t.Errorf("%d parts, want several", len(parts))
		}
		runs(t, "batch", "diff", whole, joined)
	}
}

// A masked run is joined too: its lines are those of its shares, one after the other, and no
// name is in any file.
func TestJoinedSharesStayMasked(t *testing.T) {
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	writeRows(t, table, manyFarms(24, 3))
	var shares []string
	for i := range 2 {
		shares = append(shares, filepath.Join(folder, fmt.Sprint("share", i+1)))
		runs(t, batchArgs(table, shares[i], "--draws", "64", "--mask", "--part", fmt.Sprintf("%d/2", i+1))...)
	}
	joined := filepath.Join(folder, "joined")
	runs(t, append([]string{"batch", "join", "--out", joined}, shares...)...)
	lines := 0
	for _, share := range shares {
		parts, _ := filepath.Glob(filepath.Join(share, "results", "*.csv"))
		for _, part := range parts {
			lines += len(readRows(t, part)) - 1
		}
	}
	if got := len(readRows(t, filepath.Join(joined, "results.csv"))) - 1; got != lines || got != 48 {
		t.Errorf("%d lines, want %d", got, lines)
	}
	namesNobody(t, joined)
}

// namesNobody checks that no name of manyFarms is in a file of a folder.
func namesNobody(t *testing.T, out string) {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join(out, "*.*"))
	parts, _ := filepath.Glob(filepath.Join(out, "*", "*.csv"))
	for _, name := range slices.Concat(files, parts) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if filepath.Ext(name) == ".xlsx" {
			text = []byte(strings.Join(workbookUnits(t, name), "\n"))
		}
		for _, secret := range []string{"client 00", "operation 00", "99001-00", "99003-00", "tenant", "landlord"} {
			if bytes.Contains(text, []byte(secret)) {
				t.Errorf("%s holds %q", name, secret)
			}
		}
	}
	if len(files) < 10 {
		t.Errorf("%d files were looked at", len(files))
	}
}

// A call of the batch says of each person what the list of calls of compare says: the dollars
// as last elected, who else must agree, and what is not recorded.
func TestCallsOfBatchEqualCompare(t *testing.T) {
	folder := t.TempDir()
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	rows := manyFarms(4, 7)
	rows[0] = append(rows[0], "choice", "signed")
	for i := range rows[1:] {
		rows[i+1] = append(rows[i+1], "", "")
	}
	for _, i := range []int{1, 2} { // both producers of one base
		rows[i][len(rows[i])-2] = "PLC"
	}
	rows[1][len(rows[1])-1] = "2026-11-20"
	writeRows(t, table, rows)
	runs(t, batchArgs(table, out, "--draws", "1024")...)
	args := batchArgs(table, out, "--draws", "1024", "--sheet", "calls")
	args = slices.Delete(append([]string{"compare", table}, args[2:]...), 2, 4) // without --out
	said := strings.Join(strings.Fields(runs(t, args...)), " ")
	calls := readRows(t, filepath.Join(out, "calls.csv"))
	at := columnsOf(calls[0])
	for _, c := range calls[1:] {
		person := c[at["person"]]
		from := strings.Index(said, person)
		if from < 0 {
			t.Fatalf("%s is not called: %s", person, said)
		}
		own := said[from:]
		if next := strings.Index(own[len(person):], "dollars for 2026"); next >= 0 {
			if after := strings.Index(own[len(person)+next+1:], "dollars for 2026"); after >= 0 {
				own = own[:len(person)+next+1+after]
			}
		}
		whole := shownDollars(t, c[at["mean_last_elected"]])
		for _, want := range []string{"as last elected " + whole, c[at["must_agree"]], "Papers: " + c[at["papers"]]} {
			if !strings.Contains(own, want) {
				t.Errorf("%s: %q is not in the list of calls: %s", person, want, own)
			}
		}
		if !strings.Contains(c[at["choices_typed"]], "PLC on 0001") || c[at["phone"]] != "" {
			t.Errorf("%v", c)
		}
	}
	if signed := calls[1][at["signatures"]] + calls[2][at["signatures"]]; !strings.Contains(signed, "signed November 20, 2026") || len(calls) != 3 {
		t.Errorf("signatures: %s, %d calls", signed, len(calls)-1)
	}
	people := readRows(t, filepath.Join(out, "people.csv"))
	of := columnsOf(people[0])
	for _, p := range people[1:] {
		if i := slices.IndexFunc(calls, func(c []string) bool { return c[at["person"]] == p[of["person"]] }); i < 0 || calls[i][at["mean_after_limit"]] != p[of["mean_across"]] {
			t.Errorf("people.csv pays %v", p)
		}
	}
}

func shownDollars(t *testing.T, text string) string {
	t.Helper()
	whole := fmt.Sprintf("%.0f", numberAt(t, []string{text}, 0))
	if n := len(whole); n > 3 {
		whole = whole[:n-3] + "," + whole[n-3:]
	}
	return "$" + whole
}

// A page of a client has the figures of compare of that operation: the same sheets, with one
// line more that says whose they are. Shares write each page once, resuming writes the same,
// and nothing is written outside the folder.
func TestPagesOfClientsEqualCompare(t *testing.T) {
	folder := t.TempDir()
	rows := manyFarms(12, 7) // three operations of one client
	for i := range rows[1:] {
		rows[i+1][0] = strings.ReplaceAll(rows[i+1][1], "operation", "../client/")
	}
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	writeRows(t, table, rows)
	runs(t, batchArgs(table, out, "--draws", "1024", "--pages")...)
	pages, _ := filepath.Glob(filepath.Join(out, "pages", "*"))
	if len(pages) != 3 || filepath.Base(pages[0]) != "00001-client-0000.html" {
		t.Fatalf("pages: %q", pages)
	}
	one := filepath.Join(folder, "one.csv")
	writeRows(t, one, append([][]string{rows[0]}, rows[1:17]...))
	args := batchArgs(one, out, "--draws", "1024", "--page", filepath.Join(folder, "one.html"))
	runs(t, slices.Delete(append([]string{"compare", one}, args[2:]...), 2, 4)...)
	want, got := pageUnits(fileText(t, filepath.Join(folder, "one.html"))), pageUnits(fileText(t, pages[0]))
	got = slices.DeleteFunc(got, func(unit string) bool { return unit == "../client/ 0000, operation operation 0000." })
	if !slices.Equal(got, want) {
		t.Errorf("the page has other words than that of compare:\n%q\n%q", got, want)
	}
	if len(want) < 100 {
		t.Errorf("%d units", len(want))
	}
	shared := filepath.Join(folder, "shared")
	for i := range 2 {
		runs(t, batchArgs(table, shared, "--draws", "1024", "--pages", "--part", fmt.Sprintf("%d/2", i+1))...)
	}
	joined := filepath.Join(folder, "joined")
	runs(t, "batch", "join", shared, "--out", joined)
	os.Remove(pages[1])
	runs(t, batchArgs(table, out, "--draws", "1024", "--pages", "--resume")...)
	for _, name := range pages {
		for _, other := range []string{out, shared, joined} {
			if text := fileText(t, filepath.Join(other, "pages", filepath.Base(name))); len(text) < 10_000 || text != fileText(t, name) {
				t.Errorf("%s of %s: %d bytes", filepath.Base(name), other, len(text))
			}
		}
	}
	if above, _ := os.ReadDir(folder); len(above) != 6 {
		t.Errorf("beside the folders lie %v", above)
	}
}
