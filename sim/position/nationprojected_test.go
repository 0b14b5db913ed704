package position

import (
	"math"
	"slices"
	"sync"
	"testing"

	"fencerow/program"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
)

// How near benchmark yields of 2025 come that are estimated from the table of
// 2024, or of 2023, by what is known of the yields since: FSA's own, RMA's, NASS's
// by its ratio, none. The rows of parameters.csv are what this measures: 95 in 100
// within so much of the published benchmark yield, and how many.
func TestBenchmarksAheadByWhatIsKnown(t *testing.T) {
	const tolerance = 0.0005 // rows are written to a tenth of a percent
	n := theNation(t)
	checked := 0
	rows := []struct {
		stage odds.Stage
		years int
		known known
	}{
		{odds.Final, 1, known{2024, 2023, 2023, 2023}},
		{odds.InsuranceYield, 1, known{2024, 2021, 2023, 2023}},
		{odds.CountyEstimate, 1, known{2024, 2021, 2022, 2023}},
		{odds.BeforeHarvest, 1, known{2024, 2021, 2022, 2022}},
		{odds.InsuranceYield, 2, known{2023, 2021, 2023, 2023}},
		{odds.CountyEstimate, 2, known{2023, 2021, 2021, 2023}},
		{odds.BeforeHarvest, 2, known{2023, 2021, 2021, 2021}},
	}
	all := len(rows)
	if !invented.LongRun {
		rows = rows[all-1:]
	}
	for _, one := range rows {
		off := n.aheadOf2025(one.stage, one.years, one.known)
		slices.Sort(off)
		within := off[int(0.95*float64(len(off)-1))]
		row, count, ok := odds.ProjectedBenchmarkWithin(one.stage, one.years)
		t.Logf("%s, %d years ahead: %d estimates, 95 in 100 within %.2f percent, half within %.2f", one.stage, one.years, len(off), 100*within, 100*off[len(off)/2])
		if !ok || count != len(off) || math.Abs(row-within) > tolerance+1e-9 {
			t.Errorf("%s, %d years ahead: the row says %d within %.4f; measured %d within %.4f", one.stage, one.years, count, row, len(off), within)
			continue
		}
		checked++
	}
	t.Logf("accuracy of benchmarks ahead: checked %d of %d rows; %d in all", checked, len(rows), all)
}

// aheadOf2025 returns how far estimates of the benchmark yields of 2025 were off,
// where the yields added were all known from the stage.
func (n nation) aheadOf2025(stage odds.Stage, years int, k known) (off []float64) {
	const of = 2025
	var lock sync.Mutex
	var states []*stateYields
	for _, s := range n {
		states = append(states, s)
	}
	parallel.Do(len(states), func(i int) {
		c := Sources{Counties: states[i].book(k)}
		for _, r := range states[i].tables {
			if r.CropYear != of || r.benchmark <= 0 {
				continue
			}
			terms, err := program.TermsFor(r.Commodity, of)
			if err != nil || !c.mayBe(stage, r.CountyUnit, years) {
				continue
			}
			b, ok := c.BenchmarkYield(r.CountyUnit, terms.YieldDecimals)
			if !ok || b.Projected == nil || b.Projected.yearsAhead != years || slices.ContainsFunc(b.Projected.Yields[5-years:], func(cell AdjustedYield) bool { return cell.stage != stage }) {
				continue
			}
			lock.Lock()
			off = append(off, math.Abs(b.Value/r.benchmark-1))
			lock.Unlock()
		}
	})
	return off
}

// mayBe reports whether the yields added can be known from the stage: a quick look
// before the estimate itself.
func (c Sources) mayBe(stage odds.Stage, u CountyUnit, years int) bool {
	for y := u.CropYear - 1 - years; y < u.CropYear-1; y++ {
		level, _ := plantedAcreYields(c.Counties, u)
		_, planted := level[y]
		harvested := false
		for _, e := range c.Counties.Entries(u.County, u.Commodity, u.Practice) {
			if _, has := e.Harvested[y]; has {
				harvested = true
			}
		}
		if stage == odds.CountyEstimate && (planted || !harvested) || stage == odds.BeforeHarvest && planted || (stage == odds.Final || stage == odds.InsuranceYield) && !planted {
			return false
		}
	}
	return true
}
