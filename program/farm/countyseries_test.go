package farm

import (
	"testing"

	"fencerow/program/crop"
)

// A benchmark is of a program year, 2014 to 2031, in which the crop is covered: seed cotton is from 2018 on (7 U.S.C. 9011(4)). Harvests
// and plug yields may be of years before. A single harvest may bring next to nothing, an average not.
func TestSeriesOfACounty(t *testing.T) {
	for _, c := range []struct {
		series CountySeries
		crop   crop.Commodity
		y      crop.CropYear
		right  bool
	}{
		{BenchmarkYields, crop.Corn, 2014, true}, {BenchmarkYields, crop.Corn, 2013, false}, {BenchmarkYields, crop.Corn, 2031, true}, {BenchmarkYields, crop.Corn, 2032, false},
		{BenchmarkYields, crop.SeedCotton, 2018, true}, {BenchmarkYields, crop.SeedCotton, 2017, false},
		{HarvestYields, crop.SeedCotton, 2017, true}, {HarvestYields, crop.Corn, 2013, true}, {PlugYields, crop.SeedCotton, 2013, true}, {PlugYields, crop.Corn, 2032, false},
	} {
		if fault := c.series.CheckYear("year", c.crop, c.y); (fault == nil) != c.right {
			t.Errorf("series %d of %s, %d: %+v", c.series, c.crop, c.y, fault)
		}
	}
	for series, right := range map[CountySeries]bool{BenchmarkYields: false, HarvestYields: true, PlugYields: false} {
		if fault := series.CheckYield("yield", crop.Wheat, 0.5); (fault == nil) != right {
			t.Errorf("series %d: half a bushel of wheat: %+v", series, fault)
		}
	}
}
