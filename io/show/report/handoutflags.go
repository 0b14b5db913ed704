package report

import (
	"regexp"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// forSheets is what a flag of a county sheet says to those who read the sheet, and to
// those who made it.
type forSheets struct {
	Sentences int    // so many first sentences of its message stand on paper
	Instead   string // this stands on paper, not the message
	Above     bool   // the banner of the sheet says it already
	Cover     bool   // stands on the cover alone
	Notes     string // heading over its message in the notes of the maker; "": it is not there
	Own       int    // so many first sentences of the message are of one county or crop; the rest says what to do
	Each      bool   // the notes repeat those sentences of each sheet
	Do        string // what to do, in place of the rest
}

// sheetFlags sorts the flags that can be raised for a county sheet, by code. A flag that is
// not here goes to the notes alone.
var sheetFlags = map[string]forSheets{
	answer.NewElectionFlag:    {Above: true},
	deadlineFlag:              {Above: true},
	"higher_of_2025":          {Sentences: 3},
	"price_carried":           {Sentences: 2, Notes: "Prices carried forward"},
	"yield_out_of_line":       {Sentences: 2, Notes: "Past yields that do not fit the benchmark", Own: 2, Each: true},
	"yield_not_known":         {Instead: "No report on this year's county yield is in these odds. They are those before harvest.", Notes: "No report on this year's county yields", Own: 3},
	"yield_source_may_differ": {Instead: "In some of the last ten years no USDA yield of this county is at hand. FSA may then pay on another source's yield."},
	"sco_by_year":             {Sentences: 2, Cover: true},
	"unverified_figure":       {Sentences: 2},
	"county_stale":            {Instead: "The benchmark yield is not FSA's own figure for this year. FSA's may differ.", Notes: "Benchmark yields that are not FSA's", Own: 1},
	"market_stale":            {Notes: "Prices that are old", Own: 1, Each: true},
	"correlation_repaired":    {Notes: "Price correlations that were changed", Own: 1, Each: true, Do: "Enter correlations that can hold together, or leave them out. Add --json to see those used."},
	"no_price_projection":     {Notes: "Missing prices"},
	"yield_missing":           {Notes: "Missing county yields"},
}

// code is the code of a county in a sentence, which paper has no use for.
var code = regexp.MustCompile(` \(\d{5}\)`)

// onPaper is what a flag says on a sheet, "" where it is none of a reader's.
func onPaper(flag answer.Flag) string {
	told := sheetFlags[flag.Code]
	if told.Instead != "" || told.Sentences == 0 {
		return told.Instead
	}
	text := wording.FirstSentences(flag.OnPaper(), told.Sentences)
	return code.ReplaceAllString(text, "")
}

// paperFlags are what the flags of a sheet say on paper.
func paperFlags(s explain.CountySheet) (said []string) {
	for _, flag := range s.Flags {
		if text := onPaper(flag); text != "" && !sheetFlags[flag.Code].Cover && !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return said
}

// onAllSheets are what the flags of all of several sheets say in the same words: it stands
// on the cover alone.
func onAllSheets(h explain.Handout) (all []string) {
	if len(h.Sheets) < 2 {
		return nil
	}
	for _, text := range paperFlags(h.Sheets[0]) {
		if !slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return !slices.Contains(paperFlags(s), text) }) {
			all = append(all, text)
		}
	}
	return all
}

// rest is a message without its first n sentences.
func rest(message string, n int) string {
	return strings.TrimSpace(strings.TrimPrefix(message, wording.FirstSentences(message, n)))
}
