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
	short := regexp.MustCompile(`<li><strong>(\w+):</strong> leans ([A-Z-]+), (\$[0-9.]+) a base acre ahead on average(?:; last elected (\w+))?\.</li>`).FindAllStringSubmatch(said, -1)
	if len(short) != 2 || short[0][1] != "Corn" || short[0][4] != "PLC" || short[1][1] != "Oats" || short[1][4] != "" {
		t.Fatalf("in short: %q", short)
	}
	for _, one := range short {
		if sheet := one[2] + " is " + one[3] + " a base acre ahead"; !strings.Contains(said, sheet) {
			t.Errorf("the sheet of %s does not say %q", one[1], sheet)
		}
	}
	two := s.page(t, answerPath, append([]string{"f2.county=Story, Iowa", "f2.b1.crop=corn", "f2.b1.acres=10", "f2.b1.yield=150"}, typed...)...)
	if strings.Contains(two, `class="inshort"`) {
		t.Error("two farms have their first sheet's table twice")
	}
}

// A verdict without a lead names no margin.
func TestLeadOf(t *testing.T) {
	margin, plc := answer.Dollars(0.5), farm.PLC
	if said := leadOf(answer.StandingLine{Leader: answer.Close, Margin: &margin, OnRecord: &plc}); said != "toss-up; last elected PLC." {
		t.Error(said)
	}
}
