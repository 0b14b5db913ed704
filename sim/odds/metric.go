package odds

// CostOfWrongPick returns what a pick gives away on average against the other
// one: the mean of what the other is more by, counted only where it is more.
// The slices have equal length and are paired, draw by draw.
//
//	cost = mean(max(0, other - pick))
func CostOfWrongPick(pick, other []float64) float64 {
	less := 0.0
	for i := range pick {
		less += max(0, other[i]-pick[i])
	}
	return less / float64(len(pick))
}
