package invented

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// pastPrices are the national prices of crop years 2020 to 2025, USD per unit: FSA's
// (ARC/PLC Table 1, 10 April 2025) and, for 2024 and 2025, NASS's and WASDE-675's.
var pastPrices = map[crop.Commodity][]float64{ // crop years 2020-2025
	crop.Corn:     {4.53, 6.00, 6.54, 4.55, 4.24, 4.15},
	crop.Soybeans: {10.80, 13.30, 14.20, 12.40, 10.00, 10.50},
	crop.Wheat:    {5.05, 7.63, 8.83, 6.96, 5.52, 5.06},
}

const firstPastPrice = 2020

// Date reads a day as 2006-01-02; it panics on anything else.
func Date(text string) time.Time {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return day
}

// Market has the final prices of 2020 to 2025, no projection, and a day.
func Market(asOf string) farm.Market {
	m := farm.Market{AsOf: Date(asOf), Source: "test prices",
		MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{}, Outlook: map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}}
	for c, prices := range pastPrices {
		m.MYA[c] = map[crop.CropYear]farm.Figure{}
		m.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
		for i, p := range prices {
			m.MYA[c][firstPastPrice+i] = farm.Figure{Value: p, Status: crop.Agency, Source: "test prices"}
		}
	}
	return m
}

// Project adds a projected price. volatility is the standard deviation of the log price;
// negative: the rule by date.
func Project(m farm.Market, c crop.Commodity, y crop.CropYear, price, volatility float64) {
	o := farm.PriceOutlook{Figure: farm.Figure{Value: price, Status: crop.Projected, Source: "test prices"}, AsOf: m.AsOf}
	if volatility >= 0 {
		o.Volatility = &volatility
	}
	m.Outlook[c][y] = o
}

// Number returns a pointer, for figures that may be missing.
func Number(x float64) *float64 { return &x }

// CornYield is a county yield of corn whose benchmark for 2026 is 187.30 bushels per
// acre.
func CornYield(outlook farm.YieldOutlook) farm.CountyYield {
	return farm.CountyYield{Commodity: crop.Corn, Practice: farm.AllPractices,
		Adjusted: map[crop.CropYear][5]float64{2026: {184.20, 187.00, 193.10, 178.43, 190.70}},
		Outlook:  map[crop.CropYear]farm.YieldOutlook{2026: outlook}}
}

// Book is the county book of county 99001 with some yields.
func Book(yields ...farm.CountyYield) farm.CountyBook {
	return BookOf(farm.County{Code: "99001", Name: "Alder County", Yields: yields})
}

// BookOf is a county book of some counties.
func BookOf(counties ...farm.County) farm.CountyBook {
	source := farm.CountySource{Name: "alder.yaml", Status: crop.Assumed, Counties: map[string]farm.County{}}
	for _, c := range counties {
		source.Counties[c.Code] = c
	}
	return farm.CountyBook{source}
}

// OneFarm is a farm in county 99001 whose one producer is "operator".
func OneFarm(number string, bases ...farm.Base) farm.Farm {
	open := farm.Open
	all := farm.Shares{"operator": 1}
	return farm.Farm{Number: number, County: "99001", Contract: farm.ByCropYear[farm.Contract]{Every: &open},
		Shares: farm.ByCropYear[farm.Shares]{Every: &all}, Bases: bases}
}

// Base is a base with its payment yield.
func Base(c crop.Commodity, acres, paymentYield float64) farm.Base {
	return farm.Base{Commodity: c, BaseAcres: acres, PaymentYield: &paymentYield}
}

// AsJSON writes a value as JSON.
func AsJSON(t *testing.T, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// HalfUp rounds half up, as by hand.
func HalfUp(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Floor(x*scale+0.5+1e-6) / scale
}
