package odds

import (
	"fmt"
	"strings"
	"testing"
)

// What is said of a farm's spread is the row behind it, parameters.csv: 1.6, a judgement
// from a systemic share of about 0.35 (Montana State University 2019).
func TestFarmSpreadIsSaidFromItsRow(t *testing.T) {
	row, has := find("farm_over_county_yield_sd", "all", "US", "multiplier on county CV")
	if want := fmt.Sprint(row.Value, " times"); !has || !strings.HasPrefix(FarmOwnCVFrom(), want) {
		t.Errorf("%q, want it to begin with %q", FarmOwnCVFrom(), want)
	}
}
