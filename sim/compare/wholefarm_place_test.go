package compare

import (
	"maps"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// A choice and its place among all of sim/elect lead to each other, whatever the
// number of commodities.
func TestPlaceOfAChoice(t *testing.T) {
	names := []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat, crop.Barley, crop.Oats, crop.GrainSorghum, crop.Canola}
	var f farmRun
	choice := answer.Choice{}
	for i, name := range names {
		f.bases = append(f.bases, &position.CommodityBase{Commodity: name})
		choice[name] = []farm.Program{farm.PLC, farm.ARCCO}[i%2]
	}
	if at := f.placeOf(choice); at != 0b0101010 || !maps.Equal(f.choiceAt(at), choice) {
		t.Errorf("place %b, back %v, want %v", at, f.choiceAt(at), choice)
	}
}
