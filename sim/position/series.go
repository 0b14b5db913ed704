package position

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// sortedSeries splits a series by crop year into years and yields, oldest first.
func sortedSeries(series map[crop.CropYear]crop.Yield) (years []int, yields []float64) {
	for _, y := range slices.Sorted(maps.Keys(series)) {
		years, yields = append(years, y), append(yields, series[y])
	}
	return years, yields
}

// KnownYield returns the actual county yield of the crop year, units per acre; ok is
// false where no source has it.
func KnownYield(book farm.CountyBook, u CountyUnit) (f farm.Figure, ok bool) {
	for _, e := range book.Entries(u.County, u.Commodity, u.Practice) {
		if actual, has := e.Actual[u.CropYear]; has {
			return farm.Figure{Value: actual, Status: e.Source.Status, Source: e.Source.Name}, true
		}
	}
	return farm.Figure{}, false
}

// statedOutlook returns the first outlook that a source states for a crop year, and
// the name of the source; "" where none does.
func statedOutlook(entries []farm.Entry, y crop.CropYear) (farm.YieldOutlook, string) {
	for _, e := range entries {
		if stated, has := e.Outlook[y]; has {
			return stated, e.Source.Name
		}
	}
	return farm.YieldOutlook{}, ""
}

// YieldSeries is a series of yearly county yields, oldest first, in units per planted
// acre as FSA's yields are.
type YieldSeries struct {
	Years            []int
	Yields           []float64
	remark           string   // where they come from and what was done to them, "; NASS county yields ... x 0.970 ..."; "": they are as published
	PerHarvestedAcre bool     // published per harvested acre; multiplied by a ratio to planted acres where it is known
	levelUnknown     bool     // published per harvested acre, and that ratio is not known
	stateSlope       *float64 // of the State's counties, in place of a short series' own; units per acre and year; nil: its own
}

// plantedAcreYields returns a county's yields per planted acre by crop year. From
// odds.SourceChange on FSA's actual yields come first, then RMA's; before it RMA's
// come first, so that the series is of one source. mixed reports that FSA's yields
// from before that change are among them.
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

// EntriesWithSubstitutes returns the book's entries of a unit, and those of another
// practice whose long series can stand in where the unit has none: RMA's nonirrigated
// yields for a county with one yield for all (they agree: docs/method.md), NASS's
// yields of all practices for the nonirrigated yield.
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

// publishedBenchmark returns the benchmark yield that a source has for program year y,
// as published or the Olympic average of its five adjusted yields, not rounded.
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
