package answer

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// AssumedShare is ARC-CO of a commodity on a farm whose irrigated share is not
// told, though the county has yields by practice: at a share of 0, which all
// printed figures have, and at a share of 1. Bases with a share, and those of a
// county with one yield, count alike at both ends.
type AssumedShare struct {
	BaseAcres Dollars     `json:"base_acres"`       // without a share
	At0       *Dollars    `json:"arc_co_mean_at_0"` // USD per base acre; nil where a figure is missing
	At1       *Dollars    `json:"arc_co_mean_at_1"`
	Leader0   Leader      `json:"leader_at_0"` // by the usual rules
	Leader1   Leader      `json:"leader_at_1"`
	Status    crop.Status `json:"status"` // assumed
}

// assumedShare is the irrigated share of a base that gives none: that of the
// county's only practice, else 0.
func assumedShare(practices []farm.Practice) crop.Share {
	if slices.Equal(practices, []farm.Practice{farm.Irrigated}) {
		return 1
	}
	return 0
}

// open reports whether the share of a base could as well be another one.
func (p part) open() bool { return p.shareAssumed && len(p.practices) == 2 }

// shareAssumed reports whether a base of the holding gives no irrigated share.
func (h *holding) shareAssumed() bool {
	return slices.ContainsFunc(h.parts, func(p part) bool { return p.shareAssumed })
}

// allIrrigated is the holding at an irrigated share of 1 wherever the share is
// open.
func (h *holding) allIrrigated() *holding {
	end := *h
	end.parts = slices.Clone(h.parts)
	for i := range end.parts {
		p := &end.parts[i]
		if !p.open() {
			continue
		}
		p.irrigatedShare, p.practices = 1, slices.Clone(p.practices)
		if missing := p.weigh(); end.arcMissing == "" {
			end.arcMissing = missing
		}
	}
	return &end
}

// assumeShare tells of both ends where the irrigated share of a base is not told.
// A lead that the other end does not have is none.
func (r *run) assumeShare(told *CommodityPart, h *holding, price priceOutlook) {
	if !h.shareAssumed() {
		return
	}
	a := &AssumedShare{Leader0: told.Leader, Leader1: told.Leader, Status: crop.Assumed}
	told.AssumedShare = a
	for _, p := range h.parts {
		if p.shareAssumed {
			a.BaseAcres += Dollars(p.base.BaseAcres)
		}
	}
	if told.Programs.Of(farm.ARCCO) != nil {
		mean := told.Programs.Of(farm.ARCCO).Mean
		a.At0, a.At1 = &mean, &mean
	}
	if !slices.ContainsFunc(h.parts, part.open) {
		return
	}
	a.At1, a.Leader1 = r.atOtherEnd(h.allIrrigated(), price)
	if told.Leader != None && a.Leader1 != a.Leader0 {
		told.Leader, told.LeaderReason = Close, "the lead depends on the irrigated share: "+a.words()
	}
}

// atOtherEnd returns the average of ARC-CO per base acre and who leads.
func (r *run) atOtherEnd(h *holding, price priceOutlook) (mean *Dollars, leader Leader) {
	if h.arcMissing != "" {
		return nil, None
	}
	o := payoffsOf(r.yearRates, r.Operation, h, price)
	defer o.releaseOwned(r.buffers)
	defer o.release(r.buffers)
	end := CommodityPart{Programs: Programs{{farm.PLC, &ProgramPart{}}, {farm.ARCCO, &ProgramPart{}}}, Leader: None}
	r.decide(&end, h, price, o)
	return dollars(o.of(farm.ARCCO).mean), end.Leader
}

// words tells the lead at both ends.
func (a AssumedShare) words() string {
	lead := map[Leader]string{LeadsPLC: "PLC", LeadsARCCO: "ARC-CO", Close: "a toss-up", LittleChance: "little at stake", None: "not known"}
	return fmt.Sprintf("%s if none is irrigated, %s if all is", lead[a.Leader0], lead[a.Leader1])
}

// irrigatedHistoryMissing speaks where the county has yields by practice and the
// file does not say how much of the base counts as irrigated.
func irrigatedHistoryMissing(c flagCase) []Flag {
	var flags []Flag
	for i, h := range c.holdings {
		if !h.shareAssumed() {
			continue
		}
		var a *AssumedShare
		if c.parts != nil {
			a = c.parts[i].AssumedShare
		}
		flags = append(flags, Flag{"irrigated_history_missing", Warning, shareMessage(h, a), "7 CFR 1412.53"})
	}
	return flags
}

// shareMessage says where a share is lacking, what is assumed, what ARC-CO
// averages at both ends and what to copy; a is nil where no money is computed.
func shareMessage(h *holding, a *AssumedShare) string {
	var where []string
	one := farm.Practice("")
	for _, p := range h.parts {
		if !p.shareAssumed {
			continue
		}
		where = once(where, p.county+onTract(p.base))
		if !p.open() {
			one = p.practices[0].unit.practice
		}
	}
	text := fmt.Sprintf("The %s base in county %s has no irrigated_share, and the county's yields are by practice. ", h.commodity.Name(), strings.Join(where, " and "))
	switch {
	case !slices.ContainsFunc(h.parts, part.open):
		text += fmt.Sprintf("Only a yield for %s land is known there, so all of the base is taken as %s (assumed). ", one, one)
	case a == nil || a.At0 == nil:
		text += "Without it a share of 0 is taken (assumed). "
	case a.At1 == nil:
		text += fmt.Sprintf("ARC-CO averages $%s per base acre if none is irrigated, as shown (assumed). For all irrigated a yield is missing. ", program.Text(float64(*a.At0), 2))
	default:
		text += fmt.Sprintf("ARC-CO averages $%s per base acre if none is irrigated, as shown (assumed), and $%s if all is. ", program.Text(float64(*a.At0), 2), program.Text(float64(*a.At1), 2))
	}
	return text + "Copy the historical irrigated percentage (HIP) from the farm record. It is history, not this year's pivots."
}
