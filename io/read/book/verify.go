package book

import (
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"fencerow/program/farm"
)

// Verified says what of a book was looked at and found right.
type Verified struct {
	Book    string   `json:"book"`
	Files   int      `json:"files"`    // imported
	Figures int      `json:"figures"`  // county figures
	Prices  int      `json:"prices"`   // national prices and months
	LeftOut []string `json:"left_out"` // figures as an agency printed them that cannot be right: no answer uses them
	Again   []string `json:"again"`    // agencies' files that were read once more, and have what the book has
}

// Verify looks at a whole book: SQLite's own check, that each row is one that an agency's
// file can give, that no row lacks its file or series, and that no file has more figures
// than were imported. Each of the agencies' files given is read once more: its checksum and
// its figures must be those of the book. What is wrong comes as farm.Mistakes.
func (b *Book) Verify(files ...string) (v Verified, err error) {
	v = Verified{Book: b.path, LeftOut: []string{}, Again: []string{}}
	k := newChecks(b.path, func(_ figure, reason string) { v.LeftOut = append(v.LeftOut, reason) })
	if err := b.sound(k); err != nil {
		return v, b.told(err)
	}
	if len(k.wrong) > 0 {
		return v, k.err(b) // rows of a damaged file say nothing
	}
	if err := b.figures("", k, func(*figure) { v.Figures++ }); err != nil {
		return v, err
	}
	v.Figures += len(v.LeftOut)
	if err := b.prices(k, func(*priceRow) { v.Prices++ }); err != nil {
		return v, err
	}
	if v.Files, err = b.filesRight(k); err != nil {
		return v, b.told(err)
	}
	if err := b.nothingLoose(k); err != nil {
		return v, b.told(err)
	}
	for _, path := range files {
		if err := b.asImported(path, k); err != nil {
			return v, err
		}
		v.Again = append(v.Again, filepath.Base(path))
	}
	return v, k.err(b)
}

// sound asks the database whether its file is whole.
func (b *Book) sound(k *checks) error {
	rows, err := b.db.Query("PRAGMA integrity_check(20)")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var said string
		if err := rows.Scan(&said); err != nil {
			return err
		}
		if said != "ok" {
			k.refuse(nil, "the file of the book is damaged: "+said)
		}
	}
	return rows.Err()
}

// checksumForm is how a checksum is written.
var checksumForm = regexp.MustCompile(`^[0-9a-f]{64}$`)

// filesRight checks the entries of imported files and how many figures each has.
func (b *Book) filesRight(k *checks) (count int, err error) {
	rows, err := b.db.Query(`SELECT f.name, f.sha256, f.agency, f.edition, f.imported, f.figures,
		(SELECT count(*) FROM value v WHERE v.file = f.id) + (SELECT count(*) FROM price p WHERE p.file = f.id) FROM file f ORDER BY f.id`)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	for rows.Next() {
		var f File
		var has int
		if err := rows.Scan(&f.Name, &f.SHA256, &f.Agency, &f.Edition, &f.Imported, &f.Figures, &has); err != nil {
			k.refuse(nil, unread(rows, "file", "checksum", "agency", "edition", "imported", "figures", "rows"))
			continue
		}
		count++
		name := shortened(f.Name)
		_, editionErr := time.Parse(time.DateOnly, f.Edition)
		_, importedErr := time.Parse(time.DateOnly, f.Imported)
		switch {
		case !checksumForm.MatchString(f.SHA256):
			k.refuse(nil, fmt.Sprintf("the checksum of %s is %q", name, shortened(f.SHA256)))
		case !slices.Contains([]string{"FSA", "RMA", "NASS", "WASDE"}, f.Agency):
			k.refuse(nil, fmt.Sprintf("the agency of %s is %q", name, shortened(f.Agency)))
		case editionErr != nil || importedErr != nil:
			k.refuse(nil, fmt.Sprintf("the edition of %s is %q, imported %q: one is no date", name, shortened(f.Edition), shortened(f.Imported)))
		case has > f.Figures:
			k.refuse(nil, fmt.Sprintf("%s has %d figures in the book, and %d were imported from it", name, has, f.Figures))
		}
	}
	return count, rows.Err()
}

// nothingLoose refuses rows whose series or file is not in the book.
func (b *Book) nothingLoose(k *checks) error {
	for _, loose := range []struct{ what, query string }{
		{"figures belong to no series", "SELECT count(*) FROM value v WHERE NOT EXISTS (SELECT 1 FROM series s WHERE s.id = v.series)"},
		{"figures belong to no imported file", "SELECT count(*) FROM value v WHERE NOT EXISTS (SELECT 1 FROM file f WHERE f.id = v.file)"},
		{"prices belong to no imported file", "SELECT count(*) FROM price p WHERE NOT EXISTS (SELECT 1 FROM file f WHERE f.id = p.file)"},
	} {
		var count int
		if err := b.db.QueryRow(loose.query).Scan(&count); err != nil {
			return err
		}
		if count > 0 {
			k.refuse(nil, fmt.Sprintf("%d %s", count, loose.what))
		}
	}
	return nil
}

// asImported reads an agency's file once more and compares it with what the book has of it.
func (b *Book) asImported(path string, k *checks) error {
	checksum, _, err := fingerprint(path)
	if err != nil {
		return farm.Mistakes{{File: path, Reason: "the file cannot be read: " + reasonOf(err), Hint: "check the name and folder of the file"}}
	}
	var id int64
	var imported string
	switch err := b.db.QueryRow("SELECT id, imported FROM file WHERE sha256 = ?", checksum).Scan(&id, &imported); {
	case errors.Is(err, sql.ErrNoRows):
		return farm.Mistakes{{File: path, Reason: "no file with its checksum was imported into " + b.path, Hint: "give the file as it was imported (fencerow county list --files), or import this one: fencerow county import FILE --book " + b.path}}
	case err != nil:
		return b.told(err)
	}
	day, err := time.Parse(time.DateOnly, imported)
	if err != nil {
		return nil // filesRight has told it
	}
	fresh, err := inMemory()
	if err != nil {
		return b.told(err)
	}
	defer fresh.Close()
	if err := fresh.namesOf(b); err != nil {
		return b.told(err)
	}
	if _, err := fresh.Import(path, day, false); err != nil {
		return err
	}
	return b.sameRows(fresh, id, filepath.Base(path), k)
}

// inMemory is a book that lies in no file.
func inMemory() (*Book, error) {
	db, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	b := &Book{db: db, path: "(memory)"}
	if err := b.fill(); err != nil {
		db.Close()
		return nil, err
	}
	return b, nil
}

// namesOf takes over the names of counties, by which some files name them.
func (b *Book) namesOf(other *Book) error {
	rows, err := other.db.Query("SELECT code, name FROM county")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var code, name string
		if err := rows.Scan(&code, &name); err != nil {
			return err
		}
		if _, err := b.db.Exec("INSERT INTO county (code, name, file) VALUES (?, ?, 0)", code, name); err != nil {
			return err
		}
	}
	return rows.Err()
}

// rowsOfFile are the figures and prices of one file, as text by what they are of.
const rowsOfFile = `SELECT s.county || ' ' || s.agency || ' ' || s.commodity || ' ' || s.practice || ' ' || s.kind || ' ' || v.crop_year || ' ' || v.slot, v.number, v.line
	FROM value v JOIN series s ON s.id = v.series WHERE v.file = ?1
	UNION ALL SELECT p.commodity || ' ' || p.kind || ' ' || p.crop_year, p.number, p.line FROM price p WHERE p.file = ?1`

// sameRows refuses each row that a book has of a file and that the file does not give.
func (b *Book) sameRows(fresh *Book, id int64, name string, k *checks) error {
	given := map[string]float64{}
	if err := fresh.eachRow(1, func(of string, number float64, _ int) { given[of] = number }); err != nil {
		return b.told(err)
	}
	return b.told(b.eachRow(id, func(of string, number float64, line int) {
		switch want, is := given[of]; {
		case !is:
			k.refuse(nil, fmt.Sprintf("%s is in the book as from %s line %d, which does not have it", strings.ReplaceAll(of, "_", " "), name, line))
		case want != number:
			k.refuse(nil, fmt.Sprintf("%s is %v in the book, and %v in %s line %d", strings.ReplaceAll(of, "_", " "), number, want, name, line))
		}
	}))
}

// eachRow gives the rows of one file.
func (b *Book) eachRow(id int64, each func(of string, number float64, line int)) error {
	rows, err := b.db.Query(rowsOfFile, id)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var of string
		var number float64
		var line int
		if err := rows.Scan(&of, &number, &line); err != nil {
			return err
		}
		each(of, number, line)
	}
	return rows.Err()
}
