package answer

import (
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// Question is everything a question is asked about: what the user told, what the
// counties and markets say, and the settings of the run.
type Question struct {
	Operation farm.Operation
	Counties  farm.CountyBook
	Market    farm.Market
	CropYears []crop.CropYear
	Today     time.Time // the only clock a result may read
	Seed      uint64
	Draws     int         // at least so many; rounded up to 16 times a power of two
	Model     ModelName   // "": the usual odds
	Tail      Tail        // "": as usual
	Criteria  []Criterion // more ways to look at the choices; none: not asked
	WithARCIC bool        // ARC-IC may be among the choices where it can matter, also where it is not on record
	Brief     bool        // for many farms: without tables of other prices, lists of elections and errors of percentiles
}

// ModelName is where outcomes come from.
type ModelName string

// The models: distributions with correlations, or whole past years drawn again.
const (
	UsualOdds   ModelName = "odds"
	PastHistory ModelName = "history"
)

// Tail is how extreme outcomes of a crop year hang together.
type Tail string

// The tails: as the correlations have it, or a stress in which extremes of one
// year come together more often.
const (
	NormalTail   Tail = "normal"
	StudentTTail Tail = "t"
)

// DefaultDraws are drawn where no number is asked for.
const DefaultDraws = odds.DefaultScenarios

// DefaultCloseMargin is the average difference, in USD per base acre, under
// which two programs are called close. A judgement of this program.
const DefaultCloseMargin = 2.00

// Sources are those of the case.
func (c Question) Sources() position.Sources {
	return position.Sources{Counties: c.Counties, Market: c.Market, PastYears: c.Model == PastHistory}
}

// CloseMargin returns the user's margin or the default.
func (c Question) CloseMargin() crop.Money {
	if m := c.Operation.Settings.CloseMargin; m != nil {
		return *m
	}
	return DefaultCloseMargin
}
