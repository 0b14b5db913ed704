package site

import (
	"strings"
	"testing"
)

// A file with area insurance is answered with its sheet, and one without has none of it.
func TestInsuredFile(t *testing.T) {
	s := tested()
	insured := `format: fencerow/operation/1
farms:
  - farm: "0417"
    county: "Story, Iowa"
    bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]
    insurance:
      - {crop_year: 2026, commodity: corn, plan: RP, coverage_level: 0.75, approved_yield: 180, acres: 90, projected_price: 4.62, harvest_price: 4.25, expected_area_yield: 205, layers: [{layer: SCO, premium: 6.20}]}
`
	plain, _, _ := strings.Cut(insured, "    insurance:")
	for text, want := range map[string]bool{insured: true, plain: false} {
		a := s.Answer(Request{Path: startPath, Form: form("do=open"), Files: []File{{Name: "operation.yaml", Text: []byte(text), Field: "opened"}}})
		if got := strings.Contains(string(a.Body), "Area insurance beside the programs"); got != want {
			t.Errorf("the sheet of area insurance: %v, want %v:\n%.2000s", got, want, a.Body)
		}
	}
}
