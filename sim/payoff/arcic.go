package payoff

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// Individual returns what ARC-IC pays on each commodity base of the first farm of a
// pool: each producer is paid by the rate of the own part of the pool.
func Individual(y *Year, producers []farm.Producer, bases []*position.CommodityBase, pool []*position.Individual) (all []*Payoff) {
	alone := individualRates(y, pool[:1], "")
	rates := make([][]crop.Revenue, len(producers))
	for j, p := range producers {
		rates[j] = alone
		if len(pool) > 1 {
			rates[j] = individualRates(y, pool, p.ID)
		}
	}
	for _, h := range bases {
		p := &Payoff{Program: farm.ARCIC}
		p.payEach(y, producers, h, rates, alone, h.IndividualAcres, program.ARCICPayment)
		all = append(all, p)
	}
	return all
}

// individualRates returns the ARC-IC rate of a pool by scenario, USD per acre, for one
// producer, or for the farm as a whole (producer "").
func individualRates(y *Year, pool []*position.Individual, producer string) []crop.Revenue {
	crops := position.IndividualCrops(pool, producer, y.CropYear)
	terms := pool[0].Crops[0].National.Terms
	coverage, ok := program.NewARCIC(crops, terms.GuaranteeShare, terms.MaximumShare)
	rates := y.Zeros()
	if !ok {
		return rates
	}
	var yields [][]crop.Yield
	var prices [][]crop.Price
	var loans []crop.Price
	for _, one := range pool {
		for _, k := range one.Crops {
			own := y.OwnYields(one.Farm, k)
			defer y.Release(own)
			outlook, _ := y.Price(k.Commodity, y.CropYear, k.National.Terms.PriceDecimals)
			yields, prices, loans = append(yields, own), append(prices, y.Prices(k.Commodity, outlook)), append(loans, k.National.Terms.LoanRate)
		}
	}
	yieldsNow, pricesNow := make([]crop.Yield, len(crops)), make([]crop.Price, len(crops))
	for i := range rates {
		for k := range crops {
			yieldsNow[k], pricesNow[k] = yields[k][i], program.ActualPrice(prices[k][i], loans[k])
		}
		rates[i] = coverage.Rate(program.IndividualRevenue(crops, yieldsNow, pricesNow))
	}
	return rates
}

// OwnYields returns the farm's own yield by scenario: it follows the county's and varies
// by itself. Release the series.
func (y *Year) OwnYields(f farm.Farm, k position.IndividualCrop) []crop.Yield {
	own := y.Acquire()
	if k.Planted == 0 || k.Yield.Known {
		for i := range own {
			own[i] = k.Yield.Mean
		}
		return own
	}
	county := y.Yields(k.National.Terms.YieldDecimals, k.County)
	shock := y.Sampler.FarmShock(f.Key(), k.Commodity).Into(y.Acquire())
	defer y.Release(shock)
	for i := range own {
		own[i] = max(0, k.Yield.Ratio*county[i]+k.Yield.SD*shock[i])
	}
	return own
}
