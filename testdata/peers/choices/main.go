// Command choices runs workload W2 by package sim/elect: choices FILE OUT REPEATS
// prints for each run its seconds and those of
// processor time, and writes the figures of the last to OUT: mean,
// 5th and 95th percentile of every choice of every farm, then each farm's choice of
// the highest mean, all as little-endian 64-bit floats. w2_numpy.py does the same.
package main

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"fencerow/program"
	"fencerow/sim/elect"
	"fencerow/sim/odds"
)

const kinds, combined = 3, 8

// facts are the numbers of w2.txt.
type facts struct {
	counties, farms, draws int
	together, against      float64 // correlations
	guarantee, most        float64
	commodities            [kinds]commodity
	table                  [1 << tableBits]float64 // normals, equally likely
	shock, price           [kinds][]float64        // of prices, shared
	plc                    [kinds]elect.Payment
	weights                [][kinds][2]float64 // by farm
}

type commodity struct {
	price, spread, target, loan, benchmark, lowYield, highYield, sd, lowPaid, highPaid, lowAcres, highAcres float64
}

func main() {
	f, err := read(os.Args[1])
	if err == nil {
		var repeats int
		if repeats, err = strconv.Atoi(os.Args[3]); err == nil {
			err = f.run(os.Args[2], repeats)
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// mix is one number of a stream of evenly spread 64-bit numbers.
func mix(key uint64) uint64 {
	z := (key + 1) * 0x9E3779B97F4A7C15
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

const tableBits, drawBits = 12, 20

// normals fills dst with standard normals of a stream.
func (f *facts) normals(dst []float64, stream int) {
	for i := range dst {
		dst[i] = f.table[mix(uint64(stream)<<drawBits+uint64(i))>>(64-tableBits)]
	}
}

// uniform is a number of a stream apart, between 0 and 1.
func uniform(i int) float64 { return float64(mix(1<<60+uint64(i))>>11) / (1 << 53) }

// run answers all farms some times and writes the last figures.
func (f *facts) run(out string, repeats int) error {
	figures, highest := make([]elect.Figures, combined*f.counties*f.farms), make([]float64, f.counties*f.farms)
	for range repeats {
		start, spent := time.Now(), processTime()
		f.drawPrices()
		var next atomic.Int64
		var wait sync.WaitGroup
		for range runtime.GOMAXPROCS(0) {
			wait.Go(func() {
				w := newWorker(f)
				for county := int(next.Add(1)) - 1; county < f.counties; county = int(next.Add(1)) - 1 {
					w.county(county, figures, highest)
				}
			})
		}
		wait.Wait()
		fmt.Printf("%.6f %.6f\n", time.Since(start).Seconds(), processTime()-spent)
	}
	file, err := os.Create(out)
	if err != nil {
		return err
	}
	defer file.Close()
	w := bufio.NewWriter(file)
	for _, part := range []any{figures, highest} {
		if err := binary.Write(w, binary.LittleEndian, part); err != nil {
			return err
		}
	}
	return w.Flush()
}

// processTime returns the seconds that all threads have had a processor.
func processTime() float64 {
	var used syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &used) // of itself it cannot fail
	return time.Duration(used.Utime.Nano() + used.Stime.Nano()).Seconds()
}

// drawPrices makes what all counties share: prices and PLC rates.
func (f *facts) drawPrices() {
	common := make([]float64, f.draws)
	f.normals(common, 0)
	for k, of := range f.commodities {
		z, price, rates := make([]float64, f.draws), make([]float64, f.draws), make([]float64, f.draws)
		f.normals(z, 1+k)
		contract := program.PLC{TargetPrice: of.target, LoanRate: of.loan, Decimals: 2}
		for i := range z {
			z[i] = math.Sqrt(f.together)*common[i] + math.Sqrt(1-f.together)*z[i]
			price[i] = program.Round(of.price*math.Exp(of.spread*z[i]-of.spread*of.spread/2), 2)
			rates[i] = contract.Rate(price[i])
		}
		f.shock[k], f.price[k] = z, price
		f.plc[k] = elect.Payment{Rates: rates, Mean: odds.Mean(rates)}
	}
}

// worker answers whole counties.
type worker struct {
	f    *facts
	work elect.Workspace
	farm []elect.Commodity
	arc  [kinds][]float64
}

func newWorker(f *facts) *worker {
	w := &worker{f: f, farm: make([]elect.Commodity, kinds)}
	for k := range w.arc {
		w.arc[k] = make([]float64, f.draws)
		w.farm[k] = elect.Commodity{f.plc[k], {Rates: w.arc[k]}}
	}
	return w
}

// county draws the yields of one county and answers its farms.
func (w *worker) county(county int, figures []elect.Figures, highest []float64) {
	f := w.f
	for k, of := range f.commodities {
		normal := of.lowYield + (of.highYield-of.lowYield)*uniform(county*kinds+k)
		w.draw(k, kinds+1+county*kinds+k, normal)
		w.farm[k][elect.ARCCO].Mean = odds.Mean(w.arc[k])
	}
	for i := county * f.farms; i < (county+1)*f.farms; i++ {
		for k, both := range f.weights[i] {
			w.farm[k][elect.PLC].Weight, w.farm[k][elect.ARCCO].Weight = both[0], both[1]
		}
		highest[i] = float64(w.work.EveryChoice(figures[combined*i:combined*(i+1)], w.farm))
	}
}

// draw makes the ARC-CO rates of one commodity.
func (w *worker) draw(k, stream int, normal float64) {
	f, of := w.f, w.f.commodities[k]
	rates, shock, price := w.arc[k], w.f.shock[k], w.f.price[k]
	f.normals(rates, stream)
	contract := program.NewARCCO(program.Round(normal, 2), of.benchmark, f.guarantee, f.most)
	own := math.Sqrt(1 - f.against*f.against)
	for i, z := range rates {
		yield := program.Round(max(0, normal+of.sd*normal*(f.against*shock[i]+own*z)), 2)
		rates[i] = contract.Rate(program.ActualRevenue(yield, program.ActualPrice(price[i], of.loan)))
	}
}

// read reads the numbers of w2.txt in their order and makes the farms.
func read(path string) (*facts, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var n []float64
	for _, word := range regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(string(text), -1) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return nil, err
		}
		n = append(n, x)
	}
	take := func() float64 { x := n[0]; n = n[1:]; return x }
	f := &facts{counties: int(take()), farms: int(take()), draws: int(take()), together: take(), against: take(), guarantee: take(), most: take()}
	for k := range f.commodities {
		f.commodities[k] = commodity{take(), take(), take(), take(), take(), take(), take(), take(), take(), take(), take(), take()}
	}
	for i := range f.table {
		f.table[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / (1 << tableBits))
	}
	f.weights = make([][kinds][2]float64, f.counties*f.farms)
	first := f.counties * kinds // uniforms of counties come before
	for i := range f.weights {
		for k, of := range f.commodities {
			at := first + 2*(i*kinds+k)
			acres := of.lowAcres + (of.highAcres-of.lowAcres)*uniform(at)
			f.weights[i][k] = [2]float64{acres * (of.lowPaid + (of.highPaid-of.lowPaid)*uniform(at+1)), acres}
		}
	}
	return f, nil
}
