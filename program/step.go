package program

import (
	"fencerow/program/crop"
)

// Step is one line of the arithmetic as every output prints it: JSON by its Name, people
// by its Title, docs/law/steps.md by both. It is declared in the file of the rule
// that computes it and gives what it means, not what it comes to.
type Step struct {
	Name  string // "benchmark_yield"; where a step stands for each year, commodity, base or person, the output adds which
	Title string // in words; where it ends in "crop year", the year follows
	Unit  string // "USD", "USD/acre", "acres", "1" for a share; USD/unit and units/acre stand for those of the commodity

	// Citation is the paragraph of law that makes the figure. "" where it is entered, or
	// stands in a row of program/law, which has a citation of its own.
	Citation string
}

// Units of a step that differ by commodity: prices and yields.
const (
	perUnit      = "USD/unit"
	unitsPerAcre = "units/acre"
)

// UnitFor returns the unit of a step for commodity c: "USD/bu" for a price of corn.
func (s Step) UnitFor(c crop.Commodity) string {
	switch s.Unit {
	case perUnit:
		return c.Unit().Price()
	case unitsPerAcre:
		return c.Unit().Yield()
	}
	return s.Unit
}
