package position

import (
	"fmt"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Description says how many yields there are, of which years, and where they come
// from.
func (s YieldSeries) Description() string {
	if len(s.Years) == 0 {
		return "no yearly yields"
	}
	return fmt.Sprintf("%d yields, %d to %d%s", len(s.Years), s.Years[0], s.Years[len(s.Years)-1], s.remark)
}

// Trend returns the trend yield of a crop year, units per planted acre.
func (s YieldSeries) Trend(y crop.CropYear) crop.Yield {
	if s.stateSlope != nil {
		return odds.TrendAtSlope(s.Years, s.Yields, *s.stateSlope, y)
	}
	return odds.Trend(s.Years, s.Yields, y)
}

// Spread returns how the yields varied about their trend.
func (s YieldSeries) Spread() odds.OwnSpread {
	return odds.SpreadOf(s.Years, s.Yields, s.PerHarvestedAcre)
}

// A series of at most shortSeriesYears takes the slope of its State's counties, if at
// least fewestCounties of them have one. Judgements.
const shortSeriesYears, fewestCounties = 12, 3

// useStateSlope gives a short series the median slope of the State's counties, each
// relative to the county's median yield.
func (s *YieldSeries) useStateSlope(book farm.CountyBook, u CountyUnit, of *Facts) {
	if n := len(s.Years); n < odds.YearsForTrend || n > shortSeriesYears {
		return
	}
	relative, counties := of.slope(book, u)
	if counties < fewestCounties {
		return
	}
	slope := relative * odds.Median(slices.Clone(s.Yields))
	s.stateSlope = &slope
	s.remark += fmt.Sprintf(". Its slope is that of %d counties of the State", counties)
}

// stateRelativeSlope returns the median of the slopes of the counties of the unit's State,
// each relative to the county's median yield, and how many those are.
func stateRelativeSlope(book farm.CountyBook, u CountyUnit, of *Facts) (slope float64, counties int) {
	var slopes []float64
	for _, code := range of.codesOf(book, StateOf(u.County)) {
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
	return odds.Median(slopes), len(slopes)
}

// LongestYieldSeries returns two series of a county, the longest of each kind: FSA's
// and RMA's yields, or NASS's brought to planted acres. forSD gives the variation of
// yields. forMean gives their level too: it ends close enough to the unit's crop year
// (odds.GivesMean), and its ratio to planted acres is known; it is empty where no
// series qualifies. Among equals the first wins.
func LongestYieldSeries(book farm.CountyBook, u CountyUnit) (forSD, forMean YieldSeries) {
	return longestYieldSeries(book, u, nil)
}

func longestYieldSeries(book farm.CountyBook, u CountyUnit, of *Facts) (forSD, forMean YieldSeries) {
	consider := func(s YieldSeries) {
		if len(s.Years) > len(forSD.Years) {
			forSD = s
		}
		if len(s.Years) > len(forMean.Years) && !s.levelUnknown && odds.GivesMean(s.Years, u.CropYear) {
			forMean = s
		}
	}
	for _, e := range EntriesWithSubstitutes(book, u) {
		years, yields := sortedSeries(e.History)
		consider(YieldSeries{Years: years, Yields: yields})
	}
	consider(plantedAcreSeries(book, u))
	for _, e := range EntriesWithSubstitutes(book, u) {
		years, yields := sortedSeries(e.Harvested)
		if n := len(years); n <= len(forSD.Years) && n <= len(forMean.Years) || n == 0 {
			continue
		}
		var ratio float64
		var how string
		if odds.GivesMean(years, u.CropYear) {
			ratio, how = plantedPerHarvested(book, u, e.Harvested, of)
		} else { // too old to give the mean: the ratio of the State is not needed
			ratio, how = countyPlantedPerHarvested(book, u, e.Harvested)
		}
		s := YieldSeries{Years: years, Yields: yields, PerHarvestedAcre: true, levelUnknown: ratio == 0}
		s.remark = fmt.Sprintf(". Series: %s (%s)", e.Source.Name, how)
		if !s.levelUnknown {
			for i := range yields {
				yields[i] *= ratio
			}
			s.remark = fmt.Sprintf(". Series: %s x %.3f (%s)", e.Source.Name, ratio, how)
		}
		consider(s)
	}
	forSD.useStateSlope(book, u, of)
	forMean.useStateSlope(book, u, of)
	return forSD, forMean
}

// plantedAcreSeries returns plantedAcreYields as a series, without the step between
// FSA's two sources.
func plantedAcreSeries(book farm.CountyBook, u CountyUnit) YieldSeries {
	level, mixed := plantedAcreYields(book, u)
	years, yields := sortedSeries(level)
	from := ""
	if mixed {
		var step float64
		if yields, step = odds.WithoutSourceStep(years, yields); step != 0 {
			from = fmt.Sprintf(". Years before the agency changed its source in %d are moved by %+.1f", odds.SourceChange, step)
		}
	}
	return YieldSeries{Years: years, Yields: yields, remark: from}
}

// agencyEstimate returns the yield of the crop year that an agency has before FSA's is
// final, and its source: RMA's, else NASS's brought to planted acres. Its Yield is nil
// where there is none.
func agencyEstimate(book farm.CountyBook, u CountyUnit, of *Facts) (farm.YieldOutlook, string) {
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
		ratio, how := plantedPerHarvested(book, u, e.Harvested, of)
		if ratio == 0 {
			continue // its level is not known
		}
		yield *= ratio
		return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.CountyEstimate)}, fmt.Sprintf("%s x %.3f (%s)", e.Source.Name, ratio, how)
	}
	return farm.YieldOutlook{}, ""
}
