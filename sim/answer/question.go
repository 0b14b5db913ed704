package answer

import (
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// Question is what is asked: what the user entered, what is known of counties and
// markets, and the settings of the run.
type Question struct {
	Operation     farm.Operation
	Counties      farm.CountyBook
	Market        farm.Market
	CropYears     []crop.CropYear
	Today         time.Time // the only clock a result may read
	Seed          uint64
	Draws         int             // at least so many; rounded up to 16 times a power of two
	Model         ModelName       // "": the usual odds
	Tail          Tail            // "": as usual
	Criteria      []Criterion     // more ways to look at the choices; none: not asked
	WithARCIC     bool            // ARC-IC may be among the choices where it can matter, also where it is not on record
	LeaveOutARCIC bool            // the last elections are paid without the farms that have ARC-IC on record
	Constants     *odds.Constants // numbers of the model; nil: the usual ones
	Brief         bool            // for many farms: without tables of other prices, lists of elections and errors of percentiles
}

// ModelName is the model that scenarios come from.
type ModelName string

// The models: distributions with correlations, or whole past years drawn again.
const (
	UsualOdds   ModelName = "odds"
	PastHistory ModelName = "history"
)

// Tail is the dependence of extremes in one crop year.
type Tail string

// The tails: as the correlations have it, or a stress in which extremes of one
// year come together more often.
const (
	NormalTail   Tail = "normal"
	StudentTTail Tail = "t"
)

// DefaultDraws is the number of scenarios where none is asked for.
const DefaultDraws = odds.DefaultScenarios

// DefaultCloseMargin is the difference of two means, USD per base acre, under which
// programs are called close. A judgement of this program.
const DefaultCloseMargin = 2.00

// Sources returns what the question's figures are resolved against.
func (c Question) Sources() position.Sources {
	return position.Sources{Counties: c.Counties, Market: c.Market, PastYears: c.Model == PastHistory, Constants: c.Constants}
}

// CloseMargin returns the user's close margin or the default, USD per base acre.
func (c Question) CloseMargin() crop.Money {
	if m := c.Operation.Settings.CloseMargin; m != nil {
		return *m
	}
	return DefaultCloseMargin
}
