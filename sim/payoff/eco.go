package payoff

import (
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// eco is the Enhanced Coverage Option.
type eco struct{}

// ID is the key of the Enhanced Coverage Option.
func (eco) ID() farm.Program { return farm.ECO }

// Payoff is what it pays on insured acres, each worth the farm's approved yield.
func (eco) Payoff(y *Year, k *position.Insured, l position.InsuredLayer) *Payoff {
	return ofArea(y, k, l, k.ApprovedYield)
}
