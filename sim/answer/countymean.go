package answer

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// refused is a mean that was not taken, because it stands too far from the
// benchmark to be of the same county, commodity and practice.
type refused struct {
	mean, benchmark crop.Yield
	from            string // the rule that gave the mean
	used            farm.Figure
}

// countyMean returns the mean of a county yield that nobody has yet and the rule
// that gave it, the first that stands in line with the benchmark: the trend of a
// series that says where yields stand, the mean (not Olympic) of the five adjusted
// yields, the benchmark. notTaken is the first that does not; nil for none. ok is
// false where there is nothing.
func countyMean(entries []farm.Entry, spread, level longSeries, u countyUnit, benchmark benchmark) (mean farm.Figure, notTaken *refused, ok bool) {
	means := meansOf(entries, level, u, benchmark)
	for _, m := range means {
		if benchmark.Status != "" && !odds.InLine(m.Value, benchmark.Value) {
			if notTaken == nil {
				notTaken = &refused{mean: m.Value, benchmark: benchmark.Value, from: m.Source}
			}
			continue
		}
		switch {
		case notTaken != nil:
			notTaken.used = m
			m.Source += fmt.Sprintf("; not the %s, which gives %.1f: too far from the benchmark of %.1f", notTaken.from, notTaken.mean, notTaken.benchmark)
		case len(level.years) == 0:
			m.Source += spread.unused(u.cropYear)
		}
		return m, notTaken, true
	}
	return mean, nil, false
}

// meansOf returns the means that there are, in their order.
func meansOf(entries []farm.Entry, level longSeries, u countyUnit, benchmark benchmark) (means []farm.Figure) {
	if n := len(level.years); n > 0 {
		means = append(means, farm.Figure{Value: level.trend(u.cropYear), Status: crop.Projected,
			Source: fmt.Sprintf("trend of %d county yields, %d to %d%s", n, level.years[0], level.years[n-1], level.from)})
	}
	if five, from := fiveOf(entries, u.cropYear, benchmark); five != nil {
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

// fiveOf returns the five adjusted yields of a program year: a source's, else
// those that the benchmark was computed from; nil where neither has them.
func fiveOf(entries []farm.Entry, y crop.CropYear, benchmark benchmark) (five *[5]crop.Yield, from string) {
	for _, e := range entries {
		if five, has := e.Adjusted[y]; has {
			return &five, e.Source.Name
		}
	}
	return benchmark.five, benchmark.Source
}

// unused says why the longest series does not give the mean of a crop year; ""
// where it is too short for that anyway.
func (s longSeries) unused(y crop.CropYear) string {
	n := len(s.years)
	switch {
	case n < odds.YearsForTrend:
		return ""
	case odds.GivesMean(s.years, y):
		return "; yields per harvested acre say nothing of the mean here: no ratio to planted acres is known"
	}
	return fmt.Sprintf("; the %d yearly yields end in %d, too long ago to give the mean", n, s.years[n-1])
}

// yieldOutOfLine speaks where a mean was not taken because it stands too far from
// the benchmark.
func yieldOutOfLine(c flagCase) []Flag {
	return c.eachPractice(func(h *holding, u practicePart) (Flag, bool) {
		no := u.outlook.refused
		if no == nil {
			return Flag{}, false
		}
		message := fmt.Sprintf("County %s, %s%s: past yields point to %.1f %s for %d, and the benchmark yield is %.1f. They are too far apart, so %.1f is used. If you know better, type a yield under outlook in a county file.",
			u.unit.county, h.commodity.Name(), ofPractice(u.unit.practice), no.mean, h.commodity.Unit().Yield(), c.cropYear, no.benchmark, no.used.Value)
		return Flag{"yield_out_of_line", Warning, message, no.used.Source}, true
	})
}
