package exceptions

import (
	"slices"
	"strconv"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// Line is one exception of one farm and crop year; or, where Farm is blank, one that many
// farms have in the same words, because it follows from law, prices or county tables.
type Line struct {
	Severity                            answer.Severity
	Client, Operation, Farm             string // Farm: the number
	CountyCode, County, Crops, CropYear string // Crops: those that the words name, else all of the farm
	Words                               string // what is wrong and what to do
	Cents                               int64  // average after limits of the farm's lines; of all the farms
	Known                               bool   // whether the dollars are
	Farms                               int
	Code                                string
}

// Columns are the heads of exceptions.csv.
var Columns = strings.Fields("severity client operation farm county_code county crops crop_year words mean_after_limit farms code")

// Record returns a line for the file.
func (l Line) Record() []string {
	dollars := ""
	if l.Known {
		dollars = program.Text(float64(l.Cents)/hundred, 2)
	}
	return []string{string(l.Severity), l.Client, l.Operation, l.Farm, l.CountyCode, l.County, l.Crops, l.CropYear, l.Words, dollars, strconv.Itoa(l.Farms), l.Code}
}

// parse reads a line that Record returned.
func parse(r []string) Line {
	l := Line{Severity: answer.Severity(r[0]), Client: r[1], Operation: r[2], Farm: r[3], CountyCode: r[4], County: r[5], Crops: r[6], CropYear: r[7], Words: r[8], Known: r[9] != "", Code: r[11]}
	dollars, _ := strconv.ParseFloat(r[9], 64)
	l.Cents = centsOf(dollars)
	l.Farms, _ = strconv.Atoi(r[10])
	return l
}

const hundred = 100

func centsOf(dollars float64) int64 { return int64(program.Round(dollars*hundred, 0)) }

// Incomplete is the code of a farm of which rows were refused.
const Incomplete = "farm_incomplete"

// incomplete is what is said of such a farm.
var incomplete = answer.Flag{Code: Incomplete, Severity: answer.Error, Message: "Rows of this farm were refused, so it has no choices here and is in no total. Fix the rows that refused.csv names, and run the table again."}

// general are flags that follow from the law, prices or county tables of a year and not from
// a farm: many farms have them in the same words.
var general = map[string]bool{
	answer.NewElectionFlag: true, "deadline_unknown": true, "sco_by_year": true, "county_stale": true, "unverified_figure": true, "market_stale": true, "price_carried": true,
	"correlation_repaired": true, "higher_of_2025": true, "yield_not_known": true, "yield_out_of_line": true, "yield_source_may_differ": true,
}

// Farm is whose exceptions are asked about.
type Farm struct {
	Client, Operation, Number string // as they are to be shown
	CropYear                  int
	Part                      answer.FarmPart
	Dollars                   *float64                 // average after limits of its lines; nil: not known
	Refused                   bool                     // rows of it were refused
	Words                     func(text string) string // what may be shown of a flag's words
}

// Of returns the exceptions of a farm; what many farms may have has no farm.
func Of(f Farm) (all []Line) {
	flags := f.Part.Flags
	if f.Refused {
		flags = append(slices.Clip(flags), incomplete)
	}
	code, _, _ := strings.Cut(f.Part.Farm, "-")
	for _, flag := range flags {
		text := f.Words(flag.OnPaper())
		l := Line{Severity: flag.Severity, CropYear: strconv.Itoa(f.CropYear), Words: text, Farms: 1, Code: flag.Code}
		if f.Dollars != nil {
			l.Cents, l.Known = centsOf(program.Cent(*f.Dollars)), true
		}
		if flag.Severity == answer.Error || !general[flag.Code] {
			l.Client, l.Operation, l.Farm, l.CountyCode, l.County, l.Crops = f.Client, f.Operation, f.Number, code, wording.HomeCounty(f.Part), crops(f.Part, text)
		}
		all = append(all, l)
	}
	return all
}

// crops names the crops that a text names, else all of the farm.
func crops(f answer.FarmPart, text string) string {
	var all, named []string
	for _, c := range f.Commodities {
		all = append(all, c.Commodity.Name())
		if hasWord(text, c.Commodity.Name()) {
			named = append(named, c.Commodity.Name())
		}
	}
	if len(named) > 0 {
		all = named
	}
	return strings.Join(all, ", ")
}

// hasWord reports whether a text has a word, or several, with no letter beside it.
func hasWord(text, word string) bool {
	letter := func(at int) bool {
		return at >= 0 && at < len(text) && (text[at] >= 'a' && text[at] <= 'z' || text[at] >= 'A' && text[at] <= 'Z' || text[at] == '_')
	}
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return false
		}
		if at += from; !letter(at-1) && !letter(at+len(word)) {
			return true
		}
		from = at + 1
	}
}

// Severity is the gravity of an exception in words.
func Severity(s answer.Severity) string {
	switch s {
	case answer.Error:
		return "Stops payment or a figure"
	case answer.Warning:
		return "Check"
	}
	return "Good to know"
}
