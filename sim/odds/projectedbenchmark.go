package odds

import (
	"fmt"
	"strconv"
)

// ProjectedBenchmarkAccuracy says, as a sentence for people, how near benchmark yields
// came that were projected as many program years past the newest table. leastKnown is
// the earliest stage of the county yields added since; stages other than Final,
// InsuranceYield and CountyEstimate count as BeforeHarvest. The figures are rows of
// parameters.csv; where there is none it says that this is not measured.
func ProjectedBenchmarkAccuracy(leastKnown Stage, years int) string {
	row, ok := projectedBenchmarkRow(leastKnown, years)
	if !ok {
		return fmt.Sprintf("How near an estimate comes %d years after the table is not measured", years)
	}
	return fmt.Sprintf("Of %s such estimates of 2025, 95 in 100 were within %s percent", row.Count, strconv.FormatFloat(100*row.Value, 'f', 1, 64))
}

// projectedBenchmarkRow finds the row of parameters.csv.
func projectedBenchmarkRow(leastKnown Stage, years int) (parameter, bool) {
	switch leastKnown {
	case Final, InsuranceYield, CountyEstimate:
	default:
		leastKnown = BeforeHarvest
	}
	return find("benchmark_ahead_within_95", "all", "US", fmt.Sprintf("%s %d", leastKnown, years))
}

// ProjectedBenchmarkWithin returns within which share of the benchmark 95 in 100 such
// projections came, and how many were measured; ok is false where none were.
func ProjectedBenchmarkWithin(leastKnown Stage, years int) (within float64, count int, ok bool) {
	row, ok := projectedBenchmarkRow(leastKnown, years)
	count, err := strconv.Atoi(row.Count)
	return row.Value, count, ok && err == nil
}
