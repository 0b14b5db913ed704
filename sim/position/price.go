package position

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// TenthAndNinetieth returns the prices that one outcome in ten is below, and above.
func (p Price) TenthAndNinetieth() (low, high crop.Price) {
	tenth := p.Sigma * odds.NormalP90
	return p.Known + p.RestMean*math.Exp(-tenth-p.Sigma*p.Sigma/2), p.Known + p.RestMean*math.Exp(tenth-p.Sigma*p.Sigma/2)
}

// PriceCorrelations returns the market's own correlations between prices.
func PriceCorrelations(m farm.Market) odds.PriceCorrelations {
	between := odds.PriceCorrelations{}
	for c, with := range m.Correlation {
		for name, r := range with {
			if name == farm.CountyYieldCorrelation {
				continue
			}
			if between[c] == nil {
				between[c] = map[crop.Commodity]float64{}
			}
			between[c][crop.Commodity(name)] = r
		}
	}
	return between
}

// Price is the national price of the crop year as the odds see it.
type Price struct {
	odds.Price
	Figure  farm.Figure
	SDFrom  string
	Final   bool
	WholeSD float64      // spread of the logarithm of the whole price; 0: known
	Samples []crop.Price // the user's own outcomes; nil: drawn
}

// Price returns the price of a commodity; ok is false where there is no
// projection.
func (s Sources) Price(commodity crop.Commodity, y crop.CropYear, decimals int) (Price, bool) {
	if known, ok := s.Market.MYA[commodity][y]; ok {
		return Price{Price: odds.Price{RestMean: known.Value, Decimals: decimals}, Figure: known, SDFrom: "known", Final: true}, true
	}
	told, ok := s.Market.Outlook[commodity][y]
	if !ok {
		return Price{}, false
	}
	sigma, rule := odds.Volatility(commodity, y, told.AsOf)
	switch {
	case told.Carried != nil:
		sigma, rule = told.Carried.Error, "error of prices carried by this rule, crop years "+told.Carried.Tested
	case told.Volatility != nil:
		sigma, rule = *told.Volatility, "given by the market file"
	case told.InsuranceVolatility != nil:
		sigma = odds.FromInsurance(*told.InsuranceVolatility)
		rule = fmt.Sprintf("insurance volatility factor %.2f, scaled to a price averaged over twelve months", *told.InsuranceVolatility)
	}
	if len(told.Samples) > 0 {
		return priceFromSamples(told, decimals), true
	}
	p := Price{Figure: told.Figure, SDFrom: rule, WholeSD: sigma}
	p.Price = odds.Price{RestMean: told.Value, Sigma: sigma, Decimals: decimals}
	if months := s.Market.Months[commodity][y]; len(months) > 0 {
		p.Price = withKnownMonths(p.Price, months)
		p.SDFrom += fmt.Sprintf("; %d months of the marketing year are known", len(months))
	}
	return p, true
}

// priceFromSamples is a price of the user's own outcomes.
func priceFromSamples(told farm.PriceOutlook, decimals int) Price {
	logs := make([]float64, len(told.Samples))
	for i, price := range told.Samples {
		logs[i] = math.Log(price)
	}
	sigma := stat.StdDev(logs, nil)
	return Price{
		Price: odds.Price{RestMean: told.Value, Sigma: sigma, Decimals: decimals}, Figure: told.Figure, WholeSD: sigma, Samples: told.Samples,
		SDFrom: fmt.Sprintf("%d own outcomes", len(told.Samples)),
	}
}

// withKnownMonths keeps the known months out of the spread: the price is their
// weighted part plus a rest that carries all the error of the whole.
func withKnownMonths(whole odds.Price, months []farm.MonthPrice) odds.Price {
	known, weight := 0.0, 0.0
	for _, m := range months {
		known, weight = known+m.Price*m.Weight, weight+m.Weight
	}
	rest := whole.RestMean - known
	if weight >= 1 || rest <= 0 {
		return odds.Price{RestMean: known / weight, Decimals: whole.Decimals}
	}
	return odds.Price{Known: known, RestMean: rest, Sigma: whole.Sigma * whole.RestMean / rest, Decimals: whole.Decimals}
}

// PriceYieldCorrelation returns the correlation of a county yield with the price of its
// commodity by stage of knowledge: the market file's or the region's.
func (s Sources) PriceYieldCorrelation(u CountyUnit) func(odds.Stage) float64 {
	return func(stage odds.Stage) float64 {
		full, told := s.Market.Correlation[u.Commodity][farm.CountyYieldCorrelation]
		if !told {
			full, _ = odds.PriceYieldCorrelation(u.Commodity, StateOf(u.County), string(u.Practice))
		}
		asOf := s.Market.AsOf
		if outlook, ok := s.Market.Outlook[u.Commodity][u.CropYear]; ok {
			asOf = outlook.AsOf
		}
		return full * odds.StageFactor(stage, u.CropYear, asOf)
	}
}

// PriceDecimals are those of a commodity's price in a crop year.
func PriceDecimals(c crop.Commodity, y crop.CropYear) (int, error) {
	terms, err := program.TermsFor(c, y)
	return terms.PriceDecimals, err
}
