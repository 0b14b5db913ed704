package answer

import (
	"cmp"
	"math"
	"slices"
)

// Stake is the dollars that one program is ahead of the other on all base acres of the
// commodity, on average; 0 where that is not known.
func (c *CommodityPart) Stake() float64 {
	if c.Difference == nil {
		return 0
	}
	return math.Abs(float64(c.Difference.Mean) * float64(c.BaseAcres))
}

// ByStake returns the commodities with the largest Stake first, others in their order: the
// order in which people read a farm.
func (f *FarmPart) ByStake() []CommodityPart {
	all := slices.Clone(f.Commodities)
	slices.SortStableFunc(all, func(a, b CommodityPart) int { return cmp.Compare(b.Stake(), a.Stake()) })
	return all
}
