package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"fencerow/program/law"
)

const root = "../.."

// topLevel is all that may stand at the top of the repository.
var topLevel = []string{"cmd", "program", "sim", "io", "testdata", "docs", "README.md", "DEVELOPERS.md", "CONTRIBUTING.md", "SECURITY.md", "LICENSE", "NOTICE", "go.mod", "go.sum"}

// TestTopLevel: a newcomer guesses the room of anything from the tree.
func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(topLevel, e.Name()) {
			t.Errorf("%s stands at the top level: find it a room (DEVELOPERS.md)", e.Name())
		}
	}
	if files, _ := filepath.Glob(root + "/io/*.go"); len(files) > 0 {
		t.Errorf("io/ holds only folders: %v would hide Go's own package io", files)
	}
}

// goFile is a parsed source file with its place in the house.
type goFile struct {
	path   string // "program/plc.go"
	folder string
	tree   *ast.File
	text   string
}

// fileSet has the places of all parsed files.
var fileSet = token.NewFileSet()

// parsedFiles are all Go files of the house, parsed once for all tests of it.
var parsedFiles = sync.OnceValues(func() (files []goFile, err error) {
	err = filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && d.Name() == "testdata" { // not of the program: peers to measure against
			return filepath.SkipDir
		}
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		tree, err := parser.ParseFile(fileSet, path, text, parser.ParseComments)
		if err != nil {
			return err
		}
		rel := filepath.ToSlash(strings.TrimPrefix(filepath.Clean(path), filepath.Clean(root)+string(filepath.Separator)))
		files = append(files, goFile{rel, filepath.ToSlash(filepath.Dir(rel)), tree, string(text)})
		return nil
	})
	return files, err
})

func goFiles(t *testing.T) []goFile {
	t.Helper()
	files, err := parsedFiles()
	if err != nil || len(files) == 0 {
		t.Fatalf("%d Go files, %v", len(files), err)
	}
	return files
}

// mayImport says which rooms of the project a room may import, by prefix.
// Imports go one way: cmd, io/batch, io/serve, io/site -> io/source, io/show -> sim/explain, sim/backtest
// -> sim/compare -> sim/flag -> sim/answer, sim/limits -> sim/payoff -> sim/scenario ->
// sim/position -> sim/odds, program -> program/farm -> program/law -> program/crop, and
// io/source -> io/read -> program/farm.
var laws = []string{"program", "program/farm", "program/law", "program/crop"}

var mayImport = []struct {
	room    string
	allowed []string
}{
	{"program/crop", nil},
	{"program/law", []string{"program/crop"}},
	{"program/farm", []string{"program/law", "program/crop"}},
	{"program", []string{"program/farm", "program/law", "program/crop"}},
	{"sim/odds/rank", nil},
	{"sim/odds", []string{"sim/odds/rank", "program", "program/crop"}},
	{"sim/fit", []string{"sim/odds", "sim/parallel", "program/farm", "program/crop"}},
	{"sim/elect", []string{"program", "program/crop"}},
	{"sim/parallel", nil},
	{"sim/position", append([]string{"sim/odds", "sim/parallel"}, laws...)},
	{"sim/scenario", append([]string{"sim/position", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/payoff", append([]string{"sim/scenario", "sim/position", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/limits", append([]string{"sim/payoff", "sim/scenario", "sim/position", "sim/elect", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/answer", append([]string{"sim/scenario", "sim/position", "sim/odds"}, laws...)},
	{"sim/flag", append([]string{"sim/answer", "sim/limits", "sim/payoff", "sim/scenario", "sim/position", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/compare", append([]string{"sim/flag", "sim/answer", "sim/limits", "sim/payoff", "sim/scenario", "sim/position", "sim/elect", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/moved", append([]string{"sim/answer"}, laws...)},
	{"io/since", append([]string{"io/batch/kept", "sim/answer", "sim/compare", "sim/moved", "sim/odds"}, laws...)},
	{"sim/explain", append([]string{"sim/compare", "sim/flag", "sim/answer", "sim/limits", "sim/position", "sim/odds"}, laws...)},
	{"sim/backtest", append([]string{"sim/compare", "sim/answer", "sim/payoff", "sim/position", "sim/fit", "sim/odds", "sim/parallel"}, laws...)},
	{"sim/invented", append([]string{"sim/invented", "sim/answer"}, laws...)}, // of tests alone
	{"io/read", []string{"io/read", "program/farm", "program/law", "program/crop"}},
	{"io/file", nil},
	{"io/show", []string{"io/show", "sim/answer", "sim/flag", "sim/explain", "sim/backtest", "program", "program/farm", "program/law", "program/crop"}},
	{"io/source", []string{"sim/answer", "sim/explain", "sim/parallel", "sim/position", "io/read", "program/farm", "program/law", "program/crop"}},
	{"io/disk", []string{"io/source", "io/read", "program/farm"}},
	{"io/batch", []string{"io/batch", "io/file", "sim/moved", "io/source", "io/read/farmtable", "io/show/report", "io/show/wording", "io/show/worklist", "io/show/sheet", "io/show/page", "sim/answer", "sim/compare", "sim/limits", "sim/odds", "sim/parallel", "program", "program/farm", "program/law", "program/crop"}},
	{"io/site", append([]string{"io/source", "io/read", "io/show", "sim/answer", "sim/compare", "sim/explain", "sim/flag", "sim/parallel"}, laws...)},
	{"io/serve", []string{"io/site"}},
	{"io/about", []string{"io/read", "io/show/wording", "io/source", "program/law"}},
	{"cmd", []string{"cmd/fencerow/demo", "cmd/fencerow/help", "io", "sim", "program"}},
}

// TestImportsGoOneWay holds the direction of imports, and keeps the law free of
// anything but the standard library.
func TestImportsGoOneWay(t *testing.T) {
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		for _, spec := range f.tree.Imports {
			path := strings.Trim(spec.Path.Value, `"`)
			if inner, ours := strings.CutPrefix(path, "fencerow/"); ours {
				if !allowedImport(f.folder, inner) {
					t.Errorf("%s imports %s: imports go one way (DEVELOPERS.md)", f.path, inner)
				}
				continue
			}
			if inRoom(f.folder, "program") && strings.Contains(path, ".") {
				t.Errorf("%s imports %s: program and all below it import the standard library only", f.path, path)
			}
		}
	}
}

func allowedImport(folder, inner string) bool {
	for _, rule := range mayImport {
		exact := rule.room == "program" || strings.HasPrefix(rule.room, "program/")
		if exact && folder != rule.room || !exact && !inRoom(folder, rule.room) {
			continue
		}
		return slices.ContainsFunc(rule.allowed, func(room string) bool {
			return inner == room || !strings.HasPrefix(room, "program") && inRoom(inner, room) || room == "program" && rule.room == "cmd" && inRoom(inner, room)
		})
	}
	return false
}

func inRoom(folder, room string) bool {
	return folder == room || strings.HasPrefix(folder, room+"/")
}

// TestEveryPackageIsIntroduced: each package has a doc.go and each exported
// name a comment.
func TestEveryPackageIsIntroduced(t *testing.T) {
	introduced := map[string]bool{"cmd/fencerow": true} // main.go says what the command is
	files := goFiles(t)
	for _, f := range files {
		if filepath.Base(f.path) == "doc.go" {
			introduced[f.folder] = f.tree.Doc != nil
		}
	}
	for _, f := range files {
		if !introduced[f.folder] {
			t.Errorf("%s: the package has no doc.go", f.path)
		}
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		for _, name := range uncommented(f.tree) {
			t.Errorf("%s: exported %s has no comment", f.path, name)
		}
	}
}

// uncommented returns exported top-level names without a comment of their own
// or of their group.
func uncommented(tree *ast.File) []string {
	var names []string
	for _, decl := range tree.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && d.Doc == nil && exportedReceiver(d) {
				names = append(names, d.Name.Name)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() && s.Doc == nil && d.Doc == nil {
						names = append(names, s.Name.Name)
					}
				case *ast.ValueSpec:
					if s.Names[0].IsExported() && s.Doc == nil && s.Comment == nil && d.Doc == nil {
						names = append(names, s.Names[0].Name)
					}
				}
			}
		}
	}
	return names
}

// exportedReceiver leaves out methods that only carry out an interface.
func exportedReceiver(d *ast.FuncDecl) bool {
	return d.Recv == nil || !slices.Contains([]string{"Error", "Unwrap", "String"}, d.Name.Name)
}

// TestRoundingHasOneRoom: money is rounded in program/rounding.go alone.
func TestRoundingHasOneRoom(t *testing.T) {
	for _, f := range goFiles(t) {
		rounds := strings.Contains(f.text, "math."+"Round(") || strings.Contains(f.text, "math.Floor(x*")
		if rounds && f.path != "program/rounding.go" && !strings.HasSuffix(f.path, "_test.go") && !inRoom(f.folder, "sim/invented") {
			t.Errorf("%s rounds by itself: use program.Round", f.path)
		}
	}
}

// TestHouseWritesFiguresOneWay: money, prices and yields that people or files get are
// written by program.Text, half up; Go's own verbs cut a half that lies a hair too low.
func TestHouseWritesFiguresOneWay(t *testing.T) {
	any := regexp.MustCompile(`%[+]?[.][0-9*]+f|FormatFloat[(][^\n]*'f', [^-]`)
	money := regexp.MustCompile(`[$]%[.][1-9]f|%[.][*]f|FormatFloat[(][^\n]*'f', [^-]`)
	rooms := map[string]*regexp.Regexp{"io/show": any, "io/batch": any, "sim/answer": money, "sim/flag": money, "sim/compare": money, "sim/explain": money, "sim/position": money, "cmd": money}
	for _, f := range goFiles(t) {
		for room, own := range rooms {
			if m := own.FindString(f.text); inRoom(f.folder, room) && m != "" && !strings.HasSuffix(f.path, "_test.go") {
				t.Errorf("%s writes a figure by %s: use program.Text", f.path, m)
			}
		}
	}
}

// TestLawRowsAreUsed: every row id is asked for somewhere, every id asked for
// exists, and every source is cited.
func TestLawRowsAreUsed(t *testing.T) {
	asked := map[string]bool{}
	calls := regexp.MustCompile(`(?:law\.Find|law\.Rows|r\.(?:price|number|word|row))\("([a-z_0-9]+)"`)
	quoted := regexp.MustCompile(`"([a-z_0-9]+)"`)
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		for _, m := range calls.FindAllStringSubmatch(f.text, -1) {
			asked[m[1]] = true
			if !slices.Contains(law.IDs(), m[1]) {
				t.Errorf("%s asks for %s, which no row has", f.path, m[1])
			}
		}
		for _, m := range quoted.FindAllStringSubmatch(f.text, -1) {
			asked[m[1]] = true
		}
	}
	cited := map[string]bool{}
	for _, id := range law.IDs() {
		if !asked[id] {
			t.Errorf("program/law has rows %s that nothing asks for", id)
		}
		for _, row := range law.Rows(id) {
			cited[row.Source] = true
		}
	}
	for _, source := range law.Sources() {
		if !cited[source.Key] {
			t.Errorf("program/law/sources.csv has %s, which no row cites", source.Key)
		}
	}
}

// TestFilesAreWrittenOneWay: files are written whole by io/file, never over an input of the
// run. What io/batch throws away again is no output; the county book is its database's.
func TestFilesAreWrittenOneWay(t *testing.T) {
	own := regexp.MustCompile(`\bos\.(WriteFile|Create|CreateTemp|OpenFile|Rename|Link|Symlink|Truncate)\(|\.SaveAs\(`)
	thrownAway := map[string]string{"io/batch/across.go": "os.Create(", "io/batch/sorted/sorted.go": "os.Create("}
	for _, f := range goFiles(t) {
		if inRoom(f.folder, "io/file") || strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		for _, m := range own.FindAllString(f.text, -1) {
			if thrownAway[f.path] != m {
				t.Errorf("%s writes by %s: use io/file", f.path, m)
			}
		}
	}
}

// TestGoroutinesCarryTheirFaults: a panic in a goroutine that nobody guards ends the program
// with a trace. Work beside the caller is started by sim/parallel, or calls parallel.Try.
func TestGoroutinesCarryTheirFaults(t *testing.T) {
	guarded := map[string]int{"sim/parallel": 99, "io/batch/across.go": 1, "io/batch/run.go": 1, "io/batch/diff.go": 1, "testdata/peers/choices": 99, "cmd/page/engine.go": 1 /* site.Answer */, "cmd/fencerow/serve.go": 1 /* net/http */, "cmd/fencerow/ending.go": 1, "sim/invented/sound/soon.go": 1 /* of tests alone, whose fault it is to be */}
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") || guarded[f.folder] > 0 {
			continue
		}
		started := 0
		ast.Inspect(f.tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				started++
			case *ast.SelectorExpr: // of a sync.WaitGroup
				if n.Sel.Name == "Go" {
					started++
				}
			}
			return true
		})
		if started > guarded[f.path] {
			t.Errorf("%s starts %d goroutines, %d of them are known to carry their faults: use parallel.Do, or parallel.Try and this list", f.path, started, guarded[f.path])
		}
	}
}

// TestNothingIsSent: the network is used where the user asks NASS, and to answer this
// computer's own browser; what builds the one file and the releases runs the compiler, and
// what is inside that file is called by its page. Nowhere else (SECURITY.md).
func TestNothingIsSent(t *testing.T) {
	asked := []string{"cmd/fencerow/fetch.go", "io/read/quickstats/quickstats.go", "cmd/fencerow/serve.go", "io/serve/handler.go", "cmd/page/build.go", "cmd/page/engine.go", "cmd/release/tool.go"}
	for _, f := range goFiles(t) {
		for _, spec := range f.tree.Imports {
			path := strings.Trim(spec.Path.Value, `"`)
			network := path == "net" || strings.HasPrefix(path, "net/") && path != "net/url" || path == "os/exec" || path == "syscall/js"
			if network && !strings.HasSuffix(f.path, "_test.go") && !slices.Contains(asked, f.path) {
				t.Errorf("%s imports %s: nothing is sent unless the user asks for it (SECURITY.md)", f.path, path)
			}
		}
	}
}

// TestSizes: a file holds one concept.
func TestSizes(t *testing.T) {
	const longest = 400
	for _, f := range goFiles(t) {
		if lines := strings.Count(f.text, "\n"); lines > longest {
			t.Errorf("%s has %d lines: look for a second concept", f.path, lines)
		}
	}
}

// TestHouseRoomsAreSmall: a package is small enough to be known by heart: 3,500 lines
// without its tests. Those of open are being taken apart; they may not grow beyond what
// they had.
func TestHouseRoomsAreSmall(t *testing.T) {
	const most = 3500
	open := map[string]int{}
	lines, all := map[string]int{}, 0
	for _, f := range goFiles(t) {
		if !strings.HasSuffix(f.path, "_test.go") {
			n := strings.Count(f.text, "\n")
			lines[f.folder], all = lines[f.folder]+n, all+n
		}
	}
	for folder, n := range lines {
		if n > max(most, open[folder]) {
			t.Errorf("%s has %d lines without tests, more than %d: look for a second room", folder, n, max(most, open[folder]))
		}
		if open[folder] > 0 && n <= most {
			t.Errorf("%s has %d lines without tests: take it out of open", folder, n)
		}
	}
	fmt.Printf("packages of at most %d lines without tests: checked %d of %d, %d lines in all\n", most, len(lines)-len(open), len(lines), all)
}
