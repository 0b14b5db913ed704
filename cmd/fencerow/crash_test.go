package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// rmaReport writes a report of corn yields of many invented counties in RMA's layout.
func rmaReport(t *testing.T, path string, counties, height int) string {
	t.Helper()
	var text strings.Builder
	text.WriteString("Commodity Code,Commodity Name,State Code,State Name,State Abbreviation,County Code,County Name,Irrigation Practice Code,Irrigation Practice Name,Yield Year,Yield Amount\r\n")
	for county := range counties {
		for y := 2010; y < 2025; y++ {
			fmt.Fprintf(&text, "0041, Corn, 99, Nowhere, ZZ, %03d, County %d, 003, Non-Irrigated, %d, %d.%02d\r\n", 1+county, county, y, height+y%7, county%100)
		}
	}
	if err := os.WriteFile(path, []byte(text.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// bookSays is all that a book lists, and what it has of one county.
func bookSays(t *testing.T, path string) string {
	t.Helper()
	said := ""
	for _, args := range [][]string{{"county", "list", "--json"}, {"county", "list", "--files", "--json"}, {"county", "show", "99001", "--json", "--today", demoToday}} {
		said += runs(t, append(args, "--book", path)...)
	}
	return said
}

// A county import that is killed at random moments and run again leaves the book of one that
// was not killed.
func TestCountyImportKilled(t *testing.T) {
	kills := ofLong(3, 20)
	folder := t.TempDir()
	report := rmaReport(t, filepath.Join(folder, "RMACountyYieldsReport.csv"), 900, 100)
	args := func(book string) []string {
		return []string{"county", "import", report, "--book", book, "--today", demoToday}
	}
	whole := filepath.Join(folder, "whole.db")
	begun := time.Now()
	if out, err := exec.Command("fencerow", args(whole)...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	took := time.Since(begun)
	want := bookSays(t, whole)
	r := rand.New(rand.NewPCG(7, 2))
	stopped, same := 0, 0
	for k := range kills {
		book := filepath.Join(folder, fmt.Sprintf("killed%d.db", k))
		command := exec.Command("fencerow", args(book)...)
		if err := command.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(float64(took) * r.Float64()))
		command.Process.Kill()
		if command.Wait() != nil {
			stopped++
		}
		runs(t, args(book)...)
		if got := bookSays(t, book); got == want {
			same++
		} else {
			t.Errorf("kill %d: the book differs: %d bytes listed, want %d", k, len(got), len(want))
		}
		if left, _ := filepath.Glob(book + "-*"); len(left) > 0 {
			t.Errorf("left behind: %v", left)
		}
	}
	fmt.Printf("county imports killed and run again: checked %d of %d, %d of them under way\n", same, kills, stopped)
}

// Four imports of four files into one book at once all end well, and the book is that of the four one
// after the other.
func TestFourImportsAtOnce(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	var commands []*exec.Cmd
	var reports []string
	for i := range 4 {
		reports = append(reports, rmaReport(t, at(fmt.Sprintf("report%d.csv", i)), 100, 100+10*i))
		commands = append(commands, exec.Command("fencerow", "county", "import", reports[i], "--book", at("together.db"), "--today", demoToday))
	}
	for _, command := range commands {
		if err := command.Start(); err != nil {
			t.Fatal(err)
		}
	}
	for i, command := range commands {
		if err := command.Wait(); err != nil {
			t.Errorf("import %d: %v", i, err)
		}
	}
	names := runs(t, "county", "list", "--files", "--book", at("together.db"))
	var order []string // in which they came to be in the book: of one subject the later wins
	for _, line := range strings.Split(names, "\n") {
		for _, report := range reports {
			if strings.Contains(line, filepath.Base(report)) {
				order = append(order, report)
			}
		}
	}
	if len(order) != len(reports) {
		t.Fatalf("%d of %d files in the book: %s", len(order), len(reports), names)
	}
	for _, report := range order {
		runs(t, "county", "import", report, "--book", at("one-by-one.db"), "--today", demoToday)
	}
	if together, single := bookSays(t, at("together.db")), bookSays(t, at("one-by-one.db")); together != single {
		t.Errorf("four at once:\n%s\none by one:\n%s", together, single)
	}
}

// Of three runs of a batch into one folder one goes on and the others say that it is taken;
// also of three that take up an interrupted one.
func TestOneBatchInAFolder(t *testing.T) {
	folder := t.TempDir()
	table, whole, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "whole"), filepath.Join(folder, "out")
	writeRows(t, table, manyFarms(ofLong(200, 1500), 5))
	runs(t, batchArgs(table, whole, "--draws", "1024")...)
	for _, more := range [][]string{nil, {"--resume"}} {
		if more != nil { // one that was interrupted
			os.RemoveAll(filepath.Join(out, "results"))
			os.Remove(filepath.Join(out, "results.csv"))
		}
		var commands []*exec.Cmd
		var talk [3]strings.Builder
		for i := range talk {
			command := exec.Command("fencerow", batchArgs(table, out, append([]string{"--draws", "1024"}, more...)...)...)
			command.Stderr = &talk[i]
			if err := command.Start(); err != nil {
				t.Fatal(err)
			}
			commands = append(commands, command)
		}
		done := 0
		for i, command := range commands {
			var exit *exec.ExitError
			switch err := command.Wait(); {
			case err == nil:
				done++
			case !errors.As(err, &exit) || exit.ExitCode() != exitUsage:
				t.Errorf("%v: %v: %s", more, err, talk[i].String())
			case !strings.Contains(talk[i].String(), "another run is writing") && !strings.Contains(talk[i].String(), "holds results already"):
				t.Errorf("%v: does not say that the folder is taken: %s", more, talk[i].String())
			}
		}
		// With --resume one that starts after the first has ended finds nothing to do.
		if done == 0 || more == nil && done != 1 {
			t.Errorf("%v: %d of three went on", more, done)
		}
		same(t, whole, out)
	}
}

// unfinished lists the files of a folder that are still being written.
func unfinished(folder string) (left []string) {
	filepath.WalkDir(folder, func(path string, _ os.DirEntry, _ error) error {
		if strings.HasSuffix(path, ".unfinished") || strings.Contains(path, ".running") {
			left = append(left, path)
		}
		return nil
	})
	return slices.Clip(left)
}
