package position

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

// The example of the method: corn 2026 at 4.80 against a path that has 4.10 in
// every year; phi 0.80: 4.10 x (4.80/4.10)^0.80 = 4.65 in 2027, 4.10 x
// (4.80/4.10)^0.64 = 4.535 in 2028.
func TestLaterYearsAreReanchored(t *testing.T) {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, 4.80, -1)
	m.Path = map[crop.Commodity]map[crop.CropYear]farm.Figure{crop.Corn: {}}
	for y := 2025; y <= 2031; y++ {
		m.Path[crop.Corn][y] = farm.Figure{Value: 4.10, Status: crop.Projected, Source: "test path"}
	}
	with := WithPath(m)
	for y, want := range map[crop.CropYear]float64{2026: 4.80, 2027: 4.65, 2028: 4.54} {
		if got := with.Outlook[crop.Corn][y].Value; got != want {
			t.Errorf("%d: %v, want %v", y, got, want)
		}
	}
	if _, has := m.Outlook[crop.Corn][2027]; has {
		t.Error("the market given was changed")
	}
	invented.Project(m, crop.Corn, 2027, 4.00, -1)
	if got := WithPath(m).Outlook[crop.Corn][2027].Value; got != 4.00 {
		t.Errorf("a projection that is given became %v", got)
	}
	delete(m.Outlook[crop.Corn], 2026)
	delete(m.Outlook[crop.Corn], 2027)
	if got := len(WithPath(m).Outlook[crop.Corn]); got != 0 {
		t.Errorf("without any projection the path alone gave %d", got)
	}
}
