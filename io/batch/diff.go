package batch

import (
	"cmp"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"sync"

	"fencerow/io/batch/kept"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/parallel"
)

// DiffOptions name two runs of Run to be compared.
type DiffOptions struct {
	Files                   fs.FS         // has the tables
	Tables                  source.Tables // reads a table that is no text
	Before, After           string        // folders of two runs
	BeforeTable, AfterTable string        // where their tables lie now; "": where run.json says
}

// Diff compares two runs, writes every line that moved to lines, and returns the sums. It
// asks the first run's question again, with one kind of input of the second at a time, of
// every operation that moved. The error is farm.Mistakes where a folder is not that of a
// run, its table has changed, or this version of fencerow is not that of the second run.
func Diff(o DiffOptions, lines io.Writer) (Difference, error) {
	before, err := o.openRun(o.Before, o.BeforeTable, "--before-table")
	if err != nil {
		return Difference{}, err
	}
	after, err := o.openRun(o.After, o.AfterTable, "--after-table")
	if err != nil {
		return Difference{}, err
	}
	if !kept.SameLaw(after.used.Law, kept.Law()) {
		return Difference{}, mistake(o.After, "was made with other rows of the law than this version of fencerow has", "use the version that made it: "+after.Version)
	}
	d := newDifference(before, after)
	out := csv.NewWriter(lines)
	if err := out.Write(diffColumns); err != nil {
		return d, err
	}
	err = eachPair([2]*pastRun{before, after}, d.Inputs, func(p *diffPair) error {
		d.InBoth += p.inBoth()
		found, err := p.lines()
		for _, line := range found {
			d.add(line)
			err = cmp.Or(err, out.Write(line.record()))
		}
		return err
	})
	out.Flush()
	return d.whole(), errors.Join(err, out.Error())
}

// differing returns the kinds of inputs in which two runs differ.
func differing(before, after *pastRun) (kinds []answer.Cause) {
	add := func(k answer.Cause, differs bool) {
		if differs {
			kinds = append(kinds, k)
		}
	}
	add(answer.CausePrice, !reflect.DeepEqual(before.used.Market, after.used.Market))
	add(answer.CauseCounty, !reflect.DeepEqual(before.used.Counties, after.used.Counties))
	add(answer.CauseLaw, !kept.SameLaw(before.used.Law, after.used.Law))
	add(answer.CauseProgram, before.Version != after.Version)
	add(answer.CauseRecord, before.Table.SHA256 != after.Table.SHA256)
	add(answer.CauseSettings, before.Today != after.Today || before.Seed != after.Seed || before.Draws != after.Draws || before.Close != after.Close || !slices.Equal(before.CropYears, after.CropYears))
	return kinds
}

// inBoth is how many lines both runs have.
func (p *diffPair) inBoth() (n int) {
	for _, key := range p.recorded[0].order {
		if p.recorded[1].lines[key] != nil {
			n++
		}
	}
	return n
}

// askedAtOnce is how many operations are asked again with one set of outcomes.
const askedAtOnce = 500

// eachPair calls do with each operation of either run, in rising order, those that moved
// asked again.
func eachPair(runs [2]*pastRun, differ []answer.Cause, do func(*diffPair) error) error {
	var some []*diffPair
	flush := func() error {
		err := askAtOnce(runs, differ, some)
		for i := 0; i < len(some) && err == nil; i++ {
			err = do(some[i])
		}
		some = nil
		return err
	}
	for p, err := range pairs(runs, differ) {
		if err != nil {
			return err
		}
		if some = append(some, p); len(some) < askedAtOnce {
			continue
		}
		if err := flush(); err != nil {
			return err
		}
	}
	return flush()
}

// askAtOnce asks about the operations that moved, on all cores.
func askAtOnce(runs [2]*pastRun, differ []answer.Cause, some []*diffPair) error {
	a, err := newAsker(runs, differ)
	if err != nil {
		return err
	}
	next := make(chan *diffPair)
	failed := make([]error, runtime.GOMAXPROCS(0))
	var workers sync.WaitGroup
	for i := range failed {
		workers.Go(func() {
			for p := range next {
				if failed[i] == nil {
					failed[i] = parallel.Try(func() error { return p.askAll(a) })
				}
			}
		})
	}
	for _, p := range some {
		if len(p.movedFarms()) > 0 {
			next <- p
		}
	}
	close(next)
	workers.Wait()
	return errors.Join(failed...)
}

// pairs gives each operation of either run with its lines and rows, in rising order.
// Results and tables are read side by side, so memory does not grow with farms.
func pairs(runs [2]*pastRun, differ []answer.Cause) iter.Seq2[*diffPair, error] {
	return func(yield func(*diffPair, error) bool) {
		var sides [2]side
		for i, r := range runs {
			rows, done, err := r.orderedRows()
			if err != nil {
				yield(nil, err)
				return
			}
			defer done()
			sides[i] = newSide(r, rows)
			defer sides[i].stop()
		}
		for sides[0].now != nil || sides[1].now != nil {
			p := &diffPair{runs: runs, differ: differ}
			order := sides[0].before(sides[1])
			for i := range sides {
				if order == 0 || (order < 0) == (i == 0) {
					p.recorded[i], p.items[i] = *sides[i].now, sides[i].rowsOfNow()
					sides[i].advance()
				}
			}
			if err := errors.Join(sides[0].err, sides[1].err); err != nil {
				yield(nil, err)
				return
			}
			if !yield(p, nil) {
				return
			}
		}
		if err := errors.Join(sides[0].err, sides[1].err); err != nil {
			yield(nil, err)
		}
	}
}

// orderedRows opens the table of a run, its operations in rising order.
func (r *pastRun) orderedRows() (rows *orderedRows, done func(), err error) {
	o := r.rows
	found, err := o.inspect()
	if err != nil {
		return nil, nil, err
	}
	if o.Out, err = os.MkdirTemp("", "fencerow-diff-*"); err != nil {
		return nil, nil, err
	}
	if rows, err = o.ordered(found.sorted); err != nil {
		os.RemoveAll(o.Out)
		return nil, nil, err
	}
	return rows, func() { rows.close(); os.RemoveAll(o.Out) }, nil
}

// side is one run, read operation by operation: its results, and beside them its table.
type side struct {
	now     *recordedLines // nil: at the end
	results func() (recordedLines, error, bool)
	rows    func() ([]item, error, bool)
	items   []item // read ahead
	err     error
	stop    func()
}

func newSide(r *pastRun, rows *orderedRows) side {
	results, endResults := iter.Pull2(pulled(r.eachRecorded))
	items, endItems := iter.Pull2(pulled(rows.eachOperation))
	s := side{results: results, rows: items, stop: func() { endResults(); endItems() }}
	s.advance()
	return s
}

// pulled makes a sequence of a function that calls back, an error last.
func pulled[T any](each func(func(T) error) error) iter.Seq2[T, error] {
	return func(yield func(T, error) bool) {
		err := each(func(one T) error {
			if !yield(one, nil) {
				return errStopped
			}
			return nil
		})
		if err != nil && !errors.Is(err, errStopped) {
			var none T
			yield(none, err)
		}
	}
}

func (s *side) advance() {
	found, err, more := s.results()
	s.now = nil
	if s.err = errors.Join(s.err, err); more && err == nil {
		s.now = &found
	}
}

// before compares the operations of two sides; the end comes last.
func (s side) before(other side) int {
	switch {
	case s.now == nil:
		return 1
	case other.now == nil:
		return -1
	}
	return cmp.Or(cmp.Compare(s.now.client, other.now.client), cmp.Compare(s.now.operation, other.now.operation))
}

// rowsOfNow returns the rows of the operation. Operations of which every row was refused
// have no results and are passed over.
func (s *side) rowsOfNow() []item {
	for {
		if s.items == nil {
			items, err, more := s.rows()
			if s.err = errors.Join(s.err, err); !more || err != nil {
				return nil
			}
			s.items = items
		}
		row := s.items[0].Row
		switch order := cmp.Or(cmp.Compare(row.Client, s.now.client), cmp.Compare(row.Operation, s.now.operation)); {
		case order > 0:
			return nil
		case order == 0:
			items := s.items
			s.items = nil
			return items
		}
		s.items = nil
	}
}

// Reads lists the files that Diff reads, as far as the folders say: nothing may be written
// over them.
func (o DiffOptions) Reads() (names []string) {
	for path, table := range map[string]string{o.Before: o.BeforeTable, o.After: o.AfterTable} {
		r := &pastRun{folder: folder{path: path}}
		if r.readAudit() == nil && table == "" { // Diff says what is wrong
			table = r.Table.Path
		}
		names = append(names, table, filepath.Join(path, "results.csv"), filepath.Join(path, r.folder.audit()))
		names = append(names, kept.Names(path)...)
	}
	return slices.DeleteFunc(names, func(name string) bool { return name == "" })
}
