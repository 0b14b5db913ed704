package moved_test

import (
	"slices"
	"testing"

	"fencerow/sim/answer"
	"fencerow/sim/moved"
)

// line is a lead and a margin.
type line struct{ lead, margin string }

func (l line) SameAs(other line) bool { return l == other }

func (l line) Lead() string { return l.lead }

// askable are all kinds that can be asked of alone.
var askable = []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseRecord, answer.CauseSettings}

// A flip is put down to the one kind that alone gives the new lead, else to several.
func TestCauseIsTheOneKindThatAloneDoesIt(t *testing.T) {
	plc, arc, toss := line{"PLC", "-9.00"}, line{"ARC-CO", "9.00"}, line{"close", "0.50"}
	still := line{"PLC", "-8.00"}
	for _, c := range []struct {
		what         string
		told         moved.Told[line]
		want         answer.Cause
		moves, flips []answer.Cause
	}{
		{"price alone flips", moved.Told[line]{Before: plc, Base: plc, After: arc, Alone: map[answer.Cause]line{answer.CausePrice: arc, answer.CauseCounty: still}}, answer.CausePrice, []answer.Cause{answer.CausePrice, answer.CauseCounty}, []answer.Cause{answer.CausePrice}},
		{"each alone flips", moved.Told[line]{Before: plc, Base: plc, After: arc, Alone: map[answer.Cause]line{answer.CausePrice: arc, answer.CauseCounty: arc}}, answer.CauseJoint, []answer.Cause{answer.CausePrice, answer.CauseCounty}, []answer.Cause{answer.CausePrice, answer.CauseCounty}},
		{"none alone flips", moved.Told[line]{Before: plc, Base: plc, After: arc, Alone: map[answer.Cause]line{answer.CausePrice: still, answer.CauseRecord: still}}, answer.CauseJoint, []answer.Cause{answer.CausePrice, answer.CauseRecord}, nil},
		{"one alone flips to a third lead", moved.Told[line]{Before: plc, Base: plc, After: arc, Alone: map[answer.Cause]line{answer.CausePrice: toss, answer.CauseRecord: still}}, answer.CauseJoint, []answer.Cause{answer.CausePrice, answer.CauseRecord}, nil},
		{"moved by one kind, no flip", moved.Told[line]{Before: plc, Base: plc, After: still, Alone: map[answer.Cause]line{answer.CausePrice: plc, answer.CauseCounty: still}}, answer.CauseCounty, []answer.Cause{answer.CauseCounty}, nil},
		{"only together do they move it", moved.Told[line]{Before: plc, Base: plc, After: still, Alone: map[answer.Cause]line{answer.CausePrice: plc, answer.CauseCounty: plc}}, answer.CauseJoint, []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseRecord, answer.CauseSettings}, nil},
		{"the law alone flips", moved.Told[line]{Before: plc, Base: arc, After: arc, Program: answer.CauseLaw, Alone: map[answer.Cause]line{answer.CausePrice: arc}}, answer.CauseLaw, []answer.Cause{answer.CauseLaw}, []answer.Cause{answer.CauseLaw}},
		{"the law moves it, and under the new law the price flips it", moved.Told[line]{Before: plc, Base: still, After: arc, Program: answer.CauseLaw, Alone: map[answer.Cause]line{answer.CausePrice: arc}}, answer.CauseJoint, []answer.Cause{answer.CauseLaw, answer.CausePrice}, nil},
		{"the law differs and does not move it", moved.Told[line]{Before: plc, Base: plc, After: arc, Program: answer.CauseLaw, Alone: map[answer.Cause]line{answer.CausePrice: arc}}, answer.CausePrice, []answer.Cause{answer.CausePrice}, []answer.Cause{answer.CausePrice}},
	} {
		c.told.Differ = askable
		got, moves, flips := c.told.Cause()
		if got != c.want || !slices.Equal(moves, c.moves) || !slices.Equal(flips, c.flips) {
			t.Errorf("%s: %s, moved by %v, flipped by %v; want %s, %v, %v", c.what, got, moves, flips, c.want, c.moves, c.flips)
		}
	}
}
