package payoff

import (
	"testing"

	"fencerow/program"
	"fencerow/sim/position"
)

// The most that ARC-CO pays per base acre is the maximum rate of each base by its payment acres, over all base
// acres: (100 x 85 + 60 x 34) / (100 + 40) = 10,540 / 140.
func TestMaximumARCCOByHand(t *testing.T) {
	h := &position.CommodityBase{Acres: 140, Bases: []position.Base{
		{Coverage: program.ARCCO{Maximum: 100}, PaymentAcres: 85},
		{Coverage: program.ARCCO{Maximum: 60}, PaymentAcres: 34},
	}}
	if got, want := MaximumARCCO(h), (100.0*85+60*34)/140; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("%v, want %v", got, want)
	}
}
