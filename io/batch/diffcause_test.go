package batch

import (
	"slices"
	"testing"
)

// lineOf is a line of results with a lead and a margin.
func lineOf(leader, margin string) resultLine {
	l := make(resultLine, len(resultColumns))
	l[resultColumn["leader"]], l[resultColumn["difference_mean"]] = leader, margin
	return l
}

// A flip is put down to the one kind that alone gives the new lead, else to several.
func TestCauseIsTheOneKindThatAloneDoesIt(t *testing.T) {
	plc, arc, toss := lineOf("PLC", "-9.00"), lineOf("ARC-CO", "9.00"), lineOf("close", "0.50")
	still := lineOf("PLC", "-8.00")
	for _, c := range []struct {
		what         string
		told         told
		want         Kind
		moves, flips []Kind
	}{
		{"price alone flips", told{before: plc, base: plc, after: arc, alone: map[Kind]resultLine{ByPrice: arc, ByCounty: still}}, ByPrice, []Kind{ByPrice, ByCounty}, []Kind{ByPrice}},
		{"each alone flips", told{before: plc, base: plc, after: arc, alone: map[Kind]resultLine{ByPrice: arc, ByCounty: arc}}, ByJoint, []Kind{ByPrice, ByCounty}, []Kind{ByPrice, ByCounty}},
		{"none alone flips", told{before: plc, base: plc, after: arc, alone: map[Kind]resultLine{ByPrice: still, ByRecord: still}}, ByJoint, []Kind{ByPrice, ByRecord}, nil},
		{"one alone flips to a third lead", told{before: plc, base: plc, after: arc, alone: map[Kind]resultLine{ByPrice: toss, ByRecord: still}}, ByJoint, []Kind{ByPrice, ByRecord}, nil},
		{"moved by one kind, no flip", told{before: plc, base: plc, after: still, alone: map[Kind]resultLine{ByPrice: plc, ByCounty: still}}, ByCounty, []Kind{ByCounty}, nil},
		{"only together do they move it", told{before: plc, base: plc, after: still, alone: map[Kind]resultLine{ByPrice: plc, ByCounty: plc}}, ByJoint, []Kind{ByPrice, ByCounty, ByRecord, BySettings}, nil},
		{"the law alone flips", told{before: plc, base: arc, after: arc, program: ByLaw, alone: map[Kind]resultLine{ByPrice: arc}}, ByLaw, []Kind{ByLaw}, []Kind{ByLaw}},
		{"the law moves it, and under the new law the price flips it", told{before: plc, base: still, after: arc, program: ByLaw, alone: map[Kind]resultLine{ByPrice: arc}}, ByJoint, []Kind{ByLaw, ByPrice}, nil},
		{"the law differs and does not move it", told{before: plc, base: plc, after: arc, program: ByLaw, alone: map[Kind]resultLine{ByPrice: arc}}, ByPrice, []Kind{ByPrice}, []Kind{ByPrice}},
	} {
		c.told.differ = askable
		got, moves, flips := c.told.cause()
		if got != c.want || !slices.Equal(moves, c.moves) || !slices.Equal(flips, c.flips) {
			t.Errorf("%s: %s, moved by %v, flipped by %v; want %s, %v, %v", c.what, got, moves, flips, c.want, c.moves, c.flips)
		}
	}
}
