package position

import (
	"fmt"
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// projectBenchmark projects a benchmark yield that no source has; ok is false where no
// older table, or a county yield since it, can be found.
func (s Sources) projectBenchmark(u CountyUnit, decimals int) (b Benchmark, ok bool) {
	a, ok := s.carryForward(u, decimals)
	if !ok {
		return Benchmark{}, false
	}
	values := [5]crop.Yield{}
	for i, year := range a.Yields {
		values[i] = year.Value
	}
	source := fmt.Sprintf("estimated ahead from %s", a.tables)
	if a.Varies() {
		source = fmt.Sprintf("worked out from %s", a.tables)
	}
	source += ". " + odds.ProjectedBenchmarkAccuracy(a.leastKnown, a.yearsAhead)
	return Benchmark{Figure: farm.Figure{Value: program.BenchmarkYield(values, decimals), Status: crop.Projected, Source: source}, Five: &values, Projected: &a}, true
}

// carryForward carries the newest table before the unit's program year forward to it,
// one program year at a time.
func (s Sources) carryForward(u CountyUnit, decimals int) (a ProjectedBenchmark, ok bool) {
	table, five, from, found := s.latestTable(u)
	if !found {
		return a, false
	}
	trend := s.tableTrend(u, five, table)
	for i := range a.Yields {
		a.Yields[i] = AdjustedYield{Value: five[i], CropYear: table - len(five) - 1 + i}
	}
	a.tables, a.leastKnown = from, odds.Final
	for y := table; y < u.CropYear; y++ {
		newest, has := s.newestYield(u, y-1, decimals, Benchmark{
			Figure: farm.Figure{Value: program.BenchmarkYield(five, decimals), Status: crop.Projected, Source: from}, Five: &five})
		if !has {
			return a, false
		}
		newest.Trend = trend
		a.advance(newest, y, decimals)
	}
	return a, true
}

// advance goes on to program year y+1: the oldest yield leaves, newest comes in, and
// all five are adjusted anew (program.ProjectedYields).
func (a *ProjectedBenchmark) advance(newest AdjustedYield, y crop.CropYear, decimals int) {
	var five [5]crop.Yield
	for i, year := range a.Yields {
		five[i] = year.Value
	}
	next := program.ProjectedYields(five, newest.Trend, y, newest.Value, newest.Plug, decimals)
	a.yearsAhead++
	if slices.Index(odds.Stages(), newest.stage) < slices.Index(odds.Stages(), a.leastKnown) {
		a.leastKnown = newest.stage
	}
	copy(a.Yields[:], a.Yields[1:])
	a.Yields[4] = newest
	for i := range a.Yields {
		a.Yields[i].Value = next[i]
	}
	joined := ". Added: the county yield of %d"
	if a.yearsAhead > 1 {
		joined = ", and of %d"
	}
	a.tables += fmt.Sprintf(joined, newest.CropYear)
	if newest.Outlook != nil {
		a.tables += " (by outcome)"
	}
}

// latestTable returns the newest program year before the unit's for which a source has
// the five adjusted yields. Tables before 2019 have none.
func (s Sources) latestTable(u CountyUnit) (programYear crop.CropYear, five [5]crop.Yield, from string, ok bool) {
	for y := u.CropYear - 1; y >= u.CropYear-mostYearsProjected; y-- {
		if terms, err := program.TermsFor(u.Commodity, y); err != nil || !terms.HasEffective {
			break
		}
		if five, from, ok = adjustedYieldsOf(s.Counties, u, y); ok {
			return y, five, from, true
		}
	}
	return 0, five, "", false
}

// newestYield returns the county yield of crop year y as a benchmark counts it: known,
// as an agency estimates it, or an outlook by the same rules as for the crop year
// asked about. table is the benchmark that the outlook is compared with where year y
// has none.
func (s Sources) newestYield(u CountyUnit, y crop.CropYear, decimals int, table Benchmark) (year AdjustedYield, ok bool) {
	u.CropYear = y
	year.CropYear = y
	year.Plug = s.latestPlug(u)
	level, _ := plantedAcreYields(s.Counties, u)
	if known, has := level[y]; has {
		year.Value, year.stage = known, odds.InsuranceYield
		if _, final := KnownYield(s.Counties, u); final {
			year.stage = odds.Final
		}
		return year, true
	}
	if estimate, _ := agencyEstimate(s.Counties, u, s.Facts); estimate.Yield != nil {
		year.Value, year.stage = *estimate.Yield, odds.Stage(estimate.KnownFrom)
		return year, true
	}
	newest, has := s.BenchmarkYield(u, decimals)
	if !has {
		newest = table
	}
	outlook, ok, _ := s.Yield(u, newest)
	if !ok {
		return year, false
	}
	year.Outlook, year.Value, year.stage = &outlook, program.Round(outlook.Mean, decimals), odds.BeforeHarvest
	return year, true
}

// tableTrend returns the yearly trend of a table's five yields, units per acre and
// year: the one that they share (program.SharedTrend), else the one that a source
// states, else 0.
func (s Sources) tableTrend(u CountyUnit, five [5]crop.Yield, programYear crop.CropYear) crop.Yield {
	actual := map[crop.CropYear]crop.Yield{}
	entries := s.Counties.Entries(u.County, u.Commodity, u.Practice)
	for i := len(entries) - 1; i >= 0; i-- { // the first source wins
		maps.Copy(actual, entries[i].Actual)
	}
	if trend, share := program.SharedTrend(five, actual, programYear); share > 0 {
		return trend
	}
	for _, e := range entries {
		if trend, stated := e.Trend[programYear]; stated {
			return trend
		}
	}
	return 0
}

// latestPlug returns the least that the yield of the unit's crop year counts, units
// per acre: the newest figure of a source up to that year, 0 where none has any.
func (s Sources) latestPlug(u CountyUnit) crop.Yield {
	newest, plug := 0, 0.0
	for _, e := range s.Counties.Entries(u.County, u.Commodity, u.Practice) {
		for y, p := range e.Plug {
			if y <= u.CropYear && y > newest {
				newest, plug = y, p
			}
		}
	}
	return plug
}

// adjustedYieldsOf returns the five adjusted yields that a source has for a program year.
func adjustedYieldsOf(book farm.CountyBook, u CountyUnit, programYear crop.CropYear) (five [5]crop.Yield, from string, ok bool) {
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		if five, has := e.Adjusted[programYear]; has {
			return five, fmt.Sprintf("the %d yields of %s", programYear, e.Source.Name), true
		}
	}
	return five, "", false
}
