package disk

import (
	"bytes"
	"io/fs"
	"time"
)

// Given is one file that does not lie on the disk, such as standard input. It goes into
// Files.BuiltIn.
type Given struct {
	Name string
	Text []byte
}

// ReadFile returns the text of the file, by its name.
func (g Given) ReadFile(name string) ([]byte, error) {
	if name != g.Name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return g.Text, nil
}

// Open opens the file, by its name.
func (g Given) Open(name string) (fs.File, error) {
	text, err := g.ReadFile(name)
	if err != nil {
		return nil, err
	}
	return givenFile{bytes.NewReader(text), g}, nil
}

// givenFile is an open Given, and what is known of it.
type givenFile struct {
	*bytes.Reader
	of Given
}

// Stat says what is known of the file.
func (f givenFile) Stat() (fs.FileInfo, error) { return givenInfo{f.of}, nil }

// Close does nothing.
func (givenFile) Close() error { return nil }

type givenInfo struct{ of Given }

// Name returns the name of the file.
func (i givenInfo) Name() string { return i.of.Name }

// Size returns its bytes.
func (i givenInfo) Size() int64 { return int64(len(i.of.Text)) }

// Mode says that it is a file to be read.
func (givenInfo) Mode() fs.FileMode { return 0o444 }

// ModTime returns no time.
func (givenInfo) ModTime() time.Time { return time.Time{} }

// IsDir says that it is no folder.
func (givenInfo) IsDir() bool { return false }

// Sys returns nothing.
func (givenInfo) Sys() any { return nil }
