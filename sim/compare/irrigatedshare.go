package compare

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// assumeShare fills in ARC-CO at both ends, 0 and 1, where the irrigated share of a base
// is not given. Where the other end has another leader, the lead is close.
func (r *YearRun) assumeShare(part *answer.CommodityPart, base *position.CommodityBase, price position.Price) {
	if !base.ShareAssumed() {
		return
	}
	a := &answer.AssumedShare{Leader0: part.Leader, Leader1: part.Leader, Status: crop.Assumed}
	part.AssumedShare = a
	for _, b := range base.Bases {
		if b.ShareAssumed {
			a.BaseAcres += answer.Dollars(b.Record.BaseAcres)
		}
	}
	if part.Programs.Of(farm.ARCCO) != nil {
		mean := part.Programs.Of(farm.ARCCO).Mean
		a.At0, a.At1 = &mean, &mean
	}
	if !slices.ContainsFunc(base.Bases, position.Base.ShareOpen) {
		return
	}
	a.At1, a.Leader1 = r.atOtherEnd(base.AllIrrigated(), price)
	if part.Leader != answer.None && a.Leader1 != a.Leader0 {
		part.Leader, part.LeaderReason = answer.Close, "the lead depends on the irrigated share: "+a.Words()
	}
}

// atOtherEnd returns the mean of ARC-CO, USD per base acre, and the leader with all of
// the open bases irrigated.
func (r *YearRun) atOtherEnd(base *position.CommodityBase, price position.Price) (mean *answer.Dollars, leader answer.Leader) {
	if base.ARCMissing != "" {
		return nil, answer.None
	}
	o := payoff.Of(r.Year, r.question.Operation, base, price)
	defer o.ReleaseOwned(r.Year.Buffers)
	defer o.Release(r.Year.Buffers)
	end := answer.CommodityPart{Programs: answer.Programs{{Program: farm.PLC, Figures: &answer.ProgramPart{}}, {Program: farm.ARCCO, Figures: &answer.ProgramPart{}}}, Leader: answer.None}
	r.Decide(&end, base, price, o)
	return answer.DollarsOf(o.Of(farm.ARCCO).Mean), end.Leader
}
