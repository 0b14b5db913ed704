package cases

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
)

// OwnFarm asks about invented.OwnFarm with an own yield of 2026, in Corn's county at a
// county yield known from some report.
func OwnFarm(known string, county float64, yield *float64) answer.Question {
	c := Corn()
	c.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: &county, KnownFrom: known}))
	c.Operation.Farms = []farm.Farm{invented.OwnFarm("0417", yield)}
	return c
}

// Question asks about crop year 2026 on 2026-11-25, at the default number of scenarios.
func Question(market farm.Market, counties farm.CountyBook, farms ...farm.Farm) answer.Question {
	return answer.Question{
		Operation: farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: farms},
		Counties:  counties, Market: market, CropYears: []crop.CropYear{2026}, Today: invented.Date("2026-11-25"), Seed: 1, Draws: answer.DefaultDraws,
	}
}

// Canola asks about a farm with canola alone.
func Canola(m farm.Market) answer.Question {
	yields := farm.CountyYield{Commodity: crop.Canola, Practice: farm.AllPractices,
		Adjusted: map[crop.CropYear][5]float64{2026: {1500, 1600, 1700, 1800, 1900}, 2027: {1500, 1600, 1700, 1800, 1900}}}
	return Question(m, invented.Book(yields), invented.OneFarm("1", invented.Base(crop.Canola, 100, 1400)))
}

// Corn asks about one farm of 120 corn base acres at a payment yield of 150: price 4.80,
// county yield 188 known from a local harvest, benchmark 187.30 x 5.03.
func Corn() answer.Question {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, 4.80, -1)
	return Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: "local_harvest"})), invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150)))
}

// Plant adds a planting of crop year 2026 to the first farm.
func Plant(c *answer.Question, commodity string, acres, prevented float64) {
	f := &c.Operation.Farms[0]
	f.Planted = append(f.Planted, farm.Planting{CropYear: 2026, Commodity: commodity, Practice: farm.AllPractices, Acres: acres, Prevented: prevented})
}

// Record sets the election on record for corn on the first farm.
func Record(c *answer.Question, p farm.Program) {
	c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: p}
}

// HigherOf2025 is Corn for crop year 2025, when its price was still projected and the
// law pays the higher of PLC and ARC-CO.
func HigherOf2025() answer.Question {
	c := Corn()
	delete(c.Market.MYA[crop.Corn], 2025)
	invented.Project(c.Market, crop.Corn, 2025, 4.10, 0.05)
	yield := invented.CornYield(farm.YieldOutlook{})
	yield.Adjusted = map[crop.CropYear][5]float64{2025: yield.Adjusted[2026]}
	yield.Outlook = map[crop.CropYear]farm.YieldOutlook{2025: {Yield: invented.Number(180), KnownFrom: "county_estimate"}}
	c.Counties = invented.Book(yield)
	c.Market.MYA[crop.Corn][2019] = farm.Figure{Value: 3.56, Status: crop.Agency}
	c.CropYears = []crop.CropYear{2025}
	return c
}

// AtShare is Corn in another county at an irrigated share; nil: none is given.
func AtShare(county farm.County, share *float64) answer.Question {
	c := Corn()
	c.Counties = invented.BookOf(county)
	c.Operation.Farms[0].Bases[0].IrrigatedShare = share
	return c
}

// SharedOperation is a farm whose corn pays a known amount under PLC: price 3.42 against
// 4.42 is 1.00 per bushel; 1.00 x 150 x 0.85 = 127.50 per base acre. The limit is
// 155,000.
func SharedOperation(acres float64, producers []farm.Producer, shares farm.Shares) answer.Question {
	c := Corn()
	invented.Project(c.Market, crop.Corn, 2026, 3.42, 0)
	f := invented.OneFarm("0417", invented.Base(crop.Corn, acres, 150))
	f.Shares.Every = &shares
	c.Operation.Farms, c.Operation.Producers = []farm.Farm{f}, producers
	c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: 155_000}
	return c
}

// SixYears asks about 2026 to 2031 with projected prices and yields in every year. sd is
// the standard deviation of the log price and, as a share of the mean, of the yield.
func SixYears(sd float64) answer.Question {
	m := invented.Market("2026-11-10")
	yield := invented.CornYield(farm.YieldOutlook{})
	yield.Actual = map[crop.CropYear]crop.Yield{2020: 172.8, 2021: 177.5, 2022: 185.5, 2023: 172.73, 2024: 186.9, 2025: 181}
	yield.Outlook = map[crop.CropYear]farm.YieldOutlook{}
	for i, price := range SixPrices {
		y := 2026 + i
		invented.Project(m, crop.Corn, y, price, sd)
		yield.Outlook[y] = farm.YieldOutlook{Yield: invented.Number(SixYields[i]), SD: invented.Number(sd * SixYields[i]), Shape: "normal"}
	}
	c := Question(m, invented.Book(yield), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))
	c.CropYears = []crop.CropYear{2026, 2027, 2028, 2029, 2030, 2031}
	c.Draws = 4096
	return c
}

// SixPrices are the national prices of corn of crop years 2026 to 2031.
var SixPrices = []float64{4.80, 3.10, 5.20, 2.30, 4.60, 3.90}

// SixYields are the county yields of corn of the same years.
var SixYields = []float64{188, 150, 201, 193, 120, 205}
