package answer

import (
	"fmt"

	"fencerow/program/crop"
)

// AssumedShare is ARC-CO of a commodity on a farm whose irrigated share is not given
// though the county has yields by practice: at a share of 0, which every other figure
// takes, and at a share of 1. Bases with a share, and those of a county with one yield,
// are the same in both.
type AssumedShare struct {
	BaseAcres Dollars     `json:"base_acres"`       // without a share
	At0       *Dollars    `json:"arc_co_mean_at_0"` // USD per base acre; nil where a figure is missing
	At1       *Dollars    `json:"arc_co_mean_at_1"`
	Leader0   Leader      `json:"leader_at_0"` // by the usual rules
	Leader1   Leader      `json:"leader_at_1"`
	Status    crop.Status `json:"status"` // assumed
}

// Words names the leader at both ends in a sentence.
func (a AssumedShare) Words() string {
	lead := map[Leader]string{LeadsPLC: "PLC", LeadsARCCO: "ARC-CO", Close: "a toss-up", LittleChance: "little at stake", None: "not known"}
	return fmt.Sprintf("%s if none is irrigated, %s if all is", lead[a.Leader0], lead[a.Leader1])
}
