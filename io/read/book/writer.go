package book

import (
	"database/sql"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Kinds of a series.
const (
	kindAdjusted  = "adjusted"        // five of a program year, slots 0 to 4
	kindBenchmark = "benchmark_yield" // by program year
	kindActual    = "actual"          // by crop year
	kindYield     = "yield"           // NASS and RMA, by crop year; of wheat also yield_winter, ...
	kindBase      = "base_acres"      // by program year
)

// seriesKey names a series.
type seriesKey struct {
	county    string
	agency    string
	commodity crop.Commodity
	practice  farm.Practice
	kind      string
}

// value is one figure on its way into the book.
type value struct {
	seriesKey
	cropYear crop.CropYear
	slot     int
	number   float64
	line     int
}

// writer puts the figures of one file into the book, in one transaction.
type writer struct {
	tx      *sql.Tx
	file    int64
	edition string
	series  map[seriesKey]int64
	counted int
	batch   []any
	insert  *sql.Stmt // of a full batch
	find    *sql.Stmt // of a series
	create  *sql.Stmt // of a series
	rename  *sql.Stmt // of a county
	names   map[string]bool
}

// batchRows are the figures of one statement, valueColumns what is given of each.
const batchRows, valueColumns = 200, 6

// onConflict lets the newer edition win; of equal ones the later import.
const onConflict = ` ON CONFLICT (series, crop_year, slot) DO UPDATE SET number = excluded.number, line = excluded.line, file = excluded.file
	WHERE file = excluded.file OR (SELECT edition FROM file f WHERE f.id = value.file) <= ?`

func newWriter(tx *sql.Tx, file int64, edition string) (*writer, error) {
	w := &writer{tx: tx, file: file, edition: edition, series: map[seriesKey]int64{}, names: map[string]bool{}}
	for query, statement := range map[string]**sql.Stmt{
		insertRows(batchRows): &w.insert,
		"SELECT id FROM series WHERE county = ? AND agency = ? AND commodity = ? AND practice = ? AND kind = ?":                                              &w.find,
		"INSERT INTO series (county, agency, commodity, practice, kind) VALUES (?,?,?,?,?)":                                                                  &w.create,
		"INSERT INTO county (code, name, file) VALUES (?,?,?) ON CONFLICT (code) DO UPDATE SET name = excluded.name, file = excluded.file WHERE ? <> 'NASS'": &w.rename,
	} {
		var err error
		if *statement, err = tx.Prepare(query); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// insertRows is the statement for n figures.
func insertRows(n int) string {
	return "INSERT INTO value (series, crop_year, slot, number, file, line) VALUES " + strings.TrimSuffix(strings.Repeat("(?,?,?,?,?,?),", n), ",") + onConflict
}

// add puts in one figure.
func (w *writer) add(v value) error {
	id, err := w.seriesID(v.seriesKey)
	if err != nil {
		return err
	}
	w.counted++
	w.batch = append(w.batch, id, v.cropYear, v.slot, v.number, w.file, v.line)
	if len(w.batch) == batchRows*valueColumns {
		_, err = w.insert.Exec(append(w.batch, w.edition)...)
		w.batch = w.batch[:0]
	}
	return err
}

// finish puts in what is left of the last batch.
func (w *writer) finish() error {
	rows := len(w.batch) / valueColumns
	if rows == 0 {
		return nil
	}
	last, err := w.tx.Prepare(insertRows(rows))
	if err != nil {
		return err
	}
	defer last.Close()
	_, err = last.Exec(append(w.batch, w.edition)...)
	w.batch = w.batch[:0]
	return err
}

// seriesID finds or makes a series.
func (w *writer) seriesID(k seriesKey) (id int64, err error) {
	if id, known := w.series[k]; known {
		return id, nil
	}
	args := []any{k.county, k.agency, string(k.commodity), string(k.practice), k.kind}
	err = w.find.QueryRow(args...).Scan(&id)
	if err == sql.ErrNoRows {
		var made sql.Result
		if made, err = w.create.Exec(args...); err == nil {
			id, err = made.LastInsertId()
		}
	}
	w.series[k] = id
	return id, err
}

// name keeps the name of a county, the last one that came; NASS's capitals only
// where there is no other.
func (w *writer) name(agency, code, name string) error {
	if name == "" || w.names[code] {
		return nil
	}
	w.names[code] = true
	_, err := w.rename.Exec(code, name, w.file, agency)
	return err
}
