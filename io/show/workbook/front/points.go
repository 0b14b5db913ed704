package front

import (
	"strings"

	"fencerow/io/show/workbook/cells"
)

// layPoints lays out the points of the chart: the corners of both lines, so that they
// stand where the law has them, and the price used.
func (b *Book) layPoints() {
	s := b.lists
	s.Set(listChart, 1, cells.Words(cells.Look{Bold: true}, "price"))
	row := 1
	point := func(price, paid string) {
		row++
		s.Set(listChart, row, formula(cells.Look{Format: "General"}, "IF(chosen_row=0,0,"+price+")"))
		at := cells.At(s, listChart, row).Address()
		if paid == "" {
			return
		}
		s.Set(listChart+1, row, formula(cells.Look{Format: "General"}, "IF(chosen_row=0,0,"+replaceAt(paid, at)+")"))
	}
	plc := rounded("rate_decimals", "MAX(0,effective_reference_price-MAX(@,loan_rate))") + "*plc_yield*payment_acre_share"
	arc := "MIN(most_paid,MAX(0,guarantee-county_yield*MAX(@,loan_rate)))*payment_acre_share"
	for i, one := range []struct{ name, words, text string }{
		{"chart_from", "chart: least price", "0.85*MIN(loan_rate,national_price)"},
		{"arc_co_most_price", "price at which ARC-CO pays its most", "IF(county_yield>0,MAX(0,guarantee-most_paid)/county_yield,0)"},
		{"arc_co_start_price", "price at which ARC-CO starts", "IF(county_yield>0,guarantee/county_yield,2*effective_reference_price)"},
		{"chart_to", "chart: highest price", "1.1*MAX(effective_reference_price,national_price,MIN(arc_co_start_price,2*effective_reference_price))"},
	} {
		at := chartFigures + i
		s.Set(listChart, at, cells.Plain(one.words))
		s.Name(s.Set(listChart+1, at, formula(cells.Look{Format: "General"}, one.text)), one.name)
	}
	for _, price := range []string{"chart_from", "loan_rate", "MAX(loan_rate,effective_reference_price)", "chart_to"} {
		point(price, plc)
	}
	for _, price := range []string{"chart_from", "loan_rate", "MIN(chart_to,MAX(loan_rate,arc_co_most_price))", "MIN(chart_to,MAX(loan_rate,arc_co_start_price))", "chart_to"} {
		point(price, arc)
	}
	point("national_price", "0")
	point("national_price", replaceAt(plc, "national_price"))
	point("national_price", replaceAt(arc, "national_price"))
	for i, text := range []string{
		"\"PLC\"", "\"ARC-CO at \"&FIXED(county_yield,1,1)&\" \"&yield_unit", "\"price used here\"",
	} {
		s.Set(listChart+2, i+2, formula(cells.Look{}, text))
	}
}

// Rows of the chart's points.
const (
	plcPoints, plcLast   = 2, 5
	arcPoints, arcLast   = 6, 10
	usedPoints, usedLast = 11, 13
	chartFigures         = 17 // the first row of the figures that they are made of
)

// replaceAt puts a place or name for each @ of a formula.
func replaceAt(text, at string) string {
	return strings.ReplaceAll(text, "@", at)
}

// chart is the picture of Front.
func (b *Book) chart() cells.Chart {
	s := b.lists
	line := func(name, from, to int) cells.Series {
		return cells.Series{Name: cells.At(s, listChart+2, name), Prices: cells.Between(cells.At(s, listChart, from), cells.At(s, listChart, to)), Values: cells.Between(cells.At(s, listChart+1, from), cells.At(s, listChart+1, to))}
	}
	plc, arc, used := line(2, plcPoints, plcLast), line(3, arcPoints, arcLast), line(4, usedPoints, usedLast)
	arc.Dashed, arc.Blue, used.Thin, used.Marker = true, true, true, "circle"
	return cells.Chart{
		At: cells.At(b.Front, chartColumn, 1), Width: chartWidth, Height: chartHeight, Size: chartType, Title: "Dollars per base acre by price",
		Series: []cells.Series{plc, arc, used},
	}
}

// The chart of Front: in pixels, and in points.
const (
	chartColumn             = 8
	chartWidth, chartHeight = 470, 480
	chartType               = 14
)
