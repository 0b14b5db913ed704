package elect

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/farm"
)

// contested is a random operation with limits that bind in some of the scenarios.
type contested struct {
	producers   []farm.Producer
	attribution program.Attribution
	places      []int
	payments    [][2][]float64 // [flip][program][scenario], USD before share
	shares      [][]float64    // [flip][producer]
	pools       []int
}

const scenarios = 64

func invent(random *rand.Rand, flips int) (o contested) {
	ids := []string{"ann", "ben", "cal"}[:1+random.IntN(3)]
	for _, id := range ids {
		o.producers = append(o.producers, farm.Producer{ID: id, Kind: farm.Person})
	}
	if random.IntN(2) == 0 {
		o.producers = append(o.producers, farm.Producer{ID: "firm", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.6}, {ID: "other", Share: 0.4}}})
	}
	total := 0.0
	for range flips {
		size, level := 100+1000*random.Float64(), random.Float64()
		pair := [2][]float64{make([]float64, scenarios), make([]float64, scenarios)}
		for s := range scenarios {
			pair[0][s] = program.Cent(size * max(0, level-random.Float64()))
			pair[1][s] = program.Cent(size * max(0, 0.3-random.Float64()))
			total += (pair[0][s] + pair[1][s]) / scenarios
		}
		shares, left := make([]float64, len(o.producers)), 1.0
		for j := range shares {
			shares[j] = left * random.Float64()
			left -= shares[j]
		}
		o.payments, o.shares, o.pools = append(o.payments, pair), append(o.shares, shares), append(o.pools, random.IntN(len(pools)))
	}
	o.attribution = program.NewAttribution(o.producers, program.LimitRule{Limit: total * (0.1 + 0.5*random.Float64()), CropYear: 2026, Reduced: 0.057})
	for _, p := range o.producers {
		o.places = append(o.places, o.attribution.Find(p.ID))
	}
	return o
}

// operation returns the optimization, every flip at its first program.
func (o contested) operation() *Operation {
	all := &Operation{Attribution: o.attribution, Places: o.places, Withheld: 0.057, Parallel: func(n int, do func(int)) {
		for k := range n {
			do(k)
		}
	}}
	for pool := range all.Earned {
		for range o.producers {
			all.Earned[pool] = append(all.Earned[pool], make([]float64, scenarios))
		}
	}
	for k, pair := range o.payments {
		flip := Flip{{Series: pair[0]}, {Series: pair[1]}}
		for j, share := range o.shares[k] {
			for s, money := range pair[0] {
				all.Earned[o.pools[k]][j][s] += share * money
			}
			flip[0].Stakes = append(flip[0].Stakes, Stake{Pool: o.pools[k], Producer: j, Share: -share})
			flip[1].Stakes = append(flip[1].Stakes, Stake{Pool: o.pools[k], Producer: j, Share: share})
		}
		all.Flips = append(all.Flips, flip)
	}
	return all
}

// paidUnder returns the mean after limits of one choice, computed without Operation: bit k
// of the mask is flip k.
func (o contested) paidUnder(mask int) (mean float64) {
	n := len(o.attribution.Recipients)
	arrived, ended := make([]float64, n), make([]float64, n)
	for s := range scenarios {
		afterLimit := make([]float64, n)
		for pool := range pools {
			own := make([]float64, n)
			for k, pair := range o.payments {
				if o.pools[k] == pool {
					for j, share := range o.shares[k] {
						own[o.places[j]] += share * pair[mask>>k&1][s]
					}
				}
			}
			o.attribution.Trace(pools[pool], own, arrived, ended)
			for i, money := range ended {
				afterLimit[i] += money
			}
		}
		for _, money := range afterLimit {
			mean += program.AfterSequestration(money, 0.057) / scenarios
		}
	}
	return mean
}

// Best returns the choice with the highest mean of all choices, tried here one by one,
// whether it enumerated or pruned them; no mean exceeds the bound or a cutting plane.
func TestBestAgainstEveryChoice(t *testing.T) {
	const operations, flips = 60, 7
	random := rand.New(rand.NewPCG(19, 23))
	heights, searched := 0, 0.0
	for n := range operations {
		o := invent(random, 2+random.IntN(flips-1))
		var means []float64
		for mask := range 1 << len(o.payments) {
			means = append(means, o.paidUnder(mask))
		}
		highest := slices.Max(means)
		for _, most := range []int{len(o.payments), 0} { // enumerated; pruned by planes
			best := o.operation().Best(most)
			mask := 0
			for k, is := range best.Flipped {
				if is {
					mask |= 1 << k
				}
			}
			if means[mask] < highest-LeastGain || best.Bound < highest-1e-6 || !best.Exact {
				t.Errorf("operation %d, most %d: %v averages %.4f, bound %.4f, exact %v; the best of all %.4f", n, most, best.Flipped, means[mask], best.Bound, best.Exact, highest)
			}
		}
		all := o.operation()
		all.start()
		_, lowest, planes := all.ascend()
		x := make([]float64, len(o.payments))
		for mask, mean := range means {
			for k := range x {
				x[k] = float64(mask >> k & 1)
			}
			for _, p := range append(planes, lowest) {
				if heights++; p.height(x)+all.roundingSlack() < mean {
					t.Errorf("operation %d: a plane is at %.4f where a choice averages %.4f", n, p.height(x), mean)
				}
			}
		}
		searched += (lowest.upperBound() - highest) / highest / operations
	}
	fmt.Printf("elections against every choice: checked %d of %d operations, %d heights of planes; the bound is %.4f of the best above it on average\n", operations, operations, heights, searched)
}

// Where flips are too many to enumerate, the mean is no lower than those of the start and
// of the known choice, and the bound holds.
func TestSearchIsNoWorseThanKnownChoice(t *testing.T) {
	random := rand.New(rand.NewPCG(29, 31))
	for n := range 5 {
		o := invent(random, maxPruned+8)
		known := make([]bool, len(o.payments))
		mask := 0
		for k := range known {
			if known[k] = random.IntN(2) == 0; known[k] {
				mask |= 1 << k
			}
		}
		best := o.operation().Best(0, known)
		got := 0
		for k, is := range best.Flipped {
			if is {
				got |= 1 << k
			}
		}
		mean := o.paidUnder(got)
		if other := max(o.paidUnder(mask), o.paidUnder(0)); best.Exact || mean < other-LeastGain || best.Bound < mean-1e-6 {
			t.Errorf("operation %d: %.4f, exact %v, bound %.4f; known %.4f", n, mean, best.Exact, best.Bound, other)
		}
	}
}

// unrounded returns the optimization of the same operation where payments are rates times
// acres without the rounding to the cent, and every flip's rates are those of the first.
func unrounded(o contested, rates [2][]float64, acres float64) *Operation {
	all := o.operation()
	for _, flip := range all.Flips {
		for under, column := range flip {
			flip[under].Series = rates[under]
			for j := range column.Stakes {
				share := column.Stakes[j].Share
				column.Stakes[j].Off = program.HalfCent * max(share, -share)
				column.Stakes[j].Share *= acres
			}
		}
	}
	return all
}

// Where payments are followed without their rounding to the cent, no choice averages more
// than a plane there, and many flips go through few series. Every base earns 0.6 cents
// wherever it earns anything, and is paid one.
func TestPlanesCoverWhatIsNotRounded(t *testing.T) {
	const operations, flips, acres = 20, 11, 0.01
	random := rand.New(rand.NewPCG(37, 41))
	below := 0 // planes that hold for the rounding alone
	for n := range operations {
		o := invent(random, flips)
		var rates [2][]float64
		for range scenarios {
			rates[0], rates[1] = append(rates[0], 0.6*float64(random.IntN(2))), append(rates[1], 0.6)
		}
		for _, pair := range o.payments {
			for under := range pair {
				for s, rate := range rates[under] {
					pair[under][s] = program.Cent(rate * acres)
				}
			}
		}
		o.attribution = program.NewAttribution(o.producers, program.LimitRule{Limit: 0.05 + 0.1*random.Float64(), CropYear: 2026, Reduced: 0.057})
		all := unrounded(o, rates, acres)
		all.start()
		if got, most := len(all.routes.all), 2*len(pools)*len(o.producers); got > most {
			t.Errorf("operation %d: %d series for %d producers", n, got, len(o.producers))
		}
		_, lowest, planes := all.ascend()
		bare := unrounded(o, rates, acres)
		for _, flip := range bare.Flips {
			for _, column := range flip {
				for j := range column.Stakes {
					column.Stakes[j].Off = 0
				}
			}
		}
		bare.start()
		_, low, _ := bare.ascend()
		x := make([]float64, flips)
		for mask := range 1 << flips {
			for k := range x {
				x[k] = float64(mask >> k & 1)
			}
			mean := o.paidUnder(mask)
			for _, p := range append(planes, lowest) {
				if p.height(x)+all.roundingSlack() < mean {
					t.Errorf("operation %d: a plane is at %.4f where a choice averages %.4f", n, p.height(x), mean)
				}
			}
			if low.height(x)+bare.roundingSlack() < mean {
				below++
			}
		}
	}
	if below == 0 {
		t.Error("no choice needed what stakes may be off: the cents do not count here")
	}
	t.Logf("%d choices average more than a plane that forgets the cents", below)
}
