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
	"fencerow/sim/parallel"
)

// across holds what persons of several operations earn in all of them, scenario by
// scenario: one payment limit holds for the sum. The series lie in a file beside the
// results, so that memory does not grow with persons.
type across struct {
	folder    string // "": no person has several operations
	file      *os.File
	places    int64 // series in the file
	scenarios int   // of each series
	people    map[personKey]*sharedPerson

	mutex  sync.Mutex
	failed error // of reading
}

// personKey is a person: a name under a client.
type personKey struct{ client, person string }

// sharedPerson is one person of several operations.
type sharedPerson struct {
	operations int
	years      map[crop.CropYear]*personYear
}

type personYear struct {
	alone  crop.Money                    // what the operations by themselves pay on average, USD after limit
	places [len(limits.Earnings{})]int64 // of the series by limit pool, in the file, from 1; 0: nothing is earned
}

// acrossRows is how many rows of operations are answered at a time to fill across.
const acrossRows = 200

// across answers the operations that name a person of several, each by itself, and
// adds up what these persons earn. Each share of a run does so for the operations of
// all shares.
func (r *orderedRows) across(named sharedPersons) (*across, error) {
	a := &across{people: map[personKey]*sharedPerson{}}
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
		if p.operations < 2 { // the rows that name the other operations were refused
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

// of returns what the persons of a client earn across operations, in the form that
// compare.Many takes; nil where nobody has several.
func (a *across) of(client string) compare.Across {
	if len(a.people) == 0 {
		return nil
	}
	return func(y crop.CropYear, person string) (all limits.AcrossOperations, has bool) {
		p := a.people[personKey{client, person}]
		if p == nil || p.years[y] == nil {
			return all, false
		}
		all.Operations, all.PaidSeparately = p.operations, p.years[y].alone
		for pool, place := range p.years[y].places {
			if place == 0 {
				continue
			}
			series, err := a.series(place, a.scenarios)
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

// err returns the error of reading the file, nil for none.
func (a *across) err() error {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	return a.failed
}

// count returns how many persons have a share in several operations.
func (a *across) count() *int { n := len(a.people); return &n }

// note is the line that the run prints about them.
func (a *across) note() string {
	if len(a.people) == 1 {
		return "one person has a share in several operations of a client. One payment limit holds across them (people.csv, mean_across)"
	}
	return fmt.Sprintf("%d people have a share in several operations of a client. One payment limit holds across them (people.csv, mean_across)", len(a.people))
}

// earning is what the persons of several operations earn in one of them.
type earning struct {
	client string
	alone  map[crop.CropYear]map[string]crop.Money
	earned map[crop.CropYear]map[string]limits.Earnings
	order  []string // of the persons
}

// answered holds what some operations earn, or why they could not be answered.
type answered struct {
	earned []earning
	err    error
}

// fill answers the operations on all cores and adds up in the order of the table, so
// that each run gives the same sums.
func (a *across) fill(r *orderedRows, named sharedPersons) error {
	waiting := make(chan chan answered, runtime.GOMAXPROCS(0))
	ended := parallel.Start(func() error {
		defer func() {
			for range waiting { // a fault must not leave those waiting who send
			}
		}()
		return a.addAll(waiting)
	})
	var some [][]item
	rows := 0
	ask := func() {
		operations, next := some, make(chan answered, 1)
		some, rows = nil, 0
		waiting <- next
		go func() {
			earned, err := parallel.TryFor(func() ([]earning, error) { return r.earnings(operations, named) })
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
	if failed := ended(); err == nil {
		err = failed
	}
	return err
}

// addAll adds up answers in the order in which they were asked for; after an error it
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

// any reports whether an operation names a person of several.
func (s sharedPersons) any(items []item) bool {
	for _, i := range items {
		if i.Row.Producer != "" && s.has(i.Row.Client, i.Row.Producer) {
			return true
		}
	}
	return false
}

// earnings answers some operations and returns what the persons of several earn in
// them.
func (r *orderedRows) earnings(operations [][]item, named sharedPersons) (all []earning, err error) {
	many := r.many.Anew()
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
		p := a.people[personKey{e.client, id}]
		if p == nil {
			p = &sharedPerson{years: map[crop.CropYear]*personYear{}}
			a.people[personKey{e.client, id}] = p
		}
		p.operations++
		for y, alone := range e.alone {
			of := p.years[y]
			if of == nil {
				of = &personYear{}
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

// bytesOf is the size of one number in the file, in bytes.
const bytesOf = 8

// addSeries adds a series to the one at *place, counted from 1; where *place is 0 it
// appends the series and sets *place.
func (a *across) addSeries(place *int64, series []crop.Money) error {
	if series == nil {
		return nil
	}
	a.scenarios = len(series)
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

// series returns the series at a place, read from the file.
func (a *across) series(place int64, scenarios int) ([]crop.Money, error) {
	text := make([]byte, bytesOf*scenarios)
	if _, err := a.file.ReadAt(text, (place-1)*int64(len(text))); err != nil {
		return nil, err
	}
	series := make([]crop.Money, scenarios)
	for d := range series {
		series[d] = math.Float64frombits(binary.LittleEndian.Uint64(text[bytesOf*d:]))
	}
	return series, nil
}
