package program

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Round is math.Round (half away from zero) of the lifted product, for any
// number: halves and their neighbors, negative, tiny and huge ones.
func TestRoundIsHalfAwayFromZero(t *testing.T) {
	plain := func(x float64, decimals int) float64 {
		return math.Round(x*scales[decimals]*Lift) / scales[decimals]
	}
	rapid.Check(t, func(t *rapid.T) {
		decimals := rapid.IntRange(0, len(scales)-1).Draw(t, "decimals")
		x := rapid.OneOf(
			rapid.Float64(), rapid.Float64Range(-1e6, 1e6), rapid.Float64Range(-2, 2),
			rapid.Map(rapid.IntRange(-2_000_000, 2_000_000), func(n int) float64 { return float64(n) / 2 / scales[decimals] }),
		).Draw(t, "x")
		for _, near := range []float64{x, math.Nextafter(x, math.Inf(1)), math.Nextafter(x, math.Inf(-1))} {
			if got, want := Round(near, decimals), plain(near, decimals); got != want {
				t.Fatalf("Round(%v, %d) = %v, want %v", near, decimals, got, want)
			}
		}
	})
	for _, y := range []float64{0.49999999999999994, -0.49999999999999994, 1<<52 + 1, 1<<53 - 1, -(1<<52 + 1), math.Inf(1), math.Inf(-1)} {
		if got, want := Round(y, 0), plain(y, 0); got != want {
			t.Errorf("Round(%v, 0) = %v, want %v", y, got, want)
		}
	}
}

// Two thirds to each number of decimals are the digits by hand, the last raised; a cent is what money is rounded to, and
// half a cent the least that is not written as 0.00.
func TestEveryNumberOfDecimals(t *testing.T) {
	for decimals, want := range []float64{1, 0.7, 0.67, 0.667, 0.6667, 0.66667, 0.666667, 0.6666667, 0.66666667} {
		if got := Round(2.0/3, decimals); got != want {
			t.Errorf("two thirds to %d decimals: %v", decimals, got)
		}
	}
	if Cent(OneCent) != OneCent || Cent(OneCent/2) != OneCent || Cent(0.49*OneCent) != 0 {
		t.Errorf("a cent of %v is not what money is rounded to", OneCent)
	}
	if least, less := Text(HalfCent, 2), Text(0.99*HalfCent, 2); least != "0.01" || less != "0.00" {
		t.Errorf("half a cent is written as %s, less as %s", least, less)
	}
}
