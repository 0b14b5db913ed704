package compare

import (
	"sync"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/elect"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Across finds a person of several operations; false: of one alone.
type Across func(y crop.CropYear, person string) (limits.AcrossOperations, bool)

// asking is what is told and asked of persons of several operations.
type asking struct {
	across Across                             // nil: there are none
	tell   func(crop.CropYear, limits.Earned) // what producers earn under the choices; nil: nobody asks
}

// farmRun is one farm's holdings with their outcomes.
type farmRun struct {
	farm       farm.Farm
	holdings   []*position.CommodityBase
	payoffs    []payoff.Payoffs // by holding
	parts      []answer.CommodityPart
	individual *position.Individual // nil where nothing about ARC-IC was asked
	arcIC      *answer.ARCICPart
	money      limits.Payments
	err        error
}

// question is a case with the draws that it is answered from; the draws may be
// shared with questions about other operations.
type question struct {
	answer.Question
	paths *scenario.Paths
	*shared
	asking
}

// shared is what questions on the same draws work out once.
type shared struct {
	published flag.Published
	rates     scenario.Memo[crop.CropYear, *payoff.Year]
	works     sync.Pool // of *elect.Work
}

func newQuestion(c answer.Question) *question {
	settings := scenario.Settings{Seed: c.Seed, Draws: c.Draws, ExtremesTogether: c.Tail == answer.StudentTTail, Brief: c.Brief}
	return &question{Question: c, paths: scenario.NewPaths(c.Sources(), settings), shared: &shared{}}
}

// takeWork returns memory for one farm; put it back when done.
func (s *shared) takeWork() *elect.Workspace {
	if work, has := s.works.Get().(*elect.Workspace); has {
		return work
	}
	return &elect.Workspace{}
}

// Run is one crop year of a question: its draws, and who is paid.
type Run struct {
	*question
	*payoff.Year
	people limits.Rules
}

// NewRun returns the run of a crop year on its own.
func NewRun(c answer.Question, y crop.CropYear) (*Run, error) { return newQuestion(c).run(y) }

func (q *question) run(y crop.CropYear) (*Run, error) {
	drawn, err := q.paths.Year(y)
	if err != nil {
		return nil, err
	}
	rates := q.rates.Of(y, func() *payoff.Year { return &payoff.Year{Year: drawn} })
	people, err := limits.NewRules(q.Operation, y)
	if err != nil {
		return nil, err
	}
	return &Run{question: q, Year: rates, people: people}, nil
}
