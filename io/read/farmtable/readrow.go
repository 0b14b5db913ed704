package farmtable

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"fencerow/io/read/lines"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// rowReader is one row that is being read.
type rowReader struct {
	*Reader
	cells   [columnCount]string
	spoiled [columnCount]bool // refused before its meaning was looked at
	row     Row
	refused []Refusal
}

// allRows is the operation of a table that names none.
const allRows = "all"

func (t *Reader) readRow(from lines.Line) (Row, []Refusal) {
	if t.reading == nil {
		t.reading = &rowReader{}
	}
	r := t.reading
	*r = rowReader{Reader: t, row: Row{Line: from.Number}}
	r.takeCells(from.Cells)
	r.takeMerged()
	r.noteFilled()
	r.readNames()
	r.readCounties()
	r.readBase()
	r.readElection()
	r.readFarm()
	r.readDecided()
	r.readInsured()
	return r.row, r.refused
}

func (r *rowReader) refuse(c column, reason, hint string) {
	r.refused = append(r.refused, Refusal{r.row.Line, columns[c].name, r.cells[c], reason, hint})
}

// check refuses the cell where there is a fault.
func (r *rowReader) check(c column, fault *farm.Fault) bool {
	if fault != nil {
		r.refuse(c, fault.Reason, fault.Hint)
	}
	return fault == nil
}

// mostText is the most bytes a value may have: a judgement, no name or number of
// a farm comes near.
const mostText = 100

// takeCells sorts the cells of a line by column and refuses what is no value.
func (r *rowReader) takeCells(cells []string) {
	for c, at := range r.place {
		if at == absent || at >= len(cells) {
			continue
		}
		c, text := column(c), typed(cells[at])
		r.cells[c] = text
		reason, hint := "", ""
		switch {
		case len(text) <= mostText && isPlainText(text):
			if isTruth(text) && !mayBeTruth(c) {
				reason, hint = whyNoTruth(text)
			}
		case !utf8.ValidString(text):
			text = strings.ToValidUTF8(text, "?")
			reason, hint = "is not text in UTF-8 or Windows-1252", "in the spreadsheet program choose \"CSV UTF-8\" when saving"
		case len(text) > mostText:
			text = strings.ToValidUTF8(text[:mostText], "") + "..."
			reason, hint = fmt.Sprintf("has more than %d letters", mostText), "shorten it; look for a quotation mark that is never closed"
		case strings.ContainsFunc(text, unicode.IsControl):
			reason, hint = "has a line break or control character", "write it on one line"
		case spelling.Hidden(text) != "":
			reason, hint = "has a character that is not seen, "+spelling.Hidden(text), "type it again, without copying"
		case strings.HasPrefix(text, "#") && spreadsheetError.MatchString(text):
			reason, hint = "is "+text+", an error of the spreadsheet", "correct the formula, or type the value"
		case isTruth(text) && !mayBeTruth(c):
			reason, hint = whyNoTruth(text)
		}
		if r.cells[c] = text; reason != "" {
			r.refuse(c, columns[c].name+" "+reason, hint)
			r.cells[c], r.spoiled[c] = "", true
		}
	}
	for c, constant := range r.profile.constants {
		r.cells[c] = constant.text
	}
	for _, c := range nameColumns {
		if reason, hint := spelling.NameFault(r.cells[c]); reason != "" {
			r.refuse(c, columns[c].name+" "+reason, hint)
			r.cells[c], r.spoiled[c] = "", true
		}
	}
	for at, cell := range cells {
		if text := strings.TrimSpace(cell); text != "" && (at >= len(r.headed) || !r.headed[at]) {
			text = strings.ToValidUTF8(text[:min(len(text), mostText)], "?")
			r.refused = append(r.refused, Refusal{r.row.Line, "", text, fmt.Sprintf("the row has a value in place %d, under no heading", at+1), "put values that hold the separator in quotation marks, or give the column a heading"})
			return
		}
	}
}

// nameColumns hold names and numbers of clients, operations, farms, tracts and people.
var nameColumns = []column{clientColumn, operationColumn, farmColumn, tractColumn, producerColumn, mergeWithColumn}

// noteFilled remembers which columns have a value in some row.
func (r *rowReader) noteFilled() {
	r.rows++
	for c, text := range r.cells {
		given := text != "" && !(column(c) == cropYearColumn && isDash(text))
		r.filled[c] = r.filled[c] || given || r.spoiled[c]
	}
}

// isPlainText reports whether a value has printed ASCII characters alone and is no error of a
// spreadsheet, as most values.
func isPlainText(text string) bool {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c > '~' {
			return false
		}
	}
	return text == "" || text[0] != '#'
}

// whyNoTruth says why a yes or no is no value of its column.
func whyNoTruth(text string) (reason, hint string) {
	return "is " + text + ", a yes or no", "type the value itself, or correct the formula that gives yes or no"
}

// isTruth reports whether a spreadsheet program writes a yes or no so.
func isTruth(text string) bool {
	return strings.EqualFold(text, "TRUE") || strings.EqualFold(text, "FALSE")
}

// mayBeTruth reports whether a column is of yes or no, or of names, which may be any word.
func mayBeTruth(c column) bool {
	return slices.Contains([]column{staxColumn, idleColumn, signedColumn, clientColumn, operationColumn, producerColumn}, c)
}

var (
	spreadsheetError = regexp.MustCompile(`^#(REF|N/A|DIV/0|VALUE|NAME|NULL|NUM|SPILL|CALC)[!?]?$|^#+$`)
	textFormula      = regexp.MustCompile(`^="([^"]*)"$`)
	textMark         = regexp.MustCompile(`^'([0-9]+[A-Za-z]?)$`)
)

// typed returns a value as it was meant: without blanks around it and without
// what spreadsheet users write to keep leading zeros, ="0417" and '0417.
func typed(cell string) string {
	text := strings.TrimSpace(cell)
	if text == "" || text[0] != '=' && text[0] != '\'' { // most values
		return text
	}
	if formula := textFormula.FindStringSubmatch(text); formula != nil {
		text = strings.TrimSpace(formula[1])
	}
	if marked := textMark.FindStringSubmatch(text); marked != nil {
		text = marked[1]
	}
	return text
}

// required refuses a cell that is blank and has to have a value.
func (r *rowReader) required(c column) (text string, ok bool) {
	if text = r.cells[c]; text == "" && !r.spoiled[c] {
		r.refuse(c, columns[c].name+" is blank", "give "+columns[c].meaning+". A row needs farm, county, commodity and base_acres")
	}
	return text, text != ""
}

func (r *rowReader) readNames() {
	r.row.Client, r.row.Operation = r.cells[clientColumn], r.cells[operationColumn]
	if r.row.Operation == "" {
		r.row.Operation = r.row.Client
	}
	if r.row.Operation == "" {
		r.row.Operation = allRows
	}
	r.row.Farm, _ = r.required(farmColumn)
	r.row.Tract, r.row.Producer, r.row.MergeWith = r.cells[tractColumn], r.cells[producerColumn], r.cells[mergeWithColumn]
}

// readBase reads the base of one commodity.
func (r *rowReader) readBase() {
	if text, ok := r.required(commodityColumn); ok {
		r.readCommodity(text)
	}
	r.readCropYear()
	if _, ok := r.required(baseAcresColumn); ok {
		if acres := r.number(baseAcresColumn); acres != nil && r.check(baseAcresColumn, farm.CheckBaseAcres("base_acres", *acres)) {
			r.row.BaseAcres = *acres
		} else if acres == nil && isDash(r.cells[baseAcresColumn]) {
			r.refuse(baseAcresColumn, "base_acres is "+r.cells[baseAcresColumn], "leave out the row of a crop without base on the farm")
		}
	}
	if c := r.row.Commodity; c != "" {
		if yield := r.number(paymentYieldColumn); yield != nil && r.check(paymentYieldColumn, farm.CheckYield("payment_yield of "+c.Name(), c, farm.Usual, *yield)) {
			r.row.PaymentYield = yield
		}
	}
	r.row.IrrigatedShare = r.share(irrigatedShareColumn)
	r.row.CRPReduction = r.acres(crpReductionColumn)
	r.row.Share = r.share(shareColumn)
}

// readCommodity reads a crop. What was understood in an earlier row is not asked again.
func (r *rowReader) readCommodity(text string) {
	known := false
	if r.row.Commodity, known = r.crops[text]; known {
		return
	}
	if r.row.Commodity, known = crop.ParseCommodity(text); known {
		keep(&r.crops, strings.Clone(text), r.row.Commodity)
		return
	}
	hint := "write a covered crop as FSA does: corn, soybeans, grain sorghum, long grain rice, seed cotton ..."
	if strings.HasPrefix(spelling.Fold(text), "unassigned") {
		hint = "put these acres into a column unassigned_base_acres of the farm's other rows, and leave out this row"
	}
	r.refuse(commodityColumn, fmt.Sprintf("commodity is %q", text), hint)
}

// isDigits reports whether a text has digits alone.
func isDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return text != ""
}

// mostKept is how many values of a column are remembered: more than a table has crops,
// States and counties.
const mostKept = 5000

// keep remembers what a value means. A text is to be a copy: a part of a row holds all of it.
func keep[K comparable, V any](known *map[K]V, text K, meaning V) {
	if *known == nil {
		*known = map[K]V{}
	}
	if len(*known) < mostKept {
		(*known)[text] = meaning
	}
}

func (r *rowReader) readCropYear() {
	text := strings.TrimSuffix(r.cells[cropYearColumn], ".0")
	if isDash(text) || text == "" {
		return
	}
	const digits = 4
	if len(text) != digits || !isDigits(text) {
		r.refuse(cropYearColumn, fmt.Sprintf("crop_year is %q", text), "write the year of harvest in four digits: 2026")
		return
	}
	year, _ := strconv.Atoi(text) // are digits
	if !r.check(cropYearColumn, farm.ProgramYears().Check("crop_year", year)) {
		return
	}
	if c := r.row.Commodity; c == "" || r.check(cropYearColumn, farm.CheckCovered(c, year)) {
		r.row.CropYear = year
	}
}

// readFarm reads what holds for the whole farm.
func (r *rowReader) readFarm() {
	r.row.STAXBought = r.truth(staxColumn)
	r.row.Idle20092017 = r.truth(idleColumn)
	r.row.TotalAcres = r.acres(totalAcresColumn)
	r.row.Cropland = r.acres(croplandColumn)
	r.row.Unassigned = r.acres(unassignedColumn)
	if m := r.row.MergeWith; m != "" && (m == r.row.Farm || m == r.row.FarmKey()) {
		r.refuse(mergeWithColumn, "merge_with names the farm itself", "name the other farm, or leave it blank")
	}
}
