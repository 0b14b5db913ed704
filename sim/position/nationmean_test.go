package position

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/parallel"
)

// The mean yield of every county, commodity and practice of FSA's tables of 2023
// and 2025, worked out as before harvest: FSA's yields to two years before, RMA's
// and NASS's to the year before. None stands outside 60 to 150 percent of the
// benchmark yield, and in the middle they agree. Rows by awk, of those with a
// benchmark yield above 0:
//
//	zcat arcco_county_py2019_2025.csv.gz | awk -F, '$14>0{n[$1]++} END{print n[2023], n[2025]}'
func TestMeanYieldsOfTheNation(t *testing.T) {
	const least, most = 0.60, 1.50 // issue 13, item 4
	nation := theNation(t)
	tables := []struct {
		year crop.CropYear
		rows int
	}{{2023, 18_153}, {2025, 18_683}}
	if !invented.LongRun {
		tables = tables[1:]
	}
	for _, one := range tables {
		ratios, rules := nationMeans(nation, one.year)
		slices.Sort(ratios)
		at := func(share float64) float64 { return ratios[int(share*float64(len(ratios)-1))] }
		t.Logf("mean yield over benchmark yield, %d: checked %d of %d; median %.3f, 1st percentile %.3f, 99th %.3f, least %.3f, most %.3f", one.year, len(ratios), one.rows, at(.5), at(.01), at(.99), at(0), at(1))
		for _, rule := range slices.Sorted(maps.Keys(rules)) {
			t.Logf("  %6d by %s", rules[rule], rule)
		}
		if len(ratios) != one.rows {
			t.Errorf("%d: checked %d of %d rows", one.year, len(ratios), one.rows)
		}
		if at(0) < least || at(1) > most {
			t.Errorf("%d: from %.3f to %.3f of the benchmark, want %.2f to %.2f", one.year, at(0), at(1), least, most)
		}
		if at(.5) < 0.95 || at(.5) > 1.05 {
			t.Errorf("%d: the middle mean is %.3f of its benchmark", one.year, at(.5))
		}
	}
}

// nationMeans returns the mean over the benchmark of every row of one program
// year, and how many each rule gave.
func nationMeans(n nation, year crop.CropYear) (ratios []float64, rules map[string]int) {
	var lock sync.Mutex
	rules = map[string]int{}
	states := []*stateYields{}
	for _, s := range n {
		states = append(states, s)
	}
	parallel.Do(len(states), func(i int) {
		book := states[i].book(known{table: year, actual: year - 2, insured: year - 1, harvested: year - 1})
		for _, r := range states[i].tables {
			if r.CropYear != year || r.benchmark <= 0 {
				continue
			}
			o, ok := Sources{Counties: book}.CountyYieldOutlook(r.CountyUnit, Benchmark{Figure: farm.Figure{Value: r.benchmark, Status: crop.Agency, Source: "FSA"}})
			if !ok {
				continue
			}
			lock.Lock()
			ratios = append(ratios, o.Mean/r.benchmark)
			rules[ruleOf(o)]++
			lock.Unlock()
		}
	})
	return ratios, rules
}

// ruleOf is the rule that gave a mean, without its figures.
func ruleOf(o Yield) string {
	rule, _, _ := strings.Cut(o.MeanFrom, ",")
	if strings.HasPrefix(rule, "trend of") {
		rule = "trend of FSA's and RMA's yields"
		if strings.Contains(o.MeanFrom, "NASS") {
			rule = "trend of NASS's yields"
		}
	}
	switch {
	case o.Rejected != nil:
		rule += fmt.Sprintf(", a %s being out of line", strings.Fields(o.Rejected.rule)[0])
	case strings.Contains(o.MeanFrom, "too long ago"):
		rule += ", the series being too old"
	case strings.Contains(o.MeanFrom, "no ratio"):
		rule += ", the level of the series not being known"
	}
	return rule
}
