package backtest

import (
	"fmt"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/io/read/market"
	"fencerow/io/read/past"
	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/position"
)

// pastRules are the trends that other rules of the mean take, by commodity and year and row.
type pastRules struct {
	longest, recent map[*commodityYear][]crop.Yield
}

// recentYears is the length of the shorter series that is tried.
const recentYears = 25

// rulesOf works out the trend of the longest series however old, and that of the last
// recentYears years.
func rulesOf(s Setup, years []*commodityYear) pastRules {
	rules := pastRules{map[*commodityYear][]crop.Yield{}, map[*commodityYear][]crop.Yield{}}
	for _, c := range years {
		book := s.known(c.Commodity, c.CropYear)
		longest, recent := make([]crop.Yield, len(c.rows)), make([]crop.Yield, len(c.rows))
		parallel.Do(len(c.rows), func(i int) {
			forSD, forMean := position.LongestYieldSeries(book, c.bases[i].Unit)
			if len(forSD.Years) >= odds.YearsForTrend {
				longest[i] = forSD.Trend(c.CropYear)
			}
			from := 0
			for from < len(forMean.Years) && forMean.Years[from] < c.CropYear-recentYears {
				from++
			}
			if len(forMean.Years)-from >= odds.YearsForTrend {
				recent[i] = odds.Trend(forMean.Years[from:], forMean.Yields[from:], c.CropYear)
			}
		})
		rules.longest[c], rules.recent[c] = longest, recent
	}
	return rules
}

// levelFactor returns by what the mean yields of a commodity came out too low or high in the
// years up to two before, shrunk by n/(n+4): of the nation, or of the State of a county.
func levelFactor(years []*commodityYear, outlooks map[*commodityYear][]position.Yield, c *commodityYear, state string) float64 {
	var ratios []float64
	for _, y := range years {
		if y.Commodity != c.Commodity || y.CropYear > c.CropYear-2 {
			continue
		}
		sum, weight := 0.0, 0.0
		for i, r := range y.rows {
			if o := outlooks[y][i]; o.Mean > 0 && (state == "" || position.StateOf(r.County) == state) {
				sum, weight = sum+y.weights[i]*r.ActualYield/o.Mean, weight+y.weights[i]
			}
		}
		if weight > 0 {
			ratios = append(ratios, sum/weight)
		}
	}
	if len(ratios) == 0 {
		return 1
	}
	const pull = 4
	n := float64(len(ratios))
	return 1 + n/(n+pull)*(odds.Mean(ratios)-1)
}

// candidatesOf are the rules that were tried.
func candidatesOf(s Setup, years []*commodityYear) []candidate {
	rules := rulesOf(s, years)
	half := 0.5
	k := &odds.Constants{}
	k.Replace("county_mean_weight", "all", "US", "of the trend", half)
	outlooks := map[*commodityYear][]position.Yield{}
	for _, c := range years {
		outlooks[c] = c.outlooks(s, k)
	}
	oldRule := func(c *commodityYear, i int, o position.Yield) crop.Yield {
		if x := rules.longest[c][i]; x > 0 {
			return x
		}
		return o.Mean
	}
	all := []candidate{
		{name: "before the rules of the mean, spreads in sample", mean: oldRule, weight: new(1.0), usualConstants: true},
		{name: "before the rules of the mean", mean: oldRule, weight: new(1.0)},
	}
	for _, w := range []float64{1, 0.75, 0.5, 0.25, 0} {
		all = append(all, candidate{name: fmt.Sprintf("trend %g, benchmark %g", w, 1-w), weight: &w})
	}
	all = append(all,
		candidate{name: "as the other years say"},
		candidate{name: "half-way, trend of 25 years", weight: &half, mean: func(c *commodityYear, i int, o position.Yield) crop.Yield {
			if x := rules.recent[c][i]; x > 0 && o.Rejected == nil {
				return (x + c.levels[i]) / 2
			}
			return o.Mean
		}},
		candidate{name: "half-way, level of the nation", weight: &half, mean: func(c *commodityYear, i int, o position.Yield) crop.Yield {
			return o.Mean * levelFactor(years, outlooks, c, "")
		}},
		candidate{name: "half-way, level of the State", weight: &half, mean: func(c *commodityYear, i int, o position.Yield) crop.Yield {
			return o.Mean * levelFactor(years, outlooks, c, position.StateOf(c.rows[i].County))
		}},
		candidate{name: "half-way, the nation's report", weight: &half, nation: true})
	for i := range all {
		all[i].leansOnly = true
	}
	return all
}

// TestCandidatesOfTheMean prints every rule of the mean county yield that was tried, also the
// losers, each with its spreads derived from the other years, and holds that drawing the trend
// half-way to the benchmark scores better than the trend alone and loses nothing in what
// following pays. It takes minutes: FENCEROW_CANDIDATES=1 asks for it.
func TestCandidatesOfTheMean(t *testing.T) {
	if os.Getenv("FENCEROW_CANDIDATES") == "" {
		t.Skip("asked for by FENCEROW_CANDIDATES=1")
	}
	p, err := past.Read("../../../shared/data")
	if err != nil {
		t.Skip("NOT CHECKED: candidates of the mean county yield, ../shared is absent")
	}
	s := Setup{Past: p, Market: market.Builtin(), Draws: 256, Seed: 1}
	years := s.prepare()
	results := map[string]map[Knowledge]tried{}
	var first map[Knowledge]tried
	for _, c := range candidatesOf(s, years) {
		s.candidate = c
		rows, err := s.testYears(years, func(int, int) {})
		if err != nil {
			t.Fatal(err)
		}
		one := map[Knowledge]tried{}
		for _, k := range []Knowledge{May, November} {
			one[k] = triedOf(k, filter(rows, func(r testedRow) bool { return r.knowledge == k && !math.IsNaN(r.pit) }))
		}
		if first == nil {
			first = one
		}
		results[c.name] = one
		for _, k := range []Knowledge{May, November} {
			fmt.Printf("| %s | %s | %s\n", c.name, k, one[k].line(first[k]))
		}
	}
	half, alone := results["trend 0.5, benchmark 0.5"], results["trend 1, benchmark 0"]
	const alike = 0.03 // USD per base acre
	for _, k := range []Knowledge{May, November} {
		if odds.Mean(half[k].crps) >= odds.Mean(alone[k].crps) || half[k].pays < alone[k].pays-alike {
			t.Errorf("%s: half-way %+v, the trend alone %+v", k, half[k], alone[k])
		}
	}
}

// tried is what a rule came to at one state of knowledge.
type tried struct {
	crps  []float64 // of all commodities, by base acres, by crop year
	pays  float64   // following, USD per base acre
	cells string    // of the table, by commodity
}

func triedOf(k Knowledge, rows []testedRow) tried {
	var t tried
	for _, year := range byYear(rows) {
		t.crps = append(t.crps, average(year, crpsOf))
	}
	t.pays = float64(decisionCheck(k, allTogether, rows).Following)
	sure := filter(rows, func(r testedRow) bool { return r.chance >= 0.9 })
	t.cells = fmt.Sprintf("%.2f", average(sure, paid))
	for _, c := range []crop.Commodity{crop.Wheat, crop.Corn, crop.GrainSorghum, crop.Soybeans} {
		one := filter(rows, func(r testedRow) bool { return r.row.Commodity == c })
		o := oddsCheck(k, c, one, false)
		t.cells += fmt.Sprintf(" | %.5f, %.4f, %.0f/%.0f, %.0f, %.2f", float64(o.CRPS.Mean), float64(o.Brier.Mean),
			100*float64(o.SharePaid.Said), 100*float64(o.SharePaid.Came), 100*float64(o.Within[1]), float64(decisionCheck(k, c, one).Following))
	}
	return t
}

// line is a row of the table: CRPS, its change against the first rule with its error from year
// to year and the years in which it is better, what following pays, how often chances of 90 in
// 100 and more came, and by commodity.
func (t tried) line(first tried) string {
	difference, better := make([]float64, len(t.crps)), 0
	for i := range t.crps {
		if difference[i] = t.crps[i] - first.crps[i]; difference[i] < 0 {
			better++
		}
	}
	mean, sd := stat.MeanStdDev(difference, nil)
	base, n := odds.Mean(first.crps), math.Sqrt(float64(len(difference)))
	return fmt.Sprintf("%.5f | %+.1f (%.1f), %d of %d | %.2f | %s |", odds.Mean(t.crps), 100*mean/base, 100*sd/n/base, better, len(difference), t.pays, t.cells)
}
