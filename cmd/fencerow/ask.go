package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/source"
	"fencerow/sim/answer"
)

// demoToday is the day on which the demo is asked, so that it always prints the
// same figures.
const demoToday = "2026-11-25"

// noTables switches the built-in county tables off.
const noTables = "none"

const dateLayout = time.DateOnly

// question holds the flags that say what is asked about.
type question struct {
	demo          bool
	cropYears     string
	today         string
	seed          uint64
	draws         int
	hasScenarios  bool // the verb makes scenarios: draws has to be above 0
	countyFiles   []string
	countyTables  []string
	book          string
	builtIn       string // "none": without the built-in county tables
	market        string
	columns       string // a columns file
	insurance     string // an insurance file
	withInsurance bool
	close         float64
	json          bool
	typed         source.Typed   // a farm in the flags, in place of a file
	save          string         // where to write the operation file that typed stands for
	force         bool           // outputs may replace files
	given         disk.Given     // standard input, where it is asked about
	inputs        []source.Input // found so far
}

// addInput adds the flags of every verb that reads an operation.
func (q *question) addInput(c *cobra.Command) {
	c.Flags().BoolVar(&q.demo, "demo", false, "use the built-in invented operation")
	q.addSettings(c)
}

// addSettings adds the flags that say when and from which sources an operation is answered.
func (q *question) addSettings(c *cobra.Command) {
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years, as 2026 or 2026,2027 (default: the file's, else this year)")
	c.Flags().StringVar(&q.today, "today", "", "the day you ask on, YYYY-MM-DD (default: the system date)")
	c.Flags().StringArrayVar(&q.countyFiles, "county-file", nil, "a county file, besides those the operation names; may be repeated")
	c.Flags().StringArrayVar(&q.countyTables, "county-table", nil, "FSA's ARC-CO county workbook (.xlsx); may be repeated")
	c.Flags().StringVar(&q.book, "book", "", "the county book (default: counties.db in your data folder); none leaves it out")
	q.addBuiltIn(c)
	c.Flags().StringVar(&q.market, "market", "", "a market file, used before the one the operation names")
	q.addColumns(c)
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
}

// addSources adds the flags of the verbs that ask about counties without an operation.
func (q *question) addSources(c *cobra.Command) {
	c.Flags().StringArrayVar(&q.countyTables, "county-table", nil, "FSA's ARC-CO county workbook (.xlsx), used before the book; may be repeated")
	q.addBuiltIn(c)
	c.Flags().StringVar(&q.market, "market", "", "a market file")
}

// addColumns adds the flag of a columns file.
func (q *question) addColumns(c *cobra.Command) {
	c.Flags().StringVar(&q.columns, "columns", "", "a file that says what the headings of your table stand for; check --suggest-columns writes one")
}

// addBuiltIn adds the flag that leaves out the built-in county tables.
func (q *question) addBuiltIn(c *cobra.Command) {
	c.Flags().StringVar(&q.builtIn, "builtin", "", "none leaves out the built-in county tables, which are used after the book")
}

// checkBuiltIn refuses a value of --builtin that says nothing.
func (q *question) checkBuiltIn() error {
	if q.builtIn != "" && q.builtIn != noTables {
		return usageError{fmt.Sprintf("--builtin is %q", q.builtIn), "write --builtin none, or leave it out"}
	}
	return nil
}

// caseOf reads every file the question names and returns the case. All mistakes
// of all files come back together; nothing is written.
func (q *question) caseOf(c *cobra.Command, args []string) (answer.Question, error) {
	if q.typed.Given() || q.save != "" {
		return q.typedCase(c, args)
	}
	path, err := q.operationPath(args)
	if err != nil {
		return answer.Question{}, err
	}
	if path, err = q.takeInput(c, path); err != nil {
		return answer.Question{}, err
	}
	r, err := q.request(c)
	if err != nil {
		return answer.Question{}, err
	}
	r.Operation = path
	if q.demo && q.book == "" {
		q.book = disk.NoBook // the demo always prints the same
	}
	found, err := q.found(c, r)
	if err == nil {
		err = q.checkInsurance(found.Question.Operation)
	}
	return found.Question, err
}

// request is what the flags say of any question. What they cannot say is refused before
// a file is opened.
func (q *question) request(c *cobra.Command) (r source.Request, err error) {
	r = source.Request{
		Files: q.disk(), Tables: disk.Tables{}, CountyFiles: q.countyFiles, CountyTables: q.countyTables, Market: q.market, Columns: q.columns, Insurance: q.insuranceFile(), Insured: q.withInsurance,
		Seed: q.seed, Draws: q.draws, WithoutBuiltIn: q.builtIn == noTables,
	}
	if err = q.checkBuiltIn(); err != nil {
		return r, err
	}
	if r.Today, err = q.day(); err != nil {
		return r, err
	}
	if err = q.checkDraws(); err != nil {
		return r, err
	}
	if c.Flags().Changed("close") {
		r.CloseMargin = &q.close
	}
	r.CropYears, err = source.ParseCropYears(q.cropYears)
	return r, err
}

// operationPath returns where the operation file is.
func (q *question) operationPath(args []string) (string, error) {
	switch {
	case q.demo && len(args) > 0:
		return "", usageError{"--demo takes no file", "leave out --demo or the file"}
	case q.demo:
		return "demo/operation.yaml", nil
	case len(args) == 0:
		return "", usageError{"no operation file is given", "name one, or try --demo"}
	}
	return args[0], nil
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
