package farmtable

import (
	"fmt"
	"strings"

	"fencerow/io/read/document"
	"fencerow/program/farm"
)

// ProfileFormat names the files that ParseProfile reads.
const ProfileFormat = "fencerow/columns/1"

// Profile says which headings of a table mean which columns, and what stands in every
// row. The zero Profile says nothing.
type Profile struct {
	file      string
	headings  map[column]mapped // as they stand in the table
	constants map[column]mapped // values of every row
	insured   bool              // the columns of area insurance are read
}

// WithInsurance returns the profile for a table whose columns of area insurance are read too.
func (p Profile) WithInsurance() Profile {
	p.insured = true
	return p
}

// reads reports whether a column is read at all.
func (p Profile) reads(c column) bool { return c < farmColumnCount || p.insured }

// mapped is what a profile says of a column, and where.
type mapped struct {
	text         string
	percent      bool // the numbers are percentages
	line, column int
}

// percentEnding ends the name of a column whose numbers are percentages in a profile.
const percentEnding = "_percent"

// percentNames are the columns that a profile may call percentages, with that name.
var percentNames = []struct {
	name   string
	column column
}{{"irrigated" + percentEnding, irrigatedShareColumn}, {"share" + percentEnding, shareColumn}}

// ParseProfile reads a file of columns: columns is a map of our names and the headings of
// the table, constants one of our names and values. Its errors are farm.Mistakes.
func ParseProfile(name string, text []byte) (Profile, error) {
	root, err := document.Parse(name, text)
	if err != nil {
		return Profile{}, err
	}
	r := document.NewReader(name)
	p := Profile{file: name, headings: map[column]mapped{}, constants: map[column]mapped{}}
	if r.Format(root, ProfileFormat) {
		r.Fields(root, "the columns file",
			document.Must("format", func(document.Node) {}),
			document.May("columns", func(v document.Node) { p.readColumns(r, v, "columns", p.headings) }),
			document.May("constants", func(v document.Node) { p.readColumns(r, v, "constants", p.constants) }))
	}
	return p, r.Err()
}

// readColumns reads one of the two maps. A column stands once.
func (p Profile) readColumns(r *document.Reader, v document.Node, what string, into map[column]mapped) {
	var fields []document.Field
	read := func(c column, name string, percent bool) {
		fields = append(fields, document.May(name, func(v document.Node) {
			text, ok := r.Text(v, name)
			if _, twice := into[c]; twice {
				r.Refuse(v, columns[c].name+" stands twice", "keep one of the two lines")
			} else if _, twice = p.headings[c]; twice && what == "constants" {
				r.Refuse(v, columns[c].name+" has a heading and a constant", "keep one of the two")
			} else if _, twice = p.meaning(text); twice && what == "columns" {
				r.Refuse(v, fmt.Sprintf("the heading %q stands for two columns", text), "give each column a heading of its own")
			} else if ok {
				into[c] = mapped{strings.TrimSpace(text), percent, v.Line, v.Column}
			}
		}))
	}
	for c, of := range columns {
		read(column(c), of.name, false)
	}
	if what == "columns" {
		for _, of := range percentNames {
			read(of.column, of.name, true)
		}
	}
	r.Fields(v, what, fields...)
}

// meaning returns what a heading means by the profile.
func (p Profile) meaning(heading string) (of meaning, ok bool) {
	for c, m := range p.headings {
		if sameHeading(m.text, heading) {
			_, percent := withoutPercent(heading)
			return meaning{column: c, percent: percent || m.percent}, true
		}
	}
	return meaning{}, false
}

// sameHeading compares headings without regard to case and the width of gaps.
func sameHeading(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// has reports whether the profile gives a column its heading or value.
func (p Profile) has(c column) bool {
	_, heading := p.headings[c]
	_, constant := p.constants[c]
	return heading || constant
}

// mistypedHere is the part of a heading that may be mistyped in a columns file: one letter
// in two, since it has to be one of the table's few.
const mistypedHere = 2

// absentHeadings refuses what the profile names and the table does not have.
func (h *headingReader) absentHeadings(headings []string) {
	for c := range columnCount {
		m, given := h.profile.headings[c]
		if !given || h.place[c] != absent || !h.profile.reads(c) {
			continue
		}
		hint := "write the heading as it stands in the table: " + summary(headings)
		if near := document.Nearest(m.text, headings, mistypedHere); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		h.mistakes = append(h.mistakes, farm.Mistake{File: h.profile.file, Line: m.line, Column: m.column, Value: m.text, Reason: fmt.Sprintf("%s line %d has no heading %q", h.path, h.line, m.text), Hint: hint})
	}
}
