package flag

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// irrigatedHistoryMissing flags farms with a base whose county has yields by practice
// and whose irrigated share is not given.
func irrigatedHistoryMissing(c *Case) []answer.Flag {
	var flags []answer.Flag
	for i, base := range c.Bases {
		if !base.ShareAssumed() {
			continue
		}
		var a *answer.AssumedShare
		if c.Commodities != nil {
			a = c.Commodities[i].AssumedShare
		}
		flags = append(flags, answer.Flag{Code: "irrigated_history_missing", Severity: answer.Warning, Message: c.shareMessage(base, a), Source: "7 CFR 1412.53"})
	}
	return flags
}

// shareMessage says where the share is missing, what is assumed, what ARC-CO averages at
// both ends and what to copy. a is nil where no payments are.
func (c *Case) shareMessage(base *position.CommodityBase, a *answer.AssumedShare) string {
	var where []string
	one := farm.Practice("")
	for _, b := range base.Bases {
		if !b.ShareAssumed {
			continue
		}
		where = AppendOnce(where, c.county(b.County)+onTract(b.Record))
		if !b.ShareOpen() {
			one = b.Practices[0].Unit.Practice
		}
	}
	text := fmt.Sprintf("The %s base in %s has no irrigated percentage (HIP), but the county has irrigated and nonirrigated yields. ", base.Commodity.Name(), strings.Join(where, " and "))
	switch {
	case !slices.ContainsFunc(base.Bases, position.Base.ShareOpen):
		text += fmt.Sprintf("Only a yield for %s land is known there, so all of the base is taken as %s (assumed). ", one, one)
	case a == nil || a.At0 == nil:
		text += "Without it a share of 0 is taken (assumed). "
	case a.At1 == nil:
		text += fmt.Sprintf("ARC-CO averages $%s a base acre if none is irrigated, as shown (assumed). For all irrigated a yield is missing. ", program.Text(float64(*a.At0), 2))
	default:
		text += fmt.Sprintf("ARC-CO averages $%s a base acre if none is irrigated, as shown (assumed), and $%s if all is. ", program.Text(float64(*a.At0), 2), program.Text(float64(*a.At1), 2))
	}
	return text + "Copy the historical irrigated percentage (HIP) from the farm record (irrigated_share in a file). It is history, not this year's pivots."
}
