package batch

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"

	_ "modernc.org/sqlite"

	"fencerow/io/batch/kept"
	"fencerow/io/read/farmtable"
	"fencerow/io/source"
	"fencerow/sim/compare"
)

// item is one row of the table, read or refused.
type item struct {
	Row     farmtable.Row
	Refused []farmtable.Refusal
}

// before reports whether an item belongs to an operation before that of another.
func (i item) before(other item) bool {
	if i.Row.Client != other.Row.Client {
		return i.Row.Client < other.Row.Client
	}
	return i.Row.Operation < other.Row.Operation
}

func (i item) sameOperation(other item) bool {
	return i.Row.Client == other.Row.Client && i.Row.Operation == other.Row.Operation
}

// eachRow calls do with the rows of the table in its order. In a table that names
// nobody each farm is an operation of its own.
func (o Options) eachRow(do func(item) error) (seen tableFacts, err error) {
	columns := o.Columns
	if o.Insured {
		columns = columns.WithInsurance()
	}
	table, err := source.OpenFarms(o.Files, o.Tables, o.Table, o.County, columns)
	if err != nil {
		return seen, err
	}
	defer table.Close()
	seen.eachAlone = table.NamesNobody()
	var last farmtable.Row
	for {
		row, refused, err := table.Next()
		if err == io.EOF {
			blank := append(table.NamesBlank(), table.InsuranceBlank()...)
			if len(o.Question.CropYears) == 0 {
				blank = append(blank, table.CropYearBlank()...)
			}
			if len(blank) > 0 {
				return seen, blank
			}
			seen.notes = table.Notes()
			return seen, nil
		}
		if err == nil {
			if seen.eachAlone {
				row.Operation = farmAlone(row, last)
			}
			last = row
			err = do(item{row, refused})
		}
		if err != nil {
			return seen, err
		}
	}
}

// farmAlone returns the operation of a row in a table where each farm is one: the key
// of its farm. A row whose farm or county could not be read is taken to belong to the
// farm of the row before, if the rest agrees.
func farmAlone(row, last farmtable.Row) string {
	fits := func(now, before string) bool { return now == "" || now == before }
	if (row.Farm == "" || row.County == "") && fits(row.Farm, last.Farm) && fits(row.County, last.County) && last.Operation != "" {
		return last.Operation
	}
	return row.FarmKey()
}

// eachFarmAlone is the note that a run on a table that names nobody prints.
const eachFarmAlone = "This table has no client, operation or producer column. Each farm is answered by itself, and no payment limit is applied across farms."

// tableFacts is what a first pass over the table finds.
type tableFacts struct {
	rows      int
	sorted    bool // the operations stand in rising order
	shared    sharedPersons
	eachAlone bool // each farm is an operation: the table names nobody
	notes     []string
	states    map[string]bool // by two digits, in which there is base or a farm
}

func (o Options) inspect() (tableFacts, error) {
	rows, sorted := 0, true
	var last item
	persons, states := newPersonsSeen(), map[string]bool{}
	found, err := o.eachRow(func(i item) error {
		persons.add(i)
		states[kept.StateOf(i.Row.County)], states[kept.StateOf(i.Row.PhysicalCounty)] = true, true
		if rows > 0 && i.before(last) {
			sorted = false
		}
		rows++
		last = i
		return nil
	})
	delete(states, "") // no county, or none that could be read
	found.rows, found.sorted, found.states = rows, sorted, states
	if !found.eachAlone {
		found.shared = persons.shared
	}
	return found, err
}

// orderedRows gives the rows of the table operation by operation; a table in another
// order is first sorted into a temporary database beside the results. What is known of
// counties is worked out once for all of them (compare.Many).
type orderedRows struct {
	Options
	folder string  // of the database; "": the table is in order
	db     *sql.DB // nil: the table is in order
	many   *compare.Many
}

func (o Options) ordered(sorted bool) (*orderedRows, error) {
	r := &orderedRows{Options: o, many: compare.NewMany(o.Question)}
	if sorted {
		return r, nil
	}
	var err error
	if r.folder, err = os.MkdirTemp(o.Out, ".sorting-"+o.share()+"*"); err != nil {
		return nil, err
	}
	r.db, err = sql.Open("sqlite", "file:"+filepath.ToSlash(filepath.Join(r.folder, "rows.db"))+"?_pragma=journal_mode(off)&_pragma=synchronous(off)&_pragma=cache_size(-8000)")
	if err == nil {
		err = o.fill(r.db)
	}
	if err != nil {
		r.close()
		return nil, fmt.Errorf("sorting %s: %w", o.Table, err)
	}
	return r, nil
}

func (r *orderedRows) close() {
	if r.db != nil {
		r.db.Close()
	}
	if r.folder != "" {
		os.RemoveAll(r.folder)
	}
}

// eachOperation calls do with each operation, in rising order, with all its rows.
func (r *orderedRows) eachOperation(do func([]item) error) error {
	var items []item
	collect := func(i item) error {
		if len(items) > 0 && !items[0].sameOperation(i) {
			if err := do(items); err != nil {
				return err
			}
			items = nil
		}
		items = append(items, i)
		return nil
	}
	var err error
	if r.db == nil {
		_, err = r.eachRow(collect)
	} else {
		err = r.eachSorted(collect)
	}
	if err != nil || len(items) == 0 {
		return err
	}
	return do(items)
}

// eachSorted calls do with the rows of the database by operation, then by line.
func (r *orderedRows) eachSorted(do func(item) error) error {
	rows, err := r.db.Query("SELECT item FROM rows ORDER BY client, operation, line")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var text []byte
		var i item
		if err := rows.Scan(&text); err != nil {
			return err
		}
		if err := json.Unmarshal(text, &i); err != nil {
			return err
		}
		if err := do(i); err != nil {
			return err
		}
	}
	return rows.Err()
}

// fill puts all rows into the temporary database.
func (o Options) fill(db *sql.DB) error {
	if _, err := db.Exec("CREATE TABLE rows (client TEXT, operation TEXT, line INTEGER, item BLOB)"); err != nil {
		return err
	}
	all, err := db.Begin()
	if err != nil {
		return err
	}
	defer all.Rollback() // nothing after the commit
	insert, err := all.Prepare("INSERT INTO rows VALUES (?, ?, ?, ?)")
	if err != nil {
		return err
	}
	_, err = o.eachRow(func(i item) error {
		text, err := json.Marshal(i)
		if err == nil {
			_, err = insert.Exec(i.Row.Client, i.Row.Operation, i.Row.Line, text)
		}
		return err
	})
	if err != nil {
		return err
	}
	if _, err := all.Exec("CREATE INDEX by_operation ON rows (client, operation, line)"); err != nil {
		return err
	}
	return all.Commit()
}
