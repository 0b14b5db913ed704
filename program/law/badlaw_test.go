package law

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"fencerow/sim/invented/sound"
)

const goodSources = sourceHeader + "\nA,An Act,Congress,2025,https://example.org,2026-11-25\n"

// TestRefusals: each file of testdata/badlaw has one mistake; its first line,
// after "# ", is what the error must contain.
func TestRefusals(t *testing.T) {
	names, err := filepath.Glob("../../testdata/badlaw/*.csv")
	if err != nil || len(names) == 0 {
		t.Fatalf("no bad file found: %v", err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		first, rest, _ := strings.Cut(string(data), "\n")
		want := strings.TrimPrefix(first, "# ")
		files := fstest.MapFS{"sources.csv": {Data: []byte(goodSources)}, "rows.csv": {Data: []byte(rest)}}
		if strings.HasPrefix(filepath.Base(name), "source-") {
			files = fstest.MapFS{"sources.csv": {Data: []byte(rest)}}
		}
		if _, err := load(files); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want one with %q", filepath.Base(name), err, want)
		}
	}
}

// A folder without the list of sources is refused, and a source that lacks its key, title, publisher or date.
func TestSourcesAreWhole(t *testing.T) {
	if _, err := load(fstest.MapFS{}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("no sources: %v", err)
	}
	whole := []string{"A", "An Act", "Congress", "2025", "https://example.org", "2026-11-25"}
	for lacking := range whole {
		row := slices.Clone(whole)
		row[lacking] = ""
		_, err := load(fstest.MapFS{"sources.csv": {Data: []byte(sourceHeader + "\n" + strings.Join(row, ",") + "\n")}})
		if refused := err != nil && strings.Contains(err.Error(), "needs key, title, publisher and date"); refused != (lacking < 4) {
			t.Errorf("without %q: %v", whole[lacking], err)
		}
	}
}

// A mistake is told of the line on which its row begins, also where a cell goes over several.
func TestLineOfAMistake(t *testing.T) {
	rows := figureHeader + "\nfirst,,2014,2031,1,1,law,A,,\n\"x\ny\",,2014,2031,1,furlongs,law,A,,\n"
	_, err := load(fstest.MapFS{"sources.csv": {Data: []byte(goodSources)}, "rows.csv": {Data: []byte(rows)}})
	if err == nil || !strings.Contains(err.Error(), "rows.csv line 3: ") || !strings.Contains(err.Error(), `unknown unit "furlongs"`) {
		t.Errorf("%v, want one of line 3", err)
	}
}

// FuzzLoad: whatever the bytes, the loader answers with a table or an error.
func FuzzLoad(f *testing.F) {
	starts := []string{
		figureHeader + "\nx,,2014,2031,1,1,law,A,,\n",
		figureHeader + "\nx,corn,2014,2031,0.5,USD/bu,law,A,\"sec. 1\",\"a, b\"\n",
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, rows []byte) {
		table, err := load(fstest.MapFS{"sources.csv": {Data: []byte(goodSources)}, "rows.csv": {Data: rows}})
		if (table == nil) == (err == nil) {
			t.Errorf("table %v and error %v", table, err)
		}
		if err := sound.Finite(table); err != nil {
			t.Error(err)
		}
	})
}
