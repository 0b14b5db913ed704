package site

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// inShort says of one farm what each crop leans to, how surely and by how much, the most
// money first; several farms have it in the first table of their sheets.
func (f *frame) inShort(y answer.YearPart) {
	if len(y.Farms) != 1 {
		return
	}
	f.WriteString("<ul class=\"inshort\">\n")
	for _, part := range y.Farms[0].ByStake() {
		f.put("<li><strong>%s:</strong> %s</li>\n", wording.Capital(part.Commodity.Name()), leadOf(part))
	}
	f.WriteString("</ul>\n")
}

// leadOf says what a crop leans to beside the last election, and by how much.
func leadOf(part answer.CommodityPart) string {
	said := wording.Leads(part.Leader)
	if part.Leader == answer.LeadsPLC || part.Leader == answer.LeadsARCCO {
		said = "leans " + string(part.Leader)
	}
	switch {
	case part.OnRecord == nil:
	case string(part.Leader) == string(*part.OnRecord):
		said += ", as last elected"
	default:
		said += "; last elected " + wording.LastElected(part.OnRecord)
	}
	if d := part.Difference; d != nil && part.Leans != answer.Neither {
		said += fmt.Sprintf(". %s is %s a base acre ahead on average", part.Leans, wording.Margin(d.Mean))
		if d.Moves() {
			said += ", " + wording.Between(*d)
		}
	}
	return said + "."
}
