package wording

import (
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// YieldLeads says at which county yields which program pays more, at the price used: "At
// $4.55: ARC-CO pays more below about 186 bushels, and neither pays from there up." It is "" where
// base is paid on several yields, or nothing is known.
func YieldLeads(c answer.CommodityPart) string {
	leads := leadsAtYields(c.LeadByYield)
	used := OneYield(c)
	if len(leads) == 0 || used == nil || c.MYA == nil {
		return ""
	}
	at := "At " + PriceText(&c.MYA.Mean)
	if len(leads) == 1 {
		return at + " " + paysMore(leads[0].Leader) + " at any county yield."
	}
	var parts []string
	from := ""
	for _, lead := range leads {
		words := paysMore(lead.Leader)
		switch {
		case lead.Below == nil:
			words += " from there up"
		case from == "":
			words += " below about " + yieldAt(c.Commodity, *used, *lead.Below)
		default:
			words += " from there to about " + yieldAt(c.Commodity, *used, *lead.Below)
		}
		if lead.Below != nil {
			from = yieldAt(c.Commodity, *used, *lead.Below)
		}
		parts = append(parts, words)
	}
	said := at + ": " + parts[0] + ", and " + parts[1] + "."
	for _, part := range parts[2:] {
		said += " " + Capital(part) + "."
	}
	return said
}

// leadsAtYields joins neighbors with the same leader.
func leadsAtYields(all []answer.YieldLead) (told []answer.YieldLead) {
	for _, lead := range all {
		if n := len(told); n > 0 && told[n-1].Leader == lead.Leader {
			told = told[:n-1]
		}
		told = append(told, lead)
	}
	return told
}

// OneYield is the county yield that all base of a crop is paid on, nil where there are
// several or it is not known.
func OneYield(c answer.CommodityPart) (one *answer.Dollars) {
	for _, b := range c.Bases {
		switch {
		case b.BaseAcres == 0:
		case b.CountyYield == nil || one != nil && *one != b.CountyYield.Mean:
			return nil
		default:
			one = &b.CountyYield.Mean
		}
	}
	return one
}

// yieldAt writes a part of the yield used.
func yieldAt(c crop.Commodity, used answer.Dollars, part answer.Chance) string {
	return YieldText(c, used*answer.Dollars(part))
}
