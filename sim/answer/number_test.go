package answer

import (
	"encoding/json"
	"testing"

	"fencerow/sim/odds"
)

// Money, prices, chances and percentiles are written half up, by program.Text: 0.85 x
// 9.10 = 7.735, which lies a hair lower in binary, is 7.74.
func TestHalfCentIsShownHalfUp(t *testing.T) {
	share, rate := 0.85, 9.10
	product := share * rate
	for _, c := range []struct {
		value any
		want  string
	}{
		{Dollars(product), "7.74"}, {Dollars(-product), "-7.74"}, {Dollars(-0.001), "0.00"}, {Dollars(1.005), "1.01"},
		{Price{product, 2}, "7.74"}, {Price{0.16985, 4}, "0.1699"}, {Chance(0.1234565), "0.123457"},
		{Percentiles(odds.Percentiles{product}), `{"5":7.74,"10":0.00,"25":0.00,"50":0.00,"75":0.00,"90":0.00,"95":0.00}`},
	} {
		got, err := json.Marshal(c.value)
		if err != nil || string(got) != c.want {
			t.Errorf("%#v is written %s (%v), want %s", c.value, got, err, c.want)
		}
	}
}

// Each place is that of its percentile.
func TestPlacesOfPercentiles(t *testing.T) {
	for place, want := range map[int]int{Twentieth: 5, Tenth: 10, Quarter: 25, Half: 50, ThreeQuarters: 75, Ninetieth: 90, NinetyFifth: 95} {
		if got := odds.Percents[place]; got != want {
			t.Errorf("place %d is percentile %d, want %d", place, got, want)
		}
	}
}
