package position

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// sortedSeries splits a series by crop year, oldest first.
func sortedSeries(series map[crop.CropYear]crop.Yield) (years []int, yields []float64) {
	for _, y := range slices.Sorted(maps.Keys(series)) {
		years, yields = append(years, y), append(yields, series[y])
	}
	return years, yields
}

// KnownYield returns the actual county yield where a source has it.
func KnownYield(book farm.CountyBook, u CountyUnit) (farm.Figure, bool) {
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		if actual, has := e.Actual[u.CropYear]; has {
			return farm.Figure{Value: actual, Status: e.Source.Status, Source: e.Source.Name}, true
		}
	}
	return farm.Figure{}, false
}

// statedOutlook returns the first outlook a source states for the crop year.
func statedOutlook(entries []farm.Entry, y crop.CropYear) (farm.YieldOutlook, string) {
	for _, e := range entries {
		if told, has := e.Outlook[y]; has {
			return told, e.Source.Name
		}
	}
	return farm.YieldOutlook{}, ""
}

// YieldSeries is the longest series of yearly yields of a county, oldest first,
// at the level of the agency's yields per planted acre.
type YieldSeries struct {
	Years            []int
	Yields           []float64
	remark           string   // what was done to it: "; NASS county yields ... x 0.970 ..."
	PerHarvestedAcre bool     // per harvested acre, moved to the level of planted ones
	levelUnknown     bool     // per harvested acre, and by how much to move it is not known
	stateSlope       *float64 // pooled over the State, where the series is short; units per acre and year
}

// plantedAcreYields returns a county's yields per planted acre: from the change of the
// agency's source on the actual ones, with RMA's where those are missing; before
// it RMA's first, which are of one source. mixed reports that years before the
// change are the agency's of the old source.
func plantedAcreYields(book farm.CountyBook, u CountyUnit) (level map[crop.CropYear]crop.Yield, mixed bool) {
	level = map[crop.CropYear]crop.Yield{}
	entries := EntriesWithSubstitutes(book, u)
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

// EntriesWithSubstitutes returns the entries of a unit, and those of another practice whose
// long series can stand for its own: RMA's nonirrigated yields where the county
// has one yield for all (they agree: docs/method.md), NASS's yields of all
// practices for the nonirrigated yield.
func EntriesWithSubstitutes(book farm.CountyBook, u CountyUnit) []farm.Entry {
	entries := book.Entries(u.County, u.Commodity, u.Practice)
	lend := func(from farm.Practice, series func(*farm.CountyYield) *map[crop.CropYear]crop.Yield) {
		for i := range entries {
			if len(*series(&entries[i].CountyYield)) > 0 {
				return // it has its own
			}
		}
		for _, e := range book.Entries(u.County, u.Commodity, from) {
			lent := farm.Entry{CountyName: e.CountyName, Source: e.Source}
			lent.Source.Name += ", " + string(from)
			if *series(&lent.CountyYield) = *series(&e.CountyYield); len(*series(&lent.CountyYield)) > 0 {
				entries = append(entries, lent)
			}
		}
	}
	switch u.Practice {
	case farm.AllPractices:
		lend(farm.Nonirrigated, func(y *farm.CountyYield) *map[crop.CropYear]crop.Yield { return &y.Insured })
	case farm.Nonirrigated:
		lend(farm.AllPractices, func(y *farm.CountyYield) *map[crop.CropYear]crop.Yield { return &y.Harvested })
	}
	return entries
}

// publishedBenchmark returns the benchmark yield that a source has for a program
// year, as published or from its five adjusted yields.
func publishedBenchmark(book farm.CountyBook, u CountyUnit, y crop.CropYear) (crop.Yield, bool) {
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		if published, has := e.BenchmarkYield[y]; has {
			return published, true
		}
		if five, has := e.Adjusted[y]; has {
			return program.OlympicAverage(five), true
		}
	}
	return 0, false
}
