package position

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Estimator is a way to take the mean of a county yield that is not known yet.
type Estimator int

// The estimators: the one that the odds use, then three more.
const (
	MeanUsed Estimator = iota
	OwnTrend
	MeanOfFive
	OwnBenchmark
	Estimators // how many there are
)

// newestYears is how many yearly yields the mean is taken of that stands in for an
// estimator which has none. A judgement.
const newestYears = 10

// newestMean returns the mean of the newest yields of a series, nil where there are none.
func newestMean(series YieldSeries) *farm.Figure {
	newest := series.Yields[max(0, len(series.Yields)-newestYears):]
	if len(newest) == 0 {
		return nil
	}
	return &farm.Figure{Value: odds.Mean(newest), Source: fmt.Sprintf("the average of its newest %d yields", len(newest))}
}

// estimates returns the mean county yield, units per acre, by each estimator but
// MeanUsed, in their order: the trend of the series that gives the mean, the mean (not
// Olympic) of the five adjusted yields, the benchmark yield. The mean of the newest ten
// yields of the series stands in for the first that is missing. One out of line with the
// benchmark (odds.InLine) is missing too: a Figure without Status.
func (b YieldBasis) estimates(benchmark Benchmark) []farm.Figure {
	all := make([]farm.Figure, Estimators-1)
	put := func(at int, mean crop.Yield, from string) {
		if benchmark.Status == "" || odds.InLine(mean, benchmark.Value) {
			all[at] = farm.Figure{Value: mean, Status: crop.Assumed, Source: from}
		}
	}
	if trend, ok := b.Trend(); ok {
		put(int(OwnTrend)-1, trend, "the trend of its yields")
	}
	if five, _ := b.adjustedYields(benchmark); five != nil {
		put(int(MeanOfFive)-1, odds.Mean(five[:]), "the average of its five adjusted yields")
	}
	if benchmark.Status != "" {
		put(int(OwnBenchmark)-1, benchmark.Value, "its benchmark yield")
	}
	missing := slices.IndexFunc(all, func(f farm.Figure) bool { return f.Status == "" })
	if missing >= 0 && b.newest != nil {
		put(missing, b.newest.Value, b.newest.Source)
	}
	return all
}

// Estimated returns the mean by an estimator, units per acre; ok is false where it has
// none.
func (y Yield) Estimated(by Estimator) (mean farm.Figure, ok bool) {
	if by == MeanUsed {
		return farm.Figure{Value: y.Mean, Status: y.Status, Source: y.MeanFrom}, true
	}
	if len(y.Estimates) == 0 || y.Estimates[by-1].Status == "" {
		return farm.Figure{}, false
	}
	return y.Estimates[by-1], true
}

// OtherMean returns the mean by an estimator where it is another than the one used, to the
// cent; ok is false where it is not, and where the yield is known.
func (y Yield) OtherMean(by Estimator) (mean farm.Figure, ok bool) {
	mean, ok = y.Estimated(by)
	return mean, ok && y.SD > 0 && program.Cent(mean.Value) != program.Cent(y.Mean)
}

// FactorOf returns the mean by an estimator over the mean used; 1 where it has none, and
// where the yield is known.
func (y Yield) FactorOf(by Estimator) float64 {
	if mean, ok := y.Estimated(by); ok && y.Mean > 0 && y.SD > 0 {
		return mean.Value / y.Mean
	}
	return 1
}

// MoveMean multiplies the mean by a factor, and what other estimators make it; the
// standard deviation stays.
func (y *Yield) MoveMean(by float64) {
	y.Mean *= by
	moved := make([]farm.Figure, len(y.Estimates))
	for i, mean := range y.Estimates {
		mean.Value *= by
		moved[i] = mean
	}
	y.Estimates = moved
}
