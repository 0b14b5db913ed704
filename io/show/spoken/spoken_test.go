package spoken

import (
	"regexp"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// All that must be said is said, and nothing that cannot be read aloud: no mark, no
// program by its letters with a hyphen, no sentence over 25 words.
func TestReadAloud(t *testing.T) {
	q := cases.Corn()
	q.Draws = 1024
	c, err := compare.Answer(q)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, b := range Of(c).Blocks {
		said = append(said, string(b.(report.Text)))
	}
	all := strings.Join(said, " ")
	part := c.CropYears[0].Farms[0].Commodities[0]
	for _, want := range []string{"To be paid for 2026", "sign-up deadline", "120 base acres", inFull.Replace(wording.Odds(part)), "decides", "October 1, 2027", "November 10, 2026", "not advice"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said", want)
		}
	}
	if found := regexp.MustCompile(`ARC-|[*<>_|]|\(assumed|percentile`).FindString(all); found != "" {
		t.Errorf("%q cannot be read aloud", found)
	}
	for _, sentence := range regexp.MustCompile(`[.:;] `).Split(all, -1) {
		if n := len(strings.Fields(sentence)); n > 25 {
			t.Errorf("%d words: %s", n, sentence)
		}
	}
}

// A crop without figures says what is missing; a year that pays the higher has no lead.
func TestWithoutFigures(t *testing.T) {
	part := answer.CommodityPart{Commodity: "corn", BaseAcres: 10, Leader: answer.None, LeaderReason: "no county yield"}
	if said := strings.Join(cropSaid(part, nil), " "); said != "Corn, 10 base acres. No county yield." {
		t.Error(said)
	}
	part.Programs = answer.Programs{{Program: farm.HigherOf, Figures: &answer.ProgramPart{}}}
	if said := strings.Join(cropSaid(part, nil), " "); said != "Corn, 10 base acres. This year pays the higher of both, whatever was elected." {
		t.Error(said)
	}
}
