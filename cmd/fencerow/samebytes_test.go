package main

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestSameFiles: two runs of one question write the same bytes: the page, the workbook, whose
// parts stand in the order of their names and carry no time, and all files of a handout.
func TestSameFiles(t *testing.T) {
	files := map[string][][]byte{}
	for range 2 {
		folder := t.TempDir()
		runs(t, "compare", "--demo", "--draws", "256", "--page", filepath.Join(folder, "page.html"), "--workbook", filepath.Join(folder, "book.xlsx"))
		runs(t, "handout", "demo/alder.yaml", "--market", "demo/market.yaml", "--out", folder, "--book", "none", "--today", demoToday, "--draws", "256")
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			files[e.Name()] = append(files[e.Name()], []byte(fileText(t, filepath.Join(folder, e.Name()))))
		}
	}
	if len(files) < 4 {
		t.Errorf("%d files", len(files))
	}
	for name, texts := range files {
		if len(texts) != 2 || !bytes.Equal(texts[0], texts[1]) {
			t.Errorf("%s differs between two runs", name)
		}
		if !strings.HasSuffix(name, ".xlsx") {
			continue
		}
		z, err := zip.NewReader(bytes.NewReader(texts[0]), int64(len(texts[0])))
		if err != nil {
			t.Fatal(err)
		}
		var parts []string
		for _, part := range z.File {
			parts = append(parts, part.Name)
			if !part.Modified.IsZero() && part.Modified.Year() > 1980 {
				t.Errorf("%s: %s is of %v", name, part.Name, part.Modified)
			}
		}
		if !slices.IsSorted(parts) {
			t.Errorf("%s: parts %v", name, parts)
		}
	}
}
