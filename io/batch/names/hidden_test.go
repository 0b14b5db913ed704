package names

import (
	"fmt"
	"strings"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// No name of a year is left under a mask, and the year itself stays as it was; without a mask
// nothing changes.
func TestYearIsHidden(t *testing.T) {
	y := answer.YearPart{
		Farms:     []answer.FarmPart{{Farm: "99001-0417"}},
		Operation: answer.OperationPart{ByPerson: []answer.PersonPart{{ID: "ann"}}, LeftOut: []string{"99001-0417 corn"}, Under: []answer.UnderPart{{ByPerson: []answer.PersonPart{{ID: "ann"}}, LeftOut: []string{"99001-0417 corn"}}}},
		Standing:  answer.Standing{Lines: []answer.StandingLine{{Farm: "99001-0417", Signers: []answer.Signer{{ID: "ann"}}}}},
	}
	before := fmt.Sprintf("%+v", y)
	hidden := fmt.Sprintf("%+v", New("", 1, true, nil).Year(y))
	if strings.Contains(hidden, "0417") || strings.Contains(hidden, "ann") || strings.Count(hidden, "farm 1-1") != 4 || strings.Count(hidden, "person 1-1") != 3 {
		t.Error(hidden)
	}
	if after := fmt.Sprintf("%+v", y); after != before {
		t.Errorf("the year was changed: %s", after)
	}
	if same := fmt.Sprintf("%+v", Labels{}.Year(y)); same != before {
		t.Error(same)
	}
}

// The key of a farm is taken apart; the number alone is hidden. The largest share is named
// first.
func TestPlaceAndSigners(t *testing.T) {
	counties := farm.CountyBook{{Counties: map[string]farm.County{"99001": {Name: "Alder"}}}}
	f := answer.FarmPart{Farm: "99001-0417"}
	for masked, want := range map[bool]string{false: "99001 Alder County 99 0417", true: "99001 Alder County 99 farm 2-1"} {
		code, county, state, number := New("", 2, masked, counties).Place(f)
		if got := strings.Join([]string{code, county, state, number}, " "); got != want {
			t.Errorf("masked %t: %q, want %q", masked, got, want)
		}
	}
	if code, county, state, _ := New("", 2, false, counties).Place(answer.FarmPart{Farm: "19169-1"}); code+county+state != "19169Iowa" {
		t.Errorf("%s %q %s", code, county, state)
	}
	line := answer.StandingLine{Signers: []answer.Signer{{ID: "bo", Share: 0.4}, {ID: "cy", Share: 0.2}, {ID: "ann", Share: 0.4}}}
	if got := (Labels{}).Signers(line); got != "ann; bo; cy" {
		t.Error(got)
	}
}
