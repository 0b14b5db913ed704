package disk

import (
	"fmt"
	"io/fs"
	"os"

	"fencerow/io/read/document"
)

// Files is the file system of the disk, by the names that people write, under the
// files of BuiltIn: a name that BuiltIn has is never looked for on the disk.
type Files struct{ BuiltIn ReadFS }

// ReadFS is a file system that reads whole files, such as an embed.FS.
type ReadFS interface {
	fs.FS
	fs.ReadFileFS
}

// Has reports whether a file is built in, and so not on the disk.
func (d Files) Has(name string) bool {
	if d.BuiltIn == nil {
		return false
	}
	_, err := fs.Stat(d.BuiltIn, name)
	return err == nil
}

// Open opens a file, built in or on the disk.
func (d Files) Open(name string) (fs.File, error) {
	if d.Has(name) {
		return d.BuiltIn.Open(name)
	}
	return os.Open(name)
}

// ReadDir lists a folder of the disk, sorted by name.
func (Files) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// ReadFile reads a whole file; a folder and a file of more than 16 MiB are errors, and so
// is a pipe or a device that gives more.
func (d Files) ReadFile(name string) ([]byte, error) {
	if d.Has(name) {
		return d.BuiltIn.ReadFile(name)
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() || info.Size() > document.MostBytes {
		return nil, tooLarge(name)
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	text, large, err := document.ReadAll(file)
	if large {
		err = tooLarge(name)
	}
	return text, err
}

func tooLarge(name string) error {
	return &fs.PathError{Op: "read", Path: name, Err: fmt.Errorf("not a file of at most %d bytes", document.MostBytes)}
}
