package report

import (
	"fmt"
	"strings"

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
	said := fmt.Sprintf("PLC starts to pay below %s and pays its most at %s or less.", wording.PriceText(s.PLCBelow), wording.PriceText(s.PLCMost))
	at, least := "those county yields", ""
	if wording.OneYield(c) != nil {
		at = "that county yield"
	}
	if s.ARCCOBelowPrice != nil {
		if s.ARCCOMostPrice != nil {
			least = fmt.Sprintf(", and its most at %s or less", wording.PriceText(s.ARCCOMostPrice))
		}
		said += fmt.Sprintf(" At %s ARC-CO pays at %s or less%s.", at, wording.PriceText(s.ARCCOBelowPrice), least)
	}
	if s.ARCCOBelowYield != nil && c.MYA != nil {
		if least = ""; s.ARCCOMostYield != nil {
			least = fmt.Sprintf(", and its most at about %s or less", partOfYield(c, *s.ARCCOMostYield))
		}
		said += fmt.Sprintf(" At %s ARC-CO pays up to about %s%s%s.", wording.PriceText(&c.MYA.Mean), partOfYield(c, *s.ARCCOBelowYield), map[bool]string{true: " of those yields"}[wording.OneYield(c) == nil], least)
	}
	return said
}

// partOfYield writes a share of the county yields: in bushels where there is one yield, else
// in percent of them.
func partOfYield(c answer.CommodityPart, part answer.Chance) string {
	if one := wording.OneYield(c); one != nil {
		return wording.YieldText(c.Commodity, *one*answer.Dollars(part))
	}
	return wording.Percent(part)
}

// elsewhereTable is a line for each price: PLC, and ARC-CO by county yield.
func elsewhereTable(c answer.CommodityPart) Table {
	one := wording.OneYield(c)
	t := Table{Title: "What each pays at other prices and county yields, dollars per base acre", Columns: []string{"price", "PLC"}}
	seen := map[answer.Chance]bool{}
	for _, p := range c.Elsewhere {
		if seen[p.Yields] {
			continue
		}
		seen[p.Yields] = true
		head := program.Text(100*float64(p.Yields), 0) + "%"
		if one != nil {
			head = wording.Grouped(float64(*one)*float64(p.Yields), 0)
		}
		if len(seen) == 1 {
			head = "ARC-CO at " + head
		}
		t.Columns = append(t.Columns, head)
	}
	if last := len(t.Columns) - 1; one != nil {
		t.Columns[last] += " " + c.Commodity.Unit().Mass + "s"
	} else {
		t.Notes = []string{"ARC-CO by percent of the county yields used"}
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

// whatCouldChange joins the sentences on prices and yields at which the lead changes.
func whatCouldChange(c answer.CommodityPart) string {
	return strings.TrimSpace(wording.Sentences(leadSentence(c), startSentence(c), evenYieldSentence(c)))
}
