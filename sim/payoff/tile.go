package payoff

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Tile is a few scenarios in a row: prices and county yields rounded as FSA prints
// them, with their means moved where that is asked for. What is known does not move.
type Tile struct {
	year   *scenario.Year
	shared *Year
	From   int // the first scenario
	Length int
	means  Sensitivity
	prices []*tilePrice
	yields []*tileYield
}

// tilePrice is one commodity's price in a tile, by factor on its mean.
type tilePrice struct {
	commodity crop.Commodity
	price     position.Price
	byFactor  []pricesBy
}

// pricesBy are all scenarios, of which every tile has its part.
type pricesBy struct {
	by     float64
	series []crop.Price
}

// tileYield is one county yield in a tile, likewise.
type tileYield struct {
	unit    position.CountyUnit
	outlook position.Yield
	shock   *odds.Shock
	at      func(float64) crop.Yield
	raw     []crop.Yield
	filled  bool // for the scenarios at hand
	rounded rounded
}

// rounded are series by the factor that they were multiplied with before rounding.
type rounded []struct {
	by     float64
	series []float64
	filled bool
}

func newTile(y *Year) *Tile {
	return &Tile{year: y.Year, shared: y, Length: y.Size.Tile()}
}

// start moves on to the scenarios from from, with the means as drawn.
func (t *Tile) start(from int) {
	t.From, t.means = from, Sensitivity{}
	for _, y := range t.yields {
		y.filled = false
		y.rounded.forget()
	}
}

// alike returns, by place in Band, the first place at which the prices and yields asked
// for so far are multiplied by the same.
func (t *Tile) alike() []int {
	first, factors := make([]int, len(Band)), make([][]float64, len(Band))
	for m, means := range Band {
		for _, p := range t.prices {
			factors[m] = append(factors[m], means.priceFactor(p.price))
		}
		for _, y := range t.yields {
			factors[m] = append(factors[m], means.yieldFactor(y.outlook))
		}
		for !slices.Equal(factors[first[m]], factors[m]) {
			first[m]++
		}
	}
	return first
}

// Prices returns the price of a commodity in each scenario.
func (t *Tile) Prices(c crop.Commodity, p position.Price) []crop.Price {
	var of *tilePrice
	for _, one := range t.prices {
		if one.commodity == c {
			of = one
		}
	}
	if of == nil {
		of = &tilePrice{commodity: c, price: p}
		t.prices = append(t.prices, of)
	}
	by, at := t.means.priceFactor(p), 0
	for at < len(of.byFactor) && of.byFactor[at].by != by {
		at++
	}
	if at == len(of.byFactor) {
		of.byFactor = append(of.byFactor, pricesBy{by, t.shared.pricesTimes(c, p, by)})
	}
	return of.byFactor[at].series[t.From : t.From+t.Length]
}

// pricesTimes returns the price by scenario times a factor, rounded as FSA prints it: the
// same for every county. Moved prices are of the first movedScenarios alone.
func (y *Year) pricesTimes(c crop.Commodity, p position.Price, by float64) []crop.Price {
	if by == 1 {
		return y.Prices(c, p)
	}
	return *y.moved.Of(Key{Commodity: c, IrrigatedShare: by}, func() *[]crop.Price { // the factor stands in place of a share
		raw := y.UnroundedPrices(c, p)
		moved := make([]crop.Price, min(len(raw), movedScenarios))
		for i := range moved {
			moved[i] = program.Round(raw[i]*by, p.Decimals)
		}
		return &moved
	})
}

// HarvestPrices returns the harvest price of crop insurance in each scenario. No sensitivity
// moves it: the band is about the marketing-year average price.
func (t *Tile) HarvestPrices(c crop.Commodity, p position.PricePair) []crop.Price {
	return t.year.HarvestPrices(c, p)[t.From : t.From+t.Length]
}

// Yields returns a county yield in each scenario.
func (t *Tile) Yields(u position.Practice, decimals int) []crop.Yield {
	var of *tileYield
	for _, one := range t.yields {
		if one.unit == u.Unit {
			of = one
		}
	}
	if of == nil {
		of = &tileYield{unit: u.Unit, outlook: u.Outlook, shock: t.year.YieldShock(u), at: u.Outlook.Quantile(), raw: make([]crop.Yield, t.Length)}
		t.yields = append(t.yields, of)
	}
	if !of.filled {
		of.shock.Fill(of.raw, t.From)
		for i, z := range of.raw {
			of.raw[i] = of.at(z)
		}
		of.filled = true
	}
	return of.rounded.of(of.raw, t.means.yieldFactor(u.Outlook), decimals)
}

// of returns the series under a factor.
func (r *rounded) of(raw []float64, by float64, decimals int) []float64 {
	at := 0
	for at < len(*r) && (*r)[at].by != by {
		at++
	}
	if at == len(*r) {
		*r = append(*r, rounded{{by: by, series: make([]float64, len(raw))}}...)
	}
	one := &(*r)[at]
	if !one.filled {
		for i, x := range raw {
			one.series[i] = program.Round(x*by, decimals)
		}
		one.filled = true
	}
	return one.series
}

func (r rounded) forget() {
	for i := range r {
		r[i].filled = false
	}
}
