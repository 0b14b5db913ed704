package farmtable

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"fencerow/io/read/lines"
	"fencerow/program/farm"
)

// mostTitles is the most lines, blank ones aside, among which the headings are looked for.
const mostTitles = 20

// headingColumns are the columns of which a line has to have a heading to be the line of
// headings.
var headingColumns = []column{farmColumn, commodityColumn, baseAcresColumn}

// findHeadings reads to the line of headings: the first that names farm, commodity and
// base acres, else the one with the most headings that are understood, whose mistakes are
// returned. Titles above it are passed over and noted.
func (r *Reader) findHeadings() error {
	found, titles, whole, err := r.lineOfHeadings()
	if err != nil {
		return err
	}
	if whole {
		r.noteTitles(titles, found.Number)
	}
	return r.readHeadings(found)
}

// lineOfHeadings returns the line of headings and, where it names all that it has to (whole),
// the lines above it. Else it is the likeliest line.
func (r *Reader) lineOfHeadings() (likeliest lines.Line, titles []lines.Line, whole bool, err error) {
	most := -1
	for len(titles) < mostTitles {
		next, err := r.lines.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return likeliest, nil, false, r.unreadable(err)
		}
		if next.Blank() {
			continue
		}
		known, whole := headingsIn(next.Cells, r.profile)
		if whole {
			return next, titles, true, nil
		}
		if known > most {
			likeliest, most = next, known
		}
		titles = append(titles, next)
	}
	switch {
	case most < 0:
		err = lines.Refuse(r.path, "", "the table is empty", "begin it with a line of headings: "+strings.Join(Columns(), ", "))
	case likeliest.Fault != "":
		err = farm.Mistakes{{File: r.path, Line: likeliest.Number, Reason: "the line of headings " + likeliest.Fault, Hint: "write the headings without quotation marks"}}
	}
	return likeliest, nil, false, err
}

// headingsIn counts the headings of a line that are understood; whole says that those
// without which no line is one of headings are among them.
func headingsIn(cells []string, profile Profile) (known int, whole bool) {
	var has [columnCount]bool
	for _, cell := range cells {
		of, ok := profile.meaning(cell)
		if !ok {
			of, ok = understood(strings.TrimSpace(cell))
		}
		if ok && !has[of.column] && profile.reads(of.column) {
			has[of.column] = true
			known++
		}
	}
	lacks := func(c column) bool {
		_, constant := profile.constants[c]
		return !has[c] && !constant
	}
	return known, known > 0 && !slices.ContainsFunc(headingColumns, lacks)
}

// unreadable returns the farm.Mistakes of a line that cannot be read.
func (r *Reader) unreadable(err error) error {
	var mistakes farm.Mistakes
	if errors.As(err, &mistakes) {
		return err
	}
	return lines.Unreadable(r.path, err)
}

// mostShown is how many of the lines that are passed over a note shows.
const mostShown = 3

// noteTitles notes what stands above the headings.
func (r *Reader) noteTitles(titles []lines.Line, headings int) {
	if len(titles) == 0 {
		return
	}
	r.titles = map[string]bool{}
	for _, title := range titles {
		r.titles[summary(title.Cells)] = true
	}
	var shown []string
	for _, title := range titles[:min(len(titles), mostShown)] {
		shown = append(shown, fmt.Sprintf("line %d %q", title.Number, summary(title.Cells)))
	}
	if more := len(titles) - len(shown); more > 0 {
		shown = append(shown, fmt.Sprintf("%d more", more))
	}
	r.notes = append(r.notes, fmt.Sprintf("the headings are on line %d. Passed over above them: %s", headings, strings.Join(shown, ", ")))
}

// summary shows the beginning of a line without its blank cells.
func summary(cells []string) string {
	const mostLetters = 60
	var filled []string
	for _, cell := range cells {
		if text := strings.Join(strings.Fields(cell), " "); text != "" {
			filled = append(filled, text)
		}
	}
	text := strings.Join(filled, " ")
	if letters := []rune(text); len(letters) > mostLetters {
		text = string(letters[:mostLetters]) + "..."
	}
	return text
}

// readHeadings finds the columns; unknown ones are noted, or refused where they may mean
// one of ours.
func (r *Reader) readHeadings(first lines.Line) error {
	h := headingReader{Reader: r, line: first.Number}
	r.headingLine = first.Number
	for at, heading := range first.Cells {
		heading = strings.TrimSpace(heading)
		r.headed = append(r.headed, heading != "")
		if heading != "" {
			h.take(heading, at)
		}
	}
	h.absentHeadings(first.Cells)
	likely, meant := r.refuseLikely(first.Number, h.unknown)
	mistakes := append(h.mistakes, likely...)
	for c, of := range columns {
		if of.required && r.place[c] == absent && !r.profile.has(column(c)) && !slices.Contains(meant, column(c)) {
			mistakes = append(mistakes, farm.Mistake{File: r.path, Line: first.Number, Value: of.name, Reason: fmt.Sprintf("no column is headed %s", of.name), Hint: "add it: " + of.meaning + ". A table needs farm, county, commodity and base_acres"})
		}
	}
	if len(mistakes) > 0 {
		return mistakes
	}
	return nil
}

// headingReader reads the line of headings.
type headingReader struct {
	*Reader
	line     int
	taken    [columnCount]heading
	unknown  []unknownHeading
	mistakes farm.Mistakes
}

// heading is a heading as it stands in the table, with what it means.
type heading struct {
	text string
	meaning
}

// take gives a column its place. Of two headings that mean one column, one that is only a
// second way to say it gives way; others are refused.
func (h *headingReader) take(text string, at int) {
	of, mapped := h.profile.meaning(text)
	known := mapped
	if !mapped {
		of, known = understood(text)
	}
	if known && !h.profile.reads(of.column) {
		h.notes = append(h.notes, fmt.Sprintf("column %q is not read: area insurance is not asked for", text))
		return
	}
	if known && !mapped && h.profile.has(of.column) {
		h.notes = append(h.notes, fmt.Sprintf("column %q is not read: %s gives %s", text, h.profile.file, columns[of.column].name))
		return
	}
	if !known {
		h.unknown = append(h.unknown, unknownHeading{text, at + 1})
		return
	}
	c, name := of.column, columns[of.column].name
	earlier := h.taken[c]
	switch {
	case h.place[c] == absent || earlier.second && !of.second:
		if h.place[c] != absent {
			h.notRead(earlier.text, text, name)
		}
		h.place[c], h.percent[c], h.taken[c] = at, of.percent, heading{text, of}
	case of.second:
		h.notRead(text, earlier.text, name)
	default:
		h.mistakes = append(h.mistakes, farm.Mistake{File: h.path, Line: h.line, Column: at + 1, Value: text,
			Reason: fmt.Sprintf("two columns are headed %s or stand for it: %q and %q", name, earlier.text, text), Hint: "keep one of them, or give the other a heading less like it"})
	}
}

// notRead notes a column in whose place another is read.
func (h *headingReader) notRead(text, instead, name string) {
	h.notes = append(h.notes, fmt.Sprintf("column %q is not read: %q is taken for %s", text, instead, name))
}
