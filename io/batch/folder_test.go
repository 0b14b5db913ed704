package batch

import (
	"os"
	"path/filepath"
	"testing"

	"fencerow/io/file"
)

// Shares may be at work in one folder at the same time: each clears away its own
// unfinished files alone; a run without shares clears away all.
func TestSweepLeavesOtherShares(t *testing.T) {
	path := t.TempDir()
	names := []string{"results/part-01of02-00001.csv", "counts/run-01of02-begun.json", "run-01of02.json"}
	others := []string{"results/part-02of02-00001.csv", "counts/run-02of02-begun.json", "run-02of02.json"}
	for _, name := range append(append([]string{}, names...), others...) {
		whole := filepath.Join(path, name+file.Ending)
		if err := os.MkdirAll(filepath.Dir(whole), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(whole, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	there := func(name string) bool {
		_, err := os.Stat(filepath.Join(path, name+file.Ending))
		return err == nil
	}
	folder{path: path, share: "01of02-"}.sweep()
	for i := range names {
		if there(names[i]) || !there(others[i]) {
			t.Errorf("after share 1: %s is there: %t; %s is there: %t", names[i], there(names[i]), others[i], there(others[i]))
		}
	}
	folder{path: path}.sweep()
	for _, name := range others {
		if there(name) {
			t.Errorf("%s is left", name)
		}
	}
}
