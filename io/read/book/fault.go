package book

import (
	"errors"
	"fmt"
	"io/fs"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"fencerow/program/farm"
)

// Refused says that the computer did not let a book be read or written: another time it
// may. The book is as it was.
type Refused struct {
	Path   string
	Reason string
	Hint   string
	Err    error
}

func (r *Refused) Error() string { return "the county book " + r.Path + ": " + r.Reason }

func (r *Refused) Unwrap() error { return r.Err }

// wrong is what is wrong with a book, as mistakes, and the error behind it.
type wrong struct {
	mistakes farm.Mistakes
	cause    error
}

func (w wrong) Error() string { return w.mistakes.Error() }

func (w wrong) Unwrap() []error { return []error{w.mistakes, w.cause} }

// is returns an error of a book with what to do.
func (b *Book) is(cause error, reason, hint string) error {
	return wrong{farm.Mistakes{{File: b.path, Reason: reason, Hint: hint}}, cause}
}

// again is how a book is made once more.
func (b *Book) again() string {
	return "move the book away and import the agencies' files again: fencerow county import FILE --book " + b.path
}

// told turns an error of the database into farm.Mistakes or a *Refused with what to do.
// Errors that are so already, and nil, come back as they are.
func (b *Book) told(err error) error {
	var database *sqlite.Error
	var mistakes farm.Mistakes
	var refused *Refused
	switch {
	case err == nil || errors.As(err, &mistakes) || errors.As(err, &refused):
		return err
	case errors.As(err, &database):
		return b.ofDatabase(database)
	case errors.Is(err, fs.ErrPermission):
		return &Refused{b.path, "it is not permitted", "check who may read and write the file and its folder", err}
	}
	return b.is(err, "the county book cannot be used: "+err.Error(), b.again())
}

// ofDatabase tells an error of SQLite by its code; the lowest eight bits are its kind.
func (b *Book) ofDatabase(err *sqlite.Error) error {
	const kinds = 0xff
	switch kind := err.Code() & kinds; {
	case kind == sqlite3.SQLITE_NOTADB:
		return b.is(err, "it is no county book, but a file of another kind", "give the county book with --book, or import the agencies' files into a new one")
	case kind == sqlite3.SQLITE_CORRUPT || kind == sqlite3.SQLITE_FORMAT || err.Code() == sqlite3.SQLITE_IOERR_SHORT_READ:
		return b.is(err, "the county book is damaged or cut short", b.again())
	case kind == sqlite3.SQLITE_BUSY || kind == sqlite3.SQLITE_LOCKED:
		return &Refused{b.path, "another program is writing to it", "wait until that has ended, and give the command again", err}
	case kind == sqlite3.SQLITE_FULL:
		return &Refused{b.path, "the disk is full", "make room on the disk, and give the command again; the book is as it was", err}
	case kind == sqlite3.SQLITE_READONLY || kind == sqlite3.SQLITE_PERM || kind == sqlite3.SQLITE_CANTOPEN || kind == sqlite3.SQLITE_AUTH:
		return &Refused{b.path, "the system does not let it be opened or written", "check who may read and write the file and its folder", err}
	case kind == sqlite3.SQLITE_IOERR || kind == sqlite3.SQLITE_NOMEM || kind == sqlite3.SQLITE_INTERRUPT:
		return &Refused{b.path, "it could not be read or written: " + err.Error(), "check the disk, and give the command again", err}
	}
	return b.is(err, fmt.Sprintf("its tables are not those of a county book: %v", err), b.again())
}
