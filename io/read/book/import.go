package book

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"fencerow/io/read/market"
	"fencerow/io/read/table"
	"fencerow/io/read/yields"
	"fencerow/program/farm"
)

// Imported says what came of one file.
type Imported struct {
	File    string   `json:"file"`
	Agency  string   `json:"agency"`
	Layout  string   `json:"layout"`
	Subject string   `json:"subject"` // "program year 2023", ...
	Edition string   `json:"edition"`
	Figures int      `json:"figures"`
	Already bool     `json:"already"`  // the same file was in the book: nothing changed
	Older   bool     `json:"older"`    // a newer edition is in the book: kept on record only
	Took    string   `json:"replaced"` // name of the older edition it took the place of
	Notes   []string `json:"notes"`    // lines that were not understood
	Noted   int      `json:"noted"`    // how many
}

// Import puts one file of an agency into the book: all of it or, on an error,
// nothing. The same file again changes nothing. With strict a line that is not
// understood refuses the file. A file that cannot be read is refused with
// farm.Mistakes. today is the edition of a file that has no date of its own.
func (b *Book) Import(path string, today time.Time, strict bool) (Imported, error) {
	done := Imported{File: filepath.Base(path), Notes: []string{}}
	checksum, start, err := fingerprint(path)
	if err != nil {
		return done, farm.Mistakes{{File: path, Reason: "the file cannot be read: " + reasonOf(err), Hint: "check the name and folder of the file"}}
	}
	tx, err := b.db.Begin()
	if err != nil {
		return done, b.told(err)
	}
	defer tx.Rollback()
	known := tx.QueryRow("SELECT agency, layout, subject, edition, figures FROM file WHERE sha256 = ?", checksum)
	switch err := known.Scan(&done.Agency, &done.Layout, &done.Subject, &done.Edition, &done.Figures); {
	case err == nil:
		done.Already = true
		return done, nil
	case !errors.Is(err, sql.ErrNoRows):
		return done, b.told(err)
	}
	im := importing{Imported: &done, tx: tx, path: path, checksum: checksum, today: today, strict: strict}
	if isWorkbook(start) {
		err = im.workbook()
	} else {
		err = im.text()
	}
	if err != nil {
		return done, b.told(err)
	}
	if strict && done.Noted > 0 {
		return done, farm.Mistakes{{File: path, Value: done.Notes[0], Reason: fmt.Sprintf("%d lines are not understood, the first: %s", done.Noted, done.Notes[0]), Hint: "leave out --strict to read the rest"}}
	}
	return done, b.told(tx.Commit())
}

// importing is one import in progress.
type importing struct {
	*Imported
	tx       *sql.Tx
	path     string
	checksum string
	today    time.Time
	strict   bool
	id       int64
}

// fingerprint returns the checksum of a file and its first bytes.
func fingerprint(path string) (checksum string, start []byte, err error) {
	f, err := os.Open(path)
	if err != nil {
		return "", nil, err
	}
	defer f.Close()
	const enough = 8
	buffered := bufio.NewReader(f)
	if first, _ := buffered.Peek(buffered.Size()); !isWorkbook(first) && !bytes.HasPrefix(first, []byte{0x1f, 0x8b}) && bytes.IndexByte(first, 0) >= 0 {
		return "", nil, errors.New("it is no text, no workbook and no packed text") // before all of it is read
	}
	start, _ = buffered.Peek(enough)
	start = bytes.Clone(start)
	hash := sha256.New()
	if _, err := io.Copy(hash, buffered); err != nil {
		return "", nil, err
	}
	return hex.EncodeToString(hash.Sum(nil)), start, nil
}

func reasonOf(err error) string {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// isWorkbook knows .xlsx and the old .xls by their first bytes.
func isWorkbook(start []byte) bool {
	return bytes.HasPrefix(start, []byte("PK")) || bytes.HasPrefix(start, []byte{0xD0, 0xCF, 0x11, 0xE0})
}

// begin enters the file. newest reports whether no newer edition of its subject
// is in the book; an older one gives way, but for its entry.
func (im *importing) begin() (newest bool, err error) {
	made, err := im.tx.Exec("INSERT INTO file (name, sha256, agency, layout, subject, edition, imported, figures) VALUES (?,?,?,?,?,?,?,0)",
		im.File, im.checksum, im.Agency, im.Layout, im.Subject, im.Edition, im.today.Format(time.DateOnly))
	if err != nil {
		return false, err
	}
	if im.id, err = made.LastInsertId(); err != nil {
		return false, err
	}
	var other int64
	var name, edition string
	row := im.tx.QueryRow("SELECT id, name, edition FROM file WHERE agency = ? AND subject = ? AND replaced_by IS NULL AND id <> ? AND subject LIKE 'program year%'", im.Agency, im.Subject, im.id)
	switch err := row.Scan(&other, &name, &edition); {
	case errors.Is(err, sql.ErrNoRows):
		return true, nil
	case err != nil:
		return false, err
	case edition > im.Edition:
		im.Older = true
		_, err := im.tx.Exec("UPDATE file SET replaced_by = ? WHERE id = ?", other, im.id)
		return false, err
	}
	im.Took = name
	if _, err := im.tx.Exec("UPDATE file SET replaced_by = ? WHERE id = ?", im.id, other); err != nil {
		return false, err
	}
	_, err = im.tx.Exec("DELETE FROM value WHERE file = ?", other)
	return true, err
}

// end puts in the last figures of a writer and writes down how many came.
func (im *importing) end(w *writer) error {
	if err := w.finish(); err != nil {
		return err
	}
	im.Figures += w.counted
	return im.counted()
}

// note keeps a line that was not understood.
func (im *importing) note(line int, reason, text string) {
	const most = 1000
	im.Noted++
	if len(im.Notes) < most {
		im.Notes = append(im.Notes, fmt.Sprintf("line %d: %s: %s", line, reason, text))
	}
}

// noteAll keeps the notes of a reader.
func noteAll[N table.Note | yields.Note | market.WASDENote](im *importing, notes []N) {
	for _, note := range notes {
		n := table.Note(note)
		im.note(n.Line, n.Reason, n.Text)
	}
}

// text imports WASDE's prices, the yields of NASS and RMA, and NASS's months of prices.
func (im *importing) text() error {
	f, err := os.Open(im.path)
	if err != nil {
		return err
	}
	defer f.Close()
	if report, is, err := market.ReadWASDE(f); is || err != nil {
		return im.wasde(report, err)
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return err
	}
	var w *writer
	begin := func(file yields.File) error {
		im.Agency, im.Layout, im.Subject, im.Edition = file.Agency, file.Layout, "county yields", im.edition(fileDate, im.File)
		if _, err := im.begin(); err != nil {
			return err
		}
		var err error
		w, err = newWriter(im.tx, im.id, im.Edition)
		return err
	}
	file, err := yields.Read(f, begin, func(y yields.Yield) error {
		kind := kindYield
		if y.Class != "" {
			kind += "_" + y.Class
		}
		if err := w.name(im.Agency, y.County, y.CountyName); err != nil {
			return err
		}
		return w.add(value{seriesKey: seriesKey{y.County, im.Agency, y.Commodity, y.Practice, kind}, cropYear: y.CropYear, number: y.Value, line: y.Line})
	}, im.month)
	noteAll(im, file.Notes)
	im.Noted = file.Noted
	var refusal yields.Refusal
	if errors.As(err, &refusal) {
		return farm.Mistakes{{File: im.path, Reason: refusal.Reason, Hint: refusal.Hint}}
	}
	if err != nil {
		return err
	}
	if w.counted+im.Figures == 0 {
		return farm.Mistakes{{File: im.path, Reason: "the file has no county yield and no monthly price of a covered crop", Hint: "choose program SURVEY and domain TOTAL. Then choose a yield per acre at geographic level COUNTY, or a price received at level NATIONAL by month"}}
	}
	if w.counted == 0 {
		return im.onlyMonths()
	}
	return im.end(w)
}

// fileDate finds the edition in the name of a text file: "qs.crops_20260627".
var fileDate = regexp.MustCompile(`(20\d\d)[-_]?([01]\d)[-_]?([0-3]\d)`)

// sheetDate finds the edition in a sheet's name: "ARCCO 2023 (2025-02-03)",
// "2022_0131".
var sheetDate = regexp.MustCompile(`(20\d\d)[-_](\d\d)-?(\d\d)`)

// edition returns the date in a name, else the day of the import.
func (im *importing) edition(date *regexp.Regexp, name string) string {
	if d := date.FindStringSubmatch(name); d != nil {
		return d[1] + "-" + d[2] + "-" + d[3]
	}
	return im.today.Format(time.DateOnly)
}

// workbook imports a workbook of FSA by what it turns out to be.
func (im *importing) workbook() error {
	im.Agency = "FSA"
	sheet, rows, notes, err := table.ReadSheet(im.path)
	var mistakes farm.Mistakes
	if errors.As(err, &mistakes) && mistakes[0].Reason == table.NotCountyTable {
		return im.otherWorkbook()
	}
	if err != nil {
		return err
	}
	im.Layout, im.Subject, im.Edition = "ARC-CO county table", fmt.Sprintf("program year %d", rows[0].ProgramYear), im.edition(sheetDate, sheet)
	noteAll(im, notes)
	newest, err := im.begin()
	if err != nil || !newest {
		return err
	}
	w, err := newWriter(im.tx, im.id, im.Edition)
	if err != nil {
		return err
	}
	for _, r := range rows {
		if err := w.row(r); err != nil {
			return err
		}
	}
	if w.counted == 0 {
		return farm.Mistakes{{File: im.path, Reason: "the county table has no figure: its cells may hold formulas that were never worked out", Hint: "open it in a spreadsheet program and save it, or download it again"}}
	}
	return im.end(w)
}

// row puts in the figures of one line of a county table.
func (w *writer) row(r table.Row) error {
	if err := w.name("FSA", r.Code, r.CountyName); err != nil {
		return err
	}
	put := func(kind string, slot int, figure *float64) error {
		if figure == nil {
			return nil
		}
		return w.add(value{seriesKey: seriesKey{r.Code, "FSA", r.Commodity, r.Practice, kind}, cropYear: r.ProgramYear, slot: slot, number: *figure, line: r.Line})
	}
	for i, y := range r.Adjusted {
		if err := put(kindAdjusted, i, y); err != nil {
			return err
		}
	}
	if err := put(kindBenchmark, 0, r.BenchmarkYield); err != nil {
		return err
	}
	return put(kindActual, 0, r.ActualYield)
}
