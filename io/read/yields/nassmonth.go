package yields

import (
	"strings"
	"time"

	"fencerow/program/farm"
)

// monthItem is what a data item of NASS tells of a month of a national price.
type monthItem struct {
	known    bool
	isWeight bool    // the part of the marketing year's sales, in percent; else a price
	factor   float64 // from the unit printed to that of the commodity, or from percent to a share
}

// percent is one of a hundred.
const percent = 0.01

// itemOfMonth understands the data items of monthly prices and sales of a covered
// commodity: "CORN, GRAIN - PRICE RECEIVED, MEASURED IN $ / BU" and "CORN, GRAIN - SALES,
// MEASURED IN PCT OF MKTG YEAR". Of wheat that of all classes counts. Source: NASS Quick
// Stats, data items of crops.
func itemOfMonth(text string) (found item) {
	if what, is := strings.CutSuffix(text, " - SALES, MEASURED IN PCT OF MKTG YEAR"); is {
		found = nassCrops[what]
		found.month = monthItem{known: found.commodity != "" && found.class == "", isWeight: true, factor: percent}
		return found
	}
	what, unit, is := strings.Cut(text, " - PRICE RECEIVED, MEASURED IN $ / ")
	if !is {
		return found
	}
	found = nassCrops[what]
	factor, fits := found.commodity.PriceFactor("USD/" + strings.ToLower(unit))
	found.month = monthItem{known: fits && found.commodity != "" && found.class == "", factor: factor}
	return found
}

// nassMonth reads a line of a month: of the United States, a survey's, in a month of the
// calendar year that the line names.
func (r *reading) nassMonth(fields [][]byte, c nassColumns, about item) (found entry, fault string) {
	month, isMonth := nassMonths[strings.ToUpper(string(r.field(fields, c.period)))]
	if !isMonth || !equal(r.field(fields, c.level), "NATIONAL") || !equal(r.field(fields, c.program), "SURVEY") || !equal(r.field(fields, c.domain), "TOTAL") {
		return found, ""
	}
	value := r.field(fields, c.value)
	if len(value) > 0 && value[0] == '(' {
		return found, "" // withheld: missing, not zero
	}
	calendarYear, fault := year(r.field(fields, c.year))
	if fault != "" {
		return found, fault
	}
	figure, fault := number(value)
	if fault != "" {
		return found, fault
	}
	m := Month{Commodity: about.commodity, Month: time.Date(calendarYear, month, 1, 0, 0, 0, 0, time.UTC), IsWeight: about.month.isWeight}
	var wrong *farm.Fault
	if m.IsWeight {
		m.Weight = figure * about.month.factor
		wrong = farm.CheckShare("the part of the year's sales", m.Weight)
	} else {
		m.Price = figure * about.month.factor
		wrong = farm.CheckPrice("the price", m.Commodity, m.Price)
	}
	if wrong != nil {
		return found, wrong.Reason
	}
	r.loaded(r.field(fields, c.loaded))
	return entry{kind: nationalMonth, month: m}, ""
}

// nassMonths are the months as NASS names them.
var nassMonths = map[string]time.Month{
	"JAN": time.January, "FEB": time.February, "MAR": time.March, "APR": time.April, "MAY": time.May, "JUN": time.June,
	"JUL": time.July, "AUG": time.August, "SEP": time.September, "OCT": time.October, "NOV": time.November, "DEC": time.December,
}
