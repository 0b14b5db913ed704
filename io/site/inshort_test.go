package site

import (
	"regexp"
	"strings"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// One farm's crops stand above its sheet, the most money first, each with the lead and the
// margin that its sheet has; several farms have their own table.
func TestInShort(t *testing.T) {
	s := tested()
	record := append([]string{"f1.b2.crop=oats", "f1.b2.acres=4", "f1.b2.yield=60"}, typed...)
	said := s.page(t, answerPath, record...)
	short := regexp.MustCompile(`<li><strong>(\w+):</strong> leans ([A-Z-]+)(?:; last elected (\w+))?\. [A-Z-]+ is (\$[0-9.]+) a base acre ahead on average, from [^<]*\.</li>`).FindAllStringSubmatch(said, -1)
	if len(short) != 2 || short[0][1] != "Corn" || short[0][3] != "PLC" || short[1][1] != "Oats" || short[1][3] != "" {
		t.Fatalf("in short: %q", short)
	}
	for _, one := range short {
		if sheet := one[2] + " is " + one[4] + " a base acre ahead"; !strings.Contains(said, sheet) {
			t.Errorf("the sheet of %s does not say %q", one[1], sheet)
		}
	}
	two := s.page(t, answerPath, append([]string{"f2.county=Story, Iowa", "f2.b1.crop=corn", "f2.b1.acres=10", "f2.b1.yield=150"}, typed...)...)
	if strings.Contains(two, `class="inshort"`) {
		t.Error("two farms have their first sheet's table twice")
	}
}

// A toss-up says so before who is ahead, and a lead whether it is the last election.
func TestLeadOf(t *testing.T) {
	plc, d := farm.PLC, &answer.Difference{Mean: -3, Lowest: -4, Highest: 1, UsualError: 0.08}
	for want, part := range map[string]answer.CommodityPart{
		"toss-up; last elected PLC. PLC is $3.00 a base acre ahead on average, from $4.00 for PLC to $1.00 for ARC-CO.":  {Leader: answer.Close, Leans: answer.LeadsPLC, Difference: d, OnRecord: &plc},
		"leans PLC, as last elected. PLC is $3.00 a base acre ahead on average, from $4.00 for PLC to $1.00 for ARC-CO.": {Leader: answer.LeadsPLC, Leans: answer.LeadsPLC, Difference: d, OnRecord: &plc},
		"unknown.": {},
	} {
		if said := leadOf(part); said != want {
			t.Errorf("%q, want %q", said, want)
		}
	}
}
