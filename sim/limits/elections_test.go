package limits

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/scenario"
)

// randomOperation is an invented operation: its payments and, of each base (farm and
// commodity), the election with the higher mean before limits.
type randomOperation struct {
	Payments
	elections []Election
}

const randomScenarios = 256

// invent makes an operation whose bases share prices and county yields, so that their
// payments are correlated. Its limit is 0.2 to 1.5 of what a producer earns on
// average. It has at most maxBases bases.
func invent(random *rand.Rand, farms, maxBases int, producers []farm.Producer) randomOperation {
	o := randomOperation{Payments: Payments{Buffers: &scenario.Buffers{Size: odds.NewScenarios(1, randomScenarios)}, Totals: map[Election]payoff.Claims{}, shared: map[Election]claimsByProducer{}, known: &known{}}}
	o.CropYear, o.Producers, o.Sequestration.Value = 2026, producers, 0.057
	commodities := []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat, crop.Peanuts}
	prices := map[crop.Commodity][]float64{}
	for _, c := range commodities {
		prices[c] = normals(random)
	}
	var counties [][]float64
	for range 1 + random.IntN(4) {
		counties = append(counties, normals(random))
	}
	var shared map[string]float64
	earned := 0.0
	for f := range farms {
		if shared == nil || random.IntN(3) == 0 {
			shared = splitAmong(random, producers)
		}
		county := counties[random.IntN(len(counties))]
		random.Shuffle(len(commodities), func(i, j int) { commodities[i], commodities[j] = commodities[j], commodities[i] })
		for _, c := range commodities[:1+random.IntN(2)] {
			if len(o.elections) == maxBases {
				continue
			}
			earned += o.add(random, Election{fmt.Sprint(f), c, farm.PLC}, prices[c], county, shared)
		}
	}
	limit := math.Ceil(earned * (0.2 + 1.3*random.Float64()) / float64(len(producers)))
	o.follow(program.NewAttribution(producers, program.LimitRule{Limit: limit, PassThroughPerMember: true, CropYear: 2026}))
	return o
}

// add adds one base under both programs and returns the higher of their means, USD.
func (o *randomOperation) add(random *rand.Rand, e Election, price, county []float64, shares map[string]float64) float64 {
	acres, level := math.Exp(4+1.5*random.Float64()), 0.5*random.NormFloat64()
	series := [2][]float64{make([]float64, o.Buffers.Size.N()), make([]float64, o.Buffers.Size.N())}
	for s := range price {
		series[0][s] = program.Cent(acres * max(0, 60*(level-price[s])))
		series[1][s] = program.Cent(acres * min(90, max(0, 50*(0.2-0.7*price[s]-0.9*county[s]))))
	}
	higher := e
	for i, p := range []farm.Program{farm.PLC, farm.ARCCO} {
		e.Program = p
		o.Totals[e] = payoff.ClaimsOf(series[i])
		for j, producer := range o.Producers {
			if share := shares[producer.ID]; share > 0 {
				o.shared[e] = append(o.shared[e], producerClaims{j, payoff.Claims{{Claim: o.Totals[e][0].Claim, Share: share}}})
			}
		}
	}
	if o.Mean(o.Totals[e]) > o.Mean(o.Totals[higher]) {
		higher = e
	}
	o.elections = append(o.elections, higher)
	return o.Mean(o.Totals[higher])
}

func normals(random *rand.Rand) []float64 {
	all := make([]float64, randomScenarios)
	for i := range all {
		all[i] = random.NormFloat64()
	}
	return all
}

// splitAmong returns shares of producers, by id; they may leave a part to nobody.
func splitAmong(random *rand.Rand, producers []farm.Producer) map[string]float64 {
	shares, left := map[string]float64{}, 1.0
	for _, at := range random.Perm(len(producers)) {
		share := left * random.Float64()
		if random.IntN(3) == 0 {
			share = left
		}
		shares[producers[at].ID], left = share, left-share
	}
	return shares
}

// peopleOf returns persons, some barred for income, and entities that they own in part.
func peopleOf(random *rand.Rand, persons, entities int) (all []farm.Producer) {
	for i := range persons {
		all = append(all, farm.Producer{ID: fmt.Sprint("person ", i), Kind: farm.Person, IncomeOverLimit: random.IntN(15) == 0})
	}
	kinds := []farm.ProducerKind{farm.Corporation, farm.PassThrough, farm.JointOperation}
	for i := range entities {
		e := farm.Producer{ID: fmt.Sprint("entity ", i), Kind: kinds[random.IntN(len(kinds))]}
		for j, at := range random.Perm(len(all))[:1+random.IntN(min(2, len(all)))] {
			e.Members = append(e.Members, farm.Member{ID: all[at].ID, Share: []float64{0.6, 0.4}[j]})
		}
		all = append(all, e)
	}
	return all
}

// The choice for a small operation has the highest mean of all choices, and no mean of
// any choice exceeds its bound.
func TestChoiceAgainstEveryChoice(t *testing.T) {
	operations := 100
	if invented.LongRun {
		operations = 500
	}
	random := rand.New(rand.NewPCG(7, 11))
	checked, binding := 0, 0
	for n := range operations {
		o := invent(random, 9, 2+random.IntN(8), peopleOf(random, 1+random.IntN(4), random.IntN(3)))
		chosen, simplest := o.WholeOperation(o.elections)
		means := o.everyMean()
		highest := slices.Max(means)
		mean := o.MeanAfterLimit(chosen.Elections)
		if mean < highest-elect.LeastGain || chosen.Bound < highest-noise {
			t.Errorf("operation %d, %d bases: mean of the chosen %.4f, bound %.4f, highest of all %.4f", n, len(o.elections), mean, chosen.Bound, highest)
		}
		if got, want := o.MeanAfterLimit(simplest.Elections), o.highestByCommodity(); got < want-elect.LeastGain {
			t.Errorf("operation %d: the simplest has mean %.4f, the best with one program for each commodity %.4f", n, got, want)
		}
		if o.limitBinds(o.elections) {
			binding++
		}
		checked++
	}
	t.Logf("limits bind in %d of them", binding)
	t.Logf("checked %d of %d", checked, operations)
}

// noise is what sums of money may be off by floating-point arithmetic, USD.
const noise = 1e-6

// everyMean returns the mean after limits of every choice; bit b of its place says that
// base b is flipped.
func (o randomOperation) everyMean() (means []float64) {
	for mask := range 1 << len(o.elections) {
		elections := slices.Clone(o.elections)
		for b := range elections {
			if mask>>b&1 == 1 {
				elections[b] = otherProgram(elections[b])
			}
		}
		means = append(means, o.MeanAfterLimit(elections))
	}
	return means
}

// highestByCommodity returns the highest mean after limits with one program for each
// commodity.
func (o randomOperation) highestByCommodity() (highest float64) {
	highest = math.Inf(-1)
	var commodities []crop.Commodity
	for _, e := range o.elections {
		if !slices.Contains(commodities, e.Commodity) {
			commodities = append(commodities, e.Commodity)
		}
	}
	for choice := range 1 << len(commodities) {
		elections := slices.Clone(o.elections)
		for i, e := range elections {
			elections[i].Program = []farm.Program{farm.PLC, farm.ARCCO}[choice>>slices.Index(commodities, e.Commodity)&1]
		}
		highest = max(highest, o.MeanAfterLimit(elections))
	}
	return highest
}

// largestGap is what no gap between bound and mean may exceed, as a share of the mean.
const largestGap = 0.005

// The mean of a large operation is close to its upper bound, and no lower than those of
// the start and of the simplest choice.
func TestGapOfLargeOperations(t *testing.T) {
	const farms, persons = 200, 5
	operations := 20
	if invented.LongRun {
		operations = 100
	}
	random := rand.New(rand.NewPCG(3, 5))
	var gaps []float64
	var spent time.Duration
	for n := range operations {
		o := invent(random, farms, math.MaxInt, peopleOf(random, persons, 0))
		before := time.Now()
		chosen, simplest := o.WholeOperation(o.elections)
		spent += time.Since(before)
		mean := o.MeanAfterLimit(chosen.Elections)
		gap := (chosen.Bound - mean) / mean
		gaps = append(gaps, gap)
		if gap > largestGap {
			t.Errorf("operation %d, %d bases: mean %.0f, bound %.0f, gap %.4f", n, len(o.elections), mean, chosen.Bound, gap)
		}
		for _, other := range [][]Election{o.elections, simplest.Elections} {
			if least := o.MeanAfterLimit(other); mean < least-elect.LeastGain {
				t.Errorf("operation %d: %v is less than %v of a simpler choice", n, mean, least)
			}
		}
	}
	slices.Sort(gaps)
	t.Logf("gaps: median %.5f, 90th %.5f, largest %.5f; %v each", gaps[len(gaps)/2], gaps[len(gaps)*9/10], gaps[len(gaps)-1], spent/time.Duration(operations))
	t.Logf("checked %d of %d", len(gaps), operations)
}
