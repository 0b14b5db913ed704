package position

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Rejected is a mean that was not taken, because it stands too far from the
// benchmark to be of the same county, commodity and practice.
type RejectedMean struct {
	Mean, Benchmark crop.Yield
	rule            string // the rule that gave the mean
	UsedInstead     farm.Figure
}

// CountyUnit is one county, commodity and practice in one crop year.
type CountyUnit struct {
	County    string
	Commodity crop.Commodity
	Practice  farm.Practice
	CropYear  crop.CropYear
}

// Benchmark is a county's benchmark yield.
type Benchmark struct {
	farm.Figure
	Agency    bool                // from an agency table of the program year
	Five      *[5]crop.Yield      // the adjusted yields it was computed from; nil where it was published
	Projected *ProjectedBenchmark // how it comes about where no source has it; nil: one has
}

// Yield is what is known of the county yield of a crop year.
type Yield struct {
	odds.Yield
	Stage          odds.Stage
	Status         crop.Status
	MeanFrom       string
	SDFrom         string
	Correlation    float64       // with the price of the commodity
	PastDeviations []float64     // off the trend in past years, by place of odds.PastYears; nil: not from history
	Rejected       *RejectedMean // a mean that was not taken; nil: none
}

// StateOf returns the two digits of the state in a county code.
func StateOf(county string) string { return county[:min(2, len(county))] }

// mostYearsProjected is how many program years after the latest table a benchmark yield
// is worked out: to the last crop year of the law from its first of now.
const mostYearsProjected = 6

// Projected is how a benchmark yield comes about that no source has: from the latest
// table before it, its five yields carried forward by their trend, and newer
// county yields, those not known yet drawn.
type ProjectedBenchmark struct {
	Yields     [5]AdjustedYield // oldest first
	tables     string           // the table and the years added, in words
	yearsAhead int              // from the table's program year to this one
	leastKnown odds.Stage       // the least that is known of a year added
}

// AdjustedYield is one of the five adjusted yields of a program year.
type AdjustedYield struct {
	Value    crop.Yield // adjusted; of the mean yield where it is drawn
	CropYear crop.CropYear
	Outlook  *Yield     // of a county yield that is not known; nil: known
	Trend    crop.Yield // for one that is drawn, units per acre and year
	Plug     crop.Yield // the least that it counts; 0: not known
	stage    odds.Stage // from what the yield is known
}

// Varies reports whether any of the five yields is not known.
func (a *ProjectedBenchmark) Varies() bool {
	for _, cell := range a.Yields {
		if cell.Outlook != nil {
			return true
		}
	}
	return false
}
