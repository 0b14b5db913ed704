package answer

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// longSeries is the longest series of yearly yields of a county, oldest first,
// at the level of the agency's yields per planted acre.
type longSeries struct {
	years     []int
	yields    []float64
	from      string   // what was done to it: "; NASS county yields ... x 0.970 ..."
	harvested bool     // per harvested acre, moved to the level of planted ones
	unshifted bool     // per harvested acre, and by how much to move it is not known
	slope     *float64 // pooled over the State, where the series is short; units per acre and year
}

// trend returns the series' trend yield of a crop year.
func (s longSeries) trend(y crop.CropYear) crop.Yield {
	if s.slope != nil {
		return odds.TrendAtSlope(s.years, s.yields, *s.slope, y)
	}
	return odds.Trend(s.years, s.yields, y)
}

// shortSeries is the number of years up to which the slope of the State's
// counties is taken; leastPooled how many of them there must be. Judgements.
const shortSeries, leastPooled = 12, 3

// pool gives a short series the median relative slope of the State's counties.
func (s *longSeries) pool(book farm.CountyBook, u countyUnit) {
	if n := len(s.years); n < odds.YearsForTrend || n > shortSeries {
		return
	}
	var slopes []float64
	for _, code := range book.Codes(stateOf(u.county)) {
		other := u
		other.county = code
		level, _ := levelOf(book, other)
		years, yields := inOrder(level)
		if len(years) < odds.YearsForTrend {
			continue
		}
		if slope := odds.RelativeSlope(years, yields); !math.IsNaN(slope) {
			slopes = append(slopes, slope)
		}
	}
	if len(slopes) < leastPooled {
		return
	}
	slope := odds.Median(slopes) * odds.Median(slices.Clone(s.yields))
	s.slope = &slope
	s.from += fmt.Sprintf("; slope of %d counties of the State", len(slopes))
}

// seriesOf returns two of a file's history, the actual yields (with RMA's where
// those are missing, both per planted acre) and NASS's yields moved to their
// level, of equal ones the first: the longest, which says how far yields spread,
// and the longest that also says where they stand in the unit's crop year: it has
// not ended too long before (odds.GivesMean), and its level is measured. The
// second has no years where no series does.
func seriesOf(book farm.CountyBook, u countyUnit) (spread, level longSeries) {
	consider := func(s longSeries) {
		if len(s.years) > len(spread.years) {
			spread = s
		}
		if len(s.years) > len(level.years) && !s.unshifted && odds.GivesMean(s.years, u.cropYear) {
			level = s
		}
	}
	for _, e := range related(book, u) {
		years, yields := inOrder(e.History)
		consider(longSeries{years: years, yields: yields})
	}
	consider(plantedSeries(book, u))
	for _, e := range related(book, u) {
		years, yields := inOrder(e.Harvested)
		shift := shiftOf
		if !odds.GivesMean(years, u.cropYear) {
			shift = ownShift // its level does not matter, so the State is not asked
		}
		if n := len(years); n <= len(spread.years) && n <= len(level.years) || n == 0 {
			continue
		}
		ratio, how := shift(book, u, e.Harvested)
		s := longSeries{years: years, yields: yields, harvested: true, unshifted: ratio == 0}
		s.from = fmt.Sprintf("; %s (%s)", e.Source.Name, how)
		if !s.unshifted {
			for i := range yields {
				yields[i] *= ratio
			}
			s.from = fmt.Sprintf("; %s x %.3f (%s)", e.Source.Name, ratio, how)
		}
		consider(s)
	}
	spread.pool(book, u)
	level.pool(book, u)
	return spread, level
}

// plantedSeries is the series of yields per planted acre.
func plantedSeries(book farm.CountyBook, u countyUnit) longSeries {
	level, mixed := levelOf(book, u)
	years, yields := inOrder(level)
	from := ""
	if mixed {
		var step float64
		if yields, step = odds.WithoutStep(years, yields); step != 0 {
			from = fmt.Sprintf("; years before the change of the agency's source in %d moved by %+.1f", odds.SourceChange, step)
		}
	}
	return longSeries{years: years, yields: yields, from: from}
}

// levelOf returns a county's yields per planted acre: from the change of the
// agency's source on the actual ones, with RMA's where those are missing; before
// it RMA's first, which are of one source. mixed reports that years before the
// change are the agency's of the old source.
func levelOf(book farm.CountyBook, u countyUnit) (level map[crop.CropYear]crop.Yield, mixed bool) {
	level = map[crop.CropYear]crop.Yield{}
	entries := related(book, u)
	for i := len(entries) - 1; i >= 0; i-- { // the first source wins
		maps.Copy(level, entries[i].Insured)
	}
	for i := len(entries) - 1; i >= 0; i-- {
		for y, yield := range entries[i].Actual {
			_, insured := level[y]
			if y < odds.SourceChange && insured && entries[i].Source.Agency {
				continue
			}
			level[y] = yield
			mixed = mixed || y < odds.SourceChange && entries[i].Source.Agency
		}
	}
	return level, mixed
}

// estimated returns the yield of the crop year that an agency has before FSA's
// is final: RMA's, or NASS's moved to its level.
func estimated(book farm.CountyBook, u countyUnit) (farm.YieldOutlook, string) {
	for _, e := range related(book, u) {
		if yield, has := e.Insured[u.cropYear]; has {
			return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.InsuranceYield)}, e.Source.Name
		}
	}
	// NASS's own estimate of the practice only: one of all practices says little of
	// the nonirrigated yield (docs/method.md).
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		yield, has := e.Harvested[u.cropYear]
		if !has {
			continue
		}
		ratio, how := shiftOf(book, u, e.Harvested)
		if ratio == 0 {
			continue // its level is not known
		}
		yield *= ratio
		return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.CountyEstimate)}, fmt.Sprintf("%s x %.3f (%s)", e.Source.Name, ratio, how)
	}
	return farm.YieldOutlook{}, ""
}

// related returns the entries of a unit, and those of another practice whose
// long series can stand for its own: RMA's nonirrigated yields where the county
// has one yield for all (they agree: docs/method.md), NASS's yields of all
// practices for the nonirrigated yield.
func related(book farm.CountyBook, u countyUnit) []farm.Entry {
	entries := book.Entries(u.county, u.commodity, u.practice)
	lend := func(from farm.Practice, series func(*farm.CountyYield) *map[crop.CropYear]crop.Yield) {
		for i := range entries {
			if len(*series(&entries[i].CountyYield)) > 0 {
				return // it has its own
			}
		}
		for _, e := range book.Entries(u.county, u.commodity, from) {
			lent := farm.Entry{CountyName: e.CountyName, Source: e.Source}
			lent.Source.Name += ", " + string(from)
			if *series(&lent.CountyYield) = *series(&e.CountyYield); len(*series(&lent.CountyYield)) > 0 {
				entries = append(entries, lent)
			}
		}
	}
	switch u.practice {
	case farm.AllPractices:
		lend(farm.Nonirrigated, func(y *farm.CountyYield) *map[crop.CropYear]crop.Yield { return &y.Insured })
	case farm.Nonirrigated:
		lend(farm.AllPractices, func(y *farm.CountyYield) *map[crop.CropYear]crop.Yield { return &y.Harvested })
	}
	return entries
}
