package answer

import (
	"fmt"
	"maps"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// longSeries is the longest series of yearly yields of a county, oldest first,
// at the level of the agency's yields per planted acre.
type longSeries struct {
	years  []int
	yields []float64
	from   string // what was done to it: "; NASS county yields ... x 0.970 ..."
}

// seriesOf returns the longest of a file's history, the actual yields (with
// RMA's where those are missing, both per planted acre) and NASS's yields moved
// to their level; of equal ones the first.
func seriesOf(book farm.CountyBook, u countyUnit) longSeries {
	var best longSeries
	consider := func(years []int, yields []float64, from string) {
		if len(years) > len(best.years) {
			best = longSeries{years, yields, from}
		}
	}
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		years, yields := inOrder(e.History)
		consider(years, yields, "")
	}
	level, agency := levelOf(book, u)
	years, yields := inOrder(level)
	if agency {
		moved, step := odds.WithoutStep(years, yields)
		from := ""
		if step != 0 {
			from = fmt.Sprintf("; years before the change of the agency's source in 2019 moved by %+.1f", step)
		}
		consider(years, moved, from)
	} else {
		consider(years, yields, "")
	}
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		if len(e.Harvested) <= len(best.years) {
			continue
		}
		ratio, how := shiftOf(book, u, e.Harvested, level)
		years, yields := inOrder(e.Harvested)
		for i := range yields {
			yields[i] *= ratio
		}
		consider(years, yields, fmt.Sprintf("; %s x %.3f (%s)", e.Source.Name, ratio, how))
	}
	return best
}

// levelOf returns a county's yields per planted acre: actual ones, with RMA's
// where those are missing. agency reports that all actual ones are the agency's.
func levelOf(book farm.CountyBook, u countyUnit) (level map[crop.CropYear]crop.Yield, agency bool) {
	level, agency = map[crop.CropYear]crop.Yield{}, true
	entries := book.Entries(u.county, u.commodity, u.practice)
	for i := len(entries) - 1; i >= 0; i-- { // the first source wins
		maps.Copy(level, entries[i].Insured)
	}
	for i := len(entries) - 1; i >= 0; i-- {
		maps.Copy(level, entries[i].Actual)
		agency = agency && (entries[i].Source.Agency || len(entries[i].Actual) == 0)
	}
	return level, agency
}

// shiftOf returns by what NASS's yields per harvested acre are multiplied: the
// county's own median ratio of three years or more, else the median ratio of the
// counties of its State, else 1.
func shiftOf(book farm.CountyBook, u countyUnit, harvested, level map[crop.CropYear]crop.Yield) (ratio float64, how string) {
	if own, n := odds.Ratio(level, harvested); n >= odds.YearsForShift {
		return own, fmt.Sprintf("per planted over per harvested acre, %d years of this county", n)
	}
	var ratios []float64
	for _, code := range book.Codes(stateOf(u.county)) {
		other := u
		other.county = code
		there, _ := levelOf(book, other)
		for _, e := range book.Entries(code, u.commodity, u.practice) {
			if r, n := odds.Ratio(there, e.Harvested); n >= odds.YearsForShift {
				ratios = append(ratios, r)
				break
			}
		}
	}
	if len(ratios) > 0 {
		return odds.Median(ratios), fmt.Sprintf("per planted over per harvested acre, median of %d counties of the State", len(ratios))
	}
	return 1, "per harvested acre: no ratio to planted acres is known"
}

// estimated returns the yield of the crop year that an agency has before FSA's
// is final: RMA's, or NASS's moved to its level.
func estimated(book farm.CountyBook, u countyUnit) (farm.YieldOutlook, string) {
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		if yield, has := e.Insured[u.cropYear]; has {
			return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.InsuranceYield)}, e.Source.Name
		}
	}
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		yield, has := e.Harvested[u.cropYear]
		if !has {
			continue
		}
		level, _ := levelOf(book, u)
		ratio, how := shiftOf(book, u, e.Harvested, level)
		yield *= ratio
		return farm.YieldOutlook{Yield: &yield, KnownFrom: string(odds.CountyEstimate)}, fmt.Sprintf("%s x %.3f (%s)", e.Source.Name, ratio, how)
	}
	return farm.YieldOutlook{}, ""
}
