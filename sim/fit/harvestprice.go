package fit

import (
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// PricePair is the projected and the harvest price of crop insurance in one crop year, USD
// per unit.
type PricePair struct {
	Commodity          crop.Commodity
	CropYear           crop.CropYear
	Projected, Harvest crop.Price
}

// fewestPairs is how many crop years a commodity or a county must have to be counted. A
// judgement: pairs are few.
const fewestPairs = 5

// HarvestPrices returns the correlation of the surprise of the harvest price, the logarithm
// of it over the projected price, with how far the marketing-year average price came out
// above USDA's projection of May. Commodities are counted together, each standardized by
// itself; crop years are the sample of the error.
func HarvestPrices(pairs []PricePair, misses []ForecastMiss) Estimate {
	sums, counted, all := pairSums{}, map[string]bool{}, surprises(pairs)
	for _, c := range slices.Sorted(maps.Keys(all)) {
		off := yearly{}
		for _, m := range misses {
			if m.Commodity == string(c) && m.Month == "May" && !HeldBack(m.CropYear) {
				off[m.CropYear] = m.Log
			}
		}
		counted[string(c)] = addShared(sums, all[c], off)
	}
	m := sums.measure(counted)
	return Estimate{Param: "harvest_price_corr", Commodity: "all", Region: "US", Key: "national price", Value: hundredths(m.value), Error: m.err,
		Count: len(m.years), Period: yearsSpan(m.years), Source: "RMA-prices", Note: "corn and soybeans together, others as they are (assumed); n: crop years"}
}

// HarvestPriceYields returns the correlation of the same surprise with NASS's county yields
// about their trends, its standard error and the number of county series: a check that the
// correlation through the national price needs no other beside it.
func HarvestPriceYields(pairs []PricePair, p farm.Past) (r, err float64, counties int) {
	sums, counted, all := pairSums{}, map[string]bool{}, surprises(pairs)
	for _, c := range slices.Sorted(maps.Keys(all)) {
		of := harvested(p, c, farm.AllPractices)
		for _, county := range slices.Sorted(maps.Keys(of)) {
			for _, class := range slices.Sorted(maps.Keys(of[county])) {
				used := addShared(sums, all[c], of[county][class])
				counted[county+string(c)] = used || counted[county+string(c)]
			}
		}
	}
	m := sums.measure(counted)
	return m.value, m.err, len(m.counties)
}

// surprises returns the logarithm of harvest over projected price by commodity, without the
// crop years held back.
func surprises(pairs []PricePair) map[crop.Commodity]yearly {
	all := map[crop.Commodity]yearly{}
	for _, p := range pairs {
		if HeldBack(p.CropYear) || p.Harvest <= 0 || p.Projected <= 0 {
			continue
		}
		if all[p.Commodity] == nil {
			all[p.Commodity] = yearly{}
		}
		all[p.Commodity][p.CropYear] = math.Log(p.Harvest / p.Projected)
	}
	return all
}

// addShared adds the products of two series, each standardized over the years that both
// have; used is false where these are too few.
func addShared(to pairSums, a, b yearly) (used bool) {
	a, b = shared(a, b)
	if a, b = a.standardized(fewestPairs), b.standardized(fewestPairs); a == nil || b == nil {
		return false
	}
	for y := range a {
		to.add(y, a[y]*b[y], 1)
	}
	return true
}
