package program

import (
	"errors"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// The statute bounds the national factor of the 2020 update to 0.90 and 1.00: a
// row outside is a slip of the table. Every commodity has one.
func TestYieldUpdateFactorsWithinTheLaw(t *testing.T) {
	const least, most = 0.90, 1.00 // 7 U.S.C. 9013(d)(2)
	for _, c := range crop.Commodities() {
		u, err := YieldUpdateFor(c, 2020)
		if err != nil {
			t.Errorf("%s: %v", c, err)
			continue
		}
		if u.Factor < least || u.Factor > most {
			t.Errorf("%s: factor %v is outside %v to %v", c, u.Factor, least, most)
		}
	}
}

// Between the two updates there was none: an error, never zero.
func TestNoYieldUpdateIn2019(t *testing.T) {
	if _, err := YieldUpdateFor(crop.Corn, 2019); !errors.Is(err, law.ErrNoValue) {
		t.Errorf("crop year 2019: %v, want no value", err)
	}
}

// Without a year planted there is no average, and no yield; the order of the
// years is of no account.
func TestYieldUpdateOfYears(t *testing.T) {
	u := YieldUpdate{AverageShare: 0.90, PlugShare: 0.75, Factor: 1}
	if got := u.Yield(nil, 100); got != 0 {
		t.Errorf("no year planted: %v", got)
	}
	if a, b := u.Yield([]float64{50, 80, 110}, 100), u.Yield([]float64{110, 50, 80}, 100); Round(a, 6) != Round(b, 6) || Round(a, 6) != 79.5 {
		t.Errorf("50 raised to 75, 80, 110: mean 265/3, 90 percent 79.5; got %v and %v", a, b)
	}
}
