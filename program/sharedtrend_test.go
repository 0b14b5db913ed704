package program

import (
	"testing"

	"fencerow/program/crop"
)

// Adjusted yields of program year 2024 are those of 2018 to 2022 plus the years between times
// one trend (AdjustedYield). By hand with a trend of 1.5: 2018 has 6 of them, 2022 two. A year that
// is plugged, or not known, does not count; of two trends with as many years the lower is taken.
func TestTheTrendThatMostYearsShare(t *testing.T) {
	actual := map[crop.CropYear]crop.Yield{2018: 150, 2019: 160, 2020: 100, 2021: 170, 2022: 165}
	five := [5]crop.Yield{150 + 6*1.5, 160 + 5*1.5, 140 + 4*1.5, 170 + 3*1.5, 165 + 2*1.5} // 2020 plugged at 140
	if trend, share := SharedTrend(five, actual, 2024); trend != 1.5 || share != 4 {
		t.Errorf("trend %v of %d years, want 1.5 of the four that are not plugged", trend, share)
	}
	delete(actual, 2018)
	if trend, share := SharedTrend(five, actual, 2024); trend != 1.5 || share != 3 {
		t.Errorf("trend %v of %d years, want 1.5 of three", trend, share)
	}
	two := map[crop.CropYear]crop.Yield{2019: 160, 2020: 100} // (167.5-160)/5 = 1.5 and (146-100)/4 = 11.5
	if trend, share := SharedTrend(five, two, 2024); trend != 1.5 || share != 1 {
		t.Errorf("trend %v of %d years, want the lower of two, of one year", trend, share)
	}
	if trend, share := SharedTrend(five, nil, 2024); trend != 0 || share != 0 {
		t.Errorf("trend %v of %d years where none is known", trend, share)
	}
}

// The five years of the next program year: each a trend higher, and at the end the newest yield or its plug with two years of trend.
func TestProjectedYieldsByHand(t *testing.T) {
	got := ProjectedYields([5]crop.Yield{1, 150, 160, 170, 180}, 1.5, 2024, 190, 200, 2)
	if want := [5]crop.Yield{151.5, 161.5, 171.5, 181.5, 200 + 2*1.5}; got != want {
		t.Errorf("%v, want %v", got, want)
	}
}
