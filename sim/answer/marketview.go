package answer

import (
	"time"

	"math"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// MarketFormat names the JSON of a MarketView.
const MarketFormat = "fencerow/market-view/1"

// MarketView is what prices an answer would rest on.
type MarketView struct {
	Format  string        `json:"format"` // fencerow/market-view/1
	Today   string        `json:"today"`
	Market  MarketDate    `json:"market"`
	Prices  []PriceOfYear `json:"prices"`
	Caution []string      `json:"caution"`
}

// PriceOfYear is one national price: known, or projected with its spread.
type PriceOfYear struct {
	Commodity  crop.Commodity `json:"commodity"`
	CropYear   crop.CropYear  `json:"crop_year"`
	Mean       Price          `json:"mean"`
	Low        Price          `json:"low"`  // one outcome in ten is lower
	High       Price          `json:"high"` // one in ten is higher
	Status     crop.Status    `json:"status"`
	Source     string         `json:"source"`
	AsOf       string         `json:"as_of"` // of a projection
	SpreadFrom string         `json:"spread_from"`
	Stale      bool           `json:"stale"`
	USDA       *Price         `json:"usda"` // the built-in price beside one's own; nil where they are one
	USDASource string         `json:"usda_source"`
}

// ViewMarket lists the prices of the case's crop years for commodities that have
// one, with the interval that holds 80 of 100 outcomes; beside holds USDA's own.
func ViewMarket(c Case, commodities []crop.Commodity, beside farm.Market) MarketView {
	view := MarketView{Format: MarketFormat, Today: c.Today.Format(time.DateOnly), Market: MarketDate{AsOf: c.Market.AsOf.Format(time.DateOnly), Source: c.Market.Source},
		Prices: []PriceOfYear{}, Caution: Caution()}
	for _, commodity := range commodities {
		for _, y := range c.CropYears {
			if one, ok := priceOfYear(c, commodity, y); ok {
				if usda, has := beside.Price(commodity, y); has && usda.Value != one.Mean.Value {
					one.USDA, one.USDASource = &Price{usda.Value, one.Mean.Decimals}, usda.Source
				}
				view.Prices = append(view.Prices, one)
			}
		}
	}
	return view
}

// tenths returns the prices that one outcome in ten is below, and above.
func (p priceOutlook) tenths() (low, high crop.Price) {
	tenth := p.Sigma * odds.Tenth
	return p.Known + p.RestMean*math.Exp(-tenth-p.Sigma*p.Sigma/2), p.Known + p.RestMean*math.Exp(tenth-p.Sigma*p.Sigma/2)
}

func priceOfYear(c Case, commodity crop.Commodity, y crop.CropYear) (PriceOfYear, bool) {
	decimals, err := priceDecimals(commodity, y)
	if err != nil {
		return PriceOfYear{}, false
	}
	p, ok := c.sources().priceOutlook(commodity, y, decimals)
	if !ok {
		return PriceOfYear{}, false
	}
	one := PriceOfYear{Commodity: commodity, CropYear: y, Mean: Price{p.Mean(), decimals}, Status: p.figure.Status, Source: p.figure.Source, SpreadFrom: p.spreadFrom}
	one.Low, one.High = one.Mean, one.Mean
	if told, has := c.Market.Outlook[commodity][y]; has && !p.known {
		one.AsOf = told.AsOf.Format(time.DateOnly)
		one.Stale = int(c.Today.Sub(told.AsOf).Hours()/24) > staleDays
		one.Low.Value, one.High.Value = p.tenths()
	}
	return one, true
}
