package program

import (
	"math"
	"testing"
)

// A figure is written half up, as the law's figures are rounded (program.Round; FSA's
// ARC-CO county tables, docs/validation.md). 0.85 x 9.10 = 7.735 and 1.005 lie a hair
// under the half in binary, 0.125 and 2.5 lie on it: plain formatting would cut the first
// two and round the last two to the even digit.
func TestTextIsHalfUp(t *testing.T) {
	share, rate := 0.85, 9.10
	product := share * rate
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{product, 2, "7.74"}, {-product, 2, "-7.74"}, {1.005, 2, "1.01"}, {0.125, 2, "0.13"}, {2.5, 0, "3"}, {0.5, 0, "1"},
		{7.734, 2, "7.73"}, {7.7349, 2, "7.73"}, {7, 2, "7.00"}, {0.169845, 4, "0.1698"}, {0.16985, 4, "0.1699"},
		{-0.004, 2, "0.00"}, {math.Copysign(0, -1), 2, "0.00"}, {-0.4, 0, "0"},
		{155000, 2, "155000.00"}, {123456789.125, 2, "123456789.13"},
		{9007199254740993, 2, "9007199254740992.00"}, {12345678901.23, 2, "12345678901.23"}, // beyond a billion no cent is lifted
		{math.NaN(), 2, "NaN"}, {math.Inf(1), 2, "+Inf"}, {math.Inf(-1), 2, "-Inf"},
	} {
		if got := Text(c.x, c.decimals); got != c.want {
			t.Errorf("%v to %d decimals is %s, want %s", c.x, c.decimals, got, c.want)
		}
	}
}
