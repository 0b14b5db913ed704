package cases

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
)

// sixPrices are invented prices of crop years 2020-2025 and of the two asked about, USD per
// unit, and an invented county yield.
var sixPrices = map[crop.Commodity]struct {
	past      [6]float64
	price     float64
	yield     float64
	baseYield float64
}{
	crop.Corn:          {[6]float64{4.53, 6.00, 6.54, 4.55, 4.24, 4.15}, 4.05, 182, 140},
	crop.Soybeans:      {[6]float64{10.80, 13.30, 14.20, 12.40, 10.00, 10.50}, 10.20, 53, 45},
	crop.Wheat:         {[6]float64{5.05, 7.63, 8.83, 6.96, 5.52, 5.06}, 5.35, 47, 44},
	crop.Peanuts:       {[6]float64{0.2100, 0.2430, 0.2680, 0.2690, 0.2610, 0.2500}, 0.2450, 4100, 3600},
	crop.LongGrainRice: {[6]float64{0.1260, 0.1360, 0.1670, 0.1590, 0.1400, 0.1040}, 0.1350, 7600, 6400},
	crop.SeedCotton:    {[6]float64{0.3720, 0.4480, 0.4090, 0.3910, 0.3600, 0.3550}, 0.3650, 2100, 1800},
}

// sixCommodities in the order of the agency's tables.
var sixCommodities = []crop.Commodity{crop.Wheat, crop.Corn, crop.LongGrainRice, crop.Soybeans, crop.Peanuts, crop.SeedCotton}

const sixFirstPast = 2020

var sixYears = []crop.CropYear{2026, 2027}

func sixMarket() farm.Market {
	m := farm.Market{AsOf: invented.Date("2026-11-10"), Source: "invented",
		MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{}, Outlook: map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}}
	for c, i := range sixPrices {
		m.MYA[c], m.Outlook[c] = map[crop.CropYear]farm.Figure{}, map[crop.CropYear]farm.PriceOutlook{}
		for k, p := range i.past {
			m.MYA[c][sixFirstPast+k] = farm.Figure{Value: p, Status: crop.Agency, Source: "invented"}
		}
		for _, y := range sixYears {
			m.Outlook[c][y] = farm.PriceOutlook{Figure: farm.Figure{Value: i.price, Status: crop.Projected, Source: "invented"}, AsOf: m.AsOf}
		}
	}
	return m
}

func sixYield(c crop.Commodity, practice farm.Practice, mean float64) farm.CountyYield {
	y := farm.CountyYield{Commodity: c, Practice: practice, Adjusted: map[crop.CropYear][5]float64{}, Outlook: map[crop.CropYear]farm.YieldOutlook{}}
	for i, year := range sixYears {
		shift := float64(i)
		y.Adjusted[year] = [5]float64{mean + 1.25 + shift, mean - 4.5, mean + 6.11, mean - 0.37 + shift, mean + 2}
		outlook := mean * 0.95
		y.Outlook[year] = farm.YieldOutlook{Yield: &outlook}
	}
	return y
}

// sixCounties are an invented county with one yield and one with two.
func sixCounties() farm.CountyBook {
	alder := farm.County{Code: "99001", Name: "Alder County"}
	birch := farm.County{Code: "99003", Name: "Birch County"}
	for _, c := range sixCommodities {
		alder.Yields = append(alder.Yields, sixYield(c, farm.AllPractices, sixPrices[c].yield))
	}
	for _, c := range []crop.Commodity{crop.Corn, crop.SeedCotton} {
		birch.Yields = append(birch.Yields, sixYield(c, farm.Irrigated, sixPrices[c].yield*1.2), sixYield(c, farm.Nonirrigated, sixPrices[c].yield*0.7))
	}
	return farm.CountyBook{{Name: "invented", Status: crop.Assumed, Counties: map[string]farm.County{"99001": alder, "99003": birch}}}
}

func sixFarm(number string, bases ...farm.Base) farm.Farm {
	open, all := farm.Open, farm.Shares{"operator": 1}
	return farm.Farm{Number: number, County: "99001", Contract: farm.ByCropYear[farm.Contract]{Every: &open}, Shares: farm.ByCropYear[farm.Shares]{Every: &all}, Bases: bases}
}

func sixBase(c crop.Commodity, acres float64) farm.Base {
	y := sixPrices[c].baseYield
	return farm.Base{Commodity: c, BaseAcres: acres, PaymentYield: &y}
}

// sixIrrigated lies in the county with two yields.
func sixIrrigated(c crop.Commodity, tract string, acres, share float64) farm.Base {
	b := sixBase(c, acres)
	b.Tract, b.County, b.IrrigatedShare = tract, "99003", &share
	return b
}

// SixCrops has six commodities, a farm with base in two counties, and irrigated
// base.
func SixCrops() answer.Question {
	var bases []farm.Base
	for i, c := range sixCommodities {
		bases = append(bases, sixBase(c, 60+12.35*float64(i)))
	}
	tract := sixBase(crop.Corn, 95)
	tract.Tract = "2210"
	return answer.Question{
		Operation: farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: []farm.Farm{
			sixFarm("0417", bases...),
			sixFarm("0588", tract, sixIrrigated(crop.Corn, "2211", 60, 0.35), sixIrrigated(crop.SeedCotton, "2211", 81.3, 0.6)),
		}},
		Counties: sixCounties(), Market: sixMarket(), CropYears: sixYears, Today: invented.Date("2026-11-25"), Seed: 1, Draws: 1024,
	}
}
