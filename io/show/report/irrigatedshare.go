package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// shareMark is the mark of ARC-CO figures that rest on an assumed irrigated share,
// else "".
func shareMark(c answer.CommodityPart) string {
	if c.AssumedShare == nil {
		return ""
	}
	return wording.Mark(c.AssumedShare.Status)
}

// shareSentence gives ARC-CO with no base irrigated and with all of it, where the
// share is assumed; else "".
func shareSentence(c answer.CommodityPart) string {
	a := c.AssumedShare
	if a == nil || a.At0 == nil {
		return ""
	}
	switch {
	case a.At1 == nil:
		return fmt.Sprintf("No irrigated share is given for %s base acres. ARC-CO is shown as if none were irrigated (%s). For all irrigated a yield is missing.", wording.Plain(&a.BaseAcres), a.Status)
	case a.At1 == a.At0:
		return fmt.Sprintf("No irrigated share is given for %s base acres. The county has one yield only, and ARC-CO takes it for all of them (%s).", wording.Plain(&a.BaseAcres), a.Status)
	}
	return fmt.Sprintf("No irrigated share is given for %s base acres. ARC-CO averages %s a base acre if none is irrigated, as shown (%s), and %s if all is.", wording.Plain(&a.BaseAcres), wording.Money(a.At0), a.Status, wording.Money(a.At1))
}

// sharesSentence names the farms whose ARC-CO figures, and so the totals, rest on an
// assumed irrigated share.
func sharesSentence(y answer.YearPart) string {
	var where []string
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if c.AssumedShare != nil {
				where = append(where, "farm "+wording.Farm(f.Farm, y.Farms)+" "+c.Commodity.Name())
			}
		}
	}
	if len(where) == 0 {
		return ""
	}
	return "No irrigated share is given for " + wording.Joined(where) + ". ARC-CO there, and so the totals, counts none of it as irrigated (assumed)."
}
