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

// randomOperation is an invented operation: its purse and the picks with the
// higher average of each pair alone.
type randomOperation struct {
	Payments
	picks []Election
}

const randomDraws = 256

// invent makes an operation whose pairs hang together in price and yield and whose
// limit is a share of what all pairs can bring to a producer.
func invent(random *rand.Rand, farms, most int, producers []farm.Producer) randomOperation {
	o := randomOperation{Payments: Payments{Buffers: &scenario.Buffers{Size: odds.NewScenarios(1, randomDraws)}, Totals: map[Election]payoff.Claims{}, shared: map[Election]claimsByProducer{}}}
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
			if len(o.picks) == most {
				continue
			}
			earned += o.add(random, Election{fmt.Sprint(f), c, farm.PLC}, prices[c], county, shared)
		}
	}
	limit := math.Ceil(earned * (0.2 + 1.3*random.Float64()) / float64(len(producers)))
	o.Attribution = program.NewAttribution(producers, program.LimitRule{Limit: limit, PassThroughPerMember: true, CropYear: 2026})
	for _, p := range producers {
		o.Places = append(o.Places, o.Attribution.Find(p.ID))
	}
	return o
}

// Add puts one pair under both programs into the purse and returns its higher average.
func (o *randomOperation) add(random *rand.Rand, k Election, price, county []float64, shares map[string]float64) float64 {
	acres, level := math.Exp(4+1.5*random.Float64()), 0.5*random.NormFloat64()
	series := [2][]float64{make([]float64, o.Buffers.Size.N()), make([]float64, o.Buffers.Size.N())}
	for d := range price {
		series[0][d] = program.Cent(acres * max(0, 60*(level-price[d])))
		series[1][d] = program.Cent(acres * min(90, max(0, 50*(0.2-0.7*price[d]-0.9*county[d]))))
	}
	higher := k
	for i, p := range []farm.Program{farm.PLC, farm.ARCCO} {
		k.Program = p
		o.Totals[k] = payoff.ClaimsOf(series[i])
		for _, producer := range o.Producers {
			var mine payoff.Claims
			if share := shares[producer.ID]; share > 0 {
				mine = payoff.Claims{{Claim: o.Totals[k][0].Claim, Share: share}}
			}
			o.shared[k] = append(o.shared[k], mine)
		}
	}
	if o.Mean(o.Totals[k]) > o.Mean(o.Totals[higher]) {
		higher = k
	}
	o.picks = append(o.picks, higher)
	return o.Mean(o.Totals[higher])
}

func normals(random *rand.Rand) []float64 {
	all := make([]float64, randomDraws)
	for i := range all {
		all[i] = random.NormFloat64()
	}
	return all
}

// splitAmong splits a farm among producers.
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

// peopleOf are some persons and entities that they own in part.
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

// The choice of a small operation is the best of all there are, and its bound is
// none that a choice goes over.
func TestChoiceAgainstEveryChoice(t *testing.T) {
	operations := 100
	if invented.LongRun {
		operations = 500
	}
	random := rand.New(rand.NewPCG(7, 11))
	checked, binding := 0, 0
	for n := range operations {
		o := invent(random, 9, 2+random.IntN(8), peopleOf(random, 1+random.IntN(4), random.IntN(3)))
		chosen, simplest := o.WholeOperation(o.picks)
		means := o.everyMean()
		highest := slices.Max(means)
		mean := o.MeanAfterLimit(chosen.Elections)
		if mean < highest-elect.LeastGain || chosen.Bound < highest-noise {
			t.Errorf("operation %d, %d pairs: chosen %.4f, bound %.4f, the best of all %.4f", n, len(o.picks), mean, chosen.Bound, highest)
		}
		if got, want := o.MeanAfterLimit(simplest.Elections), o.bestSame(); got < want-elect.LeastGain {
			t.Errorf("operation %d: the simplest averages %.4f, the best with one program for each commodity %.4f", n, got, want)
		}
		if o.limitBinds(o.picks) {
			binding++
		}
		checked++
	}
	t.Logf("limits bind in %d of them", binding)
	t.Logf("checked %d of %d", checked, operations)
}

// noise is what sums of money may be off, USD.
const noise = 1e-6

// everyMean is the average after limits of every choice; bit b of its place says
// that pair b is turned.
func (o randomOperation) everyMean() (means []float64) {
	for mask := range 1 << len(o.picks) {
		picks := slices.Clone(o.picks)
		for b := range picks {
			if mask>>b&1 == 1 {
				picks[b] = otherProgram(picks[b])
			}
		}
		means = append(means, o.MeanAfterLimit(picks))
	}
	return means
}

// bestSame is the highest average after limits with one program for each commodity.
func (o randomOperation) bestSame() (highest float64) {
	highest = math.Inf(-1)
	var commodities []crop.Commodity
	for _, k := range o.picks {
		if !slices.Contains(commodities, k.Commodity) {
			commodities = append(commodities, k.Commodity)
		}
	}
	for choice := range 1 << len(commodities) {
		picks := slices.Clone(o.picks)
		for i, k := range picks {
			picks[i].Program = []farm.Program{farm.PLC, farm.ARCCO}[choice>>slices.Index(commodities, k.Commodity)&1]
		}
		highest = max(highest, o.MeanAfterLimit(picks))
	}
	return highest
}

// mostGap is the gap to the bound, as a share of the mean, that no large operation
// may go over.
const mostGap = 0.005

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
		chosen, simplest := o.WholeOperation(o.picks)
		spent += time.Since(before)
		mean := o.MeanAfterLimit(chosen.Elections)
		gap := (chosen.Bound - mean) / mean
		gaps = append(gaps, gap)
		if gap > mostGap {
			t.Errorf("operation %d, %d pairs: mean %.0f, bound %.0f, gap %.4f", n, len(o.picks), mean, chosen.Bound, gap)
		}
		for _, other := range [][]Election{o.picks, simplest.Elections} {
			if least := o.MeanAfterLimit(other); mean < least-elect.LeastGain {
				t.Errorf("operation %d: %v is less than %v of a plainer choice", n, mean, least)
			}
		}
	}
	slices.Sort(gaps)
	t.Logf("gaps: median %.5f, 90th %.5f, largest %.5f; %v each", gaps[len(gaps)/2], gaps[len(gaps)*9/10], gaps[len(gaps)-1], spent/time.Duration(operations))
	t.Logf("checked %d of %d", len(gaps), operations)
}
