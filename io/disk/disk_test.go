package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"fencerow/io/read/document"
	"fencerow/io/source"
	"fencerow/program/farm"
)

// Built-in files go before those of the disk, by their own names alone.
func TestBuiltInFirst(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{"demo.yaml": "disk", "other.yaml": "disk"} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		files      Files
		name, want string
	}{
		{Files{}, "demo.yaml", "disk"}, {Files{BuiltIn: fstest.MapFS{"demo.yaml": {Data: []byte("built in")}}}, "demo.yaml", "built in"},
		{Files{BuiltIn: fstest.MapFS{"demo.yaml": {Data: []byte("built in")}}}, "other.yaml", "disk"},
	} {
		if text, err := fs.ReadFile(c.files, c.name); err != nil || string(text) != c.want || c.files.Has(c.name) != (c.want == "built in") {
			t.Errorf("%s is %q, %v, want %q", c.name, text, err, c.want)
		}
	}
	entries, err := fs.ReadDir(Files{}, ".")
	if err != nil || len(entries) != 2 {
		t.Error(entries, err)
	}
	if _, err := fs.ReadFile(Files{}, "."); err == nil || !strings.Contains(err.Error(), "not a file") {
		t.Error(err)
	}
	if err := os.Truncate("other.yaml", document.MostBytes+1); err != nil {
		t.Fatal(err)
	}
	if _, err := fs.ReadFile(Files{}, "other.yaml"); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Error(err)
	}
}

// The book: a named one has to be there or to be made, the usual one may be missing, none
// switches it off.
func TestBook(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", home)
	for _, name := range []string{"", NoBook} {
		if b, err := OpenBook(name, false); b != nil || err != nil {
			t.Errorf("%q: %v, %v", name, b, err)
		}
		_, err := NeedBook(name, false)
		var w source.Wrong
		if !errors.As(err, &w) || !strings.Contains(w.Hint, "county import") {
			t.Errorf("%q is needed: %v", name, err)
		}
	}
	absent := filepath.Join(home, "absent.db")
	var w source.Wrong
	if _, err := OpenBook(absent, false); !errors.As(err, &w) || !strings.Contains(w.Reason, absent) || !strings.Contains(w.Hint, "--book "+absent) {
		t.Error(err)
	}
	for name, path := range map[string]string{"": filepath.Join(home, "fencerow", "counties.db"), absent: absent} {
		b, err := NeedBook(name, true)
		if err != nil || b.Path() != path {
			t.Fatalf("%q: %v", name, err)
		}
		b.Close()
		if again, err := OpenBook(name, false); err != nil || again == nil {
			t.Errorf("%q is not found again: %v", name, err)
		} else {
			again.Close()
		}
	}
	if err := os.WriteFile(absent, []byte(strings.Repeat("no database", 1000)), 0o600); err != nil {
		t.Fatal(err)
	}
	var mistakes farm.Mistakes
	if _, err := OpenBook(absent, false); !errors.As(err, &mistakes) || mistakes[0].File != absent {
		t.Errorf("%T %v", err, err)
	}
}

// Without a word of the system the usual book lies where the system keeps such files.
func TestUsualBook(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", "")
	t.Setenv("HOME", "/home/ann")
	want := map[string]string{"linux": "/home/ann/.local/share/fencerow/counties.db", "darwin": "/home/ann/Library/Application Support/fencerow/counties.db"}[runtime.GOOS]
	if got := usualBook(); want != "" && got != want {
		t.Errorf("the usual book is %s, want %s", got, want)
	}
}

// Tables say what of a file is not read, with its name.
func TestTables(t *testing.T) {
	if _, _, err := (Tables{}).Lines("absent.xlsx"); err == nil {
		t.Error("a file that is not there was opened")
	}
	if _, _, err := (Tables{}).County("absent.xlsx"); err == nil {
		t.Error("a county table that is not there was read")
	}
}

// A given file is found by its name alone, and is read again from its beginning.
func TestGiven(t *testing.T) {
	files := Files{BuiltIn: Given{Name: "standard input.csv", Text: []byte("a,b\n")}}
	for range 2 {
		file, err := files.Open("standard input.csv")
		if err != nil {
			t.Fatal(err)
		}
		info, err := file.Stat()
		text := make([]byte, 9)
		n, _ := file.Read(text)
		if err != nil || info.Size() != 4 || info.IsDir() || string(text[:n]) != "a,b\n" || file.Close() != nil {
			t.Errorf("%v, %v, %q", info, err, text[:n])
		}
	}
	if files.Has("other.csv") || !files.Has("standard input.csv") {
		t.Error("another file is given, or this one is not")
	}
}

// A device or a pipe says that it is empty, and is read up to the largest size all the same.
func TestDevices(t *testing.T) {
	if _, err := os.Stat("/dev/zero"); err != nil {
		t.Skip("no such device here")
	}
	if _, err := fs.ReadFile(Files{}, "/dev/zero"); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Error(err)
	}
	if text, err := fs.ReadFile(Files{}, "/dev/null"); err != nil || len(text) != 0 {
		t.Error(text, err)
	}
}
