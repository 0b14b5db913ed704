package book

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

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

// errOtherVersion means that the tables are of a version that is not read here. There is
// one version so far, so that none has to be brought up to date.
var errOtherVersion = errors.New("it is a book of another version of fencerow")

// errForeign means that a file is a database of another program.
var errForeign = errors.New("it is a database of another program")

// ErrNoBook means that there is no book at a path.
var ErrNoBook = errors.New("there is no county book")

// Open opens the book at a path; with create it makes the file and its folder
// where there is none. Another process that is writing is waited for.
func Open(path string, create bool) (*Book, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if !create {
			return nil, fmt.Errorf("%s: %w", path, ErrNoBook)
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return nil, err
		}
	}
	db, err := sql.Open("sqlite", "file:"+filepath.ToSlash(path)+"?_pragma=busy_timeout(20000)&_pragma=foreign_keys(1)&_pragma=cache_size(-8000)&_txlock=immediate")
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	b := &Book{db: db, path: path}
	if err := b.prepare(create); err != nil {
		db.Close()
		return nil, fmt.Errorf("county book %s: %w", path, err)
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
		return fmt.Errorf("%w: its tables have version %d, this program reads version %d; it was left as it is", errOtherVersion, found, version)
	}
	if err := b.empty(b.db); err != nil {
		return err
	}
	return fmt.Errorf("%w: it is empty, nothing was imported into it", errOtherVersion)
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
	return fmt.Errorf("%w: it has the table %q; it was left as it is", errForeign, name)
}

// ours refuses a file that has the version of a book and not its tables.
func (b *Book) ours() error {
	for _, table := range []string{"file", "county", "series", "value", "price"} {
		var is int
		if err := b.db.QueryRow("SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = ?", table).Scan(&is); err != nil {
			return err
		}
		if is == 0 {
			return fmt.Errorf("%w: it has no table %q; it was left as it is", errForeign, table)
		}
	}
	return nil
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

// Check asks the database whether the file is sound.
func (b *Book) Check() error {
	var answer string
	if err := b.db.QueryRow("PRAGMA integrity_check").Scan(&answer); err != nil {
		return err
	}
	if answer != "ok" {
		return errors.New(answer)
	}
	return nil
}
