package answer

import (
	"testing"

	"fencerow/program/crop"
)

// $2 a base acre on 1,000 acres is more at stake than $30 on 10, and what is not known is last.
func TestByStake(t *testing.T) {
	f := FarmPart{Commodities: []CommodityPart{
		{Commodity: crop.Oats},
		{Commodity: crop.Wheat, BaseAcres: 10, Difference: &Difference{Mean: 30}},
		{Commodity: crop.Corn, BaseAcres: 1000, Difference: &Difference{Mean: -2}},
	}}
	got := f.ByStake()
	if got[0].Commodity != crop.Corn || got[1].Commodity != crop.Wheat || got[2].Commodity != crop.Oats || f.Commodities[0].Commodity != crop.Oats {
		t.Errorf("%v; the farm itself has %v", got, f.Commodities)
	}
}
