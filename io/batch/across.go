package batch

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"sync"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/limits"
)

// across is what persons of several operations earn in all of them, draw by draw: one
// limit holds for it. The draws lie in a file beside the results, so that memory does not
// grow with them.
type across struct {
	folder string // "": there is nobody
	file   *os.File
	places int64 // series in the file
	draws  int   // of each
	people map[who]*several

	mutex  sync.Mutex
	failed error // of reading
}

// who is a person: a name under a client.
type who struct{ client, person string }

// several is one person of several operations.
type several struct {
	operations int
	years      map[crop.CropYear]*yearOf
}

type yearOf struct {
	alone  crop.Money                    // what the operations by themselves pay on average, USD after limit
	places [len(limits.Earnings{})]int64 // in the file, from 1; 0: nothing is earned
}

// acrossRows is how many rows are answered for it at a time.
const acrossRows = 200

// across answers the operations of persons who are named in several, each by itself, and
// adds up what such a person earns. Shares see the operations of all shares.
func (r *ordered) across(named severalOf) (*across, error) {
	a := &across{people: map[who]*several{}}
	if len(named) == 0 {
		return a, nil
	}
	var err error
	if a.folder, err = os.MkdirTemp(r.Out, ".sorting-"+r.share()+"*"); err != nil {
		return nil, err
	}
	if a.file, err = os.Create(filepath.Join(a.folder, "earned")); err == nil {
		err = a.fill(r, named)
	}
	if err != nil {
		a.close()
		return nil, err
	}
	for at, p := range a.people {
		if p.operations < 2 { // the rows that named others were refused
			delete(a.people, at)
		}
	}
	return a, nil
}

func (a *across) close() {
	if a.file != nil {
		a.file.Close()
	}
	if a.folder != "" {
		os.RemoveAll(a.folder)
	}
}

// of finds the persons of a client.
func (a *across) of(client string) compare.Across {
	if len(a.people) == 0 {
		return nil
	}
	return func(y crop.CropYear, person string) (all limits.AcrossOperations, has bool) {
		p := a.people[who{client, person}]
		if p == nil || p.years[y] == nil {
			return all, false
		}
		all.Operations, all.PaidSeparately = p.operations, p.years[y].alone
		for pool, place := range p.years[y].places {
			if place == 0 {
				continue
			}
			series, err := a.series(place, a.draws)
			if err != nil {
				a.mutex.Lock()
				a.failed = err
				a.mutex.Unlock()
				return all, false
			}
			all.Earned[pool] = series
		}
		return all, true
	}
}

// err is what went wrong in reading.
func (a *across) err() error {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	return a.failed
}

// count is how many persons have a share in several operations.
func (a *across) count() *int { n := len(a.people); return &n }

// told is what is said of them.
func (a *across) told() string {
	if len(a.people) == 1 {
		return "one person has a share in several operations of a client: one payment limit holds across them (people.csv, mean_across)"
	}
	return fmt.Sprintf("%d persons have a share in several operations of a client: one payment limit holds across them (people.csv, mean_across)", len(a.people))
}

// earning is what some persons earn in one operation.
type earning struct {
	client string
	alone  map[crop.CropYear]map[string]crop.Money
	earned map[crop.CropYear]map[string]limits.Earnings
	order  []string // of the persons
}

// answered are what some operations earn, or why they could not be answered.
type answered struct {
	earned []earning
	err    error
}

// fill answers the operations on all cores and adds up in their order, the same on every
// run.
func (a *across) fill(r *ordered, named severalOf) error {
	waiting, ended := make(chan chan answered, runtime.GOMAXPROCS(0)), make(chan error, 1)
	go func() { ended <- a.addAll(waiting) }()
	var some [][]item
	rows := 0
	ask := func() {
		operations, next := some, make(chan answered, 1)
		some, rows = nil, 0
		waiting <- next
		go func() {
			earned, err := r.earnings(operations, named)
			next <- answered{earned, err}
		}()
	}
	err := r.eachOperation(func(items []item) error {
		if !named.any(items) {
			return nil
		}
		if some, rows = append(some, items), rows+len(items); rows >= acrossRows {
			ask()
		}
		return nil
	})
	if len(some) > 0 {
		ask()
	}
	close(waiting)
	if failed := <-ended; err == nil {
		err = failed
	}
	return err
}

// addAll adds up what comes, in the order in which it was asked for; after an error it
// only waits for the rest.
func (a *across) addAll(waiting <-chan chan answered) (failed error) {
	for next := range waiting {
		one := <-next
		if failed == nil {
			failed = one.err
		}
		for _, e := range one.earned {
			if failed == nil {
				failed = a.add(e)
			}
		}
	}
	return failed
}

// any reports whether somebody of an operation is named in several.
func (s severalOf) any(items []item) bool {
	for _, i := range items {
		if i.Row.Producer != "" && s.has(i.Row.Client, i.Row.Producer) {
			return true
		}
	}
	return false
}

// earnings answers some operations and keeps what the persons named earn.
func (r *ordered) earnings(operations [][]item, named severalOf) (all []earning, err error) {
	many := compare.NewMany(r.Question)
	for _, items := range operations {
		whole, _ := assembled(items)
		if len(whole.Farms.Farms) == 0 {
			continue
		}
		e := earning{client: items[0].Row.Client, alone: map[crop.CropYear]map[string]crop.Money{}}
		for _, p := range whole.Farms.Producers {
			if named.has(e.client, p.ID) {
				e.order = append(e.order, p.ID)
			}
		}
		var c answer.Comparison
		c, e.earned, err = many.CompareEarned(whole.Farms, func(person string) bool { return named.has(e.client, person) })
		if err != nil {
			return nil, fmt.Errorf("operation of row %d: %w", items[0].Row.Line, err)
		}
		for _, y := range c.CropYears {
			e.alone[y.CropYear] = map[string]crop.Money{}
			for _, p := range y.Operation.ByPerson {
				e.alone[y.CropYear][p.ID] = crop.Money(p.MeanAfterLimit)
			}
		}
		all = append(all, e)
	}
	return all, nil
}

// add adds what is earned in one more operation.
func (a *across) add(e earning) error {
	for _, id := range e.order {
		p := a.people[who{e.client, id}]
		if p == nil {
			p = &several{years: map[crop.CropYear]*yearOf{}}
			a.people[who{e.client, id}] = p
		}
		p.operations++
		for y, alone := range e.alone {
			of := p.years[y]
			if of == nil {
				of = &yearOf{}
				p.years[y] = of
			}
			of.alone += alone[id]
			for pool, series := range e.earned[y][id] {
				if err := a.addSeries(&of.places[pool], series); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// bytesOf is the size of a number in the file.
const bytesOf = 8

// addSeries adds a series to the one at a place, counted from 1; 0: there is none yet.
func (a *across) addSeries(place *int64, series []crop.Money) error {
	if series == nil {
		return nil
	}
	a.draws = len(series)
	text := make([]byte, bytesOf*len(series))
	if *place == 0 {
		a.places++
		*place = a.places
	} else {
		before, err := a.series(*place, len(series))
		if err != nil {
			return err
		}
		for d := range series {
			series[d] += before[d]
		}
	}
	for d, money := range series {
		binary.LittleEndian.PutUint64(text[bytesOf*d:], math.Float64bits(money))
	}
	_, err := a.file.WriteAt(text, (*place-1)*int64(len(text)))
	return err
}

// series reads the one at a place.
func (a *across) series(place int64, draws int) ([]crop.Money, error) {
	text := make([]byte, bytesOf*draws)
	if _, err := a.file.ReadAt(text, (place-1)*int64(len(text))); err != nil {
		return nil, err
	}
	series := make([]crop.Money, draws)
	for d := range series {
		series[d] = math.Float64frombits(binary.LittleEndian.Uint64(text[bytesOf*d:]))
	}
	return series, nil
}
