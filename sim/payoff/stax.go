package payoff

import (
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// stax is the Stacked Income Protection Plan.
type stax struct{}

// ID is the key of the Stacked Income Protection Plan.
func (stax) ID() farm.Program { return farm.STAX }

// Payoff is what it pays on insured acres, each worth the area's expected yield.
func (stax) Payoff(y *Year, k *position.Insured, l position.InsuredLayer) *Payoff {
	return ofArea(y, k, l, k.ExpectedYield)
}
