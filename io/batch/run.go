package batch

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"fencerow/io/batch/kept"
	"fencerow/io/file"
	"fencerow/program/farm"
	"fencerow/sim/parallel"
)

// Run answers a table of farms and writes the results. Rows that are refused are no
// error: the counts tell how many. After an error, the parts that are whole stay, and
// a run with Resume does not make them again.
func Run(o Options) (Counts, error) {
	f := o.folder()
	table, err := o.inspect() // before anything is written
	if err != nil {
		return Counts{}, err
	}
	if err := os.MkdirAll(o.Out, 0o755); err != nil {
		return Counts{}, err
	}
	if err := f.check(); err != nil {
		return Counts{}, err
	}
	release, err := file.Claim(filepath.Join(f.path, strings.TrimSuffix(".running-"+f.share, "-")))
	if err != nil {
		return Counts{}, err
	}
	defer release()
	if o.OfStates != nil {
		later, err := o.OfStates(slices.Sorted(maps.Keys(table.states))...)
		if err != nil {
			return Counts{}, err
		}
		o.Question.Counties = slices.Concat(o.Question.Counties, farm.CountyBook(later))
	}
	if table.eachAlone {
		o.Talk(eachFarmAlone)
	}
	for _, note := range table.notes {
		o.Talk(note)
	}
	a, err := o.audit(table)
	if err != nil {
		return Counts{}, err
	}
	if err := o.begin(f, a); err != nil {
		return Counts{}, err
	}
	figuresKept := parallel.Start(func() error { // what the answers rest on, beside the parts
		return kept.Write(f.path, kept.Figures{Market: o.Question.Market, Counties: kept.OfStates(o.Question.Counties, table.states), Law: kept.Law()}, f.whole)
	})
	defer figuresKept()
	rows, err := o.ordered(table.sorted)
	if err != nil {
		return Counts{}, err
	}
	defer rows.close()
	across, err := rows.across(table.shared)
	if err != nil {
		return Counts{}, err
	}
	defer across.close()
	a.Several = across.count()
	if *a.Several > 0 {
		o.Talk(across.note())
	}
	o.Progress(0, table.rows)
	counts, err := o.parts(f, table, rows, across)
	if err = errors.Join(err, figuresKept()); err != nil {
		return counts, err
	}
	if o.Part == 0 && counts.Rows != table.rows || counts.Rows != counts.Answered+counts.Refused {
		return counts, fmt.Errorf("%d rows in the table, %d seen: %d answered and %d refused", table.rows, counts.Rows, counts.Answered, counts.Refused)
	}
	if o.Pages {
		written, err := o.clientPages(f, rows)
		if err != nil {
			return counts, err
		}
		o.Talk(fmt.Sprintf("%d pages of clients were written to %s", written, filepath.Join(o.Out, pagesFolder)))
	}
	rows.many = nil // what is known of all counties: joining needs its room
	return counts, o.finish(f, a, counts)
}

// partRows is the number of rows at which a part is closed, at the end of an
// operation.
const partRows = 2000

// job is one part to make.
type job struct {
	part       int
	operations [][]item
	rows       int
}

// parts makes the parts on all cores.
func (o Options) parts(f folder, table tableFacts, rows *orderedRows, across *across) (all Counts, err error) {
	jobs, done := make(chan job), make(chan struct{})
	var workers sync.WaitGroup
	var mutex sync.Mutex
	var once sync.Once
	writers := &packed{}
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			w := &worker{packed: writers}
			for j := range jobs {
				counts, failed := parallel.TryFor(func() (Counts, error) { return rows.part(f, j, across, w) })
				mutex.Lock()
				all.add(counts)
				err = errors.Join(err, failed)
				o.Progress(all.Rows, table.rows)
				mutex.Unlock()
				if failed != nil {
					once.Do(func() { close(done) })
				}
			}
		})
	}
	failed := rows.cutIntoParts(func(j job) error {
		select {
		case jobs <- j:
			return nil
		case <-done:
			return errStopped
		}
	})
	close(jobs)
	workers.Wait()
	if failed != nil && !errors.Is(failed, errStopped) {
		err = errors.Join(err, failed)
	}
	return all, err
}

// errStopped ends the reading when a part has failed.
var errStopped = errors.New("stopped")

// cutIntoParts cuts the operations of this share into parts, the same on every run.
func (o *orderedRows) cutIntoParts(do func(job) error) error {
	next := job{part: 1}
	err := o.eachOperation(func(items []item) error {
		if !o.mine(items[0]) {
			return nil
		}
		next.operations, next.rows = append(next.operations, items), next.rows+len(items)
		if next.rows < partRows {
			return nil
		}
		full := next
		next = job{part: full.part + 1}
		return do(full)
	})
	if err != nil || next.rows == 0 {
		return err
	}
	return do(next)
}

// mine reports whether an operation belongs to this share.
func (o Options) mine(i item) bool {
	if o.Part == 0 {
		return true
	}
	return int(hashOf(i.Row.Client, i.Row.Operation)%uint64(o.Parts)) == o.Part-1
}
