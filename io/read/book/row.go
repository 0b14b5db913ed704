package book

import (
	"database/sql"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A book is one file on the disk of a user, which anything may have written to. So each row
// passes the checks of a county file before it is used. A row that no agency's file gives
// (no number, a year or a word that is not known) refuses the book. A yield that is a
// number and cannot be right, of which the agencies' own tables have some, is left out.

// mostWrong is how many wrong rows are told one by one.
const mostWrong = 20

// mostPossible is above any yield per acre that a file can give; mostAcres above the base
// acres of any county: judgements.
const mostPossible, mostAcres = 50_000, 10_000_000

// figure is one value as it lies in the book.
type figure struct {
	county, name, agency string
	commodity            crop.Commodity
	practice             farm.Practice
	kind                 string
	cropYear             crop.CropYear
	slot                 int
	number               float64
}

// checks are those of the rows of one reading.
type checks struct {
	book    string
	years   map[yearOf]bool      // program years that were found right
	last    figure               // the row whose series was found right last
	wrong   []wrongRow           // at most mostWrong
	more    int                  // wrong rows beyond them
	leftOut func(figure, string) // told of each yield that is left out, with the reason
}

// yearOf names a program year of a crop.
type yearOf struct {
	commodity crop.Commodity
	cropYear  crop.CropYear
}

// wrongRow is a row that cannot be used. of names it where it could be read.
type wrongRow struct {
	of     *figure
	reason string
}

func newChecks(book string, leftOut func(figure, string)) *checks {
	return &checks{book: book, years: map[yearOf]bool{}, leftOut: leftOut}
}

// refuse keeps a wrong row.
func (k *checks) refuse(of *figure, reason string) {
	if len(k.wrong) == mostWrong {
		k.more++
		return
	}
	k.wrong = append(k.wrong, wrongRow{of, reason})
}

// kindNames are the kinds of series by agency.
var kindNames = map[string][]string{
	"FSA":  {kindAdjusted, kindBenchmark, kindActual, kindBase},
	"RMA":  {kindYield},
	"NASS": {kindYield, kindYield + "_winter", kindYield + "_spring", kindYield + "_durum"},
}

// adjustedYields are the slots of an adjusted series.
const adjustedYields = 5

// seriesOf returns what a kind of series is in a county file.
func seriesOf(kind string) farm.CountySeries {
	if kind == kindAdjusted || kind == kindBenchmark {
		return farm.BenchmarkYields
	}
	return farm.HarvestYields
}

// use reports whether a figure may be used; why not is kept or told.
func (k *checks) use(f *figure) bool {
	if reason := k.impossible(f); reason != "" {
		k.refuse(f, reason)
		return false
	}
	if f.kind == kindBase {
		return true
	}
	if seriesOf(f.kind).CheckYield("", f.commodity, f.number) == nil {
		return true
	}
	k.leftOut(*f, seriesOf(f.kind).CheckYield(f.String(), f.commodity, f.number).Reason)
	return false
}

// impossible says why no file of an agency can have given a figure; "" where one can. Rows
// of one series come one after the other, so that its words are looked at once.
func (k *checks) impossible(f *figure) string {
	if !f.sameSeries(&k.last) {
		if reason := f.unknown(); reason != "" {
			return reason
		}
		k.last = *f
	}
	most := float64(mostPossible)
	if f.kind == kindBase {
		most = mostAcres
	}
	switch {
	case f.slot < 0 || f.slot > 0 && (f.kind != kindAdjusted || f.slot >= adjustedYields):
		return fmt.Sprintf("%s has place %d among its yields", f, f.slot)
	case !(f.number >= 0 && f.number <= most): // not a number is refused too
		return fmt.Sprintf("%s is %v", f, f.number)
	}
	return k.impossibleYear(f)
}

// sameSeries reports whether two figures are of one series.
func (f *figure) sameSeries(other *figure) bool {
	return f.kind == other.kind && f.commodity == other.commodity && f.practice == other.practice && f.agency == other.agency && f.county == other.county && f.name == other.name
}

// unknown says which word of a series is none that an import writes; "" for none.
func (f *figure) unknown() string {
	switch {
	case f.commodity.Index() < 0:
		return fmt.Sprintf("crop %q is not known", shortened(string(f.commodity)))
	case kindNames[f.agency] == nil:
		return fmt.Sprintf("agency %q is not known", shortened(f.agency))
	case !slices.Contains(kindNames[f.agency], f.kind):
		return fmt.Sprintf("kind %q of %s is not known", shortened(f.kind), f.agency)
	case f.practice != farm.AllPractices && f.practice != farm.Irrigated && f.practice != farm.Nonirrigated:
		return fmt.Sprintf("practice %q is not known", shortened(string(f.practice)))
	}
	if reason, _ := spelling.NameFault(f.name); reason != "" {
		return fmt.Sprintf("the name of county %s is %q: it %s", f.county, shortened(f.name), reason)
	}
	if fault := farm.CheckCountyCode("a county code", f.county); fault != nil {
		return fault.Reason
	}
	return ""
}

// impossibleYear is impossible for the crop year alone.
func (k *checks) impossibleYear(f *figure) string {
	series, of := seriesOf(f.kind), yearOf{f.commodity, f.cropYear}
	if series == farm.BenchmarkYields && k.years[of] || f.kind == kindBase && f.cropYear == 0 {
		return "" // 0: the table of base acres does not say
	}
	if series.CheckYear("", f.commodity, f.cropYear) != nil { // words are made where they are needed
		return series.CheckYear("the crop year of "+f.series(), f.commodity, f.cropYear).Reason
	}
	if series == farm.BenchmarkYields {
		k.years[of] = true
	}
	return ""
}

// series names the series of a figure for people.
func (f *figure) series() string {
	practice := ""
	if f.practice != farm.AllPractices {
		practice = string(f.practice) + " "
	}
	return fmt.Sprintf("%s %s%s %s in county %s", f.agency, practice, f.commodity.Name(), strings.ReplaceAll(f.kind, "_", " "), f.county)
}

// String names a figure for people: "FSA corn actual in county 99001, crop year 2023".
func (f *figure) String() string { return fmt.Sprintf("%s, crop year %d", f.series(), f.cropYear) }

// shortened cuts a text that comes from the book.
func shortened(text string) string {
	const most = 40
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "..."
	}
	return text
}

// unread returns the reason of a row whose cells are not what its columns are for.
func unread(rows *sql.Rows, names ...string) string {
	cells, places := make([]any, len(names)), make([]any, len(names))
	for i := range cells {
		places[i] = &cells[i]
	}
	if err := rows.Scan(places...); err != nil {
		return "a row cannot be read: " + err.Error()
	}
	said := make([]string, len(names))
	for i, cell := range cells {
		if text, is := cell.([]byte); is {
			cell = string(text)
		}
		said[i] = fmt.Sprintf("%s %s", names[i], shortened(fmt.Sprint(cell)))
	}
	return "a row cannot be read: " + strings.Join(said, ", ")
}

// err returns the wrong rows as farm.Mistakes; nil where there are none.
func (k *checks) err(b *Book) error {
	if len(k.wrong) == 0 {
		return nil
	}
	mistakes := make(farm.Mistakes, len(k.wrong))
	for i, row := range k.wrong {
		mistakes[i] = farm.Mistake{File: k.book, Reason: row.reason + b.cameFrom(row.of), Hint: "no agency's file gives that; " + b.again()}
	}
	if k.more > 0 {
		mistakes[len(mistakes)-1].Reason += fmt.Sprintf(" (and %d more rows)", k.more)
	}
	return mistakes
}

// cameFrom names the file and line that a figure came from, as far as the book knows it.
func (b *Book) cameFrom(f *figure) string {
	var name string
	var line int
	if f == nil || b.db.QueryRow(`SELECT f.name, v.line FROM series s JOIN value v ON v.series = s.id JOIN file f ON f.id = v.file
		WHERE s.county = ? AND s.agency = ? AND s.commodity = ? AND s.practice = ? AND s.kind = ? AND v.crop_year = ? AND v.slot = ?`,
		f.county, f.agency, string(f.commodity), string(f.practice), f.kind, f.cropYear, f.slot).Scan(&name, &line) != nil {
		return ""
	}
	return fmt.Sprintf(" (from %s line %d)", shortened(name), line)
}
