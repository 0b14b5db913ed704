package odds

import (
	"cmp"
	"slices"
)

// Reordered repeats a sample to as many values as there are shocks, each about as
// often, and gives the least value to the least shock, the next to the next, and so on
// (Iman and Conover, with the shocks as scores). The values keep the distribution of
// the sample and take over the rank dependence of the shocks on others. The sample is
// not changed; it must not be empty.
//
// Source: R. L. Iman and W. J. Conover, A distribution-free approach to inducing rank
// correlation among input variables, Communications in Statistics B 11 (1982),
// 311-334, from memory.
func Reordered(sample, shocks []float64) []float64 {
	sorted := slices.Sorted(slices.Values(sample))
	order := make([]int, len(shocks))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(shocks[a], shocks[b]), cmp.Compare(a, b)) })
	values := make([]float64, len(shocks))
	for rank, draw := range order {
		chance := (float64(rank) + 0.5) / float64(len(shocks))
		values[draw] = sorted[int(chance*float64(len(sorted)))]
	}
	return values
}
