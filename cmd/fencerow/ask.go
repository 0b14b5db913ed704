package main

import (
	"embed"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"fencerow/io/read/county"
	"fencerow/io/read/farmtable"
	"fencerow/io/read/market"
	"fencerow/io/read/operation"
	"fencerow/io/read/table"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

//go:embed demo
var demoFiles embed.FS

// demoToday is the day on which the demo is asked, so that it always prints the
// same figures.
const demoToday = "2026-11-25"

const dateLayout = "2006-01-02"

// question holds the flags that say what is asked about.
type question struct {
	demo         bool
	cropYears    string
	today        string
	seed         uint64
	draws        int
	drawn        bool // the verb draws outcomes, and draws has to be above 0
	countyFiles  []string
	countyTables []string
	book         string
	market       string
	close        float64
	json         bool
}

// addInput adds the flags of every verb that reads an operation.
func (q *question) addInput(c *cobra.Command) {
	c.Flags().BoolVar(&q.demo, "demo", false, "use the built-in invented operation")
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years, as 2026 or 2026,2027 (default: the file's, else this year)")
	c.Flags().StringVar(&q.today, "today", "", "the day of the question, YYYY-MM-DD (default: the system date)")
	c.Flags().StringArrayVar(&q.countyFiles, "county-file", nil, "a county file beside those the operation names; may be repeated")
	c.Flags().StringArrayVar(&q.countyTables, "county-table", nil, "the agency's ARC-CO county workbook (.xlsx); may be repeated")
	c.Flags().StringVar(&q.book, "book", "", "the county book (default: counties.db in your data folder, where there is one); none switches it off")
	c.Flags().StringVar(&q.market, "market", "", "a market file, before the one the operation names")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
}

// addSources adds the flags of the verbs that ask about counties without an operation.
func (q *question) addSources(c *cobra.Command) {
	c.Flags().StringArrayVar(&q.countyTables, "county-table", nil, "the agency's ARC-CO county workbook (.xlsx), before the book; may be repeated")
	c.Flags().StringVar(&q.market, "market", "", "a market file")
}

// caseOf reads every file the question names and returns the case. All mistakes
// of all files come back together; nothing is written.
func (q *question) caseOf(c *cobra.Command, args []string) (answer.Case, error) {
	path, read, err := q.operationPath(args)
	if err != nil {
		return answer.Case{}, err
	}
	asked, err := q.settings()
	if err != nil {
		return asked, err
	}
	l := newLoader(read)
	if farmtable.IsTable(path) {
		asked.Operation = l.farmTable(path, q.countyNamed(), len(asked.CropYears) > 0)
	} else {
		asked.Operation = l.operation(path)
	}
	if flag := c.Flags().Lookup("close"); flag != nil && flag.Changed {
		asked.Operation.Settings.CloseMargin = &q.close
	}
	folder := filepath.Dir(path)
	for _, name := range asked.Operation.CountyFiles {
		l.county(join(folder, name), name)
	}
	for _, name := range q.countyFiles {
		l.county(name, filepath.Base(name))
	}
	for _, name := range q.countyTables {
		l.table(name)
	}
	if q.demo && q.book == "" {
		q.book = noBook // the demo always prints the same
	}
	if err := l.countyBook(q.book, statesOf(asked.Operation)); err != nil {
		return asked, err
	}
	asked.Market = answer.WithEveryPrice(l.market(q.market, folder, asked.Operation.MarketFile))
	asked.Counties = l.book
	asked.CropYears = firstOf(asked.CropYears, asked.Operation.CropYears, []crop.CropYear{asked.Today.Year()})
	l.tell(c.ErrOrStderr())
	if len(l.mistakes) > 0 {
		return asked, l.mistakes
	}
	return asked, nil
}

// settings are what the flags say of any question: the day, the draws, and crop years
// where they are named.
func (q *question) settings() (asked answer.Case, err error) {
	asked = answer.Case{Seed: q.seed, Draws: q.draws}
	if asked.Today, err = q.day(); err != nil {
		return asked, err
	}
	if err = q.checkDraws(); err != nil {
		return asked, err
	}
	asked.CropYears, err = parseCropYears(q.cropYears)
	return asked, err
}

// sources adds county tables, the county book of some States and prices to what a
// loader has read, and gives all to a question without an operation. What a county table
// is noted for is told.
func (q *question) sources(c *cobra.Command, l *loader, states []string, asked *answer.Case) error {
	for _, name := range q.countyTables {
		l.table(name)
	}
	if err := l.countyBook(q.book, states); err != nil {
		return err
	}
	asked.Market, asked.Counties = answer.WithEveryPrice(l.market(q.market, "", "")), l.book
	l.tell(c.ErrOrStderr())
	if len(l.mistakes) > 0 {
		return l.mistakes
	}
	return nil
}

// operationPath returns where the operation file is and how to read files.
func (q *question) operationPath(args []string) (string, func(string) ([]byte, error), error) {
	switch {
	case q.demo && len(args) > 0:
		return "", nil, usageError{"--demo goes without a file", "leave out one of the two"}
	case q.demo:
		return "demo/operation.yaml", demoFiles.ReadFile, nil
	case len(args) == 0:
		return "", nil, usageError{"no operation file is given", "name one, or try --demo"}
	}
	return args[0], readFile, nil
}

// mostBytes is the largest text file that is read.
const mostBytes = 16 << 20

// readFile refuses what is not a file of reasonable size before reading it.
func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() || info.Size() > mostBytes {
		return nil, &fs.PathError{Op: "read", Path: name, Err: fmt.Errorf("not a file of at most %d bytes", mostBytes)}
	}
	return os.ReadFile(name)
}

// day returns the day of the question.
func (q *question) day() (time.Time, error) {
	text := q.today
	if text == "" && q.demo {
		text = demoToday
	}
	if text == "" {
		now := time.Now()
		return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC), nil
	}
	day, err := time.Parse(dateLayout, text)
	if err != nil {
		return day, usageError{fmt.Sprintf("--today is %q", text), "write a date as 2026-11-25"}
	}
	return day, nil
}

// parseCropYears reads "2026" or "2026,2027".
func parseCropYears(text string) ([]crop.CropYear, error) {
	if text == "" {
		return nil, nil
	}
	var years []crop.CropYear
	for _, word := range strings.Split(text, ",") {
		y, err := strconv.Atoi(strings.TrimSpace(word))
		first, last := lawYears()
		if err != nil || y < first || y > last {
			return nil, usageError{fmt.Sprintf("--crop-year names %q", word), fmt.Sprintf("give crop years from %d to %d, as 2026 or 2026,2027", first, last)}
		}
		if !slices.Contains(years, y) {
			years = append(years, y)
		}
	}
	return years, nil
}

// lawYears are the first and last crop year the program's law covers.
func lawYears() (first, last crop.CropYear) {
	rows := law.Rows("guarantee_share")
	first, last = rows[0].First, rows[0].Last
	for _, row := range rows {
		first, last = min(first, row.First), max(last, row.Last)
	}
	return first, last
}

// loader reads files and collects their mistakes.
type loader struct {
	read     func(string) ([]byte, error)
	builtin  func() farm.Market
	book     farm.CountyBook
	imported *farm.Market // prices of the county book; nil where there are none
	mistakes farm.Mistakes
	notes    []string
}

// newLoader starts to read the built-in prices, while other files are read.
func newLoader(read func(string) ([]byte, error)) loader {
	l := loader{read: read, builtin: sync.OnceValue(market.Builtin)}
	go l.builtin()
	return l
}

// tell says what was noted of the files.
func (l *loader) tell(talk io.Writer) {
	for _, note := range l.notes {
		fmt.Fprintln(talk, "fencerow: note: "+note)
	}
}

// keep notes the mistakes of an error; what is not a mistake of the file is one
// of reading it.
func (l *loader) keep(name string, err error) {
	if err == nil {
		return
	}
	if mistakes, ok := err.(farm.Mistakes); ok {
		l.mistakes = append(l.mistakes, mistakes...)
		return
	}
	l.mistakes = append(l.mistakes, farm.Mistake{File: name, Reason: "cannot be read: " + err.Error(), Hint: "check the name and that the file can be opened"})
}

// parsed reads a file and parses it.
func parsed[T any](l *loader, name string, parse func(string, []byte) (T, error)) (value T) {
	data, err := l.read(name)
	if err == nil {
		value, err = parse(name, data)
	}
	l.keep(name, err)
	return value
}

func (l *loader) operation(name string) farm.Operation {
	return parsed(l, name, operation.Parse)
}

// county reads a county file and returns the county's code.
func (l *loader) county(name, shown string) string {
	c := parsed(l, name, county.Parse)
	l.book = append(l.book, farm.CountySource{Name: shown, Status: crop.Assumed, Counties: map[string]farm.County{c.Code: c}})
	return c.Code
}

// counties reads county files of a folder as one source: among thousands a county is
// found at once. A county has one file there.
func (l *loader) counties(folder string, names []string) {
	source := farm.CountySource{Name: folder, Status: crop.Assumed, Counties: map[string]farm.County{}}
	from := map[string]string{} // file by county
	for _, name := range names {
		c := parsed(l, name, county.Parse)
		if other, twice := from[c.Code]; twice && c.Code != "" {
			l.mistakes = append(l.mistakes, farm.Mistake{File: name, Value: c.Code, Reason: fmt.Sprintf("county %s stands in %s too", c.Code, other), Hint: "join both files, or take one away"})
			continue
		}
		from[c.Code], source.Counties[c.Code] = name, c
	}
	l.book = append(l.book, source)
}

func (l *loader) table(name string) {
	source, notes, err := table.Read(name)
	l.keep(name, err)
	for _, n := range notes {
		where := name
		if n.Line > 0 {
			where += fmt.Sprintf(" line %d", n.Line)
		}
		l.notes = append(l.notes, fmt.Sprintf("%s: %s: %s", where, n.Reason, n.Text))
	}
	if err == nil {
		l.book = append(l.book, source)
	}
}

// countyBook adds what the county book says of whole States: the ratio of one
// agency's yields to another's is taken from neighbors where a county has none.
func (l *loader) countyBook(flag string, states []string) error {
	b, err := openBook(flag, false)
	if err != nil || b == nil {
		return err
	}
	defer b.Close()
	sources, err := b.Sources(states...)
	if err != nil {
		return err
	}
	l.book = append(l.book, sources...)
	prices, has, err := b.Market()
	if has {
		l.imported = &prices
	}
	return err
}

// statesOf returns the States in which an operation has base, by two digits.
func statesOf(o farm.Operation) []string {
	var states []string
	add := func(county string) {
		if len(county) >= 2 && !slices.Contains(states, county[:2]) {
			states = append(states, county[:2])
		}
	}
	for _, f := range o.Farms {
		add(f.County)
		for _, b := range f.Bases {
			add(b.PhysicalCounty(f))
		}
	}
	return states
}

// market lays the market file over the built-in prices: the one of the flag,
// else the one the operation names.
func (l *loader) market(flag, folder, named string) farm.Market {
	builtin := l.builtin()
	if l.imported != nil {
		builtin = l.imported.Newer(builtin).Over(builtin)
	}
	switch {
	case flag != "":
		l.read = readFile
		return parsed(l, flag, market.Parse).Over(builtin)
	case named != "":
		return parsed(l, join(folder, named), market.Parse).Over(builtin)
	}
	return builtin
}

// join resolves a name written in a file against that file's folder.
func join(folder, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.ToSlash(filepath.Join(folder, name))
}

// firstOf returns the first list that is not empty.
func firstOf(lists ...[]crop.CropYear) []crop.CropYear {
	for _, list := range lists {
		if len(list) > 0 {
			return list
		}
	}
	return nil
}
