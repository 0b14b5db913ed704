package invented

import (
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// CountyOfCorn is a county with adjusted corn yields around height for 2016, 2019 and
// 2026, alike for each practice.
func CountyOfCorn(code string, height float64, practices ...farm.Practice) farm.County {
	county := farm.County{Code: code}
	for _, p := range practices {
		five := [5]float64{height - 20, height - 10, height, height + 10, height + 20}
		county.Yields = append(county.Yields, farm.CountyYield{Commodity: crop.Corn, Practice: p,
			Adjusted: map[crop.CropYear][5]float64{2016: five, 2019: five, 2026: five}})
	}
	return county
}

// OwnFarm is a farm with own corn yields of 160 in each of the five years of
// 2026, planted in 2026. Its own benchmark revenue is the Olympic average of
// 160 x 4.53, 6.00, 6.54, 4.55, 4.42 (4.24 raised to the floor): the prices
// 4.53, 6.00, 4.55 remain, (724.80 + 960.00 + 728.00)/3 = 804.27.
func OwnFarm(number string, yield *float64) farm.Farm {
	f := OneFarm(number, Base(crop.Corn, 120, 150))
	f.History = map[crop.Commodity]map[crop.CropYear]float64{crop.Corn: {2020: 160, 2021: 160, 2022: 160, 2023: 160, 2024: 160}}
	f.Planted = []farm.Planting{{CropYear: 2026, Commodity: "corn", Practice: farm.AllPractices, Acres: 100, Yield: yield}}
	return f
}

// CanolaMarket has canola's last final price in 2024, soybean projections for 2025 and
// 2026, and a soybean path that is flat at the one of 2026.
func CanolaMarket() farm.Market {
	m := Market("2026-11-10")
	m.MYA[crop.Canola] = map[crop.CropYear]farm.Figure{}
	for i, p := range []float64{0.184, 0.329, 0.298, 0.243, 0.202} {
		m.MYA[crop.Canola][2020+i] = farm.Figure{Value: p, Status: crop.Agency, Source: "test prices"}
	}
	m.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{crop.Canola: {2024: Date("2025-12-23")}}
	delete(m.MYA[crop.Soybeans], 2025)
	Project(m, crop.Soybeans, 2025, 10.50, -1)
	Project(m, crop.Soybeans, 2026, 12.00, -1)
	m.Path = map[crop.Commodity]map[crop.CropYear]farm.Figure{crop.Soybeans: {}}
	for y := 2025; y <= 2031; y++ {
		m.Path[crop.Soybeans][y] = farm.Figure{Value: 12.00, Status: crop.Projected, Source: "test path"}
	}
	return m
}

// Rising is a series of yields that rises by one unit a year.
func Rising(first, last crop.CropYear, at float64) map[crop.CropYear]float64 {
	series := map[crop.CropYear]float64{}
	for y := first; y <= last; y++ {
		series[y] = at + float64(y-first)
	}
	return series
}

// LongMarket has invented prices for every year that some benchmark needs.
func LongMarket() farm.Market {
	m := Market("2026-11-10")
	for c, start := range map[crop.Commodity]float64{crop.Corn: 3.20, crop.Soybeans: 8.10, crop.Peanuts: 0.19, crop.LongGrainRice: 0.105} {
		m.MYA[c] = map[crop.CropYear]farm.Figure{}
		m.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
		for y := 2008; y < 2031; y++ {
			wave := 1 + 0.37*float64((y*7)%11)/10 // up and down, no order
			decimals := 2
			if start < 1 {
				decimals = 4
			}
			m.MYA[c][y] = farm.Figure{Value: HalfUp(start*wave, decimals), Status: crop.Agency, Source: "invented"}
		}
	}
	return m
}

// EveryYear is a county yield with adjusted yields around height for every crop year.
func EveryYear(c crop.Commodity, p farm.Practice, height float64) farm.CountyYield {
	u := farm.CountyYield{Commodity: c, Practice: p, Adjusted: map[crop.CropYear][5]float64{}, Plug: map[crop.CropYear]float64{}}
	for y := 2014; y <= 2031; y++ {
		for i := range 5 {
			five := u.Adjusted[y]
			five[i] = HalfUp(height*(0.8+0.03*float64((y*5+i*7)%13)), 2)
			u.Adjusted[y] = five
		}
		u.Plug[y-6] = HalfUp(0.7*height, 2)
	}
	return u
}

// TwoPractices is a county with irrigated and nonirrigated corn, with these benchmark
// yields and these mean yields of 2026.
func TwoPractices(code string, irrigated, nonirrigated, irrigatedMean, nonirrigatedMean float64) farm.County {
	county := farm.County{Code: code}
	for _, p := range []struct {
		practice        farm.Practice
		benchmark, mean float64
	}{{farm.Irrigated, irrigated, irrigatedMean}, {farm.Nonirrigated, nonirrigated, nonirrigatedMean}} {
		county.Yields = append(county.Yields, farm.CountyYield{Commodity: crop.Corn, Practice: p.practice,
			BenchmarkYield: map[crop.CropYear]float64{2026: p.benchmark},
			Outlook:        map[crop.CropYear]farm.YieldOutlook{2026: {Yield: Number(p.mean), KnownFrom: "local_harvest"}}})
	}
	return county
}

// LongHistory is a county series 1995 to 2024 that rises along a trend, with a drought
// in 2012.
func LongHistory() map[crop.CropYear]crop.Yield {
	history := map[crop.CropYear]crop.Yield{}
	for y := 1995; y <= 2024; y++ {
		history[y] = 130 + 1.8*float64(y-1995) + 4*float64(y%3-1)
	}
	history[2012] -= 35
	return history
}

// PublishedBook is the county with a NASS series of all years from first to last.
func PublishedBook(first, last crop.CropYear) farm.CountyBook {
	yield := CornYield(farm.YieldOutlook{Yield: Number(180), KnownFrom: "local_harvest", SD: Number(10)})
	yield.Harvested = map[crop.CropYear]float64{}
	for y := first; y <= last; y++ {
		yield.Harvested[y] = 180 + float64(y%3)
	}
	return Book(yield)
}
