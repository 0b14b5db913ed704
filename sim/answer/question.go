package answer

import (
	"sync"

	"fencerow/program/crop"
	"fencerow/sim/elect"
)

// question is a case with the draws that it is answered from; the draws may be
// shared with questions about other operations.
type question struct {
	Case
	paths *paths
	*shared
	asking
}

// shared is what questions on the same draws work out once.
type shared struct {
	published published
	rates     kept[crop.CropYear, *yearRates]
	works     sync.Pool // of *elect.Work
}

func newQuestion(c Case) *question {
	settings := settings{Seed: c.Seed, Draws: c.Draws, ExtremesTogether: c.Tail == StudentTTail, Brief: c.Brief}
	return &question{Case: c, paths: newPaths(c.sources(), settings), shared: &shared{}}
}

// takeWork returns memory for one farm; put it back when done.
func (s *shared) takeWork() *elect.Work {
	if work, has := s.works.Get().(*elect.Work); has {
		return work
	}
	return &elect.Work{}
}

// run is one crop year of a question: its draws, and who is paid.
type run struct {
	*question
	*yearRates
	people payer
}

// newRun returns the run of a crop year on its own.
func newRun(c Case, y crop.CropYear) (*run, error) { return newQuestion(c).run(y) }

func (q *question) run(y crop.CropYear) (*run, error) {
	drawn, err := q.paths.year(y)
	if err != nil {
		return nil, err
	}
	rates := q.rates.always(y, func() *yearRates { return &yearRates{drawnYear: drawn} })
	people, err := newPayer(q.Operation, y)
	if err != nil {
		return nil, err
	}
	return &run{question: q, yearRates: rates, people: people}, nil
}
