package builtin

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"fencerow/io/read/past"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// The agencies' files of past crop years beside those of county yields.
const (
	baseFile     = "fsa/county_base_acres_2014_2023.csv.gz"
	enrolledFile = "fsa/enrolled_base_acres_py2015_2024.csv"
	wasdeFile    = "wasde/us_season_average_price_2010_2025.csv"
)

// scored are the commodities whose past crop years are scored.
var scored = []crop.Commodity{crop.Corn, crop.GrainSorghum, crop.Soybeans, crop.Wheat}

// pastText writes the table of past crop years from the agencies' files.
func pastText(t testing.TB) string {
	p, err := past.Read(shared)
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	line := func(kind string, c crop.Commodity, practice farm.Practice, y crop.CropYear, values ...string) {
		year := ""
		if y != 0 {
			year = strconv.Itoa(y)
		}
		fmt.Fprintf(&text, "%s,%s,%s,%s,%s\n", kind, c, practice, year, strings.Join(values, ","))
	}
	text.WriteString(pastHeading)
	for _, f := range p.Forecasts {
		asked := f.Date.Month() == time.May || f.Date.Month() == time.November
		ending := f.Date.Month() == time.May && f.Date.Year() == f.CropYear+1 // the price of the marketing year that ends
		if asked && (f.Date.Year() == f.CropYear || ending) && f.Date.Year() >= 2014 {
			line(kindForecast, f.Commodity, "", f.CropYear, f.Date.Format(time.DateOnly), strings.TrimRight(strconv.FormatFloat(f.Price, 'f', 4, 64), "0"))
		}
	}
	for _, c := range scored {
		for y := crop.CropYear(2014); y <= 2025; y++ {
			if e, has := p.Enrolled[c][y]; has {
				line(kindEnrolled, c, "", y, plain(e.PLC), plain(e.ARCCO))
			}
		}
	}
	for _, c := range scored {
		line(kindBase, c, "", 0, column(p.Rows, func(r farm.PastRow) bool { return r.Commodity == c }, func(r farm.PastRow) string { return ifKnown(r.BaseAcres) })...)
		line(kindOnBase, c, "", 0, column(p.Rows, func(r farm.PastRow) bool { return r.Commodity == c }, func(r farm.PastRow) string { return ifKnown(r.PaymentYield) })...)
		for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
			for y := crop.CropYear(2019); y <= 2025; y++ {
				values := column(p.Rows, func(r farm.PastRow) bool { return r.Commodity == c && r.Practice == practice && r.CropYear == y }, func(r farm.PastRow) string { return fiveLessBenchmark(t, r) })
				if len(values) > 0 {
					line(kindFive, c, practice, y, values...)
				}
			}
		}
	}
	return text.String()
}

// column returns a figure of some rows, one for each county in the order of codes.
func column(rows []farm.PastRow, some func(farm.PastRow) bool, figure func(farm.PastRow) string) (values []string) {
	of := map[string]string{}
	for _, r := range rows {
		if some(r) {
			of[r.County] = figure(r)
		}
	}
	for _, county := range countiesOf(rows, some) {
		values = append(values, of[county])
	}
	return values
}

// plain writes a number in full; ifKnown leaves out one that is not known.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func ifKnown(x float64) string {
	if x == 0 {
		return ""
	}
	return plain(x)
}

// fiveLessBenchmark returns the sum of the five adjusted yields less five times the benchmark
// yield, in hundredths.
func fiveLessBenchmark(t testing.TB, r farm.PastRow) string {
	if r.Adjusted == nil {
		return ""
	}
	sum := 0.0
	for _, y := range r.Adjusted {
		sum += y - r.BenchmarkYield
	}
	whole := math.Round(100 * sum)
	if math.Abs(100*sum-whole) > 1e-6 {
		t.Errorf("%+v: adjusted yields of more than two decimals", r)
	}
	return plain(whole + 0)
}
