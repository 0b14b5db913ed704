package site

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// inShort says of one farm what each crop leans to and by how much, the most money first;
// several farms have it in the first table of their sheets.
func (f *frame) inShort(y answer.YearPart) {
	if len(y.Farms) != 1 {
		return
	}
	lines := slices.Clone(y.Standing.Lines)
	stake := func(l answer.StandingLine) float64 {
		if l.MarginTotal == nil {
			return 0
		}
		return math.Abs(float64(*l.MarginTotal))
	}
	slices.SortStableFunc(lines, func(a, b answer.StandingLine) int { return cmp.Compare(stake(b), stake(a)) })
	f.WriteString("<ul class=\"inshort\">\n")
	for _, l := range lines {
		f.put("<li><strong>%s:</strong> %s</li>\n", capital(l.Commodity.Name()), leadOf(l))
	}
	f.WriteString("</ul>\n")
}

// leadOf says what a line leans to, its margin in all, and the last election.
func leadOf(l answer.StandingLine) string {
	said := wording.Leads(l.Leader)
	if l.Margin != nil && (l.Leader == answer.LeadsPLC || l.Leader == answer.LeadsARCCO) {
		said = fmt.Sprintf("leans %s, %s a base acre ahead on average", l.Leader, wording.Margin(*l.Margin))
	}
	if l.OnRecord != nil {
		said += "; last elected " + wording.LastElected(l.OnRecord)
	}
	return said + "."
}
