package calls

import (
	"strings"

	"fencerow/io/batch/sorted"
	"fencerow/program"
)

// List joins the calls of all operations: one line for each person of a client and crop
// year.
type List struct {
	folder  string
	persons *sorted.Lines // the lines of one person together
}

// NewList returns an empty list; files that it may need lie under folder until it is
// closed.
func NewList(folder string) *List { return &List{folder, sorted.New(folder)} }

// Close throws away the files of the list.
func (l *List) Close() { l.persons.Close() }

// Add adds a line of one operation. The list does not depend on the order of the lines.
// People whom no row names are told apart by their operation.
func (l *List) Add(record []string) error {
	one := parse(record)
	key := []string{one.CropYear, one.Client, one.Person}
	if one.Unnamed {
		key = append(key, one.Operations[0])
	}
	return l.persons.Add(strings.Join(key, "\x00"), 0, one.Operations[0], record)
}

// Each calls do with the line (of Columns) of every person, the most dollars first; no line
// can be added after it.
func (l *List) Each(do func(record []string) error) error {
	all := sorted.New(l.folder)
	defer all.Close()
	var of []Line // one person
	end := func() error {
		if len(of) == 0 {
			return nil
		}
		one := joined(of)
		of = of[:0]
		return all.Add("", one.MeanAfterLimit, strings.Join([]string{one.Client, one.Person, one.CropYear, one.Operations[0]}, "\x00"), one.Record()[:len(Columns)])
	}
	err := l.persons.Each(func(record []string) error {
		one := parse(record)
		if len(of) > 0 && !of[0].samePerson(one) {
			if err := end(); err != nil {
				return err
			}
		}
		of = append(of, one)
		return nil
	})
	if err == nil {
		err = end()
	}
	if err != nil {
		return err
	}
	return all.Each(do)
}

func (l Line) samePerson(other Line) bool {
	same := l.CropYear == other.CropYear && l.Client == other.Client && l.Person == other.Person
	return same && (!l.Unnamed || l.Operations[0] == other.Operations[0])
}

// joined is one line of the lines of a person in several operations. The dollars with the
// choices that average most stand in each for all of them.
func joined(of []Line) Line {
	all := of[0]
	if len(of) == 1 {
		return all
	}
	all.Operations, all.Texts = nil, [len(textColumns)]string{}
	all.Farms, all.Bases, all.Acres = 0, 0, 0
	last, known := 0.0, true
	var said [len(textColumns)][]string
	for _, one := range of {
		all.Operations = append(all.Operations, one.Operations...)
		all.Farms, all.Bases, all.Acres = all.Farms+one.Farms, all.Bases+one.Bases, all.Acres+one.Acres
		last, known = last+number(one.MeanLastElected), known && one.MeanLastElected != ""
		for i, text := range one.Texts {
			if text != "" {
				said[i] = append(said[i], one.Operations[0]+": "+text)
			}
		}
	}
	all.MeanLastElected = ""
	if known {
		all.MeanLastElected = program.Text(last, 2)
	}
	for i := range said {
		all.Texts[i] = alike(of, i, strings.Join(said[i], " | "))
	}
	return all
}

// alike is a text once, where all operations say the same; else all of them.
func alike(of []Line, i int, all string) string {
	for _, one := range of {
		if one.Texts[i] != of[0].Texts[i] {
			return all
		}
	}
	return of[0].Texts[i]
}
