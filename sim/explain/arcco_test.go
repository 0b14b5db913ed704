package explain

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// stepOf returns one printed figure of ARC-CO.
func stepOf(t *testing.T, c answer.Question, y crop.CropYear, name string) float64 {
	t.Helper()
	e, err := Explain(c, c.Operation.Farms[0], crop.Corn, y, Given{MYA: 3.36, CountyYield: CountyYields{{}: 160}})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range e.Programs.Of(farm.ARCCO).Steps {
		if s.Name == name {
			return s.Value.Value
		}
	}
	t.Fatalf("crop year %d: no step %s; missing %q", y, name, e.Programs.Of(farm.ARCCO).Missing)
	return 0
}

// The rules of 2014-2018: the county that administers the farm, the five years
// before the crop year, the reference price as floor, yields in whole units, 86
// and 10 percent. The benchmark price of 2016, 4.79, is printed in "Few counties
// to receive ARC-CO payments", Post Bulletin, April 2019; its prices are FSA's.
// By hand: 170 x 4.79 = 814.30; 0.86 x 814.30 = 700.30; 0.10 x 814.30 = 81.43.
// From 2019 the county where the base lies, the years t-6 to t-2, the effective
// reference price (3.70) as floor: the prices of 2013-2017 are 4.46 and four of
// 3.70 or less, so 3.70.
func TestARCCOOf2016And2019(t *testing.T) {
	m := invented.Market("2026-11-10")
	for y, price := range map[crop.CropYear]float64{2011: 6.22, 2012: 6.89, 2013: 4.46, 2014: 3.70, 2015: 3.61, 2016: 3.36, 2017: 3.36} {
		m.MYA[crop.Corn][y] = farm.Figure{Value: price, Status: crop.Agency, Source: "FSA Table 1"}
	}
	f := invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150))
	f.Bases[0].County = "99003"
	c := cases.Question(m, invented.BookOf(invented.CountyOfCorn("99001", 170.3, farm.AllPractices), invented.CountyOfCorn("99003", 120, farm.AllPractices)), f)
	for name, want := range map[string]float64{"benchmark_yield": 170, "benchmark_price": 4.79, "benchmark_revenue": 814.30, "guarantee": 700.30, "maximum_rate": 81.43} {
		if got := stepOf(t, c, 2016, name); got != want {
			t.Errorf("2016 %s is %v, want %v", name, got, want)
		}
	}
	// 120 x 3.70 = 444.00; 0.86 x 444 = 381.84; 0.10 x 444 = 44.40
	for name, want := range map[string]float64{"benchmark_yield": 120, "benchmark_price": 3.70, "guarantee": 381.84, "maximum_rate": 44.40} {
		if got := stepOf(t, c, 2019, name); got != want {
			t.Errorf("2019 %s is %v, want %v", name, got, want)
		}
	}
}

// A sub-county is a county of its own, and codes need not be those of the census.
func TestSubCountiesAndOwnCodes(t *testing.T) {
	for _, code := range []string{"99003A", "99003B", "99777"} {
		f := invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150))
		f.Bases[0].County = code
		c := cases.Question(invented.Market("2026-11-10"), invented.BookOf(invented.CountyOfCorn("99003", 100, farm.AllPractices), invented.CountyOfCorn("99003A", 150, farm.AllPractices),
			invented.CountyOfCorn("99003B", 160, farm.AllPractices), invented.CountyOfCorn("99777", 170, farm.AllPractices)), f)
		want := map[string]float64{"99003A": 150, "99003B": 160, "99777": 170}[code]
		if got := stepOf(t, c, 2026, "benchmark_yield"); got != want {
			t.Errorf("county %s has a benchmark yield of %v, want %v", code, got, want)
		}
	}
}
