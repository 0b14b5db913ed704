package source

import (
	"testing"

	"fencerow/io/read/builtin"
	"fencerow/program/farm"
)

// The counties and commodities of one State whose irrigated percentage is asked are those
// with two practices in the table of 2025: as many as the test of every county counts.
func TestTwoPracticesAreThoseOfTheNewestTable(t *testing.T) {
	const state = "19"
	sources, err := builtin.Sources(state)
	if err != nil {
		t.Fatal(err)
	}
	book := farm.CountyBook(sources)
	checked := 0
	for _, p := range benchmarked(t, state) {
		irrigated, dry := newestBenchmark(book, p.county, p.commodity, farm.Irrigated), newestBenchmark(book, p.county, p.commodity, farm.Nonirrigated)
		if want := p.practices == 2; TwoPractices(p.county, p.commodity) != want {
			t.Errorf("%s %s: %v, newest %d and %d", p.county, p.commodity, !want, irrigated, dry)
		} else if want {
			checked++
		}
	}
	if checked == 0 {
		t.Error("no county has two practices")
	}
}
