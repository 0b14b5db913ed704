package answer

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// countyOfCorn is a county with corn yields of one practice for 2016, 2019 and
// 2026.
func countyOfCorn(code string, height float64, practices ...farm.Practice) farm.County {
	county := farm.County{Code: code}
	for _, p := range practices {
		five := [5]float64{height - 20, height - 10, height, height + 10, height + 20}
		county.Yields = append(county.Yields, farm.CountyYield{Commodity: crop.Corn, Practice: p,
			Adjusted: map[crop.CropYear][5]float64{2016: five, 2019: five, 2026: five}})
	}
	return county
}

// stepOf returns one printed figure of ARC-CO.
func stepOf(t *testing.T, c Case, y crop.CropYear, name string) float64 {
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
	m := testMarket("2026-11-10")
	for y, price := range map[crop.CropYear]float64{2011: 6.22, 2012: 6.89, 2013: 4.46, 2014: 3.70, 2015: 3.61, 2016: 3.36, 2017: 3.36} {
		m.MYA[crop.Corn][y] = farm.Figure{Value: price, Status: crop.Agency, Source: "FSA Table 1"}
	}
	f := oneFarm("0417", base(crop.Corn, 100, 150))
	f.Bases[0].County = "99003"
	c := testCase(m, bookOf(countyOfCorn("99001", 170.3, farm.AllPractices), countyOfCorn("99003", 120, farm.AllPractices)), f)
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
		f := oneFarm("0417", base(crop.Corn, 100, 150))
		f.Bases[0].County = code
		c := testCase(testMarket("2026-11-10"), bookOf(countyOfCorn("99003", 100, farm.AllPractices), countyOfCorn("99003A", 150, farm.AllPractices),
			countyOfCorn("99003B", 160, farm.AllPractices), countyOfCorn("99777", 170, farm.AllPractices)), f)
		want := map[string]float64{"99003A": 150, "99003B": 160, "99777": 170}[code]
		if got := stepOf(t, c, 2026, "benchmark_yield"); got != want {
			t.Errorf("county %s has a benchmark yield of %v, want %v", code, got, want)
		}
	}
}

// Where only one practice of the pair is published, base of that practice has
// ARC-CO; base of the other one has none, and the practice is named.
func TestOnePracticeOfAPair(t *testing.T) {
	ask := func(share *float64) (Case, []string) {
		c := designCase()
		c.Counties = bookOf(countyOfCorn("99001", 200, farm.Irrigated))
		c.Operation.Farms[0].Bases[0].IrrigatedShare = share
		return c, codes(c, 2026)
	}
	c, raised := ask(number(1))
	if p := only(t, c); p.Programs.Of(farm.ARCCO) == nil || slices.Contains(raised, "yield_missing") {
		t.Errorf("all irrigated: ARC-CO %v, flags %v", p.Programs.Of(farm.ARCCO), raised)
	}
	c, raised = ask(number(0.5))
	p := only(t, c)
	if p.Programs.Of(farm.ARCCO) != nil || p.Leader != None || !strings.Contains(p.LeaderReason, "nonirrigated") || !slices.Contains(raised, "yield_missing") {
		t.Errorf("half irrigated: ARC-CO %v, leader %v because %q, flags %v", p.Programs.Of(farm.ARCCO), p.Leader, p.LeaderReason, raised)
	}
	c, raised = ask(nil)
	if p := only(t, c); p.Programs.Of(farm.ARCCO) == nil || p.AssumedShare == nil || !slices.Contains(raised, "irrigated_history_missing") || slices.Contains(raised, "yield_missing") {
		t.Errorf("share not told: ARC-CO %v, want the one yield there is, assumed; flags %v", p.Programs.Of(farm.ARCCO), raised)
	}
}
