package fit

import (
	"fmt"
	"math"
	"strconv"

	"fencerow/program/crop"
)

// Estimate is one number of the model as derived from data: a row of
// sim/odds/parameters.csv to be.
type Estimate struct {
	Param     string // what it is a number of
	Commodity string // a commodity, a pair joined by "|", "all" or "other"
	Region    string
	Key       string  // horizon, stage or month
	Value     float64 // as it stands in the row: rounded
	Error     float64 // standard error of Value, not rounded; 0: none is known
	Count     int     // number of observations; 0: none are counted
	Period    string  // crop years observed
	Source    string  // key of parameter_sources.csv
	Note      string  // what else the row says, in words
}

// Row returns the estimate as the nine fields of its row. The standard error, in two
// significant digits, begins the note.
func (e Estimate) Row() []string {
	count, note := "", e.Note
	if e.Count > 0 {
		count = strconv.Itoa(e.Count)
	}
	if e.Error > 0 {
		note = fmt.Sprintf("standard error %.2g", e.Error)
		if e.Note != "" {
			note += "; " + e.Note
		}
	}
	value := strconv.FormatFloat(e.Value, 'f', -1, 64)
	return []string{e.Param, e.Commodity, e.Region, e.Key, value, count, e.Period, e.Source, note}
}

// HeldBack reports whether outcomes of a crop year (price, yield, payment) are kept out of
// every estimate, for the scores of others.
func HeldBack(y crop.CropYear) bool { return y == 2016 || y == 2022 }

// rounded returns a figure of the model to some decimals, as its row has it.
func rounded(x float64, decimals int) float64 {
	kept, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64)
	if err != nil {
		return math.NaN()
	}
	return kept
}

// yearsSpan writes the first and the last of some crop years.
func yearsSpan(years []crop.CropYear) string {
	first, last := years[0], years[0]
	for _, y := range years {
		first, last = min(first, y), max(last, y)
	}
	return fmt.Sprintf("%d-%d", first, last)
}
