package sheet

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// A flag is told once, where it belongs: what stops a payment whole, doubts by themselves,
// and what the banner says not again.
func TestFlagsAreGrouped(t *testing.T) {
	stops, check, doubts, know := grouped([]answer.Flag{
		{Code: answer.NewElectionFlag, Severity: answer.Warning, Message: "New."},
		{Code: "ten_acres", Severity: answer.Error, Message: "One. Two. Three."},
		{Code: "two_counties", Severity: answer.Warning, Message: "A. B. C."},
		{Code: "market_stale", Severity: answer.Warning, Message: "Old. Very. Indeed."},
		{Code: "sco_by_year", Severity: answer.Info, Message: "Bought."},
	})
	for name, c := range map[string]struct {
		got  []string
		want string
	}{"stops": {stops, "One. Two. Three."}, "check": {check, "A. B."}, "doubts": {doubts, "Old. Very."}, "know": {know, "Bought."}} {
		if strings.Join(c.got, "|") != c.want {
			t.Errorf("%s: %q, want %q", name, c.got, c.want)
		}
	}
}

// With figures for no program the sheet says what is missing and draws nothing.
func TestCropWithoutFigures(t *testing.T) {
	var s sheets
	s.crop(answer.CommodityPart{Commodity: "corn", BaseAcres: 10, Leader: answer.None, LeaderReason: "no county yield"}, nil, 3, true, true)
	if len(s) != 2 || s[1] != report.Lead("No figures: no county yield.") {
		t.Errorf("%v", s)
	}
}

// In a year that pays the higher of both, a lead is not told as a choice.
func TestHigherOfYear(t *testing.T) {
	part := answer.CommodityPart{
		Commodity: "corn", Leader: answer.LeadsARCCO, Difference: &answer.Difference{Mean: 5},
		Programs: answer.Programs{{Program: farm.HigherOf, Figures: &answer.ProgramPart{}}},
	}
	if title := cropTitle(part); !strings.Contains(title, "paid the higher of both") || strings.Contains(title, "leans") {
		t.Error(title)
	}
	if said := behind(part, nil); said != "For this year FSA pays the higher of the two, whatever was elected." {
		t.Error(said)
	}
}

// The line for the choice is blank but for what people typed, and there is none where
// nothing can be chosen.
func TestYourChoice(t *testing.T) {
	plc := farm.PLC
	corn, soybeans := answer.StandingLine{Commodity: "corn"}, answer.StandingLine{Commodity: "soybeans"}
	typed := corn
	typed.Typed = &plc
	higher := corn
	higher.Highest = farm.HigherOf
	for want, lines := range map[string][]answer.StandingLine{
		"Your choice, 2026: corn ____ soybeans ____": {corn, soybeans}, "Your choice, 2026: corn PLC, soybeans ____": {typed, soybeans},
		"Your choice, 2026: soybeans ____ corn PLC.": {soybeans, typed}, "": {higher},
	} {
		if got := yourChoice(answer.YearPart{CropYear: 2026}, lines); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
