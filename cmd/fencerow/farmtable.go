package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"fencerow/io/read/farmtable"
	"fencerow/io/read/table"
	"fencerow/program/farm"
)

// farmTable reads the one operation of a table of farms. A refused row is a
// mistake: an answer without it would be of another operation. yearAsked says that the
// command names the crop year.
func (l *loader) farmTable(path string, county farmtable.County, yearAsked bool) farm.Operation {
	rows, err := farmtable.Open(path, county)
	if err != nil {
		l.keep(path, err)
		return farm.Operation{}
	}
	defer rows.Close()
	for _, note := range rows.Notes() {
		l.notes = append(l.notes, path+": "+note)
	}
	good, mistakes := oneOperation(path, rows)
	if !yearAsked {
		mistakes = append(mistakes, rows.CropYearBlank()...)
	}
	if len(mistakes) > 0 {
		l.mistakes = append(l.mistakes, mistakes...)
		return farm.Operation{}
	}
	found, refused := farmtable.Assemble(good)
	for _, f := range refused {
		l.mistakes = append(l.mistakes, rows.Mistake(f))
	}
	return found.Farms
}

// oneOperation returns the rows of a table that describes one operation. It ends
// at the second: such a table may be of any length.
func oneOperation(path string, rows *farmtable.Reader) (good []farmtable.Row, mistakes farm.Mistakes) {
	type name struct{ client, operation string }
	first, begun := name{}, false
	for {
		row, refused, err := rows.Next()
		if err == io.EOF {
			break
		}
		if told := (farm.Mistakes{}); errors.As(err, &told) {
			return nil, append(withoutBlank(mistakes, told), told...)
		}
		this := name{row.Client, row.Operation}
		switch {
		case this.operation == "": // a row that could not be taken apart
		case !begun:
			first, begun = this, true
		case this != first:
			return nil, farm.Mistakes{{File: path, Line: row.Line, Value: row.Operation, Reason: fmt.Sprintf("the table holds several operations: %s and %s", named(first.client, first.operation), named(this.client, this.operation)), Hint: "use batch for a table of several; here keep the rows of one"}}
		}
		for _, f := range refused {
			mistakes = append(mistakes, rows.Mistake(f))
		}
		if len(refused) == 0 {
			good = append(good, row)
		}
	}
	if !begun {
		mistakes = append(mistakes, farm.Mistake{File: path, Reason: "the table has headings and no rows", Hint: "add one row per farm, tract and commodity"})
	}
	return good, mistakes
}

// withoutBlank leaves out that a cell of a row is blank where the whole column is told to be.
func withoutBlank(mistakes, told farm.Mistakes) farm.Mistakes {
	return slices.DeleteFunc(mistakes, func(m farm.Mistake) bool {
		return m.Value == "" && slices.ContainsFunc(told, func(t farm.Mistake) bool { return t.Column > 0 && t.Column == m.Column })
	})
}

// named shows an operation with its client, where that is another word.
func named(client, operation string) string {
	if client == "" || client == operation {
		return fmt.Sprintf("%q", operation)
	}
	return fmt.Sprintf("%q of %q", operation, client)
}

// countyNamed finds counties by name in the county tables and the county book
// of the question. It opens them when a name is first asked for, and is silent
// where they cannot be read: that is told when they are read for their yields.
func (q *question) countyNamed() farmtable.County {
	tables := sync.OnceValue(func() (all farm.CountyBook) {
		for _, path := range q.countyTables {
			if source, _, err := table.Read(path); err == nil {
				all = append(all, source)
			}
		}
		return all
	})
	return countyNames(func(state string) farm.CountyBook { return slices.Concat(tables(), q.bookSources(state)) })
}

// countyNames finds counties by name in the sources of their State.
func countyNames(sources func(state string) farm.CountyBook) farmtable.County {
	byState := map[string]map[string]string{}
	return func(state, name string) (string, bool) {
		if byState[state] == nil {
			byState[state] = namesOf(sources(state), state)
		}
		code, ok := byState[state][foldCounty(name)]
		return code, ok && code != severalCounties
	}
}

// bookSources returns what the county book has of a State, nothing where there
// is no book.
func (q *question) bookSources(state string) []farm.CountySource {
	b, err := openBook(q.book, false)
	if err != nil || b == nil {
		return nil
	}
	defer b.Close()
	sources, err := b.Sources(state)
	if err != nil {
		return nil
	}
	return sources
}

// severalCounties marks a name that two counties of a State have.
const severalCounties = "several"

// namesOf returns the codes of a State's counties by folded name.
func namesOf(counties farm.CountyBook, state string) map[string]string {
	codes := map[string]string{}
	for _, code := range counties.Codes(state) {
		name := foldCounty(counties.Name(code))
		if name == "" {
			continue
		}
		if other, has := codes[name]; has && other != code {
			code = severalCounties
		}
		codes[name] = code
	}
	return codes
}

// foldCounty brings spellings of a county's name together: "Alder County",
// "ALDER" and "alder".
func foldCounty(name string) string {
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	return strings.TrimSuffix(strings.TrimSuffix(name, " county"), " parish")
}
