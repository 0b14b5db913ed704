package market

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"fencerow/program/crop"
)

// WASDE is the season-average farm prices of one report's CSV.
type WASDE struct {
	Number int
	Date   time.Time
	Prices []WASDEPrice
	Notes  []WASDENote
}

// WASDEPrice is one national price in the commodity's unit.
type WASDEPrice struct {
	Line      int
	Commodity crop.Commodity
	CropYear  crop.CropYear
	Price     crop.Price
	Final     bool // false: estimate or projection
}

// WASDENote names a line that was not understood.
type WASDENote struct {
	Line         int
	Text, Reason string
}

// wasdeColumns are the headings used, as two independent sources print them; no
// genuine file was at hand.
var wasdeColumns = []string{"WasdeNumber", "Attribute", "Commodity", "Region", "MarketYear", "ProjEstFlag", "AnnualQuarterFlag", "Value", "Unit", "ReleaseDate"}

// wasdeNames are commodities as the report names them.
var wasdeNames = map[string]crop.Commodity{
	"corn": crop.Corn, "wheat": crop.Wheat, "sorghum": crop.GrainSorghum, "barley": crop.Barley, "oats": crop.Oats, "soybeans": crop.Soybeans,
	"oilseed, soybean": crop.Soybeans, "rice, long-grain": crop.LongGrainRice, "rice, long grain": crop.LongGrainRice,
}

// ReadWASDE reads the CSV of a WASDE report. is is false, and nothing is read
// further, where the first line is not that of such a file.
func ReadWASDE(r io.Reader) (report WASDE, is bool, err error) {
	rows := csv.NewReader(r)
	rows.FieldsPerRecord = -1
	heading, err := rows.Read()
	if err != nil || len(heading) < len(wasdeColumns) || strings.TrimPrefix(heading[0], "\ufeff") != wasdeColumns[0] {
		return report, false, nil
	}
	at := map[string]int{}
	for i, name := range heading {
		at[strings.TrimPrefix(name, "\ufeff")] = i
	}
	for _, name := range wasdeColumns {
		if _, has := at[name]; !has {
			return report, true, fmt.Errorf("the column %s is missing", name)
		}
	}
	for line := 2; ; line++ {
		cells, err := rows.Read()
		switch {
		case errors.Is(err, io.EOF):
			if len(report.Prices) == 0 {
				return report, true, errors.New("it has no season-average farm price of the United States")
			}
			return report, true, nil
		case err != nil:
			return report, true, err
		}
		report.row(line, func(column string) string {
			if i := at[column]; i < len(cells) {
				return strings.TrimSpace(cells[i])
			}
			return ""
		})
	}
}

// row takes in one line: an annual farm price of a covered commodity in the
// United States, or nothing.
func (w *WASDE) row(line int, cell func(string) string) {
	if !strings.Contains(strings.ToLower(cell("Attribute")), "farm price") || !strings.EqualFold(cell("Region"), "United States") || strings.HasPrefix(strings.ToLower(cell("AnnualQuarterFlag")), "q") {
		return
	}
	c, known := wasdeNames[strings.ToLower(cell("Commodity"))]
	if !known {
		return
	}
	note := func(reason string) {
		w.Notes = append(w.Notes, WASDENote{line, cell("Commodity") + " " + cell("MarketYear") + " " + cell("Value"), reason})
	}
	year, err := strconv.Atoi(strings.SplitN(cell("MarketYear"), "/", 2)[0])
	if err != nil {
		note("the market year is not understood")
		return
	}
	price, err := strconv.ParseFloat(cell("Value"), 64)
	if err != nil || !(price > 0) || math.IsInf(price, 1) {
		note("the price is no number")
		return
	}
	unit := map[string]string{"$/bu": "USD/bu", "dollars per bushel": "USD/bu", "$/cwt": "USD/cwt", "dollars per cwt": "USD/cwt"}[strings.ToLower(cell("Unit"))]
	factor, fits := c.PriceFactor(unit)
	if !fits {
		note("the unit " + cell("Unit") + " is not understood")
		return
	}
	if date, err := time.Parse(time.DateOnly, strings.SplitN(cell("ReleaseDate"), "T", 2)[0]); err == nil && date.After(w.Date) {
		w.Date = date
	}
	w.Number, _ = strconv.Atoi(cell("WasdeNumber"))
	w.Prices = append(w.Prices, WASDEPrice{line, c, year, price * factor, cell("ProjEstFlag") == ""})
}
