package farm

import (
	"time"

	"fencerow/program/crop"
)

// Past is what agencies printed before and after past crop years: what the odds
// of those years are held against.
type Past struct {
	Rows      []PastRow
	Forecasts []Forecast
	Harvested map[PastSeries]map[crop.CropYear]crop.Yield // NASS, per harvested acre
	Enrolled  map[crop.Commodity]map[crop.CropYear]Enrolled
}

// Enrolled are the base acres of the nation enrolled in each program in a crop year.
type Enrolled struct{ PLC, ARCCO crop.Acres }

// PastSeries is one of NASS's series of a unit: of wheat one for each class.
type PastSeries struct {
	PastUnit
	Class string // winter, spring, durum; "" for all
}

// PastUnit is one county, commodity and practice.
type PastUnit struct {
	County    string
	Commodity crop.Commodity
	Practice  Practice
}

// PastRow is one row of the agency's ARC-CO county table, with the payment rate. MYA,
// BenchmarkRevenue and Rate are 0 where they are still to be computed: backtest.Completed.
type PastRow struct {
	PastUnit
	CropYear         crop.CropYear
	Adjusted         *[5]crop.Yield // nil before 2019; of the built-in tables five with the agency's mean and Olympic average
	BenchmarkYield   crop.Yield
	BenchmarkRevenue crop.Revenue
	ActualYield      crop.Yield
	MYA              crop.Price
	Rate             crop.Revenue // USD per acre, before the payment-acre share
	BaseAcres        crop.Acres   // of the county; 0: not known
	PaymentYield     crop.Yield   // average of the county's base; 0: not known
}

// Forecast is a projected marketing-year average price as printed on a day: the
// middle of its range.
type Forecast struct {
	Date      time.Time
	Commodity crop.Commodity
	CropYear  crop.CropYear
	Price     crop.Price
}
