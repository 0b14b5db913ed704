package disk

import (
	"fmt"
	"io/fs"
	"os"
)

// Files has the files of the disk by the names that people write, and before them those of
// BuiltIn.
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

// Open opens a file.
func (d Files) Open(name string) (fs.File, error) {
	if d.Has(name) {
		return d.BuiltIn.Open(name)
	}
	return os.Open(name)
}

// ReadDir lists a folder of the disk by name.
func (Files) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// mostBytes is the largest text file that is read.
const mostBytes = 16 << 20

// ReadFile refuses what is not a file of reasonable size before reading it.
func (d Files) ReadFile(name string) ([]byte, error) {
	if d.Has(name) {
		return d.BuiltIn.ReadFile(name)
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() || info.Size() > mostBytes {
		return nil, &fs.PathError{Op: "read", Path: name, Err: fmt.Errorf("not a file of at most %d bytes", mostBytes)}
	}
	return os.ReadFile(name)
}
