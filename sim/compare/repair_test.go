package compare_test

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// A price correlation that almost fits the others is repaired, and the
// flag says from what to what; one that can hold raises nothing, one that is far
// off is refused.
func TestRepairedCorrelationIsFlagged(t *testing.T) {
	c := cases.Corn()
	c.Draws = 256
	flagOf := func(r float64) (string, error) {
		c.Market.Correlation = map[crop.Commodity]map[string]float64{crop.Corn: {string(crop.Soybeans): r}}
		got, err := compare.Answer(c)
		if err != nil {
			return "", err
		}
		flags := got.CropYears[0].Farms[0].Flags
		if i := slices.IndexFunc(flags, func(f answer.Flag) bool { return f.Code == "correlation_repaired" }); i >= 0 {
			return flags[i].Message, nil
		}
		return "", nil
	}
	if message, err := flagOf(0.6); message != "" || err != nil {
		t.Errorf("0.6 can hold and raises %q, %v", message, err)
	}
	if _, err := flagOf(-0.95); err == nil {
		t.Error("-0.95 is accepted")
	}
	for r := 0.4; r > -0.5; r -= 0.01 {
		message, err := flagOf(r)
		if err != nil {
			t.Fatalf("%.2f is refused before any was repaired: %v", r, err)
		}
		if message != "" {
			if !strings.Contains(message, "corn with soybeans") && !strings.Contains(message, "soybeans with corn") {
				t.Errorf("the message does not name the pair: %s", message)
			}
			return
		}
	}
	t.Error("no correlation was repaired")
}
