package payoff

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// Instrument is a program that pays on a commodity base, or on what is planted of it. A
// new one is a file with its rate and its payoff, and a place in the list.
type Instrument interface {
	// ID is the program's key in the answer.
	ID() farm.Program
	// Payoff returns what a commodity base of the operation is paid, nil where a figure
	// is missing; before are the payoffs of the instruments earlier in the list.
	Payoff(y *Year, o farm.Operation, h *position.CommodityBase, price position.Price, before Payoffs) *Payoff
}

// Instruments are those of a crop year, in the order in which they are shown.
func Instruments(y crop.CropYear) []Instrument {
	all := []Instrument{plc{}, arcco{}}
	if position.PaysHigherOf(y) {
		all = append(all, higherOf{})
	}
	return all
}

// Of returns what all instruments pay on a commodity base.
func Of(y *Year, o farm.Operation, h *position.CommodityBase, price position.Price) (all Payoffs) {
	for _, one := range Instruments(y.CropYear) {
		if p := one.Payoff(y, o, h, price, all); p != nil {
			all = append(all, p)
		}
	}
	return all
}
