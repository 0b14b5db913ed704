package program

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fencerow/program/farm"
)

// drawnPeople are random persons, entities and what they earn.
func drawnPeople(t *rapid.T) (producers []farm.Producer, earned map[string]float64) {
	const year = 2026
	earned = map[string]float64{}
	n := rapid.IntRange(1, 6).Draw(t, "producers")
	kinds := []farm.ProducerKind{farm.Person, farm.JointOperation, farm.PassThrough, farm.Corporation}
	for i := range n {
		p := farm.Producer{ID: fmt.Sprintf("p%d", i), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
			LimitUsed:       map[int]farm.LimitUsed{year: {General: float64(rapid.IntRange(0, 200_000).Draw(t, "used"))}},
			IncomeOverLimit: rapid.IntRange(0, 9).Draw(t, "income") == 0}
		if p.Kind != farm.Person {
			p.Members = drawnMembers(t, i, n)
		}
		producers = append(producers, p)
		earned[p.ID] = float64(rapid.IntRange(0, 1_000_000).Draw(t, "earned"))
	}
	return producers, earned
}

// drawnMembers are owners after place i, so that none owns itself, or people
// without an entry.
func drawnMembers(t *rapid.T, i, n int) (members []farm.Member) {
	left := 1.0
	for k := i + 1; k < n+3; k++ {
		share := left * float64(rapid.IntRange(0, 100).Draw(t, "share")) / 100
		if share == 0 {
			continue
		}
		left = max(0, left-share) // binary noise
		members = append(members, farm.Member{ID: fmt.Sprintf("p%d", k), Share: share})
	}
	return members
}

func traced(producers []farm.Producer, earned map[string]float64, perMember bool) (Attribution, map[string]float64, map[string]float64) {
	a := NewAttribution(producers, LimitRule{Limit: 155_000, PassThroughPerMember: perMember, CropYear: 2026})
	own, arrived, ended := make([]float64, len(a.Recipients)), make([]float64, len(a.Recipients)), make([]float64, len(a.Recipients))
	for id, amount := range earned {
		own[a.Find(id)] = amount
	}
	a.Trace(GeneralPool, own, arrived, ended)
	reached, paid := map[string]float64{}, map[string]float64{}
	for i, r := range a.Recipients {
		reached[r.ID], paid[r.ID] = arrived[i], ended[i]
	}
	return a, reached, paid
}

func sumOf(amounts map[string]float64) (sum float64) {
	for _, x := range amounts {
		sum += x
	}
	return sum
}

// noise is the binary noise of adding dollars.
const addingNoise = 1e-6

// No one is paid a negative amount or more than the own limit leaves, and all
// together not more than was earned.
func TestNobodyIsPaidBeyondTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		a, _, paid := traced(producers, earned, rapid.Bool().Draw(t, "per member"))
		for _, r := range a.Recipients {
			if paid[r.ID] < 0 || paid[r.ID] > r.Room(GeneralPool)+addingNoise {
				t.Fatalf("%s is paid %v of a limit with room for %v", r.ID, paid[r.ID], r.Room(GeneralPool))
			}
		}
		if got, most := sumOf(paid), sumOf(earned); got > most+addingNoise {
			t.Fatalf("paid %v of %v earned", got, most)
		}
	})
}

// No person is paid more than the own limit, and all together who are paid by a joint
// operation alone no more than its members' limits less what it was paid elsewhere.
func TestLimitsOfMembersCapWhatIsPaidTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		only := rapid.SampledFrom(producers).Draw(t, "who earns")
		earned = map[string]float64{only.ID: earned[only.ID]}
		a, _, paid := traced(producers, earned, true)
		for _, r := range a.Recipients {
			if len(r.Owners) == 0 && paid[r.ID] > 155_000+addingNoise {
				t.Fatalf("%s is paid %v", r.ID, paid[r.ID])
			}
		}
		r := a.Recipients[a.Find(only.ID)]
		if most := max(0, r.Limit-r.Used.General); sumOf(paid) > most*(1+1e-6)+addingNoise {
			t.Fatalf("%s: %v is paid together, at most %v", only.ID, sumOf(paid), most)
		}
	})
}

// Payments followed as earned under limits divided by what sequestration leaves, and
// reduced at the end, are those reduced first and then limited, as the law has it.
func TestOrderOfReductions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		withheld := float64(rapid.IntRange(0, 99).Draw(t, "withheld")) / 100
		reduced, own := map[string]float64{}, make([]float64, 0)
		for id, money := range earned {
			reduced[id] = money * (1 - withheld)
		}
		_, reached, want := traced(producers, reduced, true)
		a := NewAttribution(producers, LimitRule{Limit: 155_000, PassThroughPerMember: true, CropYear: 2026, Reduced: withheld})
		for _, r := range a.Recipients {
			own = append(own, earned[r.ID])
		}
		arrived, ended := make([]float64, len(own)), make([]float64, len(own))
		a.Trace(GeneralPool, own, arrived, ended)
		for i, r := range a.Recipients {
			got, over := ended[i]*(1-withheld), a.Over(GeneralPool, i, arrived[i])*(1-withheld)
			if math.Abs(got-want[r.ID]) > 1e-4 || math.Abs(arrived[i]*(1-withheld)-reached[r.ID]) > 1e-4 || over < 0 {
				t.Fatalf("%s at %v withheld: %v is paid, %v the other way", r.ID, withheld, got, want[r.ID])
			}
		}
	})
}

// The order of producers and members in the file changes no figure.
func TestOrderOfProducersChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		_, reached, paid := traced(producers, earned, true)
		shuffled := rapid.Permutation(producers).Draw(t, "order")
		for i := range shuffled {
			shuffled[i].Members = rapid.Permutation(shuffled[i].Members).Draw(t, "members")
		}
		_, again, paidAgain := traced(shuffled, earned, true)
		for id := range paid {
			if paid[id] != paidAgain[id] || reached[id] != again[id] {
				t.Fatalf("%s: %v and %v before, %v and %v after shuffling", id, reached[id], paid[id], again[id], paidAgain[id])
			}
		}
	})
}

// From 2026 a pass-through entity that takes in another member is never paid
// less: one member's share is divided between two who have their whole limit.
func TestMoreMembersNeverLowerTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "members")
		p := farm.Producer{ID: "llc", Kind: rapid.SampledFrom([]farm.ProducerKind{farm.PassThrough, farm.JointOperation}).Draw(t, "kind")}
		for i := range n {
			p.Members = append(p.Members, farm.Member{ID: fmt.Sprintf("m%d", i), Share: 1 / float64(n)})
		}
		earned := map[string]float64{"llc": float64(rapid.IntRange(0, 3_000_000).Draw(t, "earned"))}
		_, _, before := traced([]farm.Producer{p}, earned, true)
		more := p
		more.Members = slices.Clone(p.Members)
		part := float64(rapid.IntRange(1, 99).Draw(t, "part")) / 100
		last := &more.Members[n-1]
		more.Members = append(more.Members, farm.Member{ID: "new", Share: last.Share * part})
		more.Members[n-1].Share *= 1 - part
		_, _, after := traced([]farm.Producer{more}, earned, true)
		if sumOf(after) < sumOf(before)-addingNoise {
			t.Fatalf("%v with %d members, %v with one more", sumOf(before), n, sumOf(after))
		}
	})
}

// The interests in what each recipient earns add up to all of it, and every entity stands
// before its owners.
func TestReachAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, _ := drawnPeople(t)
		a := NewAttribution(producers, LimitRule{Limit: 1, CropYear: 2026})
		for i, r := range a.Recipients {
			sum, last := 0.0, -1
			for _, one := range a.Reach(i) {
				if at := slices.Index(a.Order, one.Recipient); at <= last {
					t.Fatalf("what %s earns reaches %s out of order", r.ID, a.Recipients[one.Recipient].ID)
				} else {
					last = at
				}
				sum += one.Share
			}
			if sum < 1-addingNoise || sum > 1+addingNoise {
				t.Fatalf("the parts behind %s add to %v", r.ID, sum)
			}
		}
	})
}

// Series of scenarios give what Trace and Worth give scenario by scenario.
func TestArriveIsTraceOfEachScenario(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		a := NewAttribution(producers, LimitRule{Limit: 125_000, PassThroughPerMember: true, CropYear: 2026})
		const scenarios = 5
		n := len(a.Recipients)
		series := func() [][]float64 {
			all := make([][]float64, n)
			for i := range all {
				all[i] = make([]float64, scenarios)
			}
			return all
		}
		own, arrived, worth := series(), series(), series()
		for _, p := range producers {
			for s := range scenarios {
				own[a.Find(p.ID)][s] = float64(s) * earned[p.ID] / 2
				arrived[a.Find(p.ID)][s] = own[a.Find(p.ID)][s]
			}
		}
		a.Arrive(GeneralPool, a.Order, arrived, make([]float64, scenarios))
		a.FillWorth(GeneralPool, a.Order, arrived, worth)
		for s := range scenarios {
			one, reaches, ended, each := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
			for i := range one {
				one[i] = own[i][s]
			}
			a.Trace(GeneralPool, one, reaches, ended)
			a.Worth(GeneralPool, reaches, each)
			for i, r := range a.Recipients {
				stays := make([]float64, scenarios)
				a.AddStaying(GeneralPool, i, stays, arrived[i])
				if arrived[i][s] != reaches[i] || stays[s] != ended[i] || worth[i][s] != each[i] {
					t.Fatalf("%s in scenario %d: arrived %v, stays %v, worth %v, in one scenario %v, %v, %v", r.ID, s, arrived[i][s], stays[s], worth[i][s], reaches[i], ended[i], each[i])
				}
			}
		}
	})
}

// What Worth says of one more dollar is what Trace makes of it: exactly below every
// limit, and no less than any dollar after it brings.
func TestWorthIsWhatTheNextDollarBrings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		producers, earned := drawnPeople(t)
		a, reached, paid := traced(producers, earned, true)
		arrived, worth := make([]float64, len(a.Recipients)), make([]float64, len(a.Recipients))
		for i, r := range a.Recipients {
			arrived[i] = reached[r.ID]
		}
		a.Worth(GeneralPool, arrived, worth)
		for _, p := range producers {
			for _, dollars := range []float64{0.001, 1000, 1_000_000} {
				more := maps.Clone(earned)
				more[p.ID] += dollars
				_, _, then := traced(producers, more, true)
				rise, most := sumOf(then)-sumOf(paid), worth[a.Find(p.ID)]*dollars
				if rise > most+1e-6 {
					t.Fatalf("%v more for %s bring %v, at most %v was said", dollars, p.ID, rise, most)
				}
				if dollars < 1 && rise < most-1e-6 && farFromLimits(a, arrived) {
					t.Fatalf("%v more for %s bring %v, not %v", dollars, p.ID, rise, most)
				}
			}
		}
	})
}

// farFromLimits reports whether a tenth of a cent more fills no limit.
func farFromLimits(a Attribution, arrived []float64) bool {
	for i, r := range a.Recipients {
		if room := r.Room(GeneralPool); arrived[i] < room && arrived[i]+0.01 >= room {
			return false
		}
	}
	return true
}
