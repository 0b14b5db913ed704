package law

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"fencerow/program/crop"
)

// ErrNoValue means that the law has no such figure for the commodity and crop
// year asked about. It is never answered with zero.
var ErrNoValue = errors.New("no value")

// Find returns the figure id in force for commodity c in crop year y. A row
// that names the commodity wins over one for its class, and that over one for
// all. Asking outside the rows' years is an error wrapping ErrNoValue.
func Find(id string, c crop.Commodity, y crop.CropYear) (Figure, error) {
	key := question{id, c, y}
	if known, ok := answered.Load(key); ok {
		a := known.(reply)
		return a.figure, a.err
	}
	figure, err := embedded().Find(id, c, y)
	answered.Store(key, reply{figure, err})
	return figure, err
}

// answered keeps what was asked of the embedded table, which never changes: many
// farms ask the same.
var answered sync.Map

type question struct {
	id        string
	commodity crop.Commodity
	cropYear  crop.CropYear
}

type reply struct {
	figure Figure
	err    error
}

// Find is the same on a table of one's own.
func (t *table) Find(id string, c crop.Commodity, y crop.CropYear) (Figure, error) {
	rows := t.figures[id]
	for _, class := range append(c.Classes(), "") {
		for _, f := range rows {
			if f.Commodity == class && f.First <= y && y <= f.Last {
				return f, nil
			}
		}
	}
	return Figure{}, fmt.Errorf("program/law: %s, %s, crop year %d: %w", id, c, y, t.why(rows, c, y))
}

// why explains a missing value by the years that do have one.
func (t *table) why(rows []Figure, c crop.Commodity, y crop.CropYear) error {
	var first, last crop.CropYear
	for _, f := range rows {
		if f.Commodity != "" && !slices.Contains(c.Classes(), f.Commodity) {
			continue
		}
		if first == 0 || f.First < first {
			first = f.First
		}
		last = max(last, f.Last)
	}
	switch {
	case first == 0:
		return fmt.Errorf("%w for this crop", ErrNoValue)
	case y < first:
		return fmt.Errorf("%w before crop year %d", ErrNoValue, first)
	}
	return fmt.Errorf("%w after crop year %d", ErrNoValue, last)
}

// IDs returns every row id, sorted.
func IDs() []string { return slices.Sorted(maps.Keys(embedded().figures)) }

// Rows returns the rows of an id in file order.
func Rows(id string) []Figure { return slices.Clone(embedded().figures[id]) }

// Sources returns every source, sorted by key.
func Sources() []Source {
	all := slices.Collect(maps.Values(embedded().sources))
	slices.SortFunc(all, func(a, b Source) int { return strings.Compare(a.Key, b.Key) })
	return all
}

// SourceOf returns the source a row cites.
func SourceOf(f Figure) Source { return embedded().sources[f.Source] }
