package disk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"fencerow/io/read/book"
	"fencerow/io/source"
)

// NoBook is the name that stands for no county book.
const NoBook = "none"

// usualBook returns where the county book lies unless another is named: in the user's data
// folder. "" where the system names none.
func usualBook() string {
	folder := os.Getenv("XDG_DATA_HOME")
	if folder == "" {
		switch home, err := os.UserHomeDir(); {
		case err != nil:
			return ""
		case runtime.GOOS == "windows":
			folder = os.Getenv("LocalAppData")
		case runtime.GOOS == "darwin":
			folder = filepath.Join(home, "Library", "Application Support")
		default:
			folder = filepath.Join(home, ".local", "share")
		}
	}
	if folder == "" {
		return ""
	}
	return filepath.Join(folder, "fencerow", "counties.db")
}

// OpenBook opens the county book at a path; "" is the usual one, NoBook none. With
// create a book that does not exist is made. The book is nil, without an error, for
// NoBook and where the usual book does not exist.
func OpenBook(name string, create bool) (*book.Book, error) {
	path := name
	switch {
	case name == NoBook:
		return nil, nil
	case name == "":
		if path = usualBook(); path == "" {
			return nil, nil
		}
	}
	b, err := book.Open(path, create)
	switch {
	case errors.Is(err, book.ErrNoBook) && name == "":
		return nil, nil
	case errors.Is(err, book.ErrNoBook):
		return nil, source.Wrong{Reason: fmt.Sprintf("there is no county book %s", path), Hint: "make it with: fencerow county import FILE --book " + path}
	}
	return b, err
}

// NeedBook is OpenBook for those who need a book: where there is none the error is a
// source.Wrong.
func NeedBook(name string, create bool) (*book.Book, error) {
	b, err := OpenBook(name, create)
	if err == nil && b == nil {
		return nil, source.Wrong{Reason: "there is no county book yet", Hint: "make one with: fencerow county import FILE"}
	}
	return b, err
}
