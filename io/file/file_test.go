package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

// laid makes a file with a text.
func laid(t *testing.T, path, content string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// holds asserts what is in a file, and that nothing unfinished lies beside it.
func holds(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", filepath.Base(path), got, err, want)
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), "*"+Ending)); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// refused asserts an Error with what to do.
func refused(t *testing.T, err error, reason, hint string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || !strings.Contains(e.Error(), reason) || !strings.Contains(e.Hint, hint) {
		t.Errorf("error %v, want one of %q with hint %q", err, reason, hint)
	}
}

func TestNewAndOldFilesAreWritten(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "new.txt")
	for _, content := range []string{"first", "second"} { // in two runs
		if err := NewRun().Write(path, text(content)); err != nil {
			t.Fatal(err)
		}
		holds(t, path, content)
	}
}

// An error or a panic in the middle leaves the old file, and no other.
func TestBrokenWriteLeavesTheOldFile(t *testing.T) {
	path := laid(t, filepath.Join(t.TempDir(), "old.txt"), "old")
	stop := errors.New("stopped")
	run := NewRun()
	err := run.Write(path, func(w io.Writer) error {
		io.WriteString(w, strings.Repeat("half", 100_000)) // more than is held in memory
		return stop
	})
	if !errors.Is(err, stop) || errors.As(err, new(*Error)) || !strings.HasPrefix(err.Error(), path) {
		t.Errorf("error %v, want %v of %s", err, stop, path)
	}
	holds(t, path, "old")
	func() {
		defer func() { recover() }()
		NewRun().Write(path, func(w io.Writer) error { panic(stop) })
	}()
	holds(t, path, "old")
	if err := run.Write(path, text("new")); err != nil { // the name is free again
		t.Fatal(err)
	}
	holds(t, path, "new")
}

// A killed program leaves the old file whole, and one with Ending beside it.
func TestKilledWriteLeavesTheOldFile(t *testing.T) {
	const variable = "FENCEROW_TEST_HANGING_WRITE"
	if path := os.Getenv(variable); path != "" {
		NewRun().Write(path, func(w io.Writer) error {
			io.WriteString(w, strings.Repeat("half", 100_000))
			fmt.Println("half is written")
			select {}
		})
	}
	path := laid(t, filepath.Join(t.TempDir(), "old.txt"), "old")
	child := exec.Command(os.Args[0], "-test.run", "^TestKilledWriteLeavesTheOldFile$")
	child.Env = append(os.Environ(), variable+"="+path)
	said, err := child.StdoutPipe()
	if err == nil {
		err = child.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	if _, err := said.Read(make([]byte, 16)); err != nil {
		t.Fatal(err)
	}
	child.Process.Kill()
	child.Wait()
	left, _ := filepath.Glob(path + ".*" + Ending)
	if len(left) != 1 {
		t.Fatalf("left behind: %v, want one", left)
	}
	if half, err := os.Stat(left[0]); err != nil || half.Size() == 0 {
		t.Errorf("half of a file: %v, %v", half, err)
	}
	os.Remove(left[0])
	holds(t, path, "old")
}

func TestInputIsNeverWrittenOver(t *testing.T) {
	folder := t.TempDir()
	input := laid(t, filepath.Join(folder, "farms.csv"), "input")
	link, hard := filepath.Join(folder, "link.csv"), filepath.Join(folder, "hard.csv")
	names := []string{input, filepath.Join(folder, "..", filepath.Base(folder), "farms.csv")}
	if os.Symlink(input, link) == nil {
		names = append(names, link)
	}
	if os.Link(input, hard) == nil {
		names = append(names, hard)
	}
	run := NewRun(filepath.Join(folder, "not there"), input)
	for _, name := range names {
		reason, hint := "it is an input of this run ("+input+")", "name another file"
		if name == link {
			reason, hint = "it is a link to another file", "name the file itself"
		}
		refused(t, run.Check(name), reason, hint)
		refused(t, run.Write(name, text("output")), reason, hint)
	}
	holds(t, input, "input")
}

func TestTwoOutputsOfOneName(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.txt")
	same := folder + string(filepath.Separator) + "." + string(filepath.Separator) + "out.txt"
	run := NewRun()
	refused(t, run.Check(path, same), "another output of this run goes there ("+path+")", "a name of its own")
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("to check writes nothing: %v", err)
	}
	if err := run.Write(path, text("first")); err != nil {
		t.Fatal(err)
	}
	refused(t, run.Write(same, text("second")), "another output of this run goes there ("+path+")", "a name of its own")
	holds(t, path, "first")
}

// Of goroutines that write to one new name at the same time, one does.
func TestOneOfManyWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out.txt")
	run := NewRun()
	const many = 20
	written := make([]error, many)
	var all sync.WaitGroup
	for i := range many {
		all.Go(func() { written[i] = run.Write(path, text("whole")) })
	}
	all.Wait()
	good := 0
	for _, err := range written {
		if err == nil {
			good++
		}
	}
	if good != 1 {
		t.Errorf("%d of %d were written, want 1", good, many)
	}
	holds(t, path, "whole")
}

func TestDeviceAndPipeAreWrittenTo(t *testing.T) {
	before, err := os.Stat(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	run := NewRun()
	for range 2 { // nothing is lost by twice
		if err := run.Check(os.DevNull, os.DevNull); err != nil {
			t.Error(err)
		}
		if err := run.Write(os.DevNull, text("gone")); err != nil {
			t.Error(err)
		}
	}
	after, err := os.Stat(os.DevNull)
	if err != nil || after.Mode() != before.Mode() || after.Mode()&fs.ModeDevice == 0 {
		t.Fatalf("%s is %v (%v), was %v", os.DevNull, after.Mode(), err, before.Mode())
	}
	if runtime.GOOS == "windows" {
		return
	}
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	name := fmt.Sprintf("/dev/fd/%d", out.Fd())
	if _, err := os.Stat(name); err != nil {
		return // a system without
	}
	if err := run.Write(name, text("through")); err != nil {
		t.Error(err)
	}
	out.Close()
	if got, err := io.ReadAll(in); err != nil || string(got) != "through" {
		t.Errorf("through the pipe came %q, %v", got, err)
	}
}

// Standard output that is sent to a file goes on where it is; its file under its own
// name is refused.
func TestStandardStream(t *testing.T) {
	if runtime.GOOS == "windows" {
		return
	}
	path := filepath.Join(t.TempDir(), "printed.txt")
	sent, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	usual := os.Stdout
	os.Stdout = sent
	defer func() { os.Stdout = usual }()
	fmt.Println("before")
	if err := NewRun().Write("/dev/stdout", text("output\n")); err != nil {
		t.Error(err)
	}
	fmt.Println("after")
	refused(t, NewRun().Check(path), "what the program prints goes there", "another")
	holds(t, path, "before\noutput\nafter\n")
}

func TestRefusedPlaces(t *testing.T) {
	folder := t.TempDir()
	protected := laid(t, filepath.Join(folder, "protected.txt"), "kept")
	if err := os.Chmod(protected, 0o444); err != nil {
		t.Fatal(err)
	}
	cases := map[string]string{filepath.Join(folder, "nowhere", "out.txt"): "nowhere", folder: "it is a folder", protected: "write-protected"}
	if nothing := filepath.Join(folder, "nothing.txt"); os.Symlink(filepath.Join(folder, "gone.txt"), nothing) == nil {
		cases[nothing] = "a link to a file that is not there"
	}
	for path, reason := range cases {
		refused(t, NewRun().Check(path), reason, "name a")
		refused(t, NewRun().Write(path, text("new")), reason, "name a")
	}
	holds(t, protected, "kept")
}

// A full disk is not a fault of what writes.
func TestFullDisk(t *testing.T) {
	const full = "/dev/full" // Linux: every write fails for want of room
	if _, err := os.Stat(full); err != nil {
		return
	}
	err := NewRun().Write(full, func(w io.Writer) error {
		if _, err := io.WriteString(w, strings.Repeat("much", 100_000)); err != nil {
			return fmt.Errorf("writing rows: %w", err)
		}
		return nil
	})
	refused(t, err, "no space left", "the disk has room")
}

// A file that is written again keeps its rights; a new file has those of any. A link to a
// file is not followed, one to a device is written to.
func TestLinksAndRights(t *testing.T) {
	if runtime.GOOS == "windows" {
		return
	}
	folder := t.TempDir()
	private, link, device := laid(t, filepath.Join(folder, "private.txt"), "old"), filepath.Join(folder, "link.txt"), filepath.Join(folder, "device")
	if err := errors.Join(os.Chmod(private, 0o600), os.Symlink(private, link), os.Symlink(os.DevNull, device)); err != nil {
		t.Fatal(err)
	}
	refused(t, NewRun().Write(link, text("new")), "it is a link to another file", "name the file itself")
	holds(t, private, "old")
	if err := errors.Join(NewRun().Write(private, text("new")), NewRun().Write(device, text("gone"))); err != nil {
		t.Fatal(err)
	}
	holds(t, private, "new")
	for _, one := range []string{link, device} {
		if info, err := os.Lstat(one); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is %v, %v", one, info.Mode(), err)
		}
	}
	fresh, usual := filepath.Join(folder, "fresh.txt"), laid(t, filepath.Join(folder, "usual.txt"), "")
	if err := NewRun().Write(fresh, text("")); err != nil {
		t.Fatal(err)
	}
	mode := func(path string) fs.FileMode {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		return info.Mode()
	}
	if mode(private) != 0o600 || mode(fresh) != mode(usual) {
		t.Errorf("rights: %v, want 0600; %v, want %v", mode(private), mode(fresh), mode(usual))
	}
}

// A run that keeps what is there refuses the name of a file, also a link's and a hard
// link's, and writes new files and devices; two names that differ by case alone are one.
func TestOldFilesAreKept(t *testing.T) {
	folder := t.TempDir()
	old, hard, fresh := laid(t, filepath.Join(folder, "old.html"), "old"), filepath.Join(folder, "hard.html"), filepath.Join(folder, "fresh.html")
	names := []string{old, filepath.Join(folder, ".", "old.html"), folder + "/./old.html"}
	if os.Link(old, hard) == nil {
		names = append(names, hard)
	}
	run := NewRun().Keep(true)
	for _, name := range names {
		refused(t, run.Check(fresh, name), "a file of that name is there", "add --force to replace it")
		refused(t, run.Write(name, text("new")), "a file of that name is there", "add --force to replace it")
	}
	refused(t, run.Check(fresh, filepath.Join(folder, "Fresh.HTML")), "another output of this run goes there", "a name of its own")
	if err := errors.Join(run.Check(fresh, os.DevNull), run.Write(fresh, text("new")), run.Write(os.DevNull, text("gone")), NewRun().Keep(false).Write(hard, text("forced"))); err != nil {
		t.Fatal(err)
	}
	holds(t, old, "old")
	holds(t, fresh, "new")
	holds(t, hard, "forced") // a file of its own now
}

// A file that another program makes while an output is written is kept too, and so is a link.
func TestFileThatAppearsMeanwhileIsKept(t *testing.T) {
	folder := t.TempDir()
	path, linked := filepath.Join(folder, "out.html"), filepath.Join(folder, "linked.html")
	run := NewRun().Keep(true)
	refused(t, run.Write(path, func(w io.Writer) error {
		laid(t, path, "another's")
		return text("ours")(w)
	}), "a file of that name is there", "add --force")
	holds(t, path, "another's")
	refused(t, run.Write(linked, func(w io.Writer) error {
		if err := os.Symlink(path, linked); err != nil {
			t.Skip("no links here")
		}
		return text("ours")(w)
	}), "a file of that name is there", "add --force")
	holds(t, path, "another's")
}
