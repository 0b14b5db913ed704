package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fencerow/program/crop"
)

// noFigure are the marks that stand for "not published" where a cell is not
// simply blank. Only the blank is the agency's own; the rest is our judgement
// of what a re-saved table may hold.
var noFigure = map[string]bool{"": true, "-": true, "--": true, "n/a": true, "na": true, "#n/a": true}

// figure returns the number of a cell to its decimals, or nil where it holds none.
//
// The workbook's numbers are binary with noise (26.659999999999997). The
// nearest decimal takes the noise away; it is not the rounding of the law,
// which the agency has already done.
func figure(cell string, decimals int) (*float64, error) {
	if noFigure[strings.ToLower(cell)] {
		return nil, nil
	}
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("%q is not a number", cell)
	}
	if x < 0 {
		return nil, fmt.Errorf("%s is below zero", cell)
	}
	x = rounded(x, decimals)
	return &x, nil
}

// rounded returns the decimal nearest to a number.
func rounded(x float64, decimals int) float64 {
	near, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', decimals, 64), 64) // what was just written can be read
	return near
}

const (
	centDecimals       = 2 // money, yields and prices per bushel
	poundPriceDecimals = 4 // prices per pound
)

// decimals returns the decimals to which the agency publishes column col for
// commodity c. Flaxseed is the one bushel crop with four in its prices.
//
// Source: USDA FSA, ARC-CO county tables, program years 2019-2025.
func (col column) decimals(c crop.Commodity) int {
	isPrice := col == benchmarkPrice || col == nationalPrice
	if isPrice && (c.Unit().Mass == "pound" || c == crop.Flaxseed) {
		return poundPriceDecimals
	}
	return centDecimals
}
