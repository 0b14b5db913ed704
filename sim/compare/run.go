package compare

import (
	"sync"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/elect"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Across returns what a person earns in all operations of a batch; false for one who has
// a share in one operation alone.
type Across func(y crop.CropYear, person string) (limits.AcrossOperations, bool)

// run answers one question. Its scenarios may be shared with runs about other operations
// (Many).
type run struct {
	question answer.Question
	paths    *scenario.Paths
	shared   *shared
	across   Across                             // nil: nobody has a share in several operations
	earned   func(crop.CropYear, limits.Earned) // is given what producers earn under the choices; nil: nobody asks

	alone         bool // no other run shares the rates
	lastElections bool // a brief run works out what people are paid on average as last elected
}

// shared is what runs on the same scenarios work out once.
type shared struct {
	published *flag.Published
	rates     parallel.Memo[crop.CropYear, *payoff.Year]
	works     sync.Pool // of *elect.Workspace
}

// YearRun is one crop year of a run.
type YearRun struct {
	Year     *payoff.Year // scenarios and the payment rates on them
	question answer.Question
	rules    limits.Rules
	shared   *shared
	across   Across
	earned   func(crop.CropYear, limits.Earned)

	lastElections bool
	people        []paidPeople // what was worked out
}

// farmRun is one farm in one crop year. bases, payoffs and commodities have the same
// order.
type farmRun struct {
	farm        farm.Farm
	bases       []*position.CommodityBase
	payoffs     []payoff.Payoffs
	commodities []answer.CommodityPart
	individual  *position.Individual // what it brings to ARC-IC; nil where nothing about ARC-IC was asked
	arcIC       *answer.ARCICPart
	payments    limits.Payments
	err         error
}

func newRun(c answer.Question) *run {
	from := c.Sources()
	from.Facts = &position.Facts{}
	return runOn(c, from, &flag.Published{})
}

// runOn returns a run on new scenarios; what was worked out of the sources and published
// stays.
func runOn(c answer.Question, from position.Sources, published *flag.Published) *run {
	settings := scenario.Settings{Seed: c.Seed, Draws: c.Draws, ExtremesTogether: c.Tail == answer.StudentTTail, Brief: c.Brief}
	return &run{question: c, paths: scenario.NewPaths(from, settings), shared: &shared{published: published}}
}

// acquireWork returns memory for the elections of one farm. Put it back in works.
func (s *shared) acquireWork() *elect.Workspace {
	if work, has := s.works.Get().(*elect.Workspace); has {
		return work
	}
	return &elect.Workspace{}
}

// NewYearRun returns one crop year of a question, its scenarios drawn from the first
// year they depend on. An error means that the law or the correlations do not allow it.
func NewYearRun(c answer.Question, y crop.CropYear) (*YearRun, error) { return newRun(c).year(y) }

// PerBaseAcre returns what PLC and ARC-CO pay on a commodity base in each scenario, USD per
// base acre, not rounded. No figure of the base may be missing.
func (r *YearRun) PerBaseAcre(base *position.CommodityBase, price position.Price) (plc, arc []crop.Money) {
	all := payoff.Of(r.Year, r.question.Operation, base, price)
	return all.Of(farm.PLC).PerAcre(r.Year.Buffers), all.Of(farm.ARCCO).PerAcre(r.Year.Buffers)
}

func (r *run) year(y crop.CropYear) (*YearRun, error) {
	drawn, err := r.paths.Year(y)
	if err != nil {
		return nil, err
	}
	rates := r.shared.rates.Of(y, func() *payoff.Year { return &payoff.Year{Year: drawn} })
	rules, err := limits.NewRules(r.question.Operation, y)
	if err != nil {
		return nil, err
	}
	return &YearRun{Year: rates, question: r.question, rules: rules, shared: r.shared, across: r.across, earned: r.earned, lastElections: r.lastElections}, nil
}
