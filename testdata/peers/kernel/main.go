// Command kernel runs workload W1 by package sim/paths: kernel DRAWS REPEATS SEED
// FILE prints, for each run, seconds, heap in use in MB, and the 36 means.
package main

import (
	"fmt"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/paths"
)

func main() {
	draws, _ := strconv.Atoi(os.Args[1])
	repeats, _ := strconv.Atoi(os.Args[2])
	seed, _ := strconv.ParseUint(os.Args[3], 10, 64)
	c, err := read(os.Args[4])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	for i := range repeats {
		start := time.Now()
		r, err := paths.Run(c, odds.NewDraws(seed+uint64(i), draws))
		took := time.Since(start)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		var memory runtime.MemStats
		runtime.ReadMemStats(&memory)
		fmt.Printf("%.6f %.1f", took.Seconds(), float64(memory.HeapInuse)/(1<<20))
		for _, year := range r.PerAcre {
			for _, both := range year {
				fmt.Printf(" %.6f %.6f", both[0].Mean, both[1].Mean)
			}
		}
		fmt.Println()
	}
}

// read reads the numbers of w1.txt in their order.
func read(path string) (c paths.County, err error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return c, err
	}
	var n []float64
	for _, word := range regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(string(text), -1) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return c, err
		}
		n = append(n, x)
	}
	take := func(k int) []float64 { part := n[:k]; n = n[k:]; return part }
	c = paths.County{First: 2026, Years: int(take(1)[0]), Limit: take(1)[0]}
	for _, name := range []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat} {
		k := paths.Commodity{Prices: take(6)}
		spread := take(3)
		k.Carry, k.Sigma = paths.Carries(spread[0], spread[1], spread[2], c.Years)
		k.Yields, k.YieldSD = take(6), take(1)[0]
		k.PastPrices, k.PastYields = [6]float64(take(6)), [6]float64(take(6))
		take(11) // the law's figures are those of package program
		base := take(3)
		k.BaseAcres, k.PaymentAcres, k.PaymentYield = base[0], base[1], base[2]
		for y := range c.Years {
			terms, err := program.TermsFor(name, c.First+y)
			if err != nil {
				return c, err
			}
			k.Terms = append(k.Terms, terms)
		}
		c.Commodities = append(c.Commodities, k)
	}
	for range 6 {
		c.Loadings = append(c.Loadings, take(6))
	}
	return c, nil
}
