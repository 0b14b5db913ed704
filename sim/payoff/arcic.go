package payoff

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// Individual returns what ARC-IC pays on each commodity base of the first farm
// of a pool, by the rate of each producer's own part of the pool.
func Individual(y *Year, producers []farm.Producer, holdings []*position.CommodityBase, pool []*position.Individual) (all []*Payoff) {
	alone := individualRates(y, pool[:1], "")
	rates := make([][]crop.Revenue, len(producers))
	for j, p := range producers {
		rates[j] = alone
		if len(pool) > 1 {
			rates[j] = individualRates(y, pool, p.ID)
		}
	}
	for _, h := range holdings {
		p := &Payoff{Program: farm.ARCIC, ByBase: individualPay(h, alone), byBaseOf: map[string][]*Claim{}}
		for j, producer := range producers {
			p.byBaseOf[producer.ID] = individualPay(h, rates[j])
		}
		p.BeforeShare = beforeShare(y, producers, h, rates, alone)
		all = append(all, p)
	}
	return all
}

// individualPay returns what each base is paid at ARC-IC rates, USD by base.
func individualPay(h *position.CommodityBase, rates []crop.Revenue) []*Claim {
	var byPart []*Claim
	for _, p := range h.Bases {
		byPart = append(byPart, acreClaim(rates, h.IndividualAcres(p), slices.Max(rates), program.ARCICPayment))
	}
	return byPart
}

// beforeShare adds what all shares of a holding are paid: each producer's part
// at the own rate, the rest at the rate of the farm alone.
func beforeShare(y *Year, producers []farm.Producer, h *position.CommodityBase, rates [][]crop.Revenue, alone []crop.Revenue) []crop.Money {
	sum := y.Zeros()
	for _, p := range h.Bases {
		acres, rest := h.IndividualAcres(p), 1.0
		for j, producer := range producers {
			share := p.Shares[producer.ID]
			rest -= share
			for i := range sum {
				sum[i] += share * program.ARCICPayment(rates[j][i], acres)
			}
		}
		if rest < crop.Noise {
			continue
		}
		for i := range sum {
			sum[i] += rest * program.ARCICPayment(alone[i], acres)
		}
	}
	return sum
}

// individualRates returns the ARC-IC rate of a pool in each draw for one
// producer, or for the farm as a whole.
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

// OwnYields returns the farm's own yield in each draw: it follows the county's
// and varies by itself. Give the series back.
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
