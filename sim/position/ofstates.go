package position

import (
	"sync"

	"fencerow/program/farm"
)

// ofStates are the figures that the counties of a State share, each worked out once where
// many counties are looked up in one book. Nil works them out each time.
type ofStates struct{ ratios, slopes sync.Map }

// sharedFigure is the median of a figure over counties, and how many those are.
type sharedFigure struct {
	median   float64
	counties int
}

// ratio is statePlantedPerHarvested.
func (o *ofStates) ratio(book farm.CountyBook, u CountyUnit) (ratio float64, counties int) {
	if o == nil {
		return statePlantedPerHarvested(book, u)
	}
	return shared(&o.ratios, book, u, statePlantedPerHarvested)
}

// slope is stateRelativeSlope.
func (o *ofStates) slope(book farm.CountyBook, u CountyUnit) (slope float64, counties int) {
	if o == nil {
		return stateRelativeSlope(book, u)
	}
	return shared(&o.slopes, book, u, stateRelativeSlope)
}

// shared returns the figure of the unit's State, commodity, practice and crop year.
func shared(known *sync.Map, book farm.CountyBook, u CountyUnit, workOut func(farm.CountyBook, CountyUnit) (float64, int)) (float64, int) {
	u.County = StateOf(u.County)
	once, _ := known.LoadOrStore(u, sync.OnceValue(func() sharedFigure {
		median, counties := workOut(book, u)
		return sharedFigure{median, counties}
	}))
	figure := once.(func() sharedFigure)()
	return figure.median, figure.counties
}
