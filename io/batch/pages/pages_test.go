package pages

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/sim/answer"
)

// A page of two operations is the sheets of each, in order, with whose they are below the
// first title and what a reader has to know of shared limits and refused rows.
func TestPageIsTheSheetsOfEachOperation(t *testing.T) {
	one := answer.Comparison{CropYears: []answer.YearPart{{CropYear: 2026, Farms: []answer.FarmPart{{Farm: "99001-0417"}}}}}
	alone := sheet.Of(one, false).Blocks
	laid := Of("Ash", []Operation{{Name: "north", Answer: one}, {Name: "south", Answer: one, Shared: []string{"ann"}, Refused: []string{"0417"}}}).Blocks
	if want := 2*len(alone) + 2 + 1 + 2; len(laid) != want { // whose, a new sheet, two notes
		t.Errorf("%d blocks, want %d", len(laid), want)
	}
	if laid[0] != alone[0] || laid[1] != report.Small("Ash, operation north.") || laid[len(alone)+1] != (report.Sheet{}) {
		t.Errorf("%v", laid[:2])
	}
	text := ""
	for _, b := range laid {
		if one, is := b.(report.Text); is {
			text += string(one) + "\n"
		}
	}
	for _, want := range []string{"Ann has a share in other operations of this client too. One payment limit holds for all of them.", "figures of these farms are not whole: 0417."} {
		if strings.Count(text, want) != 1 {
			t.Errorf("%q is not once in %s", want, text)
		}
	}
	if whose("", "north") != "north." || whose("Ash", "") != "Ash." || whose("Ash", "Ash") != "Ash." || shared([]string{"ann", "bo"})[:12] != "Ann and bo h" {
		t.Error(whose("", "north"))
	}
}

// A long name is cut, without a dash at its end.
func TestLongName(t *testing.T) {
	if got := Name(1, strings.Repeat("abcd ", 40)); len(got) > mostLetters+len(".html") || strings.Contains(got, "-.html") {
		t.Error(got)
	}
}
