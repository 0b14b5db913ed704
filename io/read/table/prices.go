package table

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fencerow/program/crop"
)

// PriceTable is one of FSA's small price workbooks: Table 1 (market year average
// prices), 2 (effective reference prices), 3 (PLC rates) or 4 (ARC-CO prices).
// Of each it keeps the national marketing-year average prices; the annual
// benchmark prices of Table 4 are raised to a floor and are left out.
type PriceTable struct {
	Number int
	Title  string
	AsOf   time.Time
	Prices []TablePrice
	Notes  []Note
}

// TablePrice is one marketing-year average price in the commodity's unit.
type TablePrice struct {
	Line      int
	Commodity crop.Commodity
	CropYear  crop.CropYear
	Price     crop.Price
	Final     bool // false: projected
}

var (
	tableTitle = regexp.MustCompile(`(?i)^\s*TABLE\s+([1-4])\.`)
	asOfWords  = regexp.MustCompile(`^\s*([A-Z][a-z]+ \d{1,2}, \d{4})`)
	myaHeading = regexp.MustCompile(`(?i)^(final|projected \(p\) or final \(f\))?\s*(\d{4})/\d{2} MYA Price`)
	footnote   = regexp.MustCompile(`(\s+\d+/)+\s*$`)
)

// otherTables are FSA workbooks that are known and not read, by words of their
// first lines.
var otherTables = []struct{ words, name string }{
	{"covered commodity contract", "enrolled base acres by program"},
	{"table 5.", "ARC-IC prices (Table 5)"},
	{"agriculture risk coverage-county (arc-co) payments", "payments by State"},
	{"state name", "payments by State"},
}

// mostPriceLines is how many lines of a price table are read: it has some 40.
const mostPriceLines = 300

// ReadPrices reads a price workbook, or refuses it with farm.Mistakes.
func ReadPrices(path string) (PriceTable, error) {
	book, err := openWorkbook(path)
	if err != nil {
		return PriceTable{}, err
	}
	defer book.Close()
	name := book.GetSheetList()[0]
	rows, err := book.Rows(name)
	if err != nil {
		return PriceTable{}, refuse(path, name, "the sheet cannot be read: "+err.Error(), hintDownload)
	}
	defer rows.Close()
	t := PriceTable{}
	columns := map[int]priceColumn{}
	var top []string
	for line := 1; rows.Next() && line <= mostPriceLines; line++ {
		cells, err := rows.Columns()
		if err != nil {
			return t, refuse(path, name, fmt.Sprintf("line %d cannot be read: %v", line, err), hintDownload)
		}
		if len(columns) == 0 {
			top = append(top, strings.Join(cells, " "))
			t.head(cells)
		}
		if found := priceColumns(cells); len(found) > 0 {
			columns = found
			continue
		}
		if len(columns) > 0 && len(cells) > 0 {
			t.row(line, cells, columns)
		}
	}
	switch {
	case t.Number == 0 || len(columns) == 0:
		return t, refuse(path, name, notPrices(top), "the workbooks read here are FSA's ARC-CO county table, its price Tables 1 to 4, and county base acres")
	case t.AsOf.IsZero():
		return t, refuse(path, name, "the table has no date in its first lines", hintUntouched)
	case len(t.Prices) == 0:
		return t, refuse(path, name, "the table has no price that could be read", hintUntouched)
	}
	return t, nil
}

// notPrices says what a workbook is instead.
func notPrices(top []string) string {
	text := strings.ToLower(strings.Join(top, " "))
	for _, other := range otherTables {
		if strings.Contains(text, other.words) {
			return "this workbook holds " + other.name + ", which is not read here"
		}
	}
	return "this workbook is none of the FSA tables read here"
}

// head reads title and date from the lines above the headings.
func (t *PriceTable) head(cells []string) {
	if len(cells) == 0 {
		return
	}
	if m := tableTitle.FindStringSubmatch(cells[0]); m != nil {
		t.Number, _ = strconv.Atoi(m[1])
		t.Title = strings.Join(strings.Fields(cells[0]), " ")
	}
	if m := asOfWords.FindStringSubmatch(cells[0]); m != nil {
		t.AsOf, _ = time.Parse("January 2, 2006", m[1])
	}
}

// priceColumn is a column of prices; where flagged the next one says F or P.
type priceColumn struct {
	cropYear crop.CropYear
	flagged  bool
}

// priceColumns finds the headings of marketing-year average prices.
func priceColumns(cells []string) map[int]priceColumn {
	found := map[int]priceColumn{}
	for i, cell := range cells {
		m := myaHeading.FindStringSubmatch(strings.Join(strings.Fields(cell), " "))
		if m == nil {
			continue
		}
		y, _ := strconv.Atoi(m[2])
		found[i] = priceColumn{y, strings.HasPrefix(strings.ToLower(m[1]), "projected")}
	}
	return found
}

// row reads the prices of one commodity.
func (t *PriceTable) row(line int, cells []string, columns map[int]priceColumn) {
	name := footnote.ReplaceAllString(strings.TrimSpace(cells[0]), "")
	c, known := crop.ParseCommodity(name)
	if !known {
		if len(cells) > 4 && strings.TrimSpace(cells[4]) != "" { // not a footnote
			t.Notes = append(t.Notes, Note{line, name, "unknown crop"})
		}
		return
	}
	for i, column := range columns {
		if i >= len(cells) || strings.TrimSpace(cells[i]) == "" {
			continue
		}
		price, err := figure(strings.TrimSpace(cells[i]), poundPriceDecimals)
		if err != nil || price == nil {
			t.Notes = append(t.Notes, Note{line, name, fmt.Sprintf("price %q is no number", cells[i])})
			continue
		}
		final := !column.flagged || i+1 < len(cells) && strings.TrimSpace(cells[i+1]) == "F"
		t.Prices = append(t.Prices, TablePrice{line, c, column.cropYear, *price, final})
	}
}
