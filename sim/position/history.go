package position

import (
	"fmt"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Description says what a long series is made of.
func (s YieldSeries) Description() string {
	if len(s.Years) == 0 {
		return "no yearly yields"
	}
	return fmt.Sprintf("%d yields, %d to %d%s", len(s.Years), s.Years[0], s.Years[len(s.Years)-1], s.remark)
}

// Trend returns the series' trend yield of a crop year.
func (s YieldSeries) Trend(y crop.CropYear) crop.Yield {
	if s.stateSlope != nil {
		return odds.TrendAtSlope(s.Years, s.Yields, *s.stateSlope, y)
	}
	return odds.Trend(s.Years, s.Yields, y)
}

// shortSeriesYears is the number of years up to which the slope of the State's
// counties is taken; leastPooled how many of them there must be. Judgements.
const shortSeriesYears, fewestCounties = 12, 3

// useStateSlope gives a short series the median relative slope of the State's counties.
func (s *YieldSeries) useStateSlope(book farm.CountyBook, u CountyUnit) {
	if n := len(s.Years); n < odds.YearsForTrend || n > shortSeriesYears {
		return
	}
	var slopes []float64
	for _, code := range book.Codes(StateOf(u.County)) {
		other := u
		other.County = code
		level, _ := plantedAcreYields(book, other)
		years, yields := sortedSeries(level)
		if len(years) < odds.YearsForTrend {
			continue
		}
		if slope := odds.RelativeSlope(years, yields); !math.IsNaN(slope) {
			slopes = append(slopes, slope)
		}
	}
	if len(slopes) < fewestCounties {
		return
	}
	slope := odds.Median(slopes) * odds.Median(slices.Clone(s.Yields))
	s.stateSlope = &slope
	s.remark += fmt.Sprintf("; slope of %d counties of the State", len(slopes))
}

// LongestYieldSeries returns two of a file's history, the actual yields (with RMA's where
// those are missing, both per planted acre) and NASS's yields moved to their
// level, of equal ones the first: the longest, which says how far yields spread,
// and the longest that also says where they stand in the unit's crop year: it has
// not ended too long before (odds.GivesMean), and its level is measured. The
// second has no years where no series does.
func LongestYieldSeries(book farm.CountyBook, u CountyUnit) (spread, level YieldSeries) {
	consider := func(s YieldSeries) {
		if len(s.Years) > len(spread.Years) {
			spread = s
		}
		if len(s.Years) > len(level.Years) && !s.levelUnknown && odds.GivesMean(s.Years, u.CropYear) {
			level = s
		}
	}
	for _, e := range EntriesWithSubstitutes(book, u) {
		years, yields := sortedSeries(e.History)
		consider(YieldSeries{Years: years, Yields: yields})
	}
	consider(plantedAcreSeries(book, u))
	for _, e := range EntriesWithSubstitutes(book, u) {
		years, yields := sortedSeries(e.Harvested)
		shift := plantedPerHarvested
		if !odds.GivesMean(years, u.CropYear) {
			shift = countyPlantedPerHarvested // its level does not matter, so the State is not asked
		}
		if n := len(years); n <= len(spread.Years) && n <= len(level.Years) || n == 0 {
			continue
		}
		ratio, how := shift(book, u, e.Harvested)
		s := YieldSeries{Years: years, Yields: yields, PerHarvestedAcre: true, levelUnknown: ratio == 0}
		s.remark = fmt.Sprintf("; %s (%s)", e.Source.Name, how)
		if !s.levelUnknown {
			for i := range yields {
				yields[i] *= ratio
			}
			s.remark = fmt.Sprintf("; %s x %.3f (%s)", e.Source.Name, ratio, how)
		}
		consider(s)
	}
	spread.useStateSlope(book, u)
	level.useStateSlope(book, u)
	return spread, level
}

// plantedAcreSeries is the series of yields per planted acre.
func plantedAcreSeries(book farm.CountyBook, u CountyUnit) YieldSeries {
	level, mixed := plantedAcreYields(book, u)
	years, yields := sortedSeries(level)
	from := ""
	if mixed {
		var step float64
		if yields, step = odds.WithoutSourceStep(years, yields); step != 0 {
			from = fmt.Sprintf("; years before the change of the agency's source in %d moved by %+.1f", odds.SourceChange, step)
		}
	}
	return YieldSeries{Years: years, Yields: yields, remark: from}
}

// agencyEstimate returns the yield of the crop year that an agency has before FSA's
// is final: RMA's, or NASS's moved to its level.
func agencyEstimate(book farm.CountyBook, u CountyUnit) (farm.YieldOutlook, string) {
	for _, e := range EntriesWithSubstitutes(book, u) {
		if yield, has := e.Insured[u.CropYear]; has {
			return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.InsuranceYield)}, e.Source.Name
		}
	}
	// NASS's own estimate of the practice only: one of all practices says little of
	// the nonirrigated yield (docs/method.md).
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		yield, has := e.Harvested[u.CropYear]
		if !has {
			continue
		}
		ratio, how := plantedPerHarvested(book, u, e.Harvested)
		if ratio == 0 {
			continue // its level is not known
		}
		yield *= ratio
		return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.CountyEstimate)}, fmt.Sprintf("%s x %.3f (%s)", e.Source.Name, ratio, how)
	}
	return farm.YieldOutlook{}, ""
}
