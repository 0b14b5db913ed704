package compare

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// assumeShare tells of both ends where the irrigated share of a base is not told.
// A lead that the other end does not have is none.
func (r *Run) assumeShare(told *answer.CommodityPart, h *position.CommodityBase, price position.Price) {
	if !h.ShareAssumed() {
		return
	}
	a := &answer.AssumedShare{Leader0: told.Leader, Leader1: told.Leader, Status: crop.Assumed}
	told.AssumedShare = a
	for _, p := range h.Bases {
		if p.ShareAssumed {
			a.BaseAcres += answer.Dollars(p.Record.BaseAcres)
		}
	}
	if told.Programs.Of(farm.ARCCO) != nil {
		mean := told.Programs.Of(farm.ARCCO).Mean
		a.At0, a.At1 = &mean, &mean
	}
	if !slices.ContainsFunc(h.Bases, position.Base.ShareOpen) {
		return
	}
	a.At1, a.Leader1 = r.atOtherEnd(h.AllIrrigated(), price)
	if told.Leader != answer.None && a.Leader1 != a.Leader0 {
		told.Leader, told.LeaderReason = answer.Close, "the lead depends on the irrigated share: "+a.Words()
	}
}

// atOtherEnd returns the average of ARC-CO per base acre and who leads.
func (r *Run) atOtherEnd(h *position.CommodityBase, price position.Price) (mean *answer.Dollars, leader answer.Leader) {
	if h.ARCMissing != "" {
		return nil, answer.None
	}
	o := payoff.Of(r.Year, r.Operation, h, price)
	defer o.ReleaseOwned(r.Buffers)
	defer o.Release(r.Buffers)
	end := answer.CommodityPart{Programs: answer.Programs{{Program: farm.PLC, Figures: &answer.ProgramPart{}}, {Program: farm.ARCCO, Figures: &answer.ProgramPart{}}}, Leader: answer.None}
	r.Decide(&end, h, price, o)
	return answer.DollarsOf(o.Of(farm.ARCCO).Mean), end.Leader
}
