package paths

import (
	"math"
	"runtime"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// plainCourse is one draw in the readable form: every figure by package program,
// from the same independent normals. It returns PLC and ARC-CO per base acre.
func plainCourse(c County, normals [][]float64) (pays [][][2]float64) {
	kinds := len(c.Commodities)
	prices, yields := map[crop.CropYear][]float64{}, map[crop.CropYear][]float64{}
	for i := range lags {
		for _, k := range c.Commodities {
			y := c.First - lags + i
			prices[y], yields[y] = append(prices[y], k.PastPrices[i]), append(yields[y], k.PastYields[i])
		}
	}
	before := make([]float64, kinds)
	for t := range c.Years {
		y := c.First + t
		var year [][2]float64
		for k, of := range c.Commodities {
			terms := of.Terms[t]
			z, own := 0.0, 0.0
			for j, normal := range normals[t] {
				z += c.Loadings[k][j] * normal
				own += c.Loadings[kinds+k][j] * normal
			}
			if of.Carry[t] != 0 {
				z = of.Carry[t]*before[k] + math.Sqrt(1-of.Carry[t]*of.Carry[t])*z
			}
			before[k] = z
			mya := program.Round(of.Prices[t]*math.Exp(of.Sigma[t]*z-of.Sigma[t]*of.Sigma[t]/2), terms.PriceDecimals)
			countyYield := program.Round(max(0, of.Yields[t]+of.YieldSD*own), terms.YieldDecimals)
			prices[y], yields[y] = append(prices[y], mya), append(yields[y], countyYield)
			var pastPrices, pastYields [5]float64
			for i, past := range terms.BenchmarkYears() {
				pastPrices[i], pastYields[i] = prices[past][k], yields[past][k]
			}
			target := terms.TargetPrice(pastPrices)
			coverage := terms.ARCCO(program.BenchmarkYield(pastYields, terms.YieldDecimals), program.BenchmarkPrice(pastPrices, target, terms.BenchmarkDecimals))
			perAcre := of.PaymentAcres / of.BaseAcres
			year = append(year, [2]float64{
				terms.PLC(target).Rate(mya) * (of.PaymentYield * perAcre),
				coverage.Rate(program.ActualRevenue(countyYield, program.ActualPrice(mya, terms.LoanRate))) * perAcre,
			})
		}
		pays = append(pays, year)
	}
	return pays
}

// Every payment of every draw is that of the readable form.
func TestFastAgreesWithPlainDrawForDraw(t *testing.T) {
	c, d := w1(t), odds.NewDraws(3, 4096)
	samplers, err := c.samplers(d)
	if err != nil {
		t.Fatal(err)
	}
	w := newWorker(c, d, samplers)
	n, checked := d.Tile(), 0
	for from := 0; from < d.N(); from += n {
		normals := make([][][]float64, c.Years)
		var fast [][][2][]float64
		for y := range c.Years {
			w.draw(y, from)
			for _, column := range w.normals {
				normals[y] = append(normals[y], slices.Clone(column))
			}
			var year [][2][]float64
			for k := range c.Commodities {
				w.pay(y, k, from/d.Points)
				year = append(year, [2][]float64{slices.Clone(w.pays[k][plc]), slices.Clone(w.pays[k][arcco])})
			}
			fast = append(fast, year)
		}
		for i := range n {
			course := make([][]float64, c.Years)
			for y := range course {
				for _, column := range normals[y] {
					course[y] = append(course[y], column[i])
				}
			}
			for y, year := range plainCourse(c, course) {
				for k, want := range year {
					for p := range want {
						checked++
						if got := fast[y][k][p][i]; got != want[p] {
							t.Fatalf("draw %d, year %d, commodity %d, program %d: fast %v, plain %v", from+i, y, k, p, got, want[p])
						}
					}
				}
			}
		}
	}
	if checked != 36*d.N() {
		t.Errorf("checked %d of %d payments", checked, 36*d.N())
	}
}

// The summaries are those of the sorted series: means, chances, percentiles
// within an interval of the histogram, mass points exact.
func TestSummariesAgainstSorting(t *testing.T) {
	values := []float64{0, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 10, 10, 10}
	tally := newTally(10, 2)
	tally.add(values[:8], 0)
	tally.add(values[8:], 1)
	s := tally.series(len(values))
	if s.Mean != 85.0/16 || s.Paying != 13.0/16 || s.Full != 0.25 || s.Percentiles[0] != 0 || s.Percentiles[4] != 10 {
		t.Errorf("%+v", s)
	}
	if got := s.Percentiles[2]; math.Abs(got-5) > 0.6 { // between the 5 and the 6 of 16 values
		t.Errorf("middle %v", got)
	}
}

// The same seed gives the same bytes on one processor and on two.
func TestSameBytesOnAnyNumberOfProcessors(t *testing.T) {
	c, d := w1(t), odds.NewDraws(1, 1<<14)
	var first Result
	for n, processors := range []int{1, 2, 3} {
		old := runtime.GOMAXPROCS(processors)
		got, err := Run(c, d)
		runtime.GOMAXPROCS(old)
		if err != nil {
			t.Fatal(err)
		}
		if n == 0 {
			first = got
			continue
		}
		for y := range got.PerAcre {
			if !slices.Equal(got.Ahead[y], first.Ahead[y]) || !slices.Equal(got.Totals[y], first.Totals[y]) || !slices.Equal(got.PerAcre[y], first.PerAcre[y]) {
				t.Fatalf("%d processors, year %d: another result", processors, y)
			}
		}
	}
}

// No draw allocates: four times the draws allocate as often.
func TestNoDrawAllocates(t *testing.T) {
	c := w1(t)
	count := func(draws int) float64 {
		return testing.AllocsPerRun(1, func() {
			if _, err := Run(c, odds.NewDraws(1, draws)); err != nil {
				t.Fatal(err)
			}
		})
	}
	if few, many := count(1<<13), count(1<<15); many > few+16 {
		t.Errorf("%v allocations for 8,192 draws, %v for 32,768", few, many)
	}
}

// Without spread every draw is the same.
func TestNoSpreadNoDifference(t *testing.T) {
	c := w1(t)
	for k := range c.Commodities {
		c.Commodities[k].YieldSD = 0
		c.Commodities[k].Sigma = make([]float64, c.Years)
	}
	r, err := Run(c, odds.NewDraws(1, 4096))
	if err != nil {
		t.Fatal(err)
	}
	none := make([][]float64, c.Years)
	for y := range none {
		none[y] = make([]float64, 2*len(c.Commodities))
	}
	for y, year := range plainCourse(c, none) {
		for k, want := range year {
			for p := range want {
				if s := r.PerAcre[y][k][p]; math.Abs(s.Mean-want[p]) > 1e-9 || s.StandardError > 1e-9 {
					t.Errorf("year %d, commodity %d, program %d: %+v, want %v", y, k, p, s, want[p])
				}
			}
		}
	}
}

func TestCountyMistakes(t *testing.T) {
	c := w1(t)
	c.Loadings = c.Loadings[:3]
	if _, err := Run(c, odds.NewDraws(1, 256)); err == nil {
		t.Error("three rows of loadings for three commodities")
	}
}

func BenchmarkW1(b *testing.B) {
	c := w1(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(c, odds.NewDraws(1, 100_000)); err != nil {
			b.Fatal(err)
		}
	}
}
