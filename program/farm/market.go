package farm

import (
	"time"

	"fencerow/program/crop"
)

// Market is the state of prices on one date.
type Market struct {
	AsOf        time.Time
	Source      string                                            // who says so
	MYA         map[crop.Commodity]map[crop.CropYear]Figure       // known prices
	Outlook     map[crop.Commodity]map[crop.CropYear]PriceOutlook // projected prices
	Months      map[crop.Commodity]map[crop.CropYear][]MonthPrice // of a year not yet over
	Correlation map[crop.Commodity]map[string]float64             // by other commodity, or CountyYieldCorrelation
	Path        map[crop.Commodity]map[crop.CropYear]Figure       // path of later years, for its changes only
	Printed     map[crop.Commodity]map[crop.CropYear]time.Time    // when a known price was printed; missing: by AsOf
}

// MarketFormat is the first line of a market file (docs/formats.md).
const MarketFormat = "fencerow/market/1"

// CountyYieldCorrelation is the key under which a market file states the
// correlation of a price with the county yields of its commodity.
const CountyYieldCorrelation = "county_yield"

// PriceOutlook is a projected marketing-year average price.
type PriceOutlook struct {
	Figure
	AsOf       time.Time
	Volatility *float64 // sd of the log of the final price over this one; nil: by AsOf
	// InsuranceVolatility is RMA's volatility factor of the year; nil: not given.
	InsuranceVolatility *float64
	Samples             []crop.Price // the user's own outcomes in place of a distribution; the mean is theirs
	Carried             *Carried     // how the price was derived where nobody projects one; nil: it is known or projected
}

// Carried says how a price was derived from an earlier one.
type Carried struct {
	From   crop.CropYear // of the last price
	Error  float64       // sd of the log of the final price over this one, measured out of sample
	Rule   string        // in words, after "the price of crop year 2024"
	Tested string        // the crop years on which the error was measured
}

// LeastSamples is the number of own outcomes from which on they are taken: fewer
// say little of one outcome in ten. A judgement.
const LeastSamples = 20

// MonthPrice is a month of the marketing year that is already known.
type MonthPrice struct {
	Month  time.Time
	Price  crop.Price
	Weight crop.Share // of the year's marketings

	WeightFrom string // in words, where the weight is assumed; "": it is the month's own
}

// Price returns the price of commodity c for crop year y: the known one, else
// the projection; ok is false where there is neither.
func (m Market) Price(c crop.Commodity, y crop.CropYear) (Figure, bool) {
	if known, ok := m.MYA[c][y]; ok {
		return known, true
	}
	outlook, ok := m.Outlook[c][y]
	return outlook.Figure, ok
}

// PriceDate returns the day on which a price of commodity c for crop year y was
// printed or projected; that of the market where none is stated.
func (m Market) PriceDate(c crop.Commodity, y crop.CropYear) time.Time {
	if day, has := m.Printed[c][y]; has {
		return day
	}
	if o, has := m.Outlook[c][y]; has {
		return o.AsOf
	}
	return m.AsOf
}

// Over returns market m laid over base: what m says of a commodity and crop
// year, known or projected, replaces all that base says of it. Date and source
// are those of m.
func (m Market) Over(base Market) Market {
	merged := Market{
		AsOf: m.AsOf, Source: m.Source,
		MYA:         map[crop.Commodity]map[crop.CropYear]Figure{},
		Outlook:     map[crop.Commodity]map[crop.CropYear]PriceOutlook{},
		Months:      map[crop.Commodity]map[crop.CropYear][]MonthPrice{},
		Correlation: map[crop.Commodity]map[string]float64{},
		Path:        map[crop.Commodity]map[crop.CropYear]Figure{},
		Printed:     map[crop.Commodity]map[crop.CropYear]time.Time{},
	}
	spoken := func(c crop.Commodity, y crop.CropYear) bool {
		_, known := m.MYA[c][y]
		_, projected := m.Outlook[c][y]
		return known || projected
	}
	lay := func(layer Market, keep func(crop.Commodity, crop.CropYear) bool) {
		layYears(merged.MYA, layer.MYA, keep)
		layYears(merged.Outlook, layer.Outlook, keep)
		layYears(merged.Printed, layer.Printed, keep)
		layYears(merged.Path, layer.Path, func(crop.Commodity, crop.CropYear) bool { return true })
		layYears(merged.Months, layer.Months, keep)
		for c, with := range layer.Correlation {
			for name, r := range with {
				put(merged.Correlation, c, name, r)
			}
		}
	}
	lay(base, func(c crop.Commodity, y crop.CropYear) bool { return !spoken(c, y) })
	lay(m, func(crop.Commodity, crop.CropYear) bool { return true })
	return merged
}

// Newer returns what market m says that base does not know better: its known
// prices where base has none, and its projections where base has neither a known
// price nor a projection of the same day or later.
func (m Market) Newer(base Market) Market {
	layer := Market{AsOf: base.AsOf, Source: base.Source, MYA: map[crop.Commodity]map[crop.CropYear]Figure{}, Outlook: map[crop.Commodity]map[crop.CropYear]PriceOutlook{}, Printed: map[crop.Commodity]map[crop.CropYear]time.Time{},
		Months: map[crop.Commodity]map[crop.CropYear][]MonthPrice{}}
	unknown := func(c crop.Commodity, y crop.CropYear) bool { _, known := base.MYA[c][y]; return !known }
	if m.AsOf.After(base.AsOf) {
		layer.AsOf, layer.Source = m.AsOf, m.Source
	}
	layYears(layer.MYA, m.MYA, unknown)
	layYears(layer.Printed, m.Printed, unknown)
	layYears(layer.Months, m.Months, unknown)
	layYears(layer.Outlook, m.Outlook, func(c crop.Commodity, y crop.CropYear) bool {
		before, has := base.Outlook[c][y]
		return unknown(c, y) && (!has || before.AsOf.Before(m.Outlook[c][y].AsOf))
	})
	return layer
}

// layYears copies what keep allows from one layer into the merged market.
func layYears[V any](into, from map[crop.Commodity]map[crop.CropYear]V, keep func(crop.Commodity, crop.CropYear) bool) {
	for c, years := range from {
		for y, v := range years {
			if keep(c, y) {
				put(into, c, y, v)
			}
		}
	}
}

func put[K, J comparable, V any](into map[K]map[J]V, k K, j J, v V) {
	if into[k] == nil {
		into[k] = map[J]V{}
	}
	into[k][j] = v
}
