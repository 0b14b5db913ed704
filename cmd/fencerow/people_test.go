package main

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fencerow/program/farm"
)

// Each person's page stands beside the one that is named, or in the folder that is; what no
// system takes in a name is a dash, and two people never share a page.
func TestPagesOfPeople(t *testing.T) {
	o := farm.Operation{Producers: []farm.Producer{{ID: "firm", Members: []farm.Member{{ID: "ann"}, {ID: "b/c d"}}}, {ID: "ann"}}}
	_, names, err := pagesOf(o, filepath.Join("out", "sheet.html"))
	if want := []string{filepath.Join("out", "sheet-firm.html"), filepath.Join("out", "sheet-ann.html"), filepath.Join("out", "sheet-b-c-d.html")}; err != nil || !slices.Equal(names, want) {
		t.Errorf("%v, %v; want %v", names, err, want)
	}
	folder := t.TempDir()
	for _, page := range []string{folder, filepath.Join(folder, "new") + string(filepath.Separator)} {
		if _, names, err := pagesOf(o, page); err != nil || names[1] != filepath.Join(page, "ann.html") {
			t.Errorf("%s: %v, %v", page, names, err)
		}
	}
	for _, other := range []string{"ANN", "firm"} {
		clash := farm.Operation{Producers: []farm.Producer{{ID: "ann"}, {ID: other}, {ID: "f irm"}, {ID: "f.irm"}}}
		if _, _, err := pagesOf(clash, folder); err == nil || !strings.Contains(err.Error(), "would both be") {
			t.Errorf("%s: %v", other, err)
		}
	}
}
