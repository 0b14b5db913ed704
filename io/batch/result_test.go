package batch

import "testing"

// Results are written half up as everywhere: 0.85 x 9.10 = 7.735, which lies a hair lower
// in binary, is 7.74.
func TestHalfCentIsWrittenHalfUp(t *testing.T) {
	share, rate := 0.85, 9.10
	product := share * rate
	for x, want := range map[float64]string{product: "7.74", -product: "-7.74", 1.005: "1.01"} {
		if got := number(&x, money); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
}
