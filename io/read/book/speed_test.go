//go:build linux

package book

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"
)

// speedVariable asks for the comparison with Python's csv and sqlite3, which is
// run by hand: docs/performance.md has dated tables.
const speedVariable = "FENCEROW_SPEED"

// TestSpeedAgainstPeers imports a whole county table and all of NASS's county
// county yields, each in a process of its own, beside the same in Python
// (testdata/peers/import_county.py), and prints times and memory. Memory is held; how
// long it takes is for the reader, who knows how busy the machine was.
func TestSpeedAgainstPeers(t *testing.T) {
	if os.Getenv(speedVariable) == "" {
		t.Skip("run by hand: " + speedVariable + "=1 go test ./io/read/book -run TestSpeedAgainstPeers -v")
	}
	needsShared(t, sharedFSA)
	county, _ := countyWorkbook(t, "2023", "ARCCO 2023 (2025-02-03)", 0)
	nass, _ := nassBulk(t, "")
	for _, one := range []struct {
		name, file string
		memory     int64 // MB
	}{{"county table", county, 250}, {"NASS", nass, 64}} {
		child := childImport(t, one.file, filepath.Join(t.TempDir(), "counties.db"))
		start := time.Now()
		status, err := child.Output()
		if err != nil {
			t.Fatal(err)
		}
		took, most := time.Since(start), int64(0)
		if peak := regexp.MustCompile(`VmHWM:\s+(\d+)`).FindSubmatch(status); peak != nil {
			kilobytes, _ := strconv.ParseInt(string(peak[1]), 10, 64)
			most = kilobytes / 1024
		}
		fmt.Printf("fencerow, %s: %.2f s, %d MB\n", one.name, took.Seconds(), most)
		if most > one.memory {
			t.Errorf("%s: %d MB, want at most %d MB", one.name, most, one.memory)
		}
	}
	peer := exec.Command("python3", "../../../testdata/peers/import_county.py", sharedFSA, nass)
	peer.Stdout, peer.Stderr = os.Stdout, os.Stderr
	if err := peer.Run(); err != nil {
		t.Fatal(err)
	}
}
