package book

import (
	"database/sql"
	"strings"

	"fencerow/io/read/spelling"
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
	last    int64           // the highest number of a series
	loaded  map[string]bool // agencies whose series are all in the map
	counted int
	batch   []any     // of figures
	created []any     // series of the map that the book does not have yet
	insert  *sql.Stmt // of a full batch
	create  *sql.Stmt // of as many series
	rename  *sql.Stmt // of a county
	names   map[string]bool
}

// batchRows are the figures or series of one statement, valueColumns and seriesColumns what
// is given of each.
const batchRows, valueColumns, seriesColumns = 200, 6, 6

// onConflict lets the newer edition win; of equal ones the later import.
const onConflict = ` ON CONFLICT (series, crop_year, slot) DO UPDATE SET number = excluded.number, line = excluded.line, file = excluded.file
	WHERE file = excluded.file OR (SELECT edition FROM file f WHERE f.id = value.file) <= ?`

func newWriter(tx *sql.Tx, file int64, edition string) (*writer, error) {
	w := &writer{tx: tx, file: file, edition: edition, series: map[seriesKey]int64{}, loaded: map[string]bool{}, names: map[string]bool{}}
	if err := tx.QueryRow("SELECT coalesce(max(id), 0) FROM series").Scan(&w.last); err != nil {
		return nil, err
	}
	for query, statement := range map[string]**sql.Stmt{
		insertRows(batchRows):   &w.insert,
		insertSeries(batchRows): &w.create,
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
	return "INSERT INTO value (series, crop_year, slot, number, file, line) VALUES " + sixOf(n) + onConflict
}

// insertSeries is the statement for n series.
func insertSeries(n int) string {
	return "INSERT INTO series (id, county, agency, commodity, practice, kind) VALUES " + sixOf(n)
}

// sixOf leaves places for n rows of six columns.
func sixOf(n int) string { return strings.TrimSuffix(strings.Repeat("(?,?,?,?,?,?),", n), ",") }

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

// finish puts in what is left of the last batches.
func (w *writer) finish() error {
	if err := w.rest(insertSeries, seriesColumns, w.created); err != nil {
		return err
	}
	err := w.rest(insertRows, valueColumns, w.batch, w.edition)
	w.created, w.batch = w.created[:0], w.batch[:0]
	return err
}

// rest carries out a statement for a batch that is not full; after it come further values.
func (w *writer) rest(statement func(rows int) string, columns int, batch []any, after ...any) error {
	if len(batch) == 0 {
		return nil
	}
	last, err := w.tx.Prepare(statement(len(batch) / columns))
	if err != nil {
		return err
	}
	defer last.Close()
	_, err = last.Exec(append(batch, after...)...)
	return err
}

// seriesID finds or makes a series. All series of an agency are read when it comes first:
// one search after the other would take longer than a whole table.
func (w *writer) seriesID(k seriesKey) (id int64, err error) {
	if !w.loaded[k.agency] {
		if err := w.load(k.agency); err != nil {
			return 0, err
		}
	}
	if id, known := w.series[k]; known {
		return id, nil
	}
	w.last++
	w.series[k] = w.last
	w.created = append(w.created, w.last, k.county, k.agency, string(k.commodity), string(k.practice), k.kind)
	if len(w.created) == batchRows*seriesColumns {
		_, err = w.create.Exec(w.created...)
		w.created = w.created[:0]
	}
	return w.last, err
}

// load reads the series of an agency.
func (w *writer) load(agency string) error {
	w.loaded[agency] = true
	rows, err := w.tx.Query("SELECT id, county, commodity, practice, kind FROM series WHERE agency = ?", agency)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		k, id := seriesKey{agency: agency}, int64(0)
		if err := rows.Scan(&id, &k.county, &k.commodity, &k.practice, &k.kind); err != nil {
			return err
		}
		w.series[k] = id
	}
	return rows.Err()
}

// name keeps the name of a county, the last one that came; NASS's capitals only
// where there is no other. What spelling.NameFault refuses is no name.
func (w *writer) name(agency, code, name string) error {
	if reason, _ := spelling.NameFault(name); name == "" || w.names[code] || reason != "" {
		return nil
	}
	w.names[code] = true
	_, err := w.rename.Exec(code, name, w.file, agency)
	return err
}
