package market

import (
	"fmt"
	"time"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// readMonth reads one known month; it has to lie in the marketing year.
func (r *reader) readMonth(key, v document.Node, what string, c crop.Commodity, year crop.CropYear) (farm.MonthPrice, bool) {
	month, ok := r.Month(key, "month of "+what)
	if !ok {
		return farm.MonthPrice{}, false
	}
	m := farm.MonthPrice{Month: month}
	marketing, err := marketingYear(c, year)
	if err != nil {
		r.Refuse(key, err.Error(), "leave the months of this crop year out")
		return m, false
	}
	if month.Before(marketing.Start()) || month.After(marketing.End()) {
		r.Refuse(key, fmt.Sprintf("%s is not in the marketing year %s of %s", key.Text, marketing, c.Name()),
			fmt.Sprintf("that year runs from %s to %s", marketing.Start().Format("2006-01"), marketing.End().Format("2006-01")))
		return m, false
	}
	what = key.Text + " in " + what
	r.Fields(v, what,
		document.Must("price", func(v document.Node) { m.Price, ok = r.price(v, "price of "+what, c) }),
		document.Must("weight", func(v document.Node) {
			if weight, read := r.Number(v, "weight of "+what); read && r.Check(v, farm.CheckShare("weight of "+what, weight)) {
				m.Weight = weight
			}
		}),
		document.May("weight_from", func(v document.Node) { m.WeightFrom, _ = r.Text(v, "weight_from of "+what) }))
	return m, ok
}

// marketingYear returns the marketing year of a crop. The error wraps
// law.ErrNoValue.
func marketingYear(c crop.Commodity, year crop.CropYear) (crop.MarketingYear, error) {
	start, err := law.Find("marketing_year_start", c, year)
	if err != nil {
		return crop.MarketingYear{}, err
	}
	return crop.MarketingYear{CropYear: year, StartMonth: time.Month(start.Number)}, nil
}

// CropYearOf returns the crop year in whose marketing year a month lies. The error wraps
// law.ErrNoValue.
func CropYearOf(c crop.Commodity, month time.Time) (crop.CropYear, error) {
	marketing, err := marketingYear(c, month.Year())
	if err != nil {
		return 0, err
	}
	if month.Before(marketing.Start()) {
		return month.Year() - 1, nil
	}
	return month.Year(), nil
}
