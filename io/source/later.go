package source

import (
	"maps"
	"slices"

	"fencerow/io/read/builtin"
	"fencerow/program/farm"
	"fencerow/sim/parallel"
)

// Later reads, for a request with StatesLater, what the county book and the built-in tables
// have of the counties of a State, each once. Not for several goroutines.
type Later struct {
	Request
	states parallel.Memo[string, []farm.CountySource]
}

// OfStates returns the sources of some States, by two digits, which follow those of the
// question. Each agency has its source there, also without any of these counties.
func (l *Later) OfStates(states ...string) (all []farm.CountySource, err error) {
	for _, state := range states {
		some, err := l.ofState(state)
		if err != nil {
			return nil, err
		}
		if all == nil {
			all = slices.Clone(some)
			for i := range all {
				all[i].Counties = map[string]farm.County{}
			}
		}
		for i, source := range some { // of each State in the same order
			maps.Copy(all[i].Counties, source.Counties)
		}
	}
	return all, nil
}

func (l *Later) ofState(state string) ([]farm.CountySource, error) {
	return l.states.Get(state, func() ([]farm.CountySource, error) { return l.read(state) })
}

func (l *Later) read(state string) (all []farm.CountySource, err error) {
	if l.Book != nil {
		if all, err = l.Book.Sources(state); err != nil {
			return nil, err
		}
	}
	if l.WithoutBuiltIn {
		return all, nil
	}
	builtIn, err := builtin.AllSources(state)
	return append(all, builtIn...), err
}

// CountyNames is the function CountyNames in some sources and after them in those of OfStates,
// which are read when a name of their State is first asked for. Those that cannot be read are
// passed over: the error comes when their yields are read.
func (l *Later) CountyNames(first farm.CountyBook) func(state, name string) (code string, ok bool) {
	return countyNames(func(state string) farm.CountyBook {
		later, _ := l.ofState(state)
		return slices.Concat(first, farm.CountyBook(later))
	})
}
