package payoff

import (
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// sco is the Supplemental Coverage Option.
type sco struct{}

// ID is the key of the Supplemental Coverage Option.
func (sco) ID() farm.Program { return farm.SCO }

// Payoff is what it pays on insured acres, each worth the farm's approved yield.
func (sco) Payoff(y *Year, k *position.Insured, l position.InsuredLayer) *Payoff {
	return ofArea(y, k, l, k.ApprovedYield)
}
