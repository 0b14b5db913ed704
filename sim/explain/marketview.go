package explain

import (
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/position"
)

// MarketFormat names the JSON of a MarketView.
const MarketFormat = "fencerow/market-view/1"

// MarketView is the prices that an answer rests on.
type MarketView struct {
	Format  string            `json:"format"` // fencerow/market-view/1
	Today   string            `json:"today"`
	Market  answer.MarketDate `json:"market"`
	Prices  []PriceOfYear     `json:"prices"`
	Caution []string          `json:"caution"`
}

// PriceOfYear is one national price, known or projected, USD per unit.
type PriceOfYear struct {
	Commodity  crop.Commodity `json:"commodity"`
	CropYear   crop.CropYear  `json:"crop_year"`
	Mean       answer.Price   `json:"mean"`
	Low        answer.Price   `json:"low"`  // one outcome in ten is lower
	High       answer.Price   `json:"high"` // one in ten is higher
	Status     crop.Status    `json:"status"`
	Source     string         `json:"source"`
	AsOf       string         `json:"as_of"` // of a projection
	SDFrom     string         `json:"spread_from"`
	Stale      bool           `json:"stale"`
	USDA       *answer.Price  `json:"usda"` // the built-in price beside one's own; nil where they are one
	USDASource string         `json:"usda_source"`
}

// ViewMarket lists the prices of the question's crop years for commodities that have
// one, with the interval that holds 80 of 100 outcomes. beside is USDA's own market,
// shown where it differs.
func ViewMarket(c answer.Question, commodities []crop.Commodity, beside farm.Market) MarketView {
	view := MarketView{Format: MarketFormat, Today: c.Today.Format(time.DateOnly), Market: answer.MarketDate{AsOf: c.Market.AsOf.Format(time.DateOnly), Source: c.Market.Source},
		Prices: []PriceOfYear{}, Caution: answer.Caution()}
	for _, commodity := range commodities {
		for _, y := range c.CropYears {
			if one, ok := priceOfYear(c, commodity, y); ok {
				if usda, has := beside.Price(commodity, y); has && usda.Value != one.Mean.Value {
					one.USDA, one.USDASource = &answer.Price{Value: usda.Value, Decimals: one.Mean.Decimals}, usda.Source
				}
				view.Prices = append(view.Prices, one)
			}
		}
	}
	return view
}

func priceOfYear(c answer.Question, commodity crop.Commodity, y crop.CropYear) (PriceOfYear, bool) {
	decimals, err := position.PriceDecimals(commodity, y)
	if err != nil {
		return PriceOfYear{}, false
	}
	p, ok := c.Sources().Price(commodity, y, decimals)
	if !ok {
		return PriceOfYear{}, false
	}
	one := PriceOfYear{Commodity: commodity, CropYear: y, Mean: answer.Price{Value: p.Mean(), Decimals: decimals}, Status: p.Figure.Status, Source: p.Figure.Source, SDFrom: p.SDFrom}
	one.Low, one.High = one.Mean, one.Mean
	if outlook, has := c.Market.Outlook[commodity][y]; has && !p.Final {
		one.AsOf = outlook.AsOf.Format(time.DateOnly)
		one.Stale = int(c.Today.Sub(outlook.AsOf).Hours()/24) > flag.StaleDays
		one.Low.Value, one.High.Value = p.TenthAndNinetieth()
	}
	return one, true
}
