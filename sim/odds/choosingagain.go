package odds

import (
	"math"

	"fencerow/sim/odds/rank"
)

// Again is what one choice between two programs averages and what choosing again on news
// averages, in the unit of the payments.
type Again struct {
	Fixed, Chosen float64 // under one choice; choosing again
	Adds          float64 // Chosen less Fixed
	StandardError float64 // of Adds
}

// ChoosingAgain values choices between two programs. first and second are what they pay
// and news is what is known before the choice, paired by scenario: d.N() values each.
//
// News is cut into NewsBins bins of equal counts (equal values stay together). In each bin
// the program with the higher average is chosen, and one program in all of them is the
// fixed choice. Both are chosen on the replicates of even number and valued on those of odd
// number, then the other way round, so that neither is valued where it was picked: choosing
// again on news that says nothing adds nothing on average.
//
//	SE^2 = SE between replicates ^2 + sum over choices that the halves make differently of (what it brings)^2
//
// The second term, what such a choice brings beyond the mean of both programs, stands for
// the choices themselves: they are alike for all replicates of a half. Without it the error
// is 1.1 to 1.5 times too small where programs are close.
func ChoosingAgain(news, first, second []float64, d Scenarios) Again {
	each, halves := sumsByBin(news, first, second, d), [2]byBin{}
	for r := range each {
		halves[r%2].add(&each[r])
	}
	fixed, chosen, adds := make([]float64, len(each)), make([]float64, len(each)), make([]float64, len(each))
	for r := range each {
		other := &halves[1-r%2]
		fixed[r] = each[r].all()[other.all().better()] / float64(d.Points)
		for k, sums := range each[r] {
			chosen[r] += sums[other[k].better()] / float64(d.Points)
		}
		adds[r] = chosen[r] - fixed[r]
	}
	out := Again{Fixed: Mean(fixed), Chosen: Mean(chosen)}
	between := 0.0
	out.Adds, between = OfReplicates(adds)
	out.StandardError = math.Hypot(between, math.Sqrt(unsettled(&halves))/float64(d.N()))
	return out
}

// unsettled returns, over the choices that the halves make differently, in a bin or in all
// at once, the squares of what they bring beyond the mean of both programs, added up.
func unsettled(halves *[2]byBin) float64 {
	squares := 0.0
	count := func(a, b pair) {
		if a.better() != b.better() {
			brings := a[b.better()] - (a[0]+a[1])/2 + b[a.better()] - (b[0]+b[1])/2
			squares += brings * brings
		}
	}
	for k := range halves[0] {
		count(halves[0][k], halves[1][k])
	}
	count(halves[0].all(), halves[1].all())
	return squares
}

// sumsByBin returns what both programs pay in each replicate, added up by bin of news.
func sumsByBin(news, first, second []float64, d Scenarios) []byBin {
	cuts, each := cutsOf(news), make([]byBin, d.Replicates)
	for i := range d.N() {
		bin := 0
		for _, cut := range cuts {
			if news[i] >= cut {
				bin++
			}
		}
		sums := &each[i/d.Points][bin]
		sums[0], sums[1] = sums[0]+first[i], sums[1]+second[i]
	}
	return each
}

// cutsOf returns the lowest value of each bin but the first.
func cutsOf(news []float64) []float64 {
	var places []int
	for k := 1; k < NewsBins; k++ {
		places = append(places, k*len(news)/NewsBins)
	}
	counted := rank.Count(news)
	defer counted.Release()
	cuts := make([]float64, len(places))
	counted.At(cuts, places)
	return cuts
}

// byBin is what two programs pay by bin, added up over some scenarios.
type byBin [NewsBins]pair

func (s *byBin) add(more *byBin) {
	for k, p := range more {
		s[k][0], s[k][1] = s[k][0]+p[0], s[k][1]+p[1]
	}
}

func (s *byBin) all() (total pair) {
	for _, p := range s {
		total[0], total[1] = total[0]+p[0], total[1]+p[1]
	}
	return total
}

// pair is what two programs pay.
type pair [2]float64

// better returns the one that pays more, the first where both pay the same.
func (p pair) better() int {
	if p[1] > p[0] {
		return 1
	}
	return 0
}
