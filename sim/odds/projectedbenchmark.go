package odds

import (
	"fmt"
	"strconv"
)

// ProjectedBenchmarkAccuracy says how near benchmark yields came that were estimated as many
// program years ahead of the newest table, by the least that was known of a county
// yield added since: final, RMA's (insurance_yield), NASS's by its ratio
// (county_estimate), any other stage drawn from its trend or mean. The figures are
// rows of parameters.csv; without one it says that nobody has measured it.
func ProjectedBenchmarkAccuracy(least Stage, years int) string {
	row, ok := projectedBenchmarkRow(least, years)
	if !ok {
		return fmt.Sprintf("how near an estimate comes %d years after the table is not measured", years)
	}
	return fmt.Sprintf("of %s such estimates of 2025, 95 in 100 were within %s percent", row.Count, strconv.FormatFloat(100*row.Value, 'f', 1, 64))
}

// projectedBenchmarkRow finds the row.
func projectedBenchmarkRow(least Stage, years int) (parameter, bool) {
	switch least {
	case Final, InsuranceYield, CountyEstimate:
	default:
		least = BeforeHarvest
	}
	return find("benchmark_ahead_within_95", "all", "US", fmt.Sprintf("%s %d", least, years))
}

// ProjectedBenchmarkWithin returns the share of the benchmark within which 95 in 100 such
// estimates came, and how many there were; ok is false where it is not measured.
func ProjectedBenchmarkWithin(least Stage, years int) (within float64, count int, ok bool) {
	row, ok := projectedBenchmarkRow(least, years)
	count, err := strconv.Atoi(row.Count)
	return row.Value, count, ok && err == nil
}
