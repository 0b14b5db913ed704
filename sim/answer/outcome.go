package answer

import (
	"fmt"
	"sync"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// run is one crop year's draws, shared by all farms of a comparison. Every
// price and county yield is drawn once; what a farm draws does not depend on
// what else is in the file (sim/odds, dependence.go).
type run struct {
	Case
	cropYear crop.CropYear
	people   payer
	draws    odds.Draws
	sampler  *odds.Sampler

	mutex     sync.Mutex
	rawPrices map[crop.Commodity][]crop.Price // drawn, not yet rounded
	rawYields map[countyUnit][]crop.Yield
}

func (c Case) newRun(y crop.CropYear) (*run, error) {
	draws := odds.NewDraws(c.Seed, c.Draws)
	sampler, err := odds.NewSampler(draws, y, priceCorrelations(c.Market))
	if err != nil {
		return nil, err
	}
	people, err := c.payer(y)
	if err != nil {
		return nil, err
	}
	return &run{Case: c, cropYear: y, people: people, draws: draws, sampler: sampler,
		rawPrices: map[crop.Commodity][]crop.Price{}, rawYields: map[countyUnit][]crop.Yield{}}, nil
}

// priceCorrelations returns the market's own correlations between prices.
func priceCorrelations(m farm.Market) odds.PriceCorrelations {
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

// priceOutlook is the national price of the crop year as the odds see it.
type priceOutlook struct {
	odds.Price
	figure     farm.Figure
	spreadFrom string
	known      bool
}

// priceOutlook returns the price of a commodity; ok is false where there is no
// projection.
func (c Case) priceOutlook(commodity crop.Commodity, y crop.CropYear, decimals int) (priceOutlook, bool) {
	if known, ok := c.Market.MYA[commodity][y]; ok {
		return priceOutlook{Price: odds.Price{RestMean: known.Value, Decimals: decimals}, figure: known, spreadFrom: "known", known: true}, true
	}
	told, ok := c.Market.Outlook[commodity][y]
	if !ok {
		return priceOutlook{}, false
	}
	sigma, rule := odds.Volatility(commodity, y, told.AsOf)
	switch {
	case told.Volatility != nil:
		sigma, rule = *told.Volatility, "given by the market file"
	case told.InsuranceVolatility != nil:
		sigma = odds.FromInsurance(*told.InsuranceVolatility)
		rule = fmt.Sprintf("insurance volatility factor %.2f, scaled to a price averaged over twelve months", *told.InsuranceVolatility)
	}
	p := priceOutlook{figure: told.Figure, spreadFrom: rule}
	p.Price = odds.Price{RestMean: told.Value, Sigma: sigma, Decimals: decimals}
	if months := c.Market.Months[commodity][y]; len(months) > 0 {
		p.Price = partKnown(p.Price, months)
		p.spreadFrom += fmt.Sprintf("; %d months of the marketing year are known", len(months))
	}
	return p, true
}

// partKnown keeps the known months out of the spread: the price is their
// weighted part plus a rest that carries all the error of the whole.
func partKnown(whole odds.Price, months []farm.MonthPrice) odds.Price {
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

// moved is the size of the move of a mean that a leader must survive.
const moved = 0.05

// scale moves the means of a draw; 1 leaves them.
type scale struct{ price, yield float64 }

var unmoved = scale{1, 1}

// prices returns the drawn price of each outcome, rounded as FSA prints it. A
// move of the mean moves every outcome in proportion; a known price stays.
func (r *run) prices(c crop.Commodity, p priceOutlook, s scale) []crop.Price {
	if p.known {
		s.price = 1
	}
	raw := keep(r, r.rawPrices, c, func() []crop.Price {
		dst := make([]crop.Price, r.draws.N())
		p.Draw(dst, r.sampler.PriceShock(c), nil)
		return dst
	})
	return scaled(raw, s.price, p.Decimals)
}

// yields returns the drawn county yield of each outcome for one practice,
// rounded as FSA prints it. A final yield stays where it is.
func (r *run) yields(decimals int, u practicePart, s scale) []crop.Yield {
	if u.outlook.stage == odds.Final {
		s.yield = 1
	}
	raw := keep(r, r.rawYields, u.unit, func() []crop.Yield {
		dst := make([]crop.Yield, r.draws.N())
		u.outlook.Draw(dst, r.shock(u), nil)
		return dst
	})
	return scaled(raw, s.yield, decimals)
}

// keep makes a series once in a run.
func keep[K comparable](r *run, kept map[K][]float64, key K, make func() []float64) []float64 {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if _, made := kept[key]; !made {
		kept[key] = make()
	}
	return kept[key]
}

// scaled multiplies a series and rounds it.
func scaled(raw []float64, by float64, decimals int) []float64 {
	dst := make([]float64, len(raw))
	for i, x := range raw {
		dst[i] = program.Round(x*by, decimals)
	}
	return dst
}

// shock returns the standard normal behind a county yield.
func (r *run) shock(u practicePart) []float64 {
	key := odds.YieldKey{County: u.unit.county, Practice: string(u.unit.practice), Commodity: u.unit.commodity}
	return r.sampler.YieldShock(key, odds.YieldDependence{
		Price:     u.outlook.correlation,
		Counties:  odds.CountyCorrelation(u.unit.commodity, u.outlook.stage),
		Practices: odds.PracticeCorrelation,
	})
}

// correlationOf returns the correlation of a county yield with the price of its
// commodity by stage of knowledge: the market file's or the region's.
func (c Case) correlationOf(u countyUnit) func(odds.Stage) float64 {
	return func(stage odds.Stage) float64 {
		full, told := c.Market.Correlation[u.commodity][farm.CountyYieldCorrelation]
		if !told {
			full, _ = odds.PriceYieldCorrelation(u.commodity, stateOf(u.county), string(u.practice))
		}
		asOf := c.Market.AsOf
		if outlook, ok := c.Market.Outlook[u.commodity][u.cropYear]; ok {
			asOf = outlook.AsOf
		}
		return full * odds.StageFactor(stage, u.cropYear, asOf)
	}
}

// stateOf returns the two digits of the state in a county code.
func stateOf(county string) string { return county[:min(2, len(county))] }

// outcomes are what one holding is paid in each draw. A nil series means that
// a figure is missing.
type outcomes struct {
	plcRate          []crop.Price
	plcAcre, arcAcre []float64      // USD per base acre, not rounded
	plcPart, arcPart [][]crop.Money // USD by base, before share: what is paid, to the cent

	higherAcre []float64 // where the law pays the higher of both
	higherPart [][]crop.Money

	individual     []crop.Money // USD of all bases under ARC-IC, before share
	individualFlow flow
}

// outcomes calls the law on every draw.
func (r *run) outcomes(h *holding, p priceOutlook, s scale) outcomes {
	var o outcomes
	prices := r.prices(h.commodity, p, s)
	if h.plcMissing == "" {
		o.payPLC(h, prices)
	}
	if h.arcMissing == "" {
		o.payARCCO(r, h, prices, s)
	}
	if paysHigherOf(r.cropYear) {
		o.payHigherOf()
	}
	return o
}

func (o *outcomes) payPLC(h *holding, prices []crop.Price) {
	n := len(prices)
	o.plcRate, o.plcAcre, o.plcPart = make([]crop.Price, n), make([]float64, n), series(len(h.parts), n)
	contract := h.plc()
	for i, price := range prices {
		rate := contract.Rate(price)
		o.plcRate[i] = rate
		if rate == 0 {
			continue
		}
		o.plcAcre[i] = h.plcPerAcre(rate)
		for k, p := range h.parts {
			o.plcPart[k][i] = program.PLCPayment(rate, *p.base.PaymentYield, p.paymentAcres)
		}
	}
}

func (o *outcomes) payARCCO(r *run, h *holding, prices []crop.Price, s scale) {
	n := len(prices)
	o.arcAcre, o.arcPart = make([]float64, n), series(len(h.parts), n)
	for k, p := range h.parts {
		drawn := make([][]crop.Yield, len(p.practices))
		for j, u := range p.practices {
			drawn[j] = r.yields(h.national.Terms.YieldDecimals, u, s)
		}
		acres := p.paymentAcres
		yields := make([]crop.Yield, len(drawn))
		for i, price := range prices {
			for j := range drawn {
				yields[j] = drawn[j][i]
			}
			rate := p.coverage.Rate(h.actualRevenue(p, price, yields))
			o.arcAcre[i] += rate * acres / h.baseAcres
			o.arcPart[k][i] = program.ARCCOPayment(rate, acres)
		}
	}
}

// series returns k series of n zeros.
func series(k, n int) [][]float64 {
	all := make([][]float64, k)
	for i := range all {
		all[i] = make([]float64, n)
	}
	return all
}
