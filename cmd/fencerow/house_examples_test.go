package main

import (
	"fmt"
	"go/ast"
	"go/doc"
	"maps"
	"slices"
	"strings"
	"testing"
)

// noExample are the packages that need no Example or no test of their own, with the reason.
var noExample = map[string]string{
	"sim/invented":                 "invented farms that tests share: no program imports it",
	"sim/invented/cases":           "invented questions that tests share: no program imports it",
	"sim/invented/sound":           "what fuzz targets share: no program imports it",
	"io/read/brotli":               "a stand-in for a library that the Parquet library asks for; io/read/parquet tests it",
	"io/read/deepcopy":             "a stand-in for a library that excelize asks for; io/read/workbook tests it",
	"io/read/charset/html/charset": "a stand-in for a library that excelize asks for; io/read/workbook tests it",
}

// TestHousePackagesTestThemselves: every package of program, sim and io has an Example of what
// another program would call, which prints something that is checked, and a test of its own, so
// that it does not rest on the tests of those who use it. That an Example names what there is
// holds go vet.
func TestHousePackagesTestThemselves(t *testing.T) {
	product, tests := map[string]bool{}, map[string][]*ast.File{}
	for _, f := range goFiles(t) {
		if !slices.ContainsFunc([]string{"program", "sim", "io"}, func(room string) bool { return inRoom(f.folder, room) }) {
			continue
		}
		if strings.HasSuffix(f.path, "_test.go") {
			tests[f.folder] = append(tests[f.folder], f.tree)
		} else {
			product[f.folder] = true
		}
	}
	examples := 0
	for _, folder := range slices.Sorted(maps.Keys(product)) {
		if noExample[folder] != "" {
			continue
		}
		checked := 0
		for _, e := range doc.Examples(tests[folder]...) {
			if e.Output != "" {
				checked++
			}
		}
		if examples += checked; checked == 0 {
			t.Errorf("%s: no Example with an output: show in example_test.go how another program calls it, with figures that can be worked out by hand", folder)
		}
		if !slices.ContainsFunc(tests[folder], hasTest) {
			t.Errorf("%s: no test of its own", folder)
		}
	}
	for folder := range noExample {
		if !product[folder] {
			t.Errorf("%s needs no Example and is gone: take it out of the list", folder)
		}
	}
	fmt.Printf("packages with a test and an Example of their own: checked %d of %d, %d Examples\n", len(product)-len(noExample), len(product), examples)
}

// hasTest reports whether a file has a test.
func hasTest(tree *ast.File) bool {
	return slices.ContainsFunc(tree.Decls, func(decl ast.Decl) bool {
		d, is := decl.(*ast.FuncDecl)
		return is && d.Recv == nil && strings.HasPrefix(d.Name.Name, "Test") && d.Name.Name != "TestMain"
	})
}
