package fit

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Deviation is how one county yield came out against the mean that was expected.
type Deviation struct {
	CropYear crop.CropYear
	Weight   crop.Acres // base acres it stands for
	Ratio    float64    // the yield over the mean expected
	CV       float64    // of the county's yields before harvest
}

// OtherSpreadShare returns the share at a stage for commodities without one of their own: the
// mean of those measured, but before harvest 1.
func OtherSpreadShare(stage odds.Stage, measured []Estimate) Estimate {
	e := Estimate{Param: "yield_spread_share", Commodity: "all", Region: "US", Key: string(stage), Value: 1, Source: "judgement",
		Note: "share of the coefficient of variation of the county yield still unknown"}
	if stage == odds.BeforeHarvest || len(measured) == 0 {
		return e
	}
	sum := 0.0
	for _, m := range measured {
		sum += m.Value
		e.Count += m.Count
	}
	e.Value, e.Period, e.Source = hundredths(sum/float64(len(measured))), measured[0].Period, "backtest"
	e.Note += ": mean of the commodities measured"
	return e
}

// middle is the part of outcomes in which the spread is set to hold what came: the middle 80
// of 100, the interval that is shown to people.
const middle = 0.80

// SpreadShare returns by what the coefficient of variation of a county yield is multiplied
// at a stage so that the middle 80 of 100 of the distribution held 80 of 100 of what came,
// by base acres, every crop year counting alike. The error is that of leaving out one crop
// year after the other (jackknife). Before harvest it is never under 1: the few years at hand
// had no drought like those of 1988 or 2012, and a calm decade understates the spread.
func SpreadShare(c crop.Commodity, stage odds.Stage, came []Deviation) Estimate {
	least := leastShares(c, stage, came)
	e := Estimate{Param: "yield_spread_share", Commodity: string(c), Region: "US", Key: string(stage), Count: len(came), Source: "backtest",
		Note: "share of the coefficient of variation of the county yield still unknown: at it the middle 80 of 100 held 80 of 100 yields"}
	years := yearsOf(came)
	e.Period = yearsSpan(years)
	e.Value, e.Error = jackknife(len(years), func(out int) float64 {
		if out < 0 {
			return shareHolding(least, came, 0)
		}
		return shareHolding(least, came, years[out])
	})
	e.Value = hundredths(e.Value)
	if stage == odds.BeforeHarvest && e.Value < 1 {
		e.Note += fmt.Sprintf("; raised from %g to 1, since these years had no great drought", e.Value)
		e.Value = 1
	}
	return e
}

func yearsOf(came []Deviation) []crop.CropYear {
	var years []crop.CropYear
	for _, d := range came {
		years = append(years, d.CropYear)
	}
	slices.Sort(years)
	return slices.Compact(years)
}

// leastShares returns for each yield the least share at which the middle of its
// distribution holds it: 0 where the least spread used does, +Inf where the most does not.
func leastShares(c crop.Commodity, stage odds.Stage, came []Deviation) []float64 {
	const finest = 0.001
	least, most := odds.Usual.SpreadBounds(stage)
	var low, high []float64 // ends of the middle, as shares of the mean, by spread
	for cv := least; cv <= most+finest/2; cv += finest {
		at := odds.Yield{Mean: 1, SD: cv, Shape: odds.DefaultShape(c, stage)}.Quantile()
		low, high = append(low, -at(-odds.NormalP90)), append(high, at(odds.NormalP90)) // both rise
	}
	shares := make([]float64, len(came))
	for i, d := range came {
		ends, end := high, d.Ratio
		if d.Ratio < 1 {
			ends, end = low, -d.Ratio
		}
		n := sort.SearchFloat64s(ends, end)
		switch {
		case n == 0:
		case n == len(ends):
			shares[i] = math.Inf(1)
		default:
			shares[i] = (least + finest*float64(n)) / min(d.CV, most)
		}
	}
	return shares
}

// shareHolding returns the least share at which the middle holds its part of what came,
// leaving out one crop year; 0 leaves out none.
func shareHolding(least []float64, came []Deviation, leave crop.CropYear) float64 {
	total := map[crop.CropYear]float64{}
	order := make([]int, 0, len(came))
	for i, d := range came {
		if d.CropYear != leave {
			total[d.CropYear] += d.Weight
			order = append(order, i)
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case least[a] < least[b]:
			return -1
		case least[a] > least[b]:
			return 1
		}
		return a - b
	})
	held := 0.0
	for _, i := range order {
		held += came[i].Weight / total[came[i].CropYear] / float64(len(total))
		if held >= middle {
			return least[i]
		}
	}
	return 1
}
