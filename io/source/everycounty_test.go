package source

import (
	"fmt"
	"os"
	"slices"
	"sync"
	"testing"
	"time"

	"fencerow/io/read/builtin"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/parallel"
)

// Every county and commodity with a benchmark yield of 2025 in the built-in tables is
// answered for 2026 from county, base acres and PLC yield alone, without a file; those
// with two practices with an irrigated share and without. By default the counties of one
// State, with FENCEROW_LONG all.
func TestEveryCountyAnswersFromOneLine(t *testing.T) {
	prefix := "19"
	if os.Getenv("FENCEROW_LONG") != "" {
		prefix = ""
	}
	pairs := benchmarked(t, prefix)
	var lock sync.Mutex
	answered, twoPractices, withoutShare, reasons := 0, 0, 0, map[string]int{}
	parallel.Do(len(pairs), func(i int) {
		reason := oneLine(pairs[i], pairs[i].practices == 2)
		without := ""
		if pairs[i].practices == 2 {
			without = oneLine(pairs[i], false)
		}
		lock.Lock()
		defer lock.Unlock()
		for _, r := range []string{reason, without} {
			if r != "" {
				reasons[r]++
			}
		}
		if reason == "" {
			answered++
		}
		if pairs[i].practices == 2 && reason == "" {
			twoPractices++
		}
		if pairs[i].practices == 2 && without == "" {
			withoutShare++
		}
	})
	fmt.Printf("one line for each county and commodity of 2025: checked %d of %d answered, %d of them with two practices and an irrigated share, %d without it\n", answered, len(pairs), twoPractices, withoutShare)
	for reason, n := range reasons {
		t.Errorf("%d not answered: %s", n, reason)
	}
}

// pair is a county and commodity.
type pair struct {
	county    string
	commodity crop.Commodity
	practices int // 2: irrigated and nonirrigated
	benchmark crop.Yield
}

// benchmarked are those with a benchmark yield of 2025.
func benchmarked(t *testing.T, prefix string) (pairs []pair) {
	sources, err := builtin.Sources(prefix)
	if err != nil {
		t.Fatal(err)
	}
	book := farm.CountyBook(sources)
	for _, code := range book.Codes(prefix) {
		for _, c := range crop.Commodities() {
			var with []farm.Practice
			benchmark := 0.0
			for _, p := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
				for _, e := range book.Entries(code, c, p) {
					if yield, has := e.BenchmarkYield[2025]; has && !slices.Contains(with, p) {
						with, benchmark = append(with, p), yield
					}
				}
			}
			if len(with) > 0 {
				pairs = append(pairs, pair{code, c, len(with), benchmark})
			}
		}
	}
	return pairs
}

// oneLine answers with a base of 100 acres at 80 percent of the benchmark yield, half of
// it irrigated where that is asked, and says why there is no answer; "" where there is one.
func oneLine(p pair, irrigated bool) (reason string) {
	base := fmt.Sprintf("%s:100:%.2f", p.commodity, 0.8*p.benchmark)
	if irrigated {
		base += "@0.5"
	}
	text, err := Typed{County: p.county, Bases: []string{base}}.Operation()
	if err != nil {
		return err.Error()
	}
	day := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	found, err := Question(Request{Operation: "typed", OperationText: text, Today: day, Seed: 1, Draws: 256})
	if err != nil {
		return err.Error()
	}
	found.Question.Brief = true
	out, err := compare.Answer(found.Question)
	if err != nil {
		return err.Error()
	}
	part := out.CropYears[0].Farms[0].Commodities[0]
	if part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.ARCCO) == nil {
		return "no figures: " + part.LeaderReason
	}
	return ""
}
