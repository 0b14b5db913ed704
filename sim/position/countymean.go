package position

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// countyMean returns the mean of a county yield that is not known yet, and in its
// Source the rule that gave it: the first of candidateMeans that is in line with the
// benchmark (odds.InLine); a trend is drawn towards the benchmark (odds.MeanWeight).
// rejected is the first candidate that is not in line; nil for none. ok is false where
// there is no candidate.
func (b YieldBasis) countyMean(k *odds.Constants, benchmark Benchmark) (mean farm.Figure, rejected *RejectedMean, ok bool) {
	for _, m := range b.candidateMeans(benchmark) {
		if benchmark.Status != "" && !odds.InLine(m.Value, benchmark.Value) {
			if rejected == nil {
				rejected = &RejectedMean{Mean: m.Value, Benchmark: benchmark.Value, rule: firstSentence(m.Source)}
			}
			continue
		}
		switch {
		case rejected != nil:
			rejected.UsedInstead = m
			m.Source += fmt.Sprintf(". Not the %s: it gives %.1f, too far from the benchmark of %.1f", rejected.rule, rejected.Mean, rejected.Benchmark)
		case b.trend == nil:
			m.Source += b.whyNoTrend
		case benchmark.Status != "":
			m = drawnTo(benchmark, m, k.MeanWeight())
		}
		return m, rejected, true
	}
	return mean, nil, false
}

// drawnTo moves a mean towards the benchmark yield so that weight of its own is left.
func drawnTo(benchmark Benchmark, mean farm.Figure, weight float64) farm.Figure {
	if weight == 1 {
		return mean
	}
	how := "half-way"
	if weight != 0.5 {
		how = odds.Percent(1-weight) + " of the way"
	}
	mean.Source += fmt.Sprintf(". That gives %.1f, moved %s to the benchmark of %.1f", mean.Value, how, benchmark.Value)
	mean.Value = weight*mean.Value + (1-weight)*benchmark.Value
	return mean
}

// firstSentence cuts off what a source says beyond its name.
func firstSentence(source string) string {
	first, _, _ := strings.Cut(source, ". ")
	return first
}

// candidateMeans returns the means that can be computed, the preferred one first: the
// trend of the series, the mean (not Olympic) of the five adjusted yields, the
// benchmark.
func (b YieldBasis) candidateMeans(benchmark Benchmark) (means []farm.Figure) {
	if b.trend != nil {
		means = append(means, *b.trend)
	}
	if five, from := b.adjustedYields(benchmark); five != nil {
		sum := 0.0
		for _, y := range five {
			sum += y
		}
		means = append(means, farm.Figure{Value: sum / float64(len(five)), Status: crop.Assumed, Source: "average of the five adjusted yields, " + from})
	}
	if benchmark.Status != "" {
		means = append(means, farm.Figure{Value: benchmark.Value, Status: crop.Assumed, Source: "benchmark yield, " + benchmark.Source})
	}
	return means
}

// adjustedYields returns the five adjusted yields of the program year and who has them: a
// source's, else those behind the benchmark; nil where neither has them.
func (b YieldBasis) adjustedYields(benchmark Benchmark) (five *[5]crop.Yield, from string) {
	if b.five != nil {
		return b.five, b.fiveFrom
	}
	return benchmark.Five, benchmark.Source
}

// whyNoMean says why the series does not give the mean of crop year y, as the end of a
// sentence; "" where it is too short to need a reason.
func (s YieldSeries) whyNoMean(y crop.CropYear) string {
	n := len(s.Years)
	switch {
	case n < odds.YearsForTrend:
		return ""
	case odds.GivesMean(s.Years, y):
		return ". Yields per harvested acre say nothing of the average here: no ratio to planted acres is known"
	}
	return fmt.Sprintf(". The %d yearly yields end in %d, too long ago to give the average", n, s.Years[n-1])
}
