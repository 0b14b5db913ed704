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
		s.Set(listChart+1, row, formula(cells.Look{Format: "General"}, "IF(chosen_row=0,\"\","+replaceAt(paid, at)+")"))
	}
	plc := rounded("rate_decimals", "MAX(0,effective_reference_price-MAX(@,loan_rate))") + "*plc_yield*payment_acre_share"
	arc := "MIN(most_paid,MAX(0,guarantee-county_yield*MAX(@,loan_rate)))*payment_acre_share"
	for i, one := range []struct{ name, words, text string }{
		{"chart_from", "chart: least price", "0.85*MIN(loan_rate,national_price)"},
		{"arc_co_most_price", "price at which ARC-CO pays its most", "IF(county_yield>0,MAX(0,guarantee-most_paid)/county_yield,0)"},
		{"arc_co_start_price", "price at which ARC-CO starts", "IF(county_yield>0,guarantee/county_yield,2*effective_reference_price)"},
		{"chart_to", "chart: highest price", "1.1*MAX(effective_reference_price,national_price,price_at_start,IF(county_yield_at_start>0,MIN(guarantee/county_yield_at_start,2*effective_reference_price),0))"},
		{"cross_flat", "price at which PLC crosses ARC-CO's most; 0: none", "IF(most_paid>0,IFERROR(" + within("effective_reference_price-most_paid/plc_yield", "@>loan_rate", "@<=arc_co_most_price") + ",0),0)"},
		{"cross_slope", "price at which PLC crosses ARC-CO's slope; 0: none", "IFERROR(" + within("(guarantee-effective_reference_price*plc_yield)/(county_yield-plc_yield)", "@>MAX(loan_rate,arc_co_most_price)", "@<MIN(effective_reference_price,arc_co_start_price)") + ",0)"},
		{"cross_words", "what the chart says of it", "IF(cross_flat>0,\"The lines cross at about $\"&FIXED(cross_flat,price_decimals,1)&IF(cross_slope>0,\" and $\"&FIXED(cross_slope,price_decimals,1),\"\"),IF(cross_slope>0,\"The lines cross at about $\"&FIXED(cross_slope,price_decimals,1),\"The lines do not cross\"))"},
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
	point("national_price", replaceAt(plc, "national_price"))
	point("national_price", replaceAt(arc, "national_price"))
	for i, text := range []string{
		"\"PLC\"", "\"ARC-CO\"&IF(chosen_row=0,\"\",\" at \"&FIXED(county_yield,1,1)&\" \"&yield_unit)", "\"price used here\"",
	} {
		s.Set(listChart+2, i+2, formula(cells.Look{}, text))
	}
}

// Rows of the chart's points.
const (
	plcPoints, plcLast   = 2, 5
	arcPoints, arcLast   = 6, 10
	usedPoints, usedLast = 11, 12
	chartFigures         = 17 // the first row of the figures that they are made of
)

// within is a price where both conditions hold of it, else 0; @ is the price.
func within(price, above, below string) string {
	at := "(" + price + ")"
	return "IF(AND(" + replaceAt(above, at) + "," + replaceAt(below, at) + ")," + price + ",0)"
}

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
		At: cells.At(b.Front, chartColumn, 1), Width: chartWidth, Height: chartHeight, Size: chartType, Title: "Dollars per base acre by price", Across: "national price, dollars per unit",
		Series: []cells.Series{plc, arc, used},
	}
}

// The chart of Front: in pixels, and in points.
const (
	chartColumn             = 8
	chartWidth, chartHeight = 458, 455
	chartType               = 14
)
