package position

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// RejectedMean is a mean county yield, units per acre, that was not used because it is
// too far from the benchmark yield to be of the same county, commodity and practice
// (odds.InLine).
type RejectedMean struct {
	Mean, Benchmark crop.Yield
	rule            string      // how the mean was made, in words
	UsedInstead     farm.Figure // the mean that was used
}

// CountyUnit is one county, commodity and practice in one crop year.
type CountyUnit struct {
	County    string
	Commodity crop.Commodity
	Practice  farm.Practice
	CropYear  crop.CropYear
}

// Benchmark is a county's benchmark yield, units per acre. An empty Status means that
// there is none.
type Benchmark struct {
	farm.Figure
	Agency    bool                // it stands in an agency table of the program year
	Five      *[5]crop.Yield      // the five adjusted yields behind it; nil where a source has the benchmark alone
	Projected *ProjectedBenchmark // how it was projected; nil where a source has it
}

// Yield is the outlook for the county yield of one crop year: its distribution and
// where each figure came from. An SD of 0 means that the yield is known.
type Yield struct {
	odds.Yield
	Stage          odds.Stage // what the yield is known from
	Status         crop.Status
	MeanFrom       string        // in words, for people
	SDFrom         string        // in words, for people
	Correlation    float64       // with the price of the commodity
	PastDeviations []float64     // standardized, by place of odds.PastYears; nil: the yield is drawn from its distribution
	Rejected       *RejectedMean // a mean that was not used; nil: none
	Estimates      []farm.Figure // the mean by each estimator but MeanUsed, in their order; nil: the mean was told
}

// StateOf returns the first two digits of a county code, those of its State.
func StateOf(county string) string { return county[:min(2, len(county))] }

// mostYearsProjected is how many program years past the newest table a benchmark yield
// is projected: from the first crop year of the law in force to its last.
const mostYearsProjected = 6

// ProjectedBenchmark is a benchmark yield that no source has: the five yields of the
// newest table before it, carried forward by their trend, with newer county yields in
// place of the oldest. A county yield that is not known yet differs by scenario.
type ProjectedBenchmark struct {
	Yields     [5]AdjustedYield // oldest first
	tables     string           // the table and the years added, in words
	yearsAhead int              // program years from the table to this one
	leastKnown odds.Stage       // the earliest stage among the years added
}

// AdjustedYield is one of the five adjusted yields of a program year.
type AdjustedYield struct {
	Value    crop.Yield // adjusted, units per acre; made of the mean yield where the yield is not known
	CropYear crop.CropYear
	Outlook  *Yield     // of a county yield that is not known; nil: it is known
	Trend    crop.Yield // units per acre and year; 0 for a yield of the table
	Plug     crop.Yield // the least yield that counts, units per acre; 0: not known
	stage    odds.Stage // what the county yield is known from
}

// Varies reports whether the benchmark yield differs by scenario: one of its five
// yields is not known.
func (a *ProjectedBenchmark) Varies() bool {
	for _, year := range a.Yields {
		if year.Outlook != nil {
			return true
		}
	}
	return false
}
