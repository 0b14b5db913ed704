package answer

import (
	"fmt"
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// mostAhead is how many program years after the latest table a benchmark yield
// is worked out: to the last crop year of the law from its first of now.
const mostAhead = 6

// ahead is how a benchmark yield comes about that no source has: from the latest
// table before it, its five yields carried forward by their trend, and newer
// county yields, those not known yet drawn.
type ahead struct {
	cells [5]adjustedCell // oldest first
	from  string          // the table and the years added, in words
	years int             // from the table's program year to this one
	least odds.Stage      // the least that is known of a year added
}

// adjustedCell is one of the five adjusted yields of a program year.
type adjustedCell struct {
	value    crop.Yield // adjusted; of the mean yield where it is drawn
	cropYear crop.CropYear
	outlook  *yieldOutlook // of a county yield that is not known; nil: known
	trend    crop.Yield    // for one that is drawn, units per acre and year
	plug     crop.Yield    // the least that it counts; 0: not known
	stage    odds.Stage    // from what the yield is known
}

// drawn reports whether any of the five yields is not known.
func (a *ahead) drawn() bool {
	for _, cell := range a.cells {
		if cell.outlook != nil {
			return true
		}
	}
	return false
}

// aheadBenchmark estimates a benchmark yield that no source has.
func (s sources) aheadBenchmark(u countyUnit, decimals int) (benchmark, bool) {
	a, ok := s.aheadOf(u, decimals)
	if !ok {
		return benchmark{}, false
	}
	values := [5]crop.Yield{}
	for i, cell := range a.cells {
		values[i] = cell.value
	}
	source := fmt.Sprintf("estimated ahead from %s", a.from)
	if a.drawn() {
		source = fmt.Sprintf("rebuilt in every outcome from %s", a.from)
	}
	source += "; " + odds.AheadAccuracy(a.least, a.years)
	return benchmark{Figure: farm.Figure{Value: program.BenchmarkYield(values, decimals), Status: crop.Projected, Source: source}, five: &values, ahead: &a}, true
}

// aheadOf carries the latest table before the unit's program year forward to it.
func (s sources) aheadOf(u countyUnit, decimals int) (a ahead, ok bool) {
	table, five, from, found := s.latestTable(u)
	if !found {
		return a, false
	}
	trend := s.trendOf(u, five, table)
	for i := range a.cells {
		a.cells[i] = adjustedCell{value: five[i], cropYear: table - len(five) - 1 + i}
	}
	a.from, a.least = from, odds.Final
	for y := table; y < u.cropYear; y++ {
		newest, has := s.newestCell(u, y-1, decimals, benchmark{
			Figure: farm.Figure{Value: program.BenchmarkYield(five, decimals), Status: crop.Projected, Source: from}, five: &five})
		if !has {
			return a, false
		}
		newest.trend = trend
		a.advance(newest, y, decimals)
	}
	return a, true
}

// advance goes from program year y to the next: four yields stay, one comes in.
func (a *ahead) advance(newest adjustedCell, y crop.CropYear, decimals int) {
	var five [5]crop.Yield
	for i, cell := range a.cells {
		five[i] = cell.value
	}
	next := program.AheadYields(five, newest.trend, y, newest.value, newest.plug, decimals)
	a.years++
	if slices.Index(odds.Stages(), newest.stage) < slices.Index(odds.Stages(), a.least) {
		a.least = newest.stage
	}
	copy(a.cells[:], a.cells[1:])
	a.cells[4] = newest
	for i := range a.cells {
		a.cells[i].value = next[i]
	}
	a.from += fmt.Sprintf(" and the county yield of %d", newest.cropYear)
	if newest.outlook != nil {
		a.from += " as drawn"
	}
}

// latestTable returns the newest program year before the unit's whose five
// adjusted yields a source has. Tables before 2019 have none.
func (s sources) latestTable(u countyUnit) (programYear crop.CropYear, five [5]crop.Yield, from string, ok bool) {
	for y := u.cropYear - 1; y >= u.cropYear-mostAhead; y-- {
		if terms, err := program.TermsFor(u.commodity, y); err != nil || !terms.HasEffective {
			break
		}
		if five, from, ok = tableFive(s.Counties, u, y); ok {
			return y, five, from, true
		}
	}
	return 0, five, "", false
}

// newestCell returns the county yield of a crop year as a benchmark counts it:
// known, as an agency estimates it, or to be drawn by the same rules as the yield
// of the crop year asked about. A year without a benchmark of its own is held
// against the table's, the newest.
func (s sources) newestCell(u countyUnit, y crop.CropYear, decimals int, table benchmark) (cell adjustedCell, ok bool) {
	u.cropYear = y
	cell.cropYear = y
	cell.plug = s.plugOf(u)
	level, _ := levelOf(s.Counties, u)
	if known, has := level[y]; has {
		cell.value, cell.stage = known, odds.InsuranceYield
		if _, final := knownYield(s.Counties, u); final {
			cell.stage = odds.Final
		}
		return cell, true
	}
	if told, _ := estimated(s.Counties, u); told.Yield != nil {
		cell.value, cell.stage = *told.Yield, odds.Stage(told.KnownFrom)
		return cell, true
	}
	newest, has := s.benchmarkYield(u, decimals)
	if !has {
		newest = table
	}
	outlook, ok, _ := s.outlook(u, newest)
	if !ok {
		return cell, false
	}
	cell.outlook, cell.value, cell.stage = &outlook, program.Round(outlook.Mean, decimals), odds.BeforeHarvest
	return cell, true
}

// trendOf returns the yearly trend that a table's five yields share, else the one
// that a source states for its program year, else 0.
func (s sources) trendOf(u countyUnit, five [5]crop.Yield, programYear crop.CropYear) crop.Yield {
	actual := map[crop.CropYear]crop.Yield{}
	entries := s.Counties.Entries(u.county, u.commodity, u.practice)
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

// plugOf returns the least that the yield of the unit's crop year counts: the
// newest that a source has up to that year, 0 where none has any.
func (s sources) plugOf(u countyUnit) crop.Yield {
	newest, plug := 0, 0.0
	for _, e := range s.Counties.Entries(u.county, u.commodity, u.practice) {
		for y, p := range e.Plug {
			if y <= u.cropYear && y > newest {
				newest, plug = y, p
			}
		}
	}
	return plug
}

// tableFive returns the five adjusted yields that a source has for a program year.
func tableFive(book farm.CountyBook, u countyUnit, programYear crop.CropYear) (five [5]crop.Yield, from string, ok bool) {
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		if five, has := e.Adjusted[programYear]; has {
			return five, fmt.Sprintf("the %d yields of %s", programYear, e.Source.Name), true
		}
	}
	return five, "", false
}
