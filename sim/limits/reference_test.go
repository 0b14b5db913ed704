package limits

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/sim/invented"
)

// plainly is ByRecipient in its simplest form, one scenario after the other over all
// producers and recipients: what the program does with series is held to it. earned returns
// what an election pays a producer in a scenario, USD after share.
func (o randomOperation) plainly(elections []Election, earned func(e Election, producer, scenario int) float64) (out RecipientMeans, paid [][]float64) {
	n, scenarios := len(o.Attribution.Recipients), o.Buffers.Size.N()
	out = newRecipientMeans(n)
	paid = make([][]float64, n)
	for s := range scenarios {
		afterLimit, filled := make([]float64, n), make([]bool, n)
		for at, pool := range Pools {
			own, arrived, ended := make([]float64, n), make([]float64, n), make([]float64, n)
			for _, e := range elections {
				for j := range o.Producers {
					if o.Pool(e.Commodity) == pool {
						own[o.Places[j]] += earned(e, j, s)
					}
				}
			}
			for j := range o.Producers {
				for _, one := range o.reach[j] {
					out.Attributed[one.Recipient] += one.Share * own[o.Places[j]] / float64(scenarios)
				}
			}
			o.Attribution.Trace(Pools[at], own, arrived, ended)
			for k, r := range o.Attribution.Recipients {
				afterLimit[k] += ended[k]
				out.withinLimit[k] += r.Within(pool, arrived[k]) / float64(scenarios)
				over := o.Attribution.Over(pool, k, arrived[k])
				out.Withheld[k] += over / float64(scenarios)
				out.limitExceeded = out.limitExceeded || over > 0
				filled[k] = filled[k] || !r.Barred && arrived[k] > 0 && arrived[k] >= r.BindsAt(pool)
			}
		}
		for k, money := range afterLimit {
			one := program.AfterSequestration(money, o.Sequestration.Value)
			paid[k] = append(paid[k], one)
			out.Paid[k] += one / float64(scenarios)
			if filled[k] {
				out.AtLimit[k] += 1 / float64(scenarios)
			}
		}
	}
	for _, money := range out.Paid {
		out.Total += money
	}
	return out, paid
}

// earnedFrom returns what an election pays a producer in a scenario.
func (o randomOperation) earnedFrom(e Election, producer, scenario int) (sum float64) {
	one := []float64{0}
	o.shared[e].of(producer).Add(one, scenario)
	return one[0]
}

// randomOperations calls check with operations of persons and entities, some barred for
// income, whose limits bind more or less, and returns how many there were.
func randomOperations(seed uint64, check func(n int, random *rand.Rand, o randomOperation)) int {
	operations := 150
	if invented.LongRun {
		operations = 1500
	}
	random := rand.New(rand.NewPCG(seed, 13))
	for n := range operations {
		o := invent(random, 1+random.IntN(6), 2+random.IntN(8), peopleOf(random, 1+random.IntN(5), random.IntN(4)))
		if n%4 == 0 { // far from every limit, or nearly
			o.follow(program.NewAttribution(o.Producers, program.LimitRule{Limit: 10_000 * math.Exp(4*random.Float64()), PassThroughPerMember: true, CropYear: 2026}))
		}
		check(n, random, o)
	}
	return operations
}

// Followed in series, payments reach people as they do scenario by scenario.
func TestSeriesAgainstPlainScenarios(t *testing.T) {
	exceeded := 0
	operations := randomOperations(5, func(n int, _ *rand.Rand, o randomOperation) {
		want, byScenario := o.plainly(o.elections, o.earnedFrom)
		got, paid, release := o.PaidByScenario(o.elections)
		defer release()
		if o.neverLimited(o.elections) {
			got = o.attributed(o.elections) // by shares alone it would not be rounded
		}
		for k, r := range o.Attribution.Recipients {
			for name, pair := range map[string][2]float64{
				"attributed": {got.Attributed[k], want.Attributed[k]}, "paid": {got.Paid[k], want.Paid[k]}, "within its limit": {got.withinLimit[k], want.withinLimit[k]},
				"withheld": {got.Withheld[k], want.Withheld[k]}, "at its limit": {got.AtLimit[k], want.AtLimit[k]},
			} {
				if math.Abs(pair[0]-pair[1]) > noise {
					t.Errorf("operation %d, %s, %s: %v, plainly %v", n, r.ID, name, pair[0], pair[1])
				}
			}
			if !slices.Equal(paid[k], byScenario[k]) {
				t.Errorf("operation %d, %s: not paid in each scenario what it is plainly", n, r.ID)
			}
		}
		if math.Abs(got.Total-want.Total) > noise || got.limitExceeded != want.limitExceeded {
			t.Errorf("operation %d: %v in all, exceeded %v, plainly %v and %v", n, got.Total, got.limitExceeded, want.Total, want.limitExceeded)
		}
		if got.limitExceeded {
			exceeded++
		}
	})
	t.Logf("limits cut something in %d; checked %d of %d", exceeded, operations, operations)
}

// A limit can bind exactly where the higher of both programs exceeds it in some scenario;
// the greatest payments never say otherwise.
func TestLimitBindsAgainstPlainScenarios(t *testing.T) {
	told := 0
	operations := randomOperations(9, func(n int, _ *rand.Rand, o randomOperation) {
		higher := func(e Election, producer, scenario int) float64 {
			return max(o.earnedFrom(e, producer, scenario), o.earnedFrom(otherProgram(e), producer, scenario))
		}
		want, _ := o.plainly(o.elections, higher)
		if got := o.limitBinds(o.elections); got != want.limitExceeded {
			t.Errorf("operation %d: limits bind %v, plainly %v", n, got, want.limitExceeded)
		}
		if !o.greatestExceed(o.elections) {
			told++
			if want.limitExceeded {
				t.Errorf("operation %d: the greatest payments exceed no limit, some scenario does", n)
			}
		}
	})
	if told == 0 {
		t.Error("no operation was told by its greatest payments")
	}
	t.Logf("the greatest payments told of %d; checked %d of %d", told, operations, operations)
}

// What other elections change is the difference of all that is paid plainly.
func TestChangesAgainstPlainScenarios(t *testing.T) {
	compared := 0
	operations := randomOperations(21, func(n int, random *rand.Rand, o randomOperation) {
		changes, release := o.Changes(o.elections, false)
		defer release()
		if !changes.limitPossible {
			return
		}
		before, _ := o.plainly(o.elections, o.earnedFrom)
		for range 3 {
			var from, to []Election
			after := slices.Clone(o.elections)
			for i, e := range o.elections {
				if random.IntN(len(o.elections)) == 0 {
					from, to = append(from, e), append(to, otherProgram(e))
					after[i] = otherProgram(e)
				}
			}
			want, _ := o.plainly(after, o.earnedFrom)
			if got := changes.meanChange(from, to); math.Abs(got-(want.Total-before.Total)) > noise {
				t.Errorf("operation %d, %d of %d elections changed: %v more, plainly %v", n, len(from), len(o.elections), got, want.Total-before.Total)
			}
			compared++
		}
	})
	t.Logf("compared %d changes; checked %d of %d", compared, operations, operations)
}
