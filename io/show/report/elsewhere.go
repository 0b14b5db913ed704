package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// startSentence says at which price or yield each program begins to pay, and where it
// pays its most.
func startSentence(c answer.CommodityPart) string {
	s := c.StartPoints
	if s == nil || s.PLCBelow == nil {
		return ""
	}
	text := fmt.Sprintf("PLC pays below %s and its most at %s or less.", wording.Decimal(s.PLCBelow), wording.Decimal(s.PLCMost))
	if s.ARCCOBelowPrice != nil {
		text += fmt.Sprintf(" ARC-CO, with the county yield at its mean, pays up to %s", wording.Decimal(s.ARCCOBelowPrice))
		if s.ARCCOMostPrice != nil {
			text += fmt.Sprintf(" and its most at %s or less", wording.Decimal(s.ARCCOMostPrice))
		}
		text += "."
	}
	if s.ARCCOBelowYield != nil {
		text += fmt.Sprintf(" At the mean price it pays up to %s of the mean county yield", wording.Percent(*s.ARCCOBelowYield))
		if s.ARCCOMostYield != nil {
			text += fmt.Sprintf(" and its most at %s or less", wording.Percent(*s.ARCCOMostYield))
		}
		text += "."
	}
	return text
}

// percent writes a share of one as "93 percent".

// elsewhereTable is a line for each price: PLC, and ARC-CO by county yield.
func elsewhereTable(c answer.CommodityPart) Table {
	t := Table{Title: "At other prices, USD per base acre; ARC-CO by percent of the mean county yield", Columns: []string{"price", "PLC"}}
	seen := map[string]bool{}
	for _, p := range c.Elsewhere {
		name := program.Text(100*float64(p.Yields), 0) + "%"
		if !seen[name] {
			seen[name] = true
			t.Columns = append(t.Columns, name)
		}
	}
	width := len(t.Columns) - 2
	for i, p := range c.Elsewhere {
		if i%width == 0 {
			t.Rows = append(t.Rows, []string{wording.Decimal(&p.Price), wording.Money(&p.PLC)})
		}
		last := len(t.Rows) - 1
		t.Rows[last] = append(t.Rows[last], wording.Money(&p.ARCCO))
	}
	return t
}
