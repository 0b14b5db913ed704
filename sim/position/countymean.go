package position

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// countyMean returns the mean of a county yield that nobody has yet and the rule
// that gave it, the first that stands in line with the benchmark: the trend of a
// series that says where yields stand, the mean (not Olympic) of the five adjusted
// yields, the benchmark. notTaken is the first that does not; nil for none. ok is
// false where there is nothing.
func countyMean(entries []farm.Entry, spread, level YieldSeries, u CountyUnit, benchmark Benchmark) (mean farm.Figure, notTaken *RejectedMean, ok bool) {
	means := candidateMeans(entries, level, u, benchmark)
	for _, m := range means {
		if benchmark.Status != "" && !odds.InLine(m.Value, benchmark.Value) {
			if notTaken == nil {
				notTaken = &RejectedMean{Mean: m.Value, Benchmark: benchmark.Value, rule: m.Source}
			}
			continue
		}
		switch {
		case notTaken != nil:
			notTaken.UsedInstead = m
			m.Source += fmt.Sprintf("; not the %s, which gives %.1f: too far from the benchmark of %.1f", notTaken.rule, notTaken.Mean, notTaken.Benchmark)
		case len(level.Years) == 0:
			m.Source += spread.whyNoMean(u.CropYear)
		}
		return m, notTaken, true
	}
	return mean, nil, false
}

// candidateMeans returns the means that there are, in their order.
func candidateMeans(entries []farm.Entry, level YieldSeries, u CountyUnit, benchmark Benchmark) (means []farm.Figure) {
	if n := len(level.Years); n > 0 {
		means = append(means, farm.Figure{Value: level.Trend(u.CropYear), Status: crop.Projected,
			Source: fmt.Sprintf("trend of %d county yields, %d to %d%s", n, level.Years[0], level.Years[n-1], level.remark)})
	}
	if five, from := adjustedYieldsFor(entries, u.CropYear, benchmark); five != nil {
		sum := 0.0
		for _, y := range five {
			sum += y
		}
		means = append(means, farm.Figure{Value: sum / float64(len(five)), Status: crop.Assumed, Source: "mean of the five adjusted yields, " + from})
	}
	if benchmark.Status != "" {
		means = append(means, farm.Figure{Value: benchmark.Value, Status: crop.Assumed, Source: "benchmark yield, " + benchmark.Source})
	}
	return means
}

// adjustedYieldsFor returns the five adjusted yields of a program year: a source's, else
// those that the benchmark was computed from; nil where neither has them.
func adjustedYieldsFor(entries []farm.Entry, y crop.CropYear, benchmark Benchmark) (five *[5]crop.Yield, from string) {
	for _, e := range entries {
		if five, has := e.Adjusted[y]; has {
			return &five, e.Source.Name
		}
	}
	return benchmark.Five, benchmark.Source
}

// whyNoMean says why the longest series does not give the mean of a crop year; ""
// where it is too short for that anyway.
func (s YieldSeries) whyNoMean(y crop.CropYear) string {
	n := len(s.Years)
	switch {
	case n < odds.YearsForTrend:
		return ""
	case odds.GivesMean(s.Years, y):
		return "; yields per harvested acre say nothing of the mean here: no ratio to planted acres is known"
	}
	return fmt.Sprintf("; the %d yearly yields end in %d, too long ago to give the mean", n, s.Years[n-1])
}
