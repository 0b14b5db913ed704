package position

import (
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Sources are what the figures of a question are looked up in.
type Sources struct {
	Counties  farm.CountyBook
	Market    farm.Market
	PastYears bool            // county yields are those of whole past years, drawn again
	Constants *odds.Constants // nil: the usual ones
	Facts     *Facts          // what was worked out of them; nil: nothing is kept
}
