package backtest

import (
	"cmp"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/position"
)

// commodityYear is one commodity and crop year: its rows and what their yields rest on,
// before any number of the model enters. It is the same at every state of knowledge.
type commodityYear struct {
	Commodity crop.Commodity
	CropYear  crop.CropYear
	rows      []farm.PastRow
	weights   []crop.Acres // base acres that each row stands for
	bases     []position.YieldBasis
	levels    []crop.Yield // the benchmark yield of each row; of a program year without trend adjustment, at the level of the trends
	table     farm.CountyBook
}

// prepare returns the commodities and crop years that have rows and a forecast, oldest
// first.
func (s Setup) prepare() []*commodityYear {
	type key struct {
		commodity crop.Commodity
		cropYear  crop.CropYear
	}
	byKey := map[key]*commodityYear{}
	var all []*commodityYear
	for _, r := range s.Past.Rows {
		if !s.EachRow && (r.BaseAcres <= 0 || r.BaseAcres < s.LeastBase) {
			continue
		}
		at := key{r.Commodity, r.CropYear}
		if byKey[at] == nil {
			if _, has := s.forecast(May, r.Commodity, r.CropYear, r.CropYear); !has {
				if _, has = s.forecast(November, r.Commodity, r.CropYear, r.CropYear); !has {
					continue
				}
			}
			byKey[at] = &commodityYear{Commodity: r.Commodity, CropYear: r.CropYear}
			all = append(all, byKey[at])
		}
		if r.PaymentYield == 0 && !s.EachRow {
			r.PaymentYield = answer.AssumedPaymentYield * r.BenchmarkYield
		}
		byKey[at].rows = append(byKey[at].rows, r)
	}
	slices.SortFunc(all, func(a, b *commodityYear) int {
		return cmp.Or(cmp.Compare(a.CropYear, b.CropYear), cmp.Compare(a.Commodity, b.Commodity))
	})
	parallel.Do(len(all), func(i int) { s.fill(all[i]) })
	return all
}

// fill sets what a commodity and year have beside their rows.
func (s Setup) fill(c *commodityYear) {
	c.weights = weigh(c.rows, s.EachRow)
	book := s.known(c.Commodity, c.CropYear)
	units := make([]position.CountyUnit, len(c.rows))
	for i, r := range c.rows {
		units[i] = position.CountyUnit{County: r.County, Commodity: r.Commodity, Practice: r.Practice, CropYear: r.CropYear}
	}
	c.bases = position.YieldBases(book, units)
	c.levels = levelled(c.rows, c.bases)
	c.table = tablesOnly(book, c.CropYear)
}

// weigh returns the base acres that each row stands for: those of its county, in equal
// parts where the county has several practices; 1 where each row counts alike.
func weigh(rows []farm.PastRow, alike bool) []crop.Acres {
	practices := map[string]int{}
	for _, r := range rows {
		practices[r.County]++
	}
	weights := make([]crop.Acres, len(rows))
	for i, r := range rows {
		weights[i] = r.BaseAcres / float64(practices[r.County])
		if alike {
			weights[i] = 1
		}
	}
	return weights
}

// levelled returns the benchmark yields to which trends are drawn. Those of program years
// before 2019 are averages of five years without a trend: they are brought to the level of
// the trends by the median of trend over benchmark in the State, so that half of the way is
// half of what sets a county apart, not half of the trend.
func levelled(rows []farm.PastRow, bases []position.YieldBasis) []crop.Yield {
	over := map[string][]float64{}
	for i, r := range rows {
		trend, has := bases[i].Trend()
		if r.Adjusted == nil && has && r.BenchmarkYield > 0 && odds.InLine(trend, r.BenchmarkYield) {
			for _, where := range []string{position.StateOf(r.County), ""} {
				over[where] = append(over[where], trend/r.BenchmarkYield)
			}
		}
	}
	levels := make([]crop.Yield, len(rows))
	for i, r := range rows {
		levels[i] = r.BenchmarkYield
		if _, has := bases[i].Trend(); has && r.Adjusted == nil && len(over[""]) > 0 {
			levels[i] *= medianOf(over, r.County)
		}
	}
	return levels
}

// leastReported is the number of counties of a State from which on their yields stand
// for a report on the State. A judgement.
const leastReported = 5

// medianOf returns the median of figures by State, of the nation ("") where the State of a
// county has few.
func medianOf(figures map[string][]float64, county string) float64 {
	where := position.StateOf(county)
	if len(figures[where]) < leastReported {
		where = ""
	}
	return odds.Median(slices.Clone(figures[where]))
}

// outlooks are the distributions of the county yields as they stood before harvest.
func (c *commodityYear) outlooks(s Setup, k *odds.Constants) []position.Yield {
	all := make([]position.Yield, len(c.rows))
	parallel.Do(len(all), func(i int) {
		r := c.rows[i]
		if s.Yield != 0 {
			cv, _ := position.YieldBasis{Unit: c.bases[i].Unit}.CV(k)
			mean := s.Yield * r.BenchmarkYield
			all[i] = position.Yield{Yield: odds.Yield{Mean: mean, SD: cv * mean, Shape: odds.ShapeWeibull}, Stage: odds.BeforeHarvest}
			return
		}
		all[i], _ = c.bases[i].Outlook(k, position.Benchmark{Figure: farm.Figure{Value: c.levels[i], Status: crop.Agency}})
	})
	if s.candidate.mean != nil {
		for i := range all {
			cv := all[i].SD / all[i].Mean
			all[i].Mean = s.candidate.mean(c, i, all[i])
			all[i].SD = cv * all[i].Mean
		}
	}
	return all
}

// reported moves means by the median of how the yields of the State turned out against
// them, as a report on the State would tell, and gives them the spread of that stage. A
// real report is less exact, so that these results flatter the odds a little. ofNation
// takes one report on the nation instead.
func (c *commodityYear) reported(k *odds.Constants, before []position.Yield, ofNation bool) []position.Yield {
	off := map[string][]float64{}
	for i, r := range c.rows {
		for _, where := range []string{position.StateOf(r.County), ""} {
			off[where] = append(off[where], r.ActualYield/before[i].Mean)
		}
	}
	medians := map[string]float64{}
	after := slices.Clone(before)
	for i, r := range c.rows {
		state := position.StateOf(r.County)
		if ofNation {
			state = ""
		}
		if _, known := medians[state]; !known {
			medians[state] = medianOf(off, state)
		}
		cv, _ := c.bases[i].CV(k)
		o := &after[i]
		o.MoveMean(medians[state])
		o.Stage, o.SD = odds.StateReport, k.CVAtStage(r.Commodity, odds.StateReport, cv)*o.Mean
		o.Shape = odds.DefaultShape(r.Commodity, odds.StateReport)
	}
	return after
}
