package exceptions

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"fencerow/io/batch/sorted"
	"fencerow/sim/answer"
)

// List joins the exceptions of all parts of a run.
type List struct {
	lines   *sorted.Lines
	general Shared
}

// Shared are exceptions that many farms have in the same words.
type Shared map[shared]*Line

// shared is what such exceptions are told apart by.
type shared struct{ cropYear, code, words string }

// Add counts a line to those with its words; false of one that belongs to a farm.
func (s Shared) Add(l Line) bool {
	if l.Farm != "" {
		return false
	}
	key := shared{l.CropYear, l.Code, l.Words}
	if before := s[key]; before != nil {
		before.Cents, before.Farms, before.Known = before.Cents+l.Cents, before.Farms+l.Farms, before.Known || l.Known
		return true
	}
	s[key] = &l
	return true
}

// Lines are those lines in a fixed order.
func (s Shared) Lines() (all []Line) {
	keys := slices.SortedFunc(maps.Keys(s), func(a, b shared) int {
		return cmp.Or(cmp.Compare(a.cropYear, b.cropYear), cmp.Compare(a.code, b.code), cmp.Compare(a.words, b.words))
	})
	for _, key := range keys {
		all = append(all, *s[key])
	}
	return all
}

// NewList returns an empty list; files that it may need lie under folder until it is
// closed.
func NewList(folder string) *List { return &List{sorted.New(folder), Shared{}} }

// Close throws away the files of the list.
func (l *List) Close() { l.lines.Close() }

// Add adds a line of a part. The list does not depend on the order of the lines.
func (l *List) Add(record []string) error {
	one := parse(record)
	if l.general.Add(one) {
		return nil
	}
	return l.sort(one)
}

// sort adds a line in its place: the gravest first, then the most dollars.
func (l *List) sort(one Line) error {
	rank := map[answer.Severity]string{answer.Error: "1", answer.Warning: "2", answer.Info: "3"}[one.Severity]
	then := strings.Join([]string{one.Client, one.Operation, one.CountyCode, one.Farm, one.CropYear, one.Code, one.Words}, "\x00")
	return l.lines.Add(rank, float64(one.Cents), then, one.Record())
}

// Each calls do with every line in order; no line can be added after it.
func (l *List) Each(do func(record []string) error) error {
	for _, one := range l.general.Lines() {
		if err := l.sort(one); err != nil {
			return err
		}
	}
	return l.lines.Each(do)
}
