package position

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/parallel"
)

// Facts are what sources say of counties, States and the nation, each worked out once for
// all farms of a run. They belong to one book and one market. Nil works everything out each
// time. Several goroutines may use them.
type Facts struct {
	counties  parallel.Memo[factsKey, *Practice]
	practices parallel.Memo[factsKey, *[]farm.Practice] // of a county and commodity
	nations   parallel.Memo[factsKey, *National]        // of a commodity
	prices    parallel.Memo[factsKey, *knownPrice]      // likewise
	codes     parallel.Memo[factsKey, *[]string]        // of a State's counties
	ratios    parallel.Memo[factsKey, *sharedFigure]    // of a State
	slopes    parallel.Memo[factsKey, *sharedFigure]    // likewise
}

// factsKey is what a fact is of, and the decimals it is printed with: a county yield, or what
// of one the fact depends on. Its County may be a State.
type factsKey struct {
	unit     CountyUnit
	decimals int
}

// knownPrice is a price, or that there is none.
type knownPrice struct {
	price Price
	has   bool
}

// sharedFigure is the median of a figure over counties, and how many those are.
type sharedFigure struct {
	median   float64
	counties int
}

// countyPractice returns one practice of a county with its benchmark and outlook, without
// weight and coverage.
func (s Sources) countyPractice(u CountyUnit, decimals int) Practice {
	if s.Facts == nil {
		return s.workOutPractice(u, decimals)
	}
	key := factsKey{u, decimals}
	if known, has := s.Facts.counties.Known(key); has {
		return *known
	}
	return *s.Facts.counties.Of(key, func() *Practice { p := s.workOutPractice(u, decimals); return &p })
}

// workOutPractice is countyPractice from the sources.
func (s Sources) workOutPractice(u CountyUnit, decimals int) Practice {
	p := Practice{Unit: u}
	var found bool
	p.Benchmark, found = s.BenchmarkYield(u, decimals)
	p.Outlook, p.Known, p.Missing = s.Yield(u, p.Benchmark)
	if !found {
		p.Missing = "a benchmark yield of " + u.Commodity.Name() + " for " + s.Counties.Called(u.County)
	}
	return p
}

// practicesOf is farm.CountyBook.Practices of a county. The list is shared: read it only.
func (s Sources) practicesOf(county string, c crop.Commodity, y crop.CropYear) []farm.Practice {
	if s.Facts == nil {
		return s.Counties.Practices(county, c, y)
	}
	key := factsKey{unit: CountyUnit{County: county, Commodity: c, CropYear: y}}
	if known, has := s.Facts.practices.Known(key); has {
		return *known
	}
	return *s.Facts.practices.Of(key, func() *[]farm.Practice { all := s.Counties.Practices(county, c, y); return &all })
}

// national is NationalOf.
func (s Sources) national(c crop.Commodity, y crop.CropYear) (National, error) {
	if s.Facts == nil {
		return NationalOf(s.Market, c, y)
	}
	n, err := s.Facts.nations.Get(factsKey{unit: CountyUnit{Commodity: c, CropYear: y}}, func() (*National, error) {
		n, err := NationalOf(s.Market, c, y)
		return &n, err
	})
	return *n, err
}

// codesOf is farm.CountyBook.Codes of a State, looked up once.
func (f *Facts) codesOf(book farm.CountyBook, state string) []string {
	if f == nil {
		return book.Codes(state)
	}
	return *f.codes.Of(factsKey{unit: CountyUnit{County: state}}, func() *[]string { all := book.Codes(state); return &all })
}

// ratio is statePlantedPerHarvested.
func (f *Facts) ratio(book farm.CountyBook, u CountyUnit) (ratio float64, counties int) {
	if f == nil {
		return statePlantedPerHarvested(book, u, nil)
	}
	return f.ofState(&f.ratios, book, u, statePlantedPerHarvested)
}

// slope is stateRelativeSlope.
func (f *Facts) slope(book farm.CountyBook, u CountyUnit) (slope float64, counties int) {
	if f == nil {
		return stateRelativeSlope(book, u, nil)
	}
	return f.ofState(&f.slopes, book, u, stateRelativeSlope)
}

// ofState returns the figure of the unit's State, commodity, practice and crop year.
func (f *Facts) ofState(known *parallel.Memo[factsKey, *sharedFigure], book farm.CountyBook, u CountyUnit, workOut func(farm.CountyBook, CountyUnit, *Facts) (float64, int)) (float64, int) {
	u.County = StateOf(u.County)
	figure := known.Of(factsKey{unit: u}, func() *sharedFigure {
		median, counties := workOut(book, u, f)
		return &sharedFigure{median, counties}
	})
	return figure.median, figure.counties
}
