package table

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Row is one line of a county table: one county, crop and practice. A nil
// figure is not published (yet); it is never zero. Yields are per planted acre
// in the commodity's unit, prices in USD per that unit, all else in USD per
// acre before the payment-acre share.
type Row struct {
	Line        int // of the sheet, counted from 1
	ProgramYear crop.CropYear
	Code        string // five digits, and the sub-county letter where there is one
	StateName   string
	CountyName  string
	Commodity   crop.Commodity
	Practice    farm.Practice

	Adjusted         [5]*crop.Yield // trend-adjusted yields of crop years ProgramYear-6 to -2, oldest first; all nil in 2014-2018
	BenchmarkYield   *crop.Yield
	BenchmarkPrice   *crop.Price
	BenchmarkRevenue *crop.Revenue
	Guarantee        *crop.Revenue
	MaximumRate      *crop.Revenue
	ActualYield      *crop.Yield
	NationalPrice    *crop.Price
	ActualRevenue    *crop.Revenue
	FormulaRate      *crop.Revenue // guarantee less actual revenue, not below zero
	PaymentRate      *crop.Revenue // the lesser of FormulaRate and MaximumRate
}

// five returns the adjusted yields; ok is false unless all five are known.
func (r Row) five() (five [5]crop.Yield, ok bool) {
	for i, y := range r.Adjusted {
		if y == nil {
			return five, false
		}
		five[i] = *y
	}
	return five, true
}

// row reads one line of the sheet.
func (h *heading) row(line int, cells []string) (Row, error) {
	r := Row{Line: line, ProgramYear: h.programYear}
	if err := r.identify(h, cells); err != nil {
		return r, err
	}
	for c := firstFigure; c < columnCount; c++ {
		v, err := figure(h.cell(cells, c), c.decimals(r.Commodity))
		if err != nil {
			return r, fmt.Errorf("column %q: %w", h.text[c], err)
		}
		*r.figure(c) = v
	}
	return r, nil
}

// figure returns where the figure of column c is kept.
func (r *Row) figure(c column) **float64 {
	switch c {
	case benchmarkYield:
		return &r.BenchmarkYield
	case benchmarkPrice:
		return &r.BenchmarkPrice
	case benchmarkRevenue:
		return &r.BenchmarkRevenue
	case guarantee:
		return &r.Guarantee
	case maximumRate:
		return &r.MaximumRate
	case actualYield:
		return &r.ActualYield
	case nationalPrice:
		return &r.NationalPrice
	case actualRevenue:
		return &r.ActualRevenue
	case formulaRate:
		return &r.FormulaRate
	case paymentRate:
		return &r.PaymentRate
	}
	return &r.Adjusted[c-oldestAdjusted]
}

// identify reads the words of a line: county, crop, practice, unit.
func (r *Row) identify(h *heading, cells []string) (err error) {
	if r.Code, err = countyCode(h.cell(cells, code), h.cell(cells, subCounty)); err != nil {
		return err
	}
	r.StateName = h.cell(cells, stateName)
	r.CountyName = h.cell(cells, countyName)
	if reason, _ := spelling.NameFault(r.CountyName); reason != "" {
		return fmt.Errorf("county name %q %s", r.CountyName, reason)
	}
	var ok bool
	if r.Commodity, ok = crop.ParseCommodity(h.cell(cells, cropName)); !ok {
		return fmt.Errorf("crop %q is not a covered crop", h.cell(cells, cropName))
	}
	if r.Practice, ok = practices[foldWord(h.cell(cells, designation))]; !ok {
		return fmt.Errorf("yield designation %q is none of All, Irrigated, Nonirrigated", h.cell(cells, designation))
	}
	mass := r.Commodity.Unit().Mass
	// The 2014-2018 tables may say "Pound of seed" of cotton.
	if first, _, _ := strings.Cut(strings.ToLower(h.cell(cells, unit)), " "); strings.TrimSuffix(first, "s") != mass {
		return fmt.Errorf("unit of %s is %q, want %s", r.Commodity.Name(), h.cell(cells, unit), mass)
	}
	return nil
}

// practices by the agency's word, folded.
var practices = map[string]farm.Practice{
	"all":          farm.AllPractices,
	"irrigated":    farm.Irrigated,
	"nonirrigated": farm.Nonirrigated,
}

var (
	codePattern   = regexp.MustCompile(`^(\d{4,5})(?:\.0+)?([A-Za-z]?)$`)
	letterPattern = regexp.MustCompile(`^[A-Za-z]?$`)
)

// countyCode returns the agency's county code with its sub-county letter. A
// spreadsheet that took the code for a number lost its leading zero: "1001" is
// "01001".
func countyCode(digits, letter string) (string, error) {
	parts := codePattern.FindStringSubmatch(digits)
	switch {
	case digits == "":
		return "", errors.New("no county code")
	case parts == nil:
		return "", fmt.Errorf("county code %q is not five digits", digits)
	case !letterPattern.MatchString(letter):
		return "", fmt.Errorf("sub-county %q is not one letter", letter)
	case parts[2] != "" && letter != "" && !strings.EqualFold(parts[2], letter):
		return "", fmt.Errorf("county code %q and sub-county %q disagree", digits, letter)
	case letter == "":
		letter = parts[2]
	}
	return fmt.Sprintf("%05s", parts[1]) + strings.ToUpper(letter), nil
}
