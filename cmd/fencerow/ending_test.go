package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"fencerow/io/file"
	"fencerow/sim/parallel"
)

// full is a writer that takes so many bytes.
type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.left {
		n := f.left
		f.left = 0
		return n, syscall.ENOSPC
	}
	f.left -= len(p)
	return len(p), nil
}

// A standard output that takes no more ends with 5 and one error, at whichever byte it is.
func TestFullStandardOutput(t *testing.T) {
	ends := 0
	for _, command := range []string{"rules", "help words", "version", "market", "explain --help", "compare --demo", "check demo/operation.yaml"} {
		args := strings.Fields(command)
		var whole, talk bytes.Buffer
		if code := run(args, &whole, &talk); code != exitDone {
			t.Fatalf("%s ends with %d: %s", command, code, talk.String())
		}
		step := 1
		if whole.Len() > 400 {
			step = whole.Len() / ofLong(7, 100)
		}
		for n := 0; n < whole.Len(); n += step {
			talk.Reset()
			if code := run(args, &full{n}, &talk); code != exitRefused || strings.Count(talk.String(), "error:") != 1 || !strings.Contains(talk.String(), "no space left") {
				t.Fatalf("%s with room for %d of %d bytes ends with %d: %s", command, n, whole.Len(), code, talk.String())
			}
			ends++
		}
	}
	t.Logf("%d ends of a full output", ends)
}

// A fault of the program, in whichever goroutine, ends with 1 and a line; its trace goes to
// the file that is asked for and nowhere else.
func TestFaultOfTheProgram(t *testing.T) {
	faults := map[string]func() error{
		"here":   func() error { panic(errors.New("no such county")) },
		"beside": func() error { parallel.Do(8, func(i int) { _ = []int{}[i] }); return nil },
		"beside the beside": func() error {
			parallel.Do(2, func(int) { parallel.Do(2, func(int) { panic("told\nmore") }) })
			return nil
		},
	}
	for name, do := range faults {
		report := filepath.Join(t.TempDir(), "report.txt")
		for _, place := range []string{"", report} {
			t.Setenv(reportVariable, place)
			var talk bytes.Buffer
			if code := ended(do, &output{Writer: io.Discard}, []string{"compare", "--demo"}, &talk); code != exitFault {
				t.Errorf("%s: ends with %d", name, code)
			}
			if said := talk.String(); strings.Count(said, "\n") != 2 || strings.Contains(said, "goroutine") || !strings.Contains(said, "a fault of the program") {
				t.Errorf("%s: says %q", name, said)
			}
		}
		text, err := os.ReadFile(report)
		if err != nil || !strings.Contains(string(text), "ending_test.go") || !strings.Contains(string(text), "compare --demo") {
			t.Errorf("%s: report %v: %s", name, err, text)
		}
	}
}

// The report of a fault goes over no file that is there and through no link; the warning says why.
func TestFaultReportKeepsFiles(t *testing.T) {
	folder := t.TempDir()
	mine, link := filepath.Join(folder, "mine.txt"), filepath.Join(folder, "link.txt")
	writeText(t, mine, "my notes")
	want := map[string]string{mine: "a file of that name is there"}
	if os.Symlink(mine, link) == nil {
		want[link] = "it is a link to another file"
	}
	for place, reason := range want {
		t.Setenv(reportVariable, place)
		var talk bytes.Buffer
		code := ended(func() error { panic("told") }, &output{Writer: io.Discard}, []string{"rules"}, &talk)
		if said := talk.String(); code != exitFault || !strings.Contains(said, "no report: cannot write "+place+": "+reason) || !strings.Contains(said, "hint: set "+reportVariable+" to a new file") {
			t.Errorf("ends with %d: %s", code, said)
		}
	}
	if text := fileText(t, mine); text != "my notes" {
		t.Errorf("replaced: %q", text)
	}
}

// What the computer refuses is 5, a name that leads nowhere 2.
func TestRefusedByTheComputer(t *testing.T) {
	for cause, want := range map[error]int{syscall.ENOSPC: exitRefused, syscall.EROFS: exitRefused, syscall.EACCES: exitRefused, syscall.EIO: exitRefused, io.ErrShortWrite: exitRefused,
		os.ErrNotExist: exitUsage, syscall.EISDIR: exitUsage, nil: exitUsage} {
		err := &file.Error{Path: "page.html", Reason: "-", Hint: "-", Err: cause}
		if code := ended(func() error { return errors.Join(err) }, &output{Writer: io.Discard}, nil, io.Discard); code != want {
			t.Errorf("%v ends with %d, want %d", cause, code, want)
		}
	}
}

// Ctrl-C ends with 5 and leaves nothing unfinished.
func TestInterrupted(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows sends no such signal to a child")
	}
	folder := t.TempDir()
	command := exec.Command("fencerow", "compare", "--demo", "--draws", "262144", "--page", filepath.Join(folder, "page.html"), "--workbook", filepath.Join(folder, "book.xlsx"))
	var talk bytes.Buffer
	command.Stderr = &talk
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(300 * time.Millisecond)
	command.Process.Signal(os.Interrupt)
	command.Wait()
	if code := command.ProcessState.ExitCode(); code != exitRefused || !strings.Contains(talk.String(), "interrupted") {
		t.Errorf("ends with %d: %s", code, talk.String())
	}
	if left, _ := filepath.Glob(filepath.Join(folder, "*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}
