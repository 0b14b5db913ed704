package position

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// TenthAndNinetieth returns the 10th and 90th percentile of the price before rounding,
// USD per unit.
func (p Price) TenthAndNinetieth() (low, high crop.Price) {
	tenth := p.Sigma * odds.NormalP90
	return p.Known + p.RestMean*math.Exp(-tenth-p.Sigma*p.Sigma/2), p.Known + p.RestMean*math.Exp(tenth-p.Sigma*p.Sigma/2)
}

// PriceCorrelations returns the market file's own correlations between prices, without
// those of prices with county yields.
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

// Price is the national marketing-year-average price of one crop year: its
// distribution and where each figure came from.
type Price struct {
	odds.Price
	Figure     farm.Figure  // the mean, USD per unit
	SDFrom     string       // in words, for people
	Final      bool         // the price is known
	WholeSD    float64      // standard deviation of the logarithm of the whole price; 0: known. Sigma is that of the months still open
	UsualError float64      // how far the logarithm of the mean may be off (usualError)
	Samples    []crop.Price // the user's own prices, each equally likely; nil: the distribution holds
}

// Price returns the price of a commodity in a crop year; ok is false where it is
// neither known nor projected.
func (s Sources) Price(commodity crop.Commodity, y crop.CropYear, decimals int) (Price, bool) {
	if s.Facts == nil {
		return s.workOutPrice(commodity, y, decimals)
	}
	key := factsKey{CountyUnit{Commodity: commodity, CropYear: y}, decimals}
	if known, has := s.Facts.prices.Known(key); has {
		return known.price, known.has
	}
	known := s.Facts.prices.Of(key, func() *knownPrice {
		price, has := s.workOutPrice(commodity, y, decimals)
		return &knownPrice{price, has}
	})
	return known.price, known.has
}

// workOutPrice is Price from the market.
func (s Sources) workOutPrice(commodity crop.Commodity, y crop.CropYear, decimals int) (Price, bool) {
	if known, ok := s.Market.MYA[commodity][y]; ok {
		return Price{Price: odds.Price{RestMean: known.Value, Decimals: decimals}, Figure: known, SDFrom: "known", Final: true}, true
	}
	stated, ok := s.Market.Outlook[commodity][y]
	if !ok {
		return Price{}, false
	}
	sigma, rule := s.Constants.Volatility(commodity, y, stated.AsOf)
	switch {
	case stated.Carried != nil:
		sigma, rule = stated.Carried.Error, "error of prices carried by this rule, crop years "+stated.Carried.Tested
	case stated.Volatility != nil:
		sigma, rule = *stated.Volatility, "given by the market file"
	case stated.InsuranceVolatility != nil:
		sigma = odds.FromInsurance(*stated.InsuranceVolatility)
		rule = fmt.Sprintf("insurance volatility factor %.2f, scaled to a price averaged over twelve months", *stated.InsuranceVolatility)
	}
	if len(stated.Samples) > 0 {
		p := priceFromSamples(stated, decimals)
		p.UsualError = p.usualError(s.Constants, commodity)
		return p, true
	}
	p := Price{Figure: stated.Figure, SDFrom: rule, WholeSD: sigma}
	p.Price = odds.Price{RestMean: stated.Value, Sigma: sigma, Decimals: decimals}
	if months := s.Market.Months[commodity][y]; len(months) > 0 {
		p.Price = withKnownMonths(p.Price, months)
		p.SDFrom += fmt.Sprintf(". %d months of the marketing year are known%s", len(months), weightsFrom(months))
	}
	p.UsualError = p.usualError(s.Constants, commodity)
	return p, true
}

// priceFromSamples returns a price whose distribution is the user's own list of
// prices.
func priceFromSamples(stated farm.PriceOutlook, decimals int) Price {
	logs := make([]float64, len(stated.Samples))
	for i, price := range stated.Samples {
		logs[i] = math.Log(price)
	}
	sigma := stat.StdDev(logs, nil)
	return Price{
		Price: odds.Price{RestMean: stated.Value, Sigma: sigma, Decimals: decimals}, Figure: stated.Figure, WholeSD: sigma, Samples: stated.Samples,
		SDFrom: fmt.Sprintf("%d own outcomes", len(stated.Samples)),
	}
}

// withKnownMonths returns the price as known months, weighted by marketings, plus a
// rest that carries all the error of the whole price.
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

// weightsFrom says which weights of months are assumed, as the end of a sentence; "" for
// none.
func weightsFrom(months []farm.MonthPrice) string {
	var from []string
	for _, m := range months {
		if m.WeightFrom != "" && !slices.Contains(from, m.WeightFrom) {
			from = append(from, m.WeightFrom)
		}
	}
	if len(from) == 0 {
		return ""
	}
	return ", weighted " + strings.Join(from, " and ") + " (assumed)"
}

// PriceYieldCorrelation returns the correlation of a county yield with the price of
// its commodity as a function of what the yield is known from: the market file's, else
// the region's.
func (s Sources) PriceYieldCorrelation(u CountyUnit) func(odds.Stage) float64 {
	return func(stage odds.Stage) float64 {
		full, has := s.Market.Correlation[u.Commodity][farm.CountyYieldCorrelation]
		if !has {
			full, _ = odds.PriceYieldCorrelation(u.Commodity, StateOf(u.County), string(u.Practice))
		}
		asOf := s.Market.AsOf
		if outlook, ok := s.Market.Outlook[u.Commodity][u.CropYear]; ok {
			asOf = outlook.AsOf
		}
		return full * odds.StageFactor(stage, u.CropYear, asOf)
	}
}

// PriceDecimals returns to how many decimals the price of a commodity is published in
// a crop year; a year without terms of law is an error.
func PriceDecimals(c crop.Commodity, y crop.CropYear) (int, error) {
	terms, err := program.TermsFor(c, y)
	return terms.PriceDecimals, err
}
