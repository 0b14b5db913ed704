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
	"syscall"
)

// Ending is on the names of files that are not whole.
const Ending = ".unfinished"

// replace writes beside the target and renames, and returns what is then there.
func (t target) replace(write func(io.Writer) error) (fs.FileInfo, error) {
	file, err := create(t.path)
	if err != nil {
		return nil, failed(t.given, err)
	}
	unfinished := file.Name()
	defer os.Remove(unfinished) // nothing is there after the rename
	defer file.Close()          // after a panic of write; else it is closed below
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
		err = os.Rename(unfinished, t.path)
	}
	if err == nil {
		err = syncFolder(filepath.Dir(t.path))
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

// fill writes the content. An error of the disk is told from one of write.
func (t target) fill(file io.Writer, write func(io.Writer) error) error {
	out := bufio.NewWriter(file)
	err := write(out)
	if disk := out.Flush(); disk != nil { // the first error of writing, also one that write has seen
		return failed(t.given, disk)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", t.given, err)
	}
	return nil
}

// syncFolder brings the names in a folder to the disk, where the system can.
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

// inPlace reports whether a target is written to as it is: it is no regular file, or it
// is what the program itself has open.
func (t target) inPlace() bool {
	if t.info != nil && !t.info.Mode().IsRegular() {
		return true
	}
	path := filepath.ToSlash(t.given)
	return path == "/dev/stdout" || path == "/dev/stderr" || strings.HasPrefix(path, "/dev/fd/") || strings.HasPrefix(path, "/proc/self/fd/")
}

// writeInto writes to a device, a pipe or a standard stream.
func (t target) writeInto(write func(io.Writer) error) error {
	switch filepath.ToSlash(t.given) { // a stream that is sent to a file goes on where it is
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
