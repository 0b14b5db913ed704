package yields

import (
	"bytes"
	"strconv"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// layouts in the order in which they are tried. Source of the headings: NASS
// Quick Stats web download, bulk file and interface; RMA county yields report.
var layouts = []layout{
	{"NASS", "Quick Stats, web download", []string{"PROGRAM", "PERIOD", "GEO LEVEL", "STATE ANSI", "COUNTY ANSI", "DATA ITEM", "DOMAIN", "YEAR", "VALUE"}, ',', (*reading).nassWeb},
	{"NASS", "Quick Stats, bulk file", nassHeadings, '\t', (*reading).nassBulk},
	{"NASS", "Quick Stats, interface", nassHeadings, ',', (*reading).nassBulk},
	{"RMA", "county yields report", []string{"COMMODITY CODE", "STATE CODE", "COUNTY CODE", "IRRIGATION PRACTICE CODE", "YIELD YEAR", "YIELD AMOUNT"}, ',', (*reading).rma},
}

var nassHeadings = []string{"SOURCE_DESC", "SHORT_DESC", "DOMAIN_DESC", "AGG_LEVEL_DESC", "STATE_ANSI", "COUNTY_CODE", "COUNTY_NAME", "YEAR", "REFERENCE_PERIOD_DESC", "VALUE"}

// item is what a data item of NASS is about; known is false where it is no
// yield of a covered commodity per acre in its unit.
type item struct {
	known     bool
	commodity crop.Commodity
	class     string
	practice  farm.Practice
	month     monthItem // of what a month is told, where it is no yield
}

// nassCrops are the data items of covered commodities. Upland cotton is left
// out: its lint is not seed cotton.
var nassCrops = map[string]item{
	"CORN, GRAIN": {commodity: crop.Corn}, "SOYBEANS": {commodity: crop.Soybeans}, "SORGHUM, GRAIN": {commodity: crop.GrainSorghum},
	"BARLEY": {commodity: crop.Barley}, "OATS": {commodity: crop.Oats}, "WHEAT": {commodity: crop.Wheat},
	"WHEAT, WINTER": {commodity: crop.Wheat, class: "winter"}, "WHEAT, SPRING, (EXCL DURUM)": {commodity: crop.Wheat, class: "spring"}, "WHEAT, SPRING, DURUM": {commodity: crop.Wheat, class: "durum"},
	"PEANUTS": {commodity: crop.Peanuts}, "RICE, LONG GRAIN": {commodity: crop.LongGrainRice}, "RICE, MEDIUM GRAIN": {commodity: crop.MediumGrainRice},
	"SUNFLOWER": {commodity: crop.SunflowerSeed}, "CANOLA": {commodity: crop.Canola}, "FLAXSEED": {commodity: crop.Flaxseed}, "SAFFLOWER": {commodity: crop.Safflower},
	"LENTILS": {commodity: crop.Lentils}, "PEAS, DRY EDIBLE": {commodity: crop.DryPeas}, "MUSTARD, SEED": {commodity: crop.MustardSeed}, "RAPESEED": {commodity: crop.Rapeseed},
}

// item is itemOf, remembered.
func (r *reading) item(text []byte) item {
	if known, has := r.items[string(text)]; has {
		return known
	}
	found := itemOf(string(text))
	r.items[string(text)] = found
	return found
}

// Item tells what a data item of NASS such as "WHEAT, WINTER, NON-IRRIGATED -
// YIELD, MEASURED IN BU / ACRE" is about: commodity, class of wheat ("" for all)
// and practice. ok is false where it is no yield of a covered commodity per acre
// in its unit.
func Item(text string) (commodity crop.Commodity, class string, practice farm.Practice, ok bool) {
	found := itemOf(text)
	return found.commodity, found.class, found.practice, found.known
}

// itemOf understands a data item.
func itemOf(text string) item {
	what, unit, isYield := strings.Cut(text, " - YIELD, MEASURED IN ")
	practice := farm.AllPractices
	if dry, is := strings.CutSuffix(what, ", NON-IRRIGATED"); is {
		what, practice = dry, farm.Nonirrigated
	} else if wet, is := strings.CutSuffix(what, ", IRRIGATED"); is {
		what, practice = wet, farm.Irrigated
	}
	found, covered := nassCrops[what]
	if !isYield {
		return itemOfMonth(text)
	}
	found.practice = practice
	if covered {
		units := map[string]string{"BU / ACRE": "bu/acre", "LB / ACRE": "lb/acre"}
		found.known = units[unit] == found.commodity.Unit().Yield()
	}
	return found
}

// nassWeb reads a line of the web download.
func (r *reading) nassWeb(fields [][]byte) (entry, string) {
	return r.nass(fields, nassColumns{"PROGRAM", "PERIOD", "GEO LEVEL", "STATE ANSI", "COUNTY ANSI", "COUNTY", "DATA ITEM", "DOMAIN", "YEAR", "VALUE", ""})
}

// nassBulk reads a line of the bulk file or of the interface.
func (r *reading) nassBulk(fields [][]byte) (entry, string) {
	return r.nass(fields, nassColumns{"SOURCE_DESC", "REFERENCE_PERIOD_DESC", "AGG_LEVEL_DESC", "STATE_ANSI", "COUNTY_CODE", "COUNTY_NAME", "SHORT_DESC", "DOMAIN_DESC", "YEAR", "VALUE", "LOAD_TIME"})
}

// nassColumns are the columns of a layout by what they hold.
type nassColumns struct {
	program, period, level, state, county, name, item, domain, year, value, loaded string
}

// otherCounties is NASS's code of the counties it prints together.
const otherCounties = "998"

func (r *reading) nass(fields [][]byte, c nassColumns) (found entry, fault string) {
	about := r.item(r.field(fields, c.item))
	if about.month.known {
		return r.nassMonth(fields, c, about)
	}
	if !about.known || !equal(r.field(fields, c.level), "COUNTY") || !equal(r.field(fields, c.program), "SURVEY") ||
		!equal(r.field(fields, c.period), "YEAR") || !equal(r.field(fields, c.domain), "TOTAL") {
		return found, ""
	}
	county := r.field(fields, c.county)
	if len(county) == 0 || equal(county, otherCounties) {
		return found, "" // other counties together
	}
	value := r.field(fields, c.value)
	if len(value) > 0 && value[0] == '(' {
		return found, "" // withheld: missing, not zero
	}
	y := Yield{Commodity: about.commodity, Class: about.class, Practice: about.practice, CountyName: r.name(r.field(fields, c.name))}
	if y.County, fault = r.code(r.field(fields, c.state), county); fault != "" {
		return found, fault
	}
	if y.CropYear, fault = year(r.field(fields, c.year)); fault != "" {
		return found, fault
	}
	if y.Value, fault = number(value); fault != "" {
		return found, fault
	}
	r.loaded(r.field(fields, c.loaded))
	return entry{kind: countyYield, yield: y}, ""
}

// loaded keeps the newest load time as the edition.
func (r *reading) loaded(text []byte) {
	const layout, date = "2006-01-02 15:04:05", 10
	if len(text) < date || string(text[:date]) <= r.Edition.Format(time.DateOnly) {
		return
	}
	if t, err := time.Parse(layout, string(text)); err == nil {
		r.Edition = t
	}
}

// equal compares without regard to case.
func equal(field []byte, word string) bool {
	return len(field) == len(word) && bytes.EqualFold(field, []byte(word))
}

// code joins state and county to five digits; leading zeros that a spreadsheet
// dropped come back.
func (r *reading) code(state, county []byte) (string, string) {
	const stateDigits, countyDigits = 2, 3
	if !digits(state, stateDigits) || !digits(county, countyDigits) {
		return "", "state " + strconv.Quote(string(state)) + " and county " + strconv.Quote(string(county)) + " are no codes"
	}
	var joined [stateDigits + countyDigits]byte
	for i := range joined {
		joined[i] = '0'
	}
	copy(joined[stateDigits-len(state):], state)
	copy(joined[stateDigits+countyDigits-len(county):], county)
	return r.name(joined[:]), ""
}

func digits(text []byte, most int) bool {
	if len(text) == 0 || len(text) > most {
		return false
	}
	for _, c := range text {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

func year(text []byte) (crop.CropYear, string) {
	y, err := strconv.Atoi(string(text))
	if span := farm.HistoryYears(); err != nil || y < span.First || y > span.Last {
		return 0, "year is " + strconv.Quote(string(text))
	}
	return y, ""
}

// number reads a figure with thousands commas.
func number(text []byte) (float64, string) {
	plain := text
	if bytes.IndexByte(text, ',') >= 0 {
		plain = bytes.ReplaceAll(text, []byte(","), nil)
	}
	x, err := strconv.ParseFloat(string(plain), 64)
	if err != nil || !(x >= 0 && x <= mostYield) { // not a number is refused too
		return 0, "value is " + strconv.Quote(string(text))
	}
	return x, ""
}

// mostYield is above any yield per acre: a judgement.
const mostYield = 50_000

// rma reads a line of the county yields report. Every field but the first is
// printed after a blank.
func (r *reading) rma(fields [][]byte) (found entry, fault string) {
	practices := map[string]farm.Practice{"002": farm.Irrigated, "003": farm.Nonirrigated, "997": farm.AllPractices}
	commodity, known := r.rmaCrop(r.field(fields, "COMMODITY CODE"), r.field(fields, "COMMODITY NAME"))
	if !known {
		return found, ""
	}
	practice, known := practices[string(r.field(fields, "IRRIGATION PRACTICE CODE"))]
	if !known {
		return found, "practice code is " + strconv.Quote(string(r.field(fields, "IRRIGATION PRACTICE CODE")))
	}
	y := Yield{Commodity: commodity, Practice: practice, CountyName: r.name(r.field(fields, "COUNTY NAME"))}
	if y.County, fault = r.code(r.field(fields, "STATE CODE"), r.field(fields, "COUNTY CODE")); fault != "" {
		return found, fault
	}
	if y.CropYear, fault = year(r.field(fields, "YIELD YEAR")); fault != "" {
		return found, fault
	}
	y.Value, fault = number(r.field(fields, "YIELD AMOUNT"))
	return entry{kind: countyYield, yield: y}, fault
}

// rmaCrop understands RMA's commodity by code, then by name.
func (r *reading) rmaCrop(code, name []byte) (crop.Commodity, bool) {
	key := "rma " + string(code)
	if known, has := r.items[key]; has {
		return known.commodity, known.known
	}
	c, ok := crop.ParseCommodity(string(code))
	if !ok {
		c, ok = crop.ParseCommodity(string(name))
	}
	r.items[key] = item{known: ok, commodity: c}
	return c, ok
}
