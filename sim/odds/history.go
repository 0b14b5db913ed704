package odds

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

//go:embed history.csv
var historyFile string

// past returns the price errors of USDA's May forecasts, standardized, by name of the
// forecast and crop year.
var past = sync.OnceValue(func() map[string]map[crop.CropYear]float64 {
	reader := csv.NewReader(strings.NewReader(historyFile))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		panic("sim/odds/history.csv: " + err.Error())
	}
	errors := map[string]map[crop.CropYear]float64{}
	for _, row := range rows[1:] {
		y, errYear := strconv.Atoi(row[1])
		x, errNumber := strconv.ParseFloat(row[2], 64)
		if errYear != nil || errNumber != nil {
			panic(fmt.Sprintf("sim/odds/history.csv: row %v", row))
		}
		if errors[row[0]] == nil {
			errors[row[0]] = map[crop.CropYear]float64{}
		}
		errors[row[0]][y] = x
	}
	for _, years := range errors {
		standardize(years)
	}
	return errors
})

// standardize shifts and scales values to mean 0 and standard deviation 1 over
// PastYears, in place.
func standardize(years map[crop.CropYear]float64) {
	var values []float64
	for _, y := range PastYears() {
		values = append(values, years[y])
	}
	mean, sd := stat.PopMeanStdDev(values, nil)
	for y, x := range years {
		years[y] = (x - mean) / sd
	}
}

// The first and last past crop year that is drawn again: USDA had forecast its prices
// in May, and they are final.
const firstPast, lastPast = 2011, 2023

// PastYears returns the past crop years that FromHistory takes scenarios from.
func PastYears() (years []crop.CropYear) {
	for y := firstPast; y <= lastPast; y++ {
		years = append(years, y)
	}
	return years
}

// FromHistory makes every scenario one of PastYears, each about as often: the errors
// of all prices, and the deviations of all county yields (PastShock), are those of
// that year. Their dependence and their tails are then those of the past, and nothing
// can come out that did not happen in those years. Call it before the first shock is
// made.
func (s *Sampler) FromHistory() {
	s.pastYear = sync.OnceValue(func() []int {
		column := Shock{sampler: s}
		column.addColumn(1, "past year", func(r int) int { return s.ownDimension("past year", r, 0) })
		n := len(PastYears())
		years := make([]int, s.scenarios.N())
		for i, z := range column.All() {
			years[i] = min(int(below(z)*float64(n)), n-1)
		}
		return years
	})
}

// PastShock returns the shock with the value of each scenario's past year; values are
// in the order of PastYears.
func (s *Sampler) PastShock(values []float64) *Shock {
	series := make([]float64, s.scenarios.N())
	for i, year := range s.pastYear() {
		series[i] = values[year]
	}
	return &Shock{sampler: s, parts: []shockPart{{weight: 1, series: series}}}
}

// pastPriceShock is PriceShock after FromHistory.
func (s *Sampler) pastPriceShock(c crop.Commodity) []float64 {
	like, likened := errorFollows[c]
	if !likened {
		like = c
	}
	var values []float64
	for _, y := range PastYears() {
		values = append(values, past()[forecastAs(like)][y])
	}
	return s.PastShock(values).All()
}

// PastDeviations returns how far a county's yields of PastYears were off their robust
// trend, as a share of it, standardized to mean 0 and standard deviation 1, so that
// the mean and SD of the outlook hold. ok is false where a year is missing, a trend is
// not above zero or nothing varies.
func PastDeviations(years []int, yields []float64) (deviations []float64, ok bool) {
	if len(years) < YearsForTrend {
		return nil, false
	}
	height, slope := line(years, yields)
	for _, y := range PastYears() {
		i := slices.Index(years, y)
		trend := height + slope*float64(y)
		if i < 0 || trend <= 0 {
			return nil, false
		}
		deviations = append(deviations, yields[i]/trend-1)
	}
	mean, sd := stat.PopMeanStdDev(deviations, nil)
	for i, x := range deviations {
		deviations[i] = (x - mean) / sd
	}
	return deviations, sd > crop.Noise // else the yields lie on a line
}
