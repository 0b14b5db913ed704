package main

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// libraryRooms are the only packages of ours that import a heavy library themselves; all
// others reach it through these.
var libraryRooms = []struct {
	library string
	rooms   []string
}{
	{"modernc.org/sqlite", []string{"io/batch", "io/read/book"}},
	{"database/sql", []string{"io/batch", "io/read/book"}},
	{"github.com/parquet-go/", []string{"io/batch/columnar", "io/read/parquet"}},
	{"github.com/xuri/excelize/", []string{"io/batch/summary", "io/read/farmfile", "io/read/table", "io/read/workbook", "io/show/workbook/cells"}},
	{"github.com/spf13/cobra", []string{"cmd/fencerow", "cmd/fencerow/help"}},
}

// TestLibrariesHaveTheirRooms holds which packages import a database, spreadsheets, Parquet
// and the command line.
func TestLibrariesHaveTheirRooms(t *testing.T) {
	for _, l := range libraryRooms {
		seen := false
		for _, f := range goFiles(t) {
			if strings.HasSuffix(f.path, "_test.go") {
				continue
			}
			for _, spec := range f.tree.Imports {
				if !strings.HasPrefix(strings.Trim(spec.Path.Value, `"`), l.library) {
					continue
				}
				if seen = true; !slices.Contains(l.rooms, f.folder) {
					t.Errorf("%s imports %s: go through %s", f.path, spec.Path.Value, strings.Join(l.rooms, " or "))
				}
			}
		}
		if !seen {
			t.Errorf("nothing imports %s: take it out of the list", l.library)
		}
	}
}

// engine are the packages that build for a browser, and heavy what none of them may bring in.
var (
	engine = []string{"./io/source", "./sim/...", "./program/...", "./io/site", "./cmd/page"}
	heavy  = []string{"modernc.org/", "database/sql", "github.com/spf13/", "net/http", "gonum.org/v1/plot", "github.com/xuri/", "github.com/parquet-go/", "os/exec"}
)

// TestEngineBringsNothingIn lists what is below io/source, sim, program, io/site and cmd/page on
// js/wasm. .ci/run builds them.
func TestEngineBringsNothingIn(t *testing.T) {
	list := exec.Command("go", append([]string{"list", "-deps"}, engine...)...)
	list.Dir = root
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOPROXY=off")
	out, err := list.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	all := strings.Fields(string(out))
	others := 0
	for _, path := range all {
		if strings.Contains(strings.SplitN(path, "/", 2)[0], ".") && !strings.HasPrefix(path, "vendor/") {
			others++
		}
		if slices.ContainsFunc(heavy, func(h string) bool { return strings.HasPrefix(path, h) }) {
			t.Errorf("%s is below io/site and cmd/page", path)
		}
	}
	if !slices.Contains(all, "fencerow/io/source") || others == 0 {
		t.Errorf("the list is not one of packages: %d, %d of others", len(all), others)
	}
	fmt.Printf("packages of the engine for a browser: checked %d, %d of other modules\n", len(all), others)
}
