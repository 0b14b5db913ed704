// Command plain runs workload W1 the obvious way: a slice for every series, the
// law called draw by draw, gonum's normals and quantiles, a sort for every series.
// plain DRAWS REPEATS FILE prints, for each run, seconds and the 36 means.
package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"time"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"fencerow/program"
	"fencerow/program/crop"
)

const years, lags = 6, 6

type commodity struct {
	prices, yields       []float64
	first, own, phi, sd  float64
	past, pastYields     []float64
	base, acres, payment float64
	terms                []program.Terms
	sigma, carry         [years]float64
	price, yield         [lags + years][]float64
}

func main() {
	draws, _ := strconv.Atoi(os.Args[1])
	repeats, _ := strconv.Atoi(os.Args[2])
	text, err := os.ReadFile(os.Args[3])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	var n []float64
	for _, word := range regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(string(text), -1) {
		x, _ := strconv.ParseFloat(word, 64)
		n = append(n, x)
	}
	take := func(k int) []float64 { part := n[:k]; n = n[k:]; return part }
	take(1)
	limit := take(1)[0]
	var crops []*commodity
	for _, name := range []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat} {
		k := &commodity{prices: take(6)}
		spread := take(3)
		k.first, k.own, k.phi = spread[0], spread[1], spread[2]
		k.yields, k.sd = take(6), take(1)[0]
		k.past, k.pastYields = take(6), take(6)
		reference, figures := take(6), take(5)
		base := take(3)
		k.base, k.acres, k.payment = base[0], base[1], base[2]
		k.sigma[0] = k.first
		for t := range years {
			if t > 0 {
				k.sigma[t] = math.Hypot(k.phi*k.sigma[t-1], k.own)
				k.carry[t] = k.phi * k.sigma[t-1] / k.sigma[t]
			}
			terms, err := program.TermsFor(name, 2026+t)
			if err != nil {
				panic(err)
			}
			if law := []float64{terms.LoanRate, terms.AverageShare, terms.EffectiveLimit, terms.GuaranteeShare, terms.MaximumShare}; terms.ReferencePrice != reference[t] || !slices.Equal(law, figures) {
				fmt.Fprintf(os.Stderr, "%s %d: the file says %v %v, the law %v %v\n", name, 2026+t, reference[t], figures, terms.ReferencePrice, law)
				os.Exit(1)
			}
			k.terms = append(k.terms, terms)
		}
		crops = append(crops, k)
	}
	var loadings [][]float64
	for range 6 {
		loadings = append(loadings, take(6))
	}
	normal := distuv.Normal{Mu: 0, Sigma: 1, Src: rand.NewPCG(1, 2)}
	for range repeats {
		start := time.Now()
		means := run(draws, crops, loadings, limit, normal)
		fmt.Printf("%.6f", time.Since(start).Seconds())
		for _, m := range means {
			fmt.Printf(" %.6f", m)
		}
		fmt.Println()
	}
}

func run(n int, crops []*commodity, loadings [][]float64, limit float64, normal distuv.Normal) (means []float64) {
	for _, k := range crops {
		for i := range lags {
			k.price[i], k.yield[i] = constant(n, k.past[i]), constant(n, k.pastYields[i])
		}
	}
	before := make([][]float64, len(crops))
	for t := range years {
		raw := make([][]float64, 6)
		for j := range raw {
			raw[j] = make([]float64, n)
			for i := range raw[j] {
				raw[j][i] = normal.Rand()
			}
		}
		correlated := func(row []float64) []float64 {
			z := make([]float64, n)
			for i := range z {
				for j := range raw {
					z[i] += row[j] * raw[j][i]
				}
			}
			return z
		}
		var pays [][2][]float64
		for c, k := range crops {
			terms := k.terms[t]
			z := correlated(loadings[c])
			if t > 0 {
				for i := range z {
					z[i] = k.carry[t]*before[c][i] + math.Sqrt(1-k.carry[t]*k.carry[t])*z[i]
				}
			}
			before[c] = z
			own := correlated(loadings[3+c])
			price, yield := make([]float64, n), make([]float64, n)
			plc, arc := make([]float64, n), make([]float64, n)
			for i := range z {
				price[i] = program.Round(k.prices[t]*math.Exp(k.sigma[t]*z[i]-k.sigma[t]*k.sigma[t]/2), 2)
				yield[i] = program.Round(max(0, k.yields[t]+k.sd*own[i]), 2)
				var five, fiveYields [5]float64
				for j := range five {
					five[j], fiveYields[j] = k.price[t+j][i], k.yield[t+j][i]
				}
				target := terms.TargetPrice(five)
				coverage := terms.ARCCO(program.BenchmarkYield(fiveYields, 2), program.BenchmarkPrice(five, target, 2))
				plc[i] = terms.PLC(target).Rate(price[i]) * k.payment * k.acres / k.base
				arc[i] = coverage.Rate(program.ActualRevenue(yield[i], program.ActualPrice(price[i], terms.LoanRate))) * k.acres / k.base
			}
			k.price[lags+t], k.yield[lags+t] = price, yield
			means = append(means, describe(plc), describe(arc))
			pays = append(pays, [2][]float64{plc, arc})
		}
		for choice := range 8 {
			total := make([]float64, n)
			for i := range total {
				for c, k := range crops {
					total[i] += k.base * pays[c][choice>>c&1][i]
				}
				total[i] = min(limit, total[i])
			}
			describe(total)
		}
	}
	return means
}

func constant(n int, x float64) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = x
	}
	return all
}

// describe works out mean, spread and percentiles and returns the mean.
func describe(x []float64) float64 {
	mean, _ := stat.MeanStdDev(x, nil)
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	for _, p := range []float64{0.05, 0.25, 0.5, 0.75, 0.95} {
		stat.Quantile(p, stat.LinInterp, sorted, nil)
	}
	return mean
}
