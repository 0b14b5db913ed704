package farmtable

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"fencerow/io/read/document"
	"fencerow/io/read/spelling"
	"fencerow/program/farm"
)

// mistypedPart is the part of a heading that may be mistyped: one letter in four. It is
// less than in a key of a file, since a table may have columns of its own.
const mistypedPart = 4

// ownThings are headings near to a column that are something else.
var ownThings = []string{"contact", "status"}

// shortestOtherHeading is the fewest letters of a heading, folded, near which another is
// taken for a slip of it: shorter ones are near to too much.
const shortestOtherHeading = 7

// slips are the folded headings near which another is taken for a slip: the columns' own
// names, then the longer ones of the headings beside them; then with those of area insurance.
var slips, slipsWithInsurance = sync.OnceValue(func() []string { return slipsOf(farmColumnCount) }), sync.OnceValue(func() []string { return slipsOf(columnCount) })

// slipsOf are the slips of the columns before one.
func slipsOf(end column) (all []string) {
	for _, of := range columns[:end] {
		all = append(all, spelling.Fold(of.name))
	}
	for _, texts := range otherHeadings[:end] {
		for _, text := range texts {
			if folded := spelling.Fold(text); len(folded) >= shortestOtherHeading {
				all = append(all, folded)
			}
		}
	}
	return all
}

// likelyColumn finds the column that a heading not understood may mean, among those that a
// profile reads.
func (p Profile) likelyColumn(heading string) (column, bool) {
	folded := spelling.Fold(heading)
	for c, texts := range unclearHeadings {
		if p.reads(c) && slices.ContainsFunc(texts, func(text string) bool { return spelling.Fold(text) == folded }) {
			return c, true
		}
	}
	if slices.Contains(ownThings, folded) {
		return 0, false
	}
	of := slips
	if p.insured {
		of = slipsWithInsurance
	}
	near := document.Nearest(folded, of(), mistypedPart)
	return meanings()[near].column, near != ""
}

// unknownHeading is a heading that no column has, and its place from 1.
type unknownHeading struct {
	text  string
	place int
}

// refuseLikely refuses headings that may mean a column the table lacks: their values
// would be left out in silence. The others are noted. meant are the columns so named.
func (r *Reader) refuseLikely(line int, unknown []unknownHeading) (mistakes farm.Mistakes, meant []column) {
	for _, heading := range unknown {
		c, likely := r.profile.likelyColumn(heading.text)
		if !likely || r.place[c] != absent || r.profile.has(c) {
			if note := fmt.Sprintf("column %q is not known and not read", heading.text); !slices.Contains(r.notes, note) {
				r.notes = append(r.notes, note)
			}
			continue
		}
		meant = append(meant, c)
		mistakes = append(mistakes, farm.Mistake{File: r.path, Line: line, Column: heading.place, Value: heading.text, Reason: fmt.Sprintf("the heading %q is not known", heading.text),
			Hint: fmt.Sprintf("did you mean %s? Write that. If the column is something else, give it a heading less like it", columns[c].name)})
	}
	return mistakes, meant
}

// blankThroughout returns a mistake for each of some columns that the table has and that
// no row has filled.
func (r *Reader) blankThroughout(hint string, of ...column) (mistakes farm.Mistakes) {
	for _, c := range of {
		if !r.ended || r.place[c] == absent || r.rows == 0 || r.filled[c] {
			continue
		}
		mistakes = append(mistakes, farm.Mistake{File: r.path, Line: r.headingLine, Column: r.place[c] + 1, Reason: columns[c].name + " is blank in every row",
			Hint: strings.ReplaceAll(hint, "MEANING", columns[c].meaning)})
	}
	return mistakes
}

// keyBlank refuses a table in which a column that every row needs is blank throughout.
func (r *Reader) keyBlank() farm.Mistakes {
	return r.blankThroughout("give the MEANING. A row needs farm, county, commodity and base_acres", farmColumn, countyColumn, commodityColumn, baseAcresColumn)
}

// NamesBlank returns mistakes where the table has columns of clients, operations or
// producers and all of them are blank throughout, once Next has returned io.EOF. All
// rows would be one operation, and one payment limit would hold for all its farms.
func (r *Reader) NamesBlank() farm.Mistakes {
	who := []column{clientColumn, operationColumn, producerColumn}
	if slices.ContainsFunc(who, func(c column) bool { return r.filled[c] }) {
		return nil
	}
	return r.blankThroughout("name whose farms these are. Or take these columns out: each farm is then answered by itself", who...)
}

// CropYearBlank returns a mistake where the table has a column of crop years and no row
// has one. It is known once Next has returned io.EOF, and is one only where the command
// names no crop year: the question would be of whatever year it is today.
func (r *Reader) CropYearBlank() farm.Mistakes {
	return r.blankThroughout("give the year of harvest in each row. Or take the column out, and name the year with --crop-year", cropYearColumn)
}
