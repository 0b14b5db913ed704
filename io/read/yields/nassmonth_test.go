package yields

import (
	"math"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
)

const webHeading = `"Program","Year","Period","Week Ending","Geo Level","State","State ANSI","Ag District","Ag District Code","County","County ANSI","Zip Code","Region","watershed_code","Watershed","Commodity","Data Item","Domain","Domain Category","Value","CV (%)"`

// monthLine is a line of NASS's web download.
func monthLine(program, year, period, level, item, value string) string {
	return `"` + strings.Join([]string{program, year, period, "", level, "US TOTAL", "", "", "", "", "", "", "", "00000000", "", "X", item, "TOTAL", "NOT SPECIFIED", value, ""}, `","`) + `"`
}

// Months of national prices and sales are read, prices of States, of years and of classes
// are passed over, and what is no price is named. The figures are invented; the layout is
// that of the web download, the data items are NASS's.
func TestMonthsOfPrices(t *testing.T) {
	text := strings.Join([]string{webHeading,
		monthLine("SURVEY", "2026", "SEP", "NATIONAL", "CORN, GRAIN - PRICE RECEIVED, MEASURED IN $ / BU", "4.21"),
		monthLine("SURVEY", "2025", "SEP", "NATIONAL", "CORN, GRAIN - SALES, MEASURED IN PCT OF MKTG YEAR", "8"),
		monthLine("SURVEY", "2026", "AUG", "NATIONAL", "RICE, LONG GRAIN - PRICE RECEIVED, MEASURED IN $ / CWT", "13.40"),
		monthLine("SURVEY", "2026", "AUG", "NATIONAL", "SORGHUM, GRAIN - PRICE RECEIVED, MEASURED IN $ / CWT", "7.00"),
		monthLine("SURVEY", "2026", "SEP", "STATE", "CORN, GRAIN - PRICE RECEIVED, MEASURED IN $ / BU", "4.11"),
		monthLine("SURVEY", "2026", "MARKETING YEAR", "NATIONAL", "CORN, GRAIN - PRICE RECEIVED, MEASURED IN $ / BU", "4.50"),
		monthLine("SURVEY", "2026", "SEP", "NATIONAL", "WHEAT, WINTER - PRICE RECEIVED, MEASURED IN $ / BU", "5.50"),
		monthLine("SURVEY", "2026", "OCT", "NATIONAL", "WHEAT - PRICE RECEIVED, MEASURED IN $ / BU", "(NA)"),
		monthLine("SURVEY", "2026", "OCT", "NATIONAL", "SOYBEANS - PRICE RECEIVED, MEASURED IN $ / BU", "1010"),
	}, "\n")
	var months []Month
	file, err := Read(strings.NewReader(text), func(File) error { return nil }, func(Yield) error { t.Error("a county yield"); return nil }, func(m Month) error { months = append(months, m); return nil })
	if err != nil {
		t.Fatal(err)
	}
	september, august := time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC), time.Date(2026, 8, 1, 0, 0, 0, 0, time.UTC)
	want := []Month{
		{Line: 2, Commodity: crop.Corn, Month: september, Price: 4.21},
		{Line: 3, Commodity: crop.Corn, Month: september.AddDate(-1, 0, 0), IsWeight: true, Weight: 0.08},
		{Line: 4, Commodity: crop.LongGrainRice, Month: august, Price: 0.134},
		{Line: 5, Commodity: crop.GrainSorghum, Month: august, Price: 3.92}, // 7.00 a hundredweight, 56 pounds a bushel
	}
	if len(months) != len(want) {
		t.Fatalf("%+v", months)
	}
	for i, m := range months {
		near := math.Abs(m.Price-want[i].Price) < 1e-12 && math.Abs(m.Weight-want[i].Weight) < 1e-12
		if m.Price, m.Weight = want[i].Price, want[i].Weight; m != want[i] || !near {
			t.Errorf("%+v, want %+v", months[i], want[i])
		}
	}
	if file.Noted != 1 || file.Notes[0].Line != 10 {
		t.Errorf("notes: %+v; want one of line 10, whose price is none of a bushel", file.Notes)
	}
}
