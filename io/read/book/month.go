package book

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/io/read/market"
	"fencerow/io/read/yields"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Kinds of a month of a marketing year, behind the agency's name and before the month.
const monthPrice, monthWeight = "month", "weight"

// monthForm is how a month is written in a kind.
const monthForm = "2006-01"

// month puts in one month of a national price. The newest edition counts.
func (im *importing) month(m yields.Month) error {
	y, err := market.CropYearOf(m.Commodity, m.Month)
	if err != nil {
		im.note(m.Line, "the marketing year of its month is not known", string(m.Commodity)+" "+m.Month.Format(monthForm))
		return nil
	}
	kind, number := monthPrice, m.Price
	if m.IsWeight {
		kind, number = monthWeight, m.Weight
	}
	return im.putPrice(m.Commodity, y, strings.Join([]string{im.Agency, kind, m.Month.Format(monthForm)}, " "), number, m.Line, "<=")
}

// onlyMonths ends the import of a file that has months of prices and no county yield.
func (im *importing) onlyMonths() error {
	im.Subject = "national prices by month"
	if _, err := im.tx.Exec("UPDATE file SET subject = ? WHERE id = ?", im.Subject, im.id); err != nil {
		return err
	}
	return im.counted()
}

// monthsOf gathers months of marketing years: by commodity, crop year and month.
type monthsOf map[crop.Commodity]map[crop.CropYear]map[time.Time]*monthFigures

// monthFigures are the price of a month and its part of the year's sales; nil: not known.
type monthFigures struct{ price, weight *float64 }

// add takes in one figure of a kind such as "month 2026-09". ok is false where the kind is
// another one.
func (all monthsOf) add(c crop.Commodity, y crop.CropYear, kind string, number float64) (ok bool) {
	which, text, _ := strings.Cut(kind, " ")
	month, err := time.Parse(monthForm, text)
	if err != nil || which != monthPrice && which != monthWeight {
		return false
	}
	if all[c] == nil {
		all[c] = map[crop.CropYear]map[time.Time]*monthFigures{}
	}
	if all[c][y] == nil {
		all[c][y] = map[time.Time]*monthFigures{}
	}
	of := all[c][y][month]
	if of == nil {
		of = &monthFigures{}
		all[c][y][month] = of
	}
	if which == monthPrice {
		of.price = &number
	} else {
		of.weight = &number
	}
	return true
}

// known returns the months of a marketing year that have a price, oldest first.
func (all monthsOf) known(c crop.Commodity, y crop.CropYear) (months []farm.MonthPrice) {
	for month, of := range all[c][y] {
		if of.price == nil {
			continue
		}
		m := farm.MonthPrice{Month: month, Price: *of.price}
		m.Weight, m.WeightFrom = all.weight(c, y, month)
		months = append(months, m)
	}
	slices.SortFunc(months, func(a, b farm.MonthPrice) int { return a.Month.Compare(b.Month) })
	return months
}

// monthsOfYear is how many months a marketing year has.
const monthsOfYear = 12

// weight returns the part of a year's sales in a month: its own; else that of the same
// month in the newest earlier year that has one; else a twelfth. from says in words what
// was assumed; "" where the weight is the month's own.
func (all monthsOf) weight(c crop.Commodity, y crop.CropYear, month time.Time) (weight crop.Share, from string) {
	if own := all[c][y][month].weight; own != nil {
		return *own, ""
	}
	oldest := farm.HistoryYears().First
	for earlier := y - 1; earlier >= oldest; earlier-- {
		if of := all[c][earlier][month.AddDate(earlier-y, 0, 0)]; of != nil && of.weight != nil {
			return *of.weight, fmt.Sprintf("as sold in the year of crop %d", earlier)
		}
	}
	return 1.0 / monthsOfYear, "a twelfth for each month"
}
