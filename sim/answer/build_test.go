package answer

import (
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Invented farms, counties and prices for the tests of this package. National
// prices before 2026 are FSA's (ARC/PLC Table 1, 10 April 2025) and, for 2024
// and 2025, NASS's and WASDE-675's.
var pastPrices = map[crop.Commodity][]float64{ // crop years 2020-2025
	crop.Corn:     {4.53, 6.00, 6.54, 4.55, 4.24, 4.15},
	crop.Soybeans: {10.80, 13.30, 14.20, 12.40, 10.00, 10.50},
	crop.Wheat:    {5.05, 7.63, 8.83, 6.96, 5.52, 5.06},
}

const firstPastPrice = 2020

func date(text string) time.Time {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return day
}

func testMarket(asOf string) farm.Market {
	m := farm.Market{AsOf: date(asOf), Source: "test prices",
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

// project adds a projected price; a negative volatility means by date.
func project(m farm.Market, c crop.Commodity, y crop.CropYear, price, volatility float64) {
	o := farm.PriceOutlook{Figure: farm.Figure{Value: price, Status: crop.Projected, Source: "test prices"}, AsOf: m.AsOf}
	if volatility >= 0 {
		o.Volatility = &volatility
	}
	m.Outlook[c][y] = o
}

func number(x float64) *float64 { return &x }

// cornYield is the county yield of the design's own example.
func cornYield(outlook farm.YieldOutlook) farm.CountyYield {
	return farm.CountyYield{Commodity: crop.Corn, Practice: farm.AllPractices,
		Adjusted: map[crop.CropYear][5]float64{2026: {184.20, 187.00, 193.10, 178.43, 190.70}},
		Outlook:  map[crop.CropYear]farm.YieldOutlook{2026: outlook}}
}

func book(yields ...farm.CountyYield) farm.CountyBook {
	return bookOf(farm.County{Code: "99001", Name: "Alder County", Yields: yields})
}

func bookOf(counties ...farm.County) farm.CountyBook {
	source := farm.CountySource{Name: "alder.yaml", Status: crop.Assumed, Counties: map[string]farm.County{}}
	for _, c := range counties {
		source.Counties[c.Code] = c
	}
	return farm.CountyBook{source}
}

func oneFarm(number string, bases ...farm.Base) farm.Farm {
	open := farm.Open
	all := farm.Shares{"operator": 1}
	return farm.Farm{Number: number, County: "99001", Contract: farm.ByCropYear[farm.Contract]{Every: &open},
		Shares: farm.ByCropYear[farm.Shares]{Every: &all}, Bases: bases}
}

func base(c crop.Commodity, acres, paymentYield float64) farm.Base {
	return farm.Base{Commodity: c, BaseAcres: acres, PaymentYield: &paymentYield}
}

// testCase asks about crop year 2026 on 2026-11-25.
func testCase(market farm.Market, counties farm.CountyBook, farms ...farm.Farm) Case {
	return Case{
		Operation: farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: farms},
		Counties:  counties, Market: market, CropYears: []crop.CropYear{2026}, Today: date("2026-11-25"), Seed: 1, Draws: DefaultDraws,
	}
}

func compare(t *testing.T, c Case) Comparison {
	t.Helper()
	got, err := Compare(c)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// only returns the one commodity of the one farm.
func only(t *testing.T, c Case) CommodityPart {
	t.Helper()
	return compare(t, c).CropYears[0].Farms[0].Commodities[0]
}
