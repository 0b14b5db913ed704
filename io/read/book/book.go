package book

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	_ "modernc.org/sqlite" // the database, in plain Go
)

// Book is an open county book.
type Book struct {
	db   *sql.DB
	path string
}

// version of the tables. A file of another version is not touched.
const version = 1

// schema are the tables. A value is one figure with the file and row it came
// from; a newer edition of the same subject takes the place of an older one,
// whose file entry stays.
const schema = `
CREATE TABLE file (
	id INTEGER PRIMARY KEY, name TEXT NOT NULL, sha256 TEXT NOT NULL UNIQUE, agency TEXT NOT NULL, layout TEXT NOT NULL,
	subject TEXT NOT NULL, edition TEXT NOT NULL, imported TEXT NOT NULL, figures INTEGER NOT NULL, replaced_by INTEGER REFERENCES file(id));
CREATE TABLE county (code TEXT PRIMARY KEY, name TEXT NOT NULL, file INTEGER NOT NULL) WITHOUT ROWID;
CREATE TABLE series (
	id INTEGER PRIMARY KEY, county TEXT NOT NULL, agency TEXT NOT NULL, commodity TEXT NOT NULL, practice TEXT NOT NULL, kind TEXT NOT NULL,
	UNIQUE (county, agency, commodity, practice, kind));
CREATE TABLE value (
	series INTEGER NOT NULL, crop_year INTEGER NOT NULL, slot INTEGER NOT NULL, number REAL NOT NULL, file INTEGER NOT NULL, line INTEGER NOT NULL,
	PRIMARY KEY (series, crop_year, slot)) WITHOUT ROWID;
CREATE TABLE price (
	commodity TEXT NOT NULL, crop_year INTEGER NOT NULL, kind TEXT NOT NULL, number REAL NOT NULL, file INTEGER NOT NULL, line INTEGER NOT NULL,
	PRIMARY KEY (commodity, crop_year, kind)) WITHOUT ROWID;
CREATE INDEX value_of_file ON value (file);
PRAGMA user_version = 1;
`

// columns are those of the tables, in their order. A test holds them to the schema.
var columns = map[string]string{
	"file":   "id name sha256 agency layout subject edition imported figures replaced_by",
	"county": "code name file",
	"series": "id county agency commodity practice kind",
	"value":  "series crop_year slot number file line",
	"price":  "commodity crop_year kind number file line",
}

// errOtherVersion means that the tables are of a version that is not read here. There is
// one version so far, so that none has to be brought up to date.
var errOtherVersion = errors.New("it is a book of another version of fencerow")

// errForeign means that a file is a database of another program.
var errForeign = errors.New("it is a database of another program")

// errEmpty means that nothing was imported into a book.
var errEmpty = errors.New("it is empty")

// ErrNoBook means that there is no book at a path.
var ErrNoBook = errors.New("there is no county book")

// Open opens the book at a path; with create it makes the file and its folder
// where there is none. Another process that is writing is waited for. A file that is no
// book gives farm.Mistakes, what the computer did not allow a *Refused.
func Open(path string, create bool) (*Book, error) {
	b := &Book{path: path}
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist) && !create:
		return nil, fmt.Errorf("%s: %w", path, ErrNoBook)
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return nil, &Refused{path, "its folder cannot be made: " + reasonOf(err), "name a file in a folder that you may write in", err}
		}
	case err != nil:
		return nil, b.told(err)
	case !info.Mode().IsRegular():
		return nil, b.is(errForeign, "it is a folder or a device, and no county book", "name the file of the book with --book")
	}
	// SQLite takes the path for an address: these would end it or stand for other letters
	address := strings.NewReplacer("%", "%25", "?", "%3f", "#", "%23").Replace(filepath.ToSlash(path))
	db, err := sql.Open("sqlite", "file:"+address+"?_pragma=busy_timeout(20000)&_pragma=foreign_keys(1)&_pragma=cache_size(-8000)&_txlock=immediate")
	if err != nil {
		return nil, b.told(err)
	}
	db.SetMaxOpenConns(1)
	b.db = db
	if err := b.prepare(create); err != nil {
		db.Close()
		return nil, b.told(err)
	}
	return b, nil
}

// prepare makes the tables of a new file and refuses a file that is no book.
func (b *Book) prepare(create bool) error {
	found, err := b.versionOf(b.db)
	if err != nil {
		return err
	}
	if found == 0 && create {
		if err := b.fill(); err != nil {
			return err
		}
		found = version
	}
	if found == version {
		return b.ours()
	}
	if found > version {
		return b.is(errOtherVersion, fmt.Sprintf("%v: its tables have version %d, this program reads version %d; it was left as it is", errOtherVersion, found, version),
			"use the newer fencerow, or import the agencies' files into a new book with --book")
	}
	if err := b.empty(b.db); err != nil {
		return err
	}
	return b.is(errEmpty, "the county book is empty: nothing was imported into it", "fill it with: fencerow county import FILE --book "+b.path)
}

// fill makes the tables in a file that has none.
func (b *Book) fill() error {
	tx, err := b.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	found, err := b.versionOf(tx) // another process may have been first
	if err != nil || found != 0 {
		return err
	}
	if err := b.empty(tx); err != nil {
		return err
	}
	if _, err := tx.Exec(schema); err != nil {
		return err
	}
	return tx.Commit()
}

// empty refuses a file with tables: without a version they are another program's.
func (b *Book) empty(q querier) error {
	var name string
	switch err := q.QueryRow("SELECT name FROM sqlite_master LIMIT 1").Scan(&name); {
	case errors.Is(err, sql.ErrNoRows):
		return nil
	case err != nil:
		return err
	}
	return b.foreign(fmt.Sprintf("it has the table %q", name))
}

// ours refuses a file that has the version of a book and not its tables.
func (b *Book) ours() error {
	rows, err := b.db.Query("SELECT t.name, c.name FROM sqlite_master t JOIN pragma_table_info(t.name) c WHERE t.type = 'table' ORDER BY t.name, c.cid")
	if err != nil {
		return err
	}
	defer rows.Close()
	found := map[string]string{}
	for rows.Next() {
		var table, column string
		if err := rows.Scan(&table, &column); err != nil {
			return err
		}
		if found[table] != "" {
			column = found[table] + " " + column
		}
		found[table] = column
	}
	for _, table := range []string{"file", "county", "series", "value", "price"} {
		if found[table] == "" {
			return b.foreign(fmt.Sprintf("it has no table %q", table))
		}
		if found[table] != columns[table] {
			return b.foreign(fmt.Sprintf("its table %q has other columns", table))
		}
	}
	return rows.Err()
}

// foreign is the error of another program's file.
func (b *Book) foreign(why string) error {
	return b.is(errForeign, fmt.Sprintf("%v: %s; it was left as it is", errForeign, why), "give the county book with --book, or import the agencies' files into a new one")
}

// querier is a database or a transaction.
type querier interface {
	QueryRow(query string, args ...any) *sql.Row
}

func (b *Book) versionOf(q querier) (found int, err error) {
	err = q.QueryRow("PRAGMA user_version").Scan(&found)
	return found, err
}

// Close closes the book.
func (b *Book) Close() error { return b.db.Close() }

// Path is where the book lies.
func (b *Book) Path() string { return b.path }
