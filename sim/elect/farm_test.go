package elect

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// sortedFigures returns what OneChoice does, in its simplest form: all totals, sorted.
func sortedFigures(farm []Commodity, choice int) Figures {
	totals := make([]float64, len(farm[0][PLC].Rates))
	sum := 0.0
	for s := range totals {
		for k, commodity := range farm {
			payment := commodity[choice>>k&1]
			totals[s] += payment.Weight * payment.Rates[s]
		}
		sum += totals[s]
	}
	slices.Sort(totals)
	return Figures{sum / float64(len(totals)), sortedPercentile(totals, 0.05), sortedPercentile(totals, 0.95)}
}

// sortedPercentile is type 7 of Hyndman and Fan.
func sortedPercentile(sorted []float64, p float64) float64 {
	place := float64(len(sorted)-1) * p
	k := int(place)
	if k+1 == len(sorted) {
		return sorted[k]
	}
	return sorted[k] + (place-float64(k))*(sorted[k+1]-sorted[k])
}

// invented returns a farm whose rates are 0 in a share atZero of the scenarios, at their
// maximum of 1 in a share atMost, and uniform between in the rest.
func invented(random *rand.Rand, scenarios, commodities int, atZero, atMost float64) []Commodity {
	farm := make([]Commodity, commodities)
	for k := range farm {
		for program := range farm[k] {
			payment := Payment{Rates: make([]float64, scenarios), Weight: 20_000 * random.Float64()}
			for i := range payment.Rates {
				switch u := random.Float64(); {
				case u < atZero:
				case u > 1-atMost:
					payment.Rates[i] = 1
				default:
					payment.Rates[i] = math.Round(100*random.Float64()) / 100
				}
				payment.Mean += payment.Rates[i] / float64(scenarios)
			}
			farm[k][program] = payment
		}
	}
	return farm
}

const tolerance = 1e-9 // relative for figures above USD 1, else USD

func near(got, want float64) bool { return math.Abs(got-want) <= tolerance*max(1, math.Abs(want)) }

// Every figure of every choice is that of sortedFigures, whatever share of the rates is
// at 0 or at the maximum.
func TestAgreesWithSorting(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	var w Workspace
	checked := 0
	for _, scenarios := range []int{1, 2, 20, 21, 101, 127, 128, 1000, 1024, 4096} {
		for _, share := range [][2]float64{{0, 0}, {0.04, 0.04}, {0.06, 0.06}, {0.3, 0}, {0, 0.3}, {0.5, 0.5}, {1, 0}, {0, 1}, {0.97, 0.03}, {0.2, 0.2}} {
			for commodities := 1; commodities <= 4; commodities++ {
				farm := invented(random, scenarios, commodities, share[0], share[1])
				got := make([]Figures, 1<<commodities)
				highest := w.EveryChoice(got, farm)
				for choice, g := range got {
					want := sortedFigures(farm, choice)
					if !near(g.Mean, want.Mean) || !near(g.P5, want.P5) || !near(g.P95, want.P95) {
						t.Fatalf("%d scenarios, shares %v, %d commodities, choice %b: got %v, want %v", scenarios, share, commodities, choice, g, want)
					}
					if one := w.OneChoice(farm, choice); one != g {
						t.Fatalf("%d scenarios, choice %b alone: got %v, want %v", scenarios, choice, one, g)
					}
					if g.Mean > got[highest].Mean {
						t.Fatalf("choice %b averages %v, the highest %b %v", choice, g.Mean, highest, got[highest].Mean)
					}
					checked++
				}
			}
		}
	}
	t.Logf("checked %d choices", checked)
}

// Percentiles are exact even if the sample is unlike all other totals.
func TestMisleadingSample(t *testing.T) {
	const scenarios = 1024
	random := rand.New(rand.NewPCG(3, 4))
	for _, there := range []float64{0, 0.5, 1} {
		farm := invented(random, scenarios, 2, 0.1, 0.1)
		for k := range farm {
			for program := range farm[k] {
				for i := 0; i < scenarios; i += 8 {
					farm[k][program].Rates[i] = there
				}
			}
		}
		var w Workspace
		for choice := range 4 {
			got, want := w.OneChoice(farm, choice), sortedFigures(farm, choice)
			if !near(got.P5, want.P5) || !near(got.P95, want.P95) {
				t.Errorf("sample at %v, choice %b: got %v, want %v", there, choice, got, want)
			}
		}
	}
}

// Of choices with equal means the first is returned.
func TestFirstOfEquals(t *testing.T) {
	same := Payment{Rates: []float64{0, 1, 2}, Mean: 1, Weight: 10}
	var w Workspace
	if got := w.EveryChoice(make([]Figures, 4), []Commodity{{same, same}, {same, same}}); got != 0 {
		t.Errorf("got choice %b, want PLC for both", got)
	}
}

func TestFarmAllocatesNothing(t *testing.T) {
	farm := invented(rand.New(rand.NewPCG(5, 6)), 1024, 3, 0.2, 0.05)
	var w Workspace
	dst := make([]Figures, 8)
	w.EveryChoice(dst, farm)
	if n := testing.AllocsPerRun(10, func() { w.EveryChoice(dst, farm) }); n != 0 {
		t.Errorf("a farm allocates %v times", n)
	}
}

func BenchmarkAll(b *testing.B) {
	random := rand.New(rand.NewPCG(7, 8))
	var farms [][]Commodity
	for range 64 {
		farms = append(farms, invented(random, 1024, 3, 0.3, 0.05))
	}
	var w Workspace
	dst := make([]Figures, 8)
	for i := 0; b.Loop(); i++ {
		w.EveryChoice(dst, farms[i%len(farms)])
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "farms/s")
}

// The choice of the highest mean and its mean are those of every choice worked out.
func TestHighestMeanIsThatOfEveryChoice(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for range 50 {
		farm := invented(random, 64, 1+random.IntN(6), 0.5, 0.2)
		all := make([]Figures, 1<<len(farm))
		want := new(Workspace).EveryChoice(all, farm)
		if got, mean := HighestMean(farm); got != want || mean != all[want].Mean {
			t.Errorf("choice %d of mean %v, want %d of %v", got, mean, want, all[want].Mean)
		}
	}
}
