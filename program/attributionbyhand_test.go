package program

import (
	"math"
	"testing"

	"fencerow/program/farm"
)

// A joint operation of two limits of 155,000, with one listed member who owns half and 200,000 used elsewhere, has 110,000
// left of its 310,000. Its owners are paid half each of what it passes on, so it binds at 110,000 in all,
// long before the other owners' half, 155,000, does; so with 100,000 used at 210,000. With nothing used, each half may be 155,000: it binds at 310,000.
func TestWhereALimitBinds(t *testing.T) {
	for used, want := range map[float64]float64{200_000: 110_000, 100_000: 210_000, 0: 310_000} {
		joint := farm.Producer{ID: "joint", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.5}}, LimitUsed: map[int]farm.LimitUsed{2026: {General: used}}}
		a := NewAttribution([]farm.Producer{joint}, LimitRule{Limit: 155_000, PassThroughPerMember: true, CropYear: 2026})
		r := a.Recipients[a.Find("joint")]
		if got := r.BindsAt(GeneralPool); math.Abs(got-want) > 0.01 {
			t.Errorf("%v used elsewhere: it binds at %v, by hand %v", used, got, want)
		}
		if got := r.OthersRoom(GeneralPool); got != 155_000 {
			t.Errorf("owners who are not listed may keep %v", got)
		}
	}
}

// A corporation's own limit covers owners who are not listed (7 U.S.C. 1308(e)(3)(A)): it binds at what is left of that, and
// nothing else caps what stays with them. Peanuts have a limit of their own (1308(c)).
func TestRoomOfACorporation(t *testing.T) {
	corporation := farm.Producer{ID: "inc", Kind: farm.Corporation, Members: []farm.Member{{ID: "ann", Share: 0.25}}, LimitUsed: map[int]farm.LimitUsed{2026: {General: 55_000, Peanuts: 5_000}}}
	a := NewAttribution([]farm.Producer{corporation}, LimitRule{Limit: 155_000, PassThroughPerMember: true, CropYear: 2026, Reduced: 0.5})
	r := a.Recipients[a.Find("inc")]
	// Half is taken before the limit: 100,000 and 150,000 that are left let 200,000 and 300,000 arrive.
	for pool, want := range map[LimitPool]float64{GeneralPool: 200_000, PeanutPool: 300_000} {
		if r.Room(pool) != want || r.BindsAt(pool) != want || !math.IsInf(r.OthersRoom(pool), 1) {
			t.Errorf("pool %d: room %v, binds at %v, others %v; by hand %v", pool, r.Room(pool), r.BindsAt(pool), r.OthersRoom(pool), want)
		}
	}
	if got := a.Find("ann"); got != 0 || a.Find("abe") != -1 || a.Find("zoe") != -1 {
		t.Errorf("ann is at %d, abe at %d, zoe at %d", got, a.Find("abe"), a.Find("zoe"))
	}
	if open := a.WithoutLimit(); !math.IsInf(open.Recipients[1].Room(GeneralPool), 1) || !math.IsInf(open.Recipients[1].OthersRoom(PeanutPool), 1) || !math.IsInf(open.Recipients[1].Limit, 1) {
		t.Errorf("without a limit: %+v", open.Recipients[1])
	}
}

// Where all is sequestered nothing is paid, and the limit stays what it is. One barred for income has no room, with
// or without a limit (7 U.S.C. 1308-3a), and nothing of it counts as cut by a limit.
func TestNothingArrives(t *testing.T) {
	people := []farm.Producer{{ID: "ann", Kind: farm.Person}, {ID: "ben", Kind: farm.Person, IncomeOverLimit: true}}
	a := NewAttribution(people, LimitRule{Limit: 155_000, CropYear: 2026, Reduced: 1})
	if ann, ben := a.Recipients[0].Room(GeneralPool), a.Recipients[1].Room(GeneralPool); ann != 155_000 || ben != 0 {
		t.Errorf("room for ann %v, for ben %v", ann, ben)
	}
	if got := a.WithoutLimit().Recipients[1].Room(GeneralPool); got != 0 {
		t.Errorf("ben without a limit has room for %v", got)
	}
	// 200,000 arrive at ann: 45,000 are cut. Of ben's 200,000 no limit cuts anything.
	if ann, ben := a.Over(GeneralPool, 0, 200_000), a.Over(GeneralPool, 1, 200_000); ann != 45_000 || ben != 0 {
		t.Errorf("over the limit: ann %v, ben %v", ann, ben)
	}
}

// A joint operation is limited by one limit for each it is made of (7 CFR 1400.106(b)): a partnership of ann (0.4), of a partnership
// of ben (0.25) and cid (0.25), and of a tenth owned by nobody who is listed, has four.
func TestLimitsOfNestedPartnerships(t *testing.T) {
	inner := farm.Producer{ID: "inner", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ben", Share: 0.5}, {ID: "cid", Share: 0.5}}}
	outer := farm.Producer{ID: "outer", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.4}, {ID: "inner", Share: 0.5}}}
	a := NewAttribution([]farm.Producer{outer, inner}, LimitRule{Limit: 100_000, CropYear: 2026})
	if got := a.Recipients[a.Find("outer")]; got.Limit != 400_000 || math.Abs(got.Rest-0.1) > 1e-12 {
		t.Errorf("limit %v, owned by others %v", got.Limit, got.Rest)
	}
	if got := a.Recipients[a.Find("inner")]; got.Limit != 200_000 || got.Rest != 0 {
		t.Errorf("limit %v, owned by others %v", got.Limit, got.Rest)
	}
}
