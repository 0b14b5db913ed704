package file

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
)

// Ending ends the names of files that are still being written.
const Ending = ".unfinished"

// replace writes a new file beside the target and renames it into place; it returns
// the info of the new file.
func (t target) replace(write func(io.Writer) error) (fs.FileInfo, error) {
	file, err := create(t.path)
	if err != nil {
		return nil, failed(t.given, err)
	}
	unfinished := file.Name()
	beingWritten.Store(unfinished, nil)
	defer beingWritten.Delete(unfinished)
	defer os.Remove(unfinished) // after the rename there is nothing to remove
	defer file.Close()          // for a panic in write; else it is closed below
	if t.info != nil {
		if err := file.Chmod(t.info.Mode().Perm()); err != nil && runtime.GOOS != "windows" {
			return nil, failed(t.given, err)
		}
	}
	if err := t.fill(file, write); err != nil {
		return nil, err
	}
	err = file.Sync()
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = t.place(unfinished)
	}
	if err == nil {
		err = syncFolder(filepath.Dir(t.path))
	}
	if t.isNew && errors.Is(err, fs.ErrExist) {
		return nil, isThere(t.given)
	}
	if err != nil {
		return nil, failed(t.given, err)
	}
	info, err := os.Stat(t.path)
	if err != nil {
		return nil, failed(t.given, err)
	}
	return info, nil
}

// place gives a finished file its name. A new one gets it as a second name, which no system
// gives twice; where there are no second names it is renamed.
func (t target) place(finished string) error {
	if t.isNew {
		switch err := os.Link(finished, t.path); {
		case err == nil:
			return nil // the first name is taken away by replace
		case errors.Is(err, fs.ErrExist):
			return err
		}
	}
	return os.Rename(finished, t.path)
}

// beingWritten are the names of the files that this program has not finished.
var beingWritten sync.Map

// Abandon removes every file that is still being written: for a program that ends now.
func Abandon() {
	beingWritten.Range(func(name, _ any) bool {
		os.Remove(name.(string))
		return true
	})
}

// create makes a new file beside a path, under a name that no other process has, with
// the rights that the system gives to new files.
func create(path string) (file *os.File, err error) {
	const tries = 100
	for range tries {
		name := fmt.Sprintf("%s.%08x%s", path, rand.Uint32(), Ending)
		file, err = os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			break
		}
	}
	return file, err
}

// fill calls write. An error of the disk is an *Error, also where write returns it;
// any other error of write is returned with the name before it.
func (t target) fill(file io.Writer, write func(io.Writer) error) error {
	out := bufio.NewWriter(file)
	err := write(out)
	if disk := out.Flush(); disk != nil {
		return failed(t.given, disk)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", t.given, err)
	}
	return nil
}

// syncFolder brings the entries of a folder to the disk, where the system can.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	defer folder.Close()
	if err := folder.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}

// inPlace reports whether a target is written to directly: it is not a regular file,
// or the program itself has it open.
func (t target) inPlace() bool {
	if t.info != nil && !t.info.Mode().IsRegular() {
		return true
	}
	path := filepath.ToSlash(t.given)
	return path == "/dev/stdout" || path == "/dev/stderr" || strings.HasPrefix(path, "/dev/fd/") || strings.HasPrefix(path, "/proc/self/fd/")
}

// writeInto writes to a device, a pipe or a standard stream.
func (t target) writeInto(write func(io.Writer) error) error {
	switch filepath.ToSlash(t.given) { // opening it anew would start at its beginning where it is sent to a file
	case "/dev/stdout":
		return t.fill(os.Stdout, write)
	case "/dev/stderr":
		return t.fill(os.Stderr, write)
	}
	file, err := os.OpenFile(t.given, os.O_WRONLY, 0)
	if err != nil {
		return failed(t.given, err)
	}
	err = t.fill(file, write)
	if closed := file.Close(); err == nil && closed != nil {
		err = failed(t.given, closed)
	}
	return err
}
