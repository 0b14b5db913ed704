package answer

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Series is what one person earns in each draw before any limit, USD after share: what
// counts against the general limit, and against that of peanuts; nil for nothing.
type Series [len(pots)][]crop.Money

// Everywhere is one person who has a share in several operations, over all of them.
type Everywhere struct {
	Operations int
	Alone      crop.Money // what the operations, each by itself, pay on average together, USD after limit and sequestration
	Earned     Series
}

// Across finds a person of several operations; false: of one alone.
type Across func(y crop.CropYear, person string) (Everywhere, bool)

// AcrossPart is what one limit leaves a person across several operations, each with the
// choices that it has by itself.
type AcrossPart struct {
	Operations     int     `json:"operations"`
	Alone          Dollars `json:"mean_each_alone"` // USD after limit and sequestration, each operation with a limit of its own
	MeanAfterLimit Dollars `json:"mean_across"`     // with one limit
	Part           Dollars `json:"part_across"`     // of it for this operation, as it pays by itself
	ChanceOfLimit  Chance  `json:"chance_of_limit_across"`
}

// asking is what is told and asked of persons of several operations.
type asking struct {
	across Across                          // nil: there are none
	tell   func(crop.CropYear, earnedSums) // what producers earn under the choices; nil: nobody asks
}

// SeveralOperationsFlag is the code of the flag of such a person.
const SeveralOperationsFlag = "person_in_several_operations"

// CompareAcross is Compare where some persons have a share in other operations too: the
// choices are those of the operation by itself, and one limit holds for all that such a
// person earns.
func (m *Many) CompareAcross(o farm.Operation, across Across) (Comparison, error) {
	p := m.of(o)
	p.across = across
	return p.compare()
}

// CompareEarned is Compare that also tells what producers earn under the choices, draw
// by draw.
func (m *Many) CompareEarned(o farm.Operation, wanted func(person string) bool) (c Comparison, earned map[crop.CropYear]map[string]Series, err error) {
	p := m.of(o)
	earned = map[crop.CropYear]map[string]Series{}
	p.tell = func(y crop.CropYear, sums earnedSums) {
		earned[y] = map[string]Series{}
		for j, producer := range p.Operation.Producers {
			if wanted(producer.ID) {
				earned[y][producer.ID] = sums.of(j)
			}
		}
	}
	c, err = p.compare()
	return c, earned, err
}

// earnedSums are the series of an operation, which it takes back.
type earnedSums earned

// of is a producer's own copy; nil where it earns nothing.
func (e earnedSums) of(producer int) (all Series) {
	for pot, byProducer := range e {
		if byProducer != nil && slices.Max(byProducer[producer]) > 0 {
			all[pot] = slices.Clone(byProducer[producer])
		}
	}
	return all
}

// severalOperations is the purse with what its producers earn in all their operations.
func (r *run) severalOperations(m purse) purse {
	if r.across == nil {
		return m
	}
	m.everywhere, m.inOperations = map[int]Series{}, map[int]Everywhere{}
	for j, p := range r.Operation.Producers {
		if all, has := r.across(r.cropYear, p.ID); has {
			m.everywhere[j], m.inOperations[j] = all.Earned, all
		}
	}
	return m
}

// tellAcross adds what one limit leaves across operations to the persons, and the sum of
// the operation with it.
func tellAcross(m purse, part *OperationPart, reached reach) {
	if len(m.everywhere) == 0 {
		return
	}
	total := *part.MeanAfterLimit
	for j, k := range m.places {
		all, has := m.inOperations[j]
		if !has {
			continue
		}
		at := slices.IndexFunc(part.ByPerson, func(p PersonPart) bool { return p.ID == m.producers[j].ID })
		person := &part.ByPerson[at]
		across := AcrossPart{Operations: all.Operations, Alone: Dollars(all.Alone), MeanAfterLimit: Dollars(reached.after[k]), ChanceOfLimit: Chance(reached.atLimit[k])}
		if all.Alone > 0 {
			across.Part = across.MeanAfterLimit * person.MeanAfterLimit / across.Alone
		}
		person.Across = &across
		total += across.Part - person.MeanAfterLimit
	}
	part.MeanAcross = &total
}

// severalFlags tells it on every farm in which such a person has a share.
func (r *run) severalFlags(part OperationPart, f farm.Farm) (flags []Flag) {
	for _, p := range part.ByPerson {
		if p.Across == nil || !hasShare(f, p.ID, r.cropYear) {
			continue
		}
		message := fmt.Sprintf("%s has a share in %d operations of this table. Each alone they pay $%s on average in all; with one limit across all of them $%s is left.",
			p.ID, p.Across.Operations, program.Text(float64(p.Across.Alone), 0), program.Text(float64(p.Across.MeanAfterLimit), 0))
		flags = append(flags, Flag{SeveralOperationsFlag, Warning, message, citationOf("payment_limit", r.cropYear)})
	}
	return flags
}
