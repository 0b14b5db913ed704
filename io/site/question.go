package site

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"testing/fstest"
	"time"

	"fencerow/io/read/farmtable"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// faults are what is wrong with what was typed, by field; those of no field stand under "".
type faults map[string][]farm.Fault

func (f faults) add(field string, one farm.Fault) {
	if !slices.Contains(f[field], one) {
		f[field] = append(f[field], one)
	}
}

// asked is a question made of a draft.
type asked struct {
	answer.Question
	notes  []string
	faults faults
}

// ask makes the question of a draft: of the opened files, or of what is typed.
func (s *Site) ask(d draft, years ...crop.CropYear) (asked, error) {
	r := source.Request{Tables: s.Tables, Book: s.Book, Today: s.today(d), Seed: s.Seed, Draws: s.Draws, CropYears: years}
	behind := map[string]*written{}
	files := fstest.MapFS{}
	put := func(name string, w *written) {
		behind[name] = w
		files[name] = &fstest.MapFile{Data: []byte(w.text.String())}
	}
	wrong := faults{}
	switch {
	case d.demo != "" && s.Demo.Files != nil:
		r.Files, r.Operation = s.Demo.Files, s.Demo.Name
	case d.opened():
		for _, f := range d.files {
			files[f.Name] = &fstest.MapFile{Data: f.Text}
		}
		r.Files, r.Operation = files, d.files[0].Name
		if s.Market != nil && farmtable.IsTable(r.Operation) {
			files[pricesName], r.Market = &fstest.MapFile{Data: s.Market}, pricesName
		}
	default:
		put(operationName, d.operation())
		for _, code := range d.counties() {
			put(countyFileName(code), d.countyFile(code))
		}
		text, typed, err := s.marketText(d)
		if err != nil {
			wrong.keep(err, map[string]*written{pricesName: typed})
			return asked{faults: wrong}, nil
		}
		if text != nil {
			files[pricesName], r.Market = &fstest.MapFile{Data: text}, pricesName
		}
		r.Files, r.Operation = files, operationName
	}
	found, err := source.Question(r)
	if !wrong.keep(err, behind) {
		return asked{}, err
	}
	return asked{found.Question, found.Notes, wrong}, nil
}

// keep sorts the mistakes of an error by field. It reports whether the error is nil or
// made of mistakes.
func (f faults) keep(err error, behind map[string]*written) bool {
	var mistakes farm.Mistakes
	var wrong source.Wrong
	switch {
	case err == nil:
	case errors.As(err, &mistakes):
		for _, m := range mistakes {
			field, fault := "", farm.Fault{Reason: m.Reason, Hint: m.Hint}
			if w := behind[m.File]; w != nil {
				field = w.fields[m.Line]
			} else if m.File != "" {
				fault.Reason = fmt.Sprintf("%s, line %d: %s", m.File, m.Line, m.Reason)
			}
			f.add(field, fault)
		}
	case errors.As(err, &wrong):
		f.add("", farm.Fault{Reason: wrong.Error(), Hint: wrong.Hint})
	case errors.Is(err, fs.ErrNotExist):
		f.add("", farm.Fault{Reason: err.Error(), Hint: "open the file together with the operation file"})
	default:
		return false
	}
	return true
}

// compared is the answer to a draft.
type compared struct {
	asked
	found answer.Comparison
}

// compare answers a draft; where something typed is wrong, only the faults are there.
func (s *Site) compare(d draft, years ...crop.CropYear) (compared, error) {
	a, err := s.ask(d, years...)
	if err != nil || len(a.faults) > 0 {
		return compared{asked: a}, err
	}
	found, err := compare.Answer(a.Question)
	return compared{a, found}, err
}

// today is the day of a question: the demo has its own.
func (s *Site) today(d draft) time.Time {
	if d.demo != "" && s.Demo.Files != nil {
		return s.Demo.Today
	}
	return s.Today
}
