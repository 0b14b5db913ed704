package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// failingAt carries out a command line while no file may grow beyond n bytes: the write of the
// next byte fails, as on a full disk.
func failingAt(t *testing.T, n int, args ...string) (code int, talk string) {
	t.Helper()
	var before syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &before); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: uint64(n), Max: before.Max}); err != nil {
		t.Fatal(err)
	}
	defer syscall.Setrlimit(syscall.RLIMIT_FSIZE, &before)
	var stdout, stderr bytes.Buffer
	return run(args, &stdout, &stderr), stderr.String()
}

// A write that fails at any byte ends with exit 5 and leaves nothing half written: every byte of a market
// file over an old one (in a short run some), and bytes of all files of a small batch, which then goes on
// to the same bytes.
func TestEveryByteThatFails(t *testing.T) {
	const variable = "FENCEROW_TEST_FAILING_WRITES"
	if os.Getenv(variable) == "" { // in a process of its own, whose limits are no other test's
		child := exec.Command(os.Args[0], "-test.run", "^TestEveryByteThatFails$", "-test.v")
		child.Env = append(os.Environ(), variable+"=1")
		out, err := child.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		for _, line := range strings.Split(string(out), "\n") {
			if strings.Contains(line, "checked") {
				fmt.Println(line)
			}
		}
		return
	}
	signal.Ignore(syscall.SIGXFSZ) // the write returns an error, as that on a full disk
	t.Run("a market file", everyByteOfAMarketFile)
	t.Run("a batch", bytesOfABatch)
}

func everyByteOfAMarketFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "market.yaml")
	save := []string{"market", "save", path, "--book", "none", "--force"}
	runs(t, save...)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for n := 0; n < len(whole); n += ofLong(199, 1) {
		checked++
		if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
			t.Fatal(err)
		}
		code, talk := failingAt(t, n, save...)
		if left, _ := os.ReadFile(path); code != exitRefused || string(left) != "old" || len(unfinished(folder)) > 0 || !strings.Contains(talk, "file too large") {
			t.Fatalf("byte %d fails: exit %d, %d bytes of the old file's 3, left behind %v: %s", n, code, len(left), unfinished(folder), talk)
		}
	}
	if code, talk := failingAt(t, len(whole), save...); code != exitDone {
		t.Errorf("with room for all %d bytes: exit %d: %s", len(whole), code, talk)
	}
	fmt.Printf("bytes of a market file that failed: checked %d of %d\n", checked, len(whole))
}

func bytesOfABatch(t *testing.T) {
	folder := t.TempDir()
	table, whole, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "whole"), filepath.Join(folder, "out")
	writeRows(t, table, manyFarms(4, 5))
	runs(t, batchArgs(table, whole, "--draws", "256")...)
	largest := 0
	filepath.WalkDir(whole, func(_ string, entry os.DirEntry, _ error) error {
		if info, err := entry.Info(); err == nil && !entry.IsDir() {
			largest = max(largest, int(info.Size()))
		}
		return nil
	})
	checked := 0
	step := ofLong(largest/4, largest/100) + 1
	for n := 0; n < largest; n += step {
		code, talk := failingAt(t, n, batchArgs(table, out, "--draws", "256")...)
		if code != exitRefused || len(unfinished(out)) > 0 {
			t.Fatalf("byte %d of every file fails: exit %d, left behind %v: %s", n, code, unfinished(out), talk)
		}
		runs(t, batchArgs(table, out, "--draws", "256", "--resume")...)
		same(t, whole, out)
		if err := os.RemoveAll(out); err != nil {
			t.Fatal(err)
		}
		checked++
	}
	fmt.Printf("bytes of a batch's files that failed: checked %d of %d to the largest file's %d\n", checked, checked, largest)
}
