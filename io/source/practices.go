package source

import (
	"fencerow/io/read/builtin"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// TwoPractices reports whether the newest built-in county table has benchmark yields of a
// commodity irrigated and nonirrigated apart, so that a farm's irrigated percentage
// counts.
func TwoPractices(county string, c crop.Commodity) bool {
	sources, err := builtin.Sources(county)
	if err != nil {
		return false
	}
	book := farm.CountyBook(sources)
	irrigated, nonirrigated := newestBenchmark(book, county, c, farm.Irrigated), newestBenchmark(book, county, c, farm.Nonirrigated)
	return irrigated > 0 && irrigated == nonirrigated && irrigated >= newestBenchmark(book, county, c, farm.AllPractices)
}

// newestBenchmark is the newest program year of which a practice has a benchmark yield; 0
// for none.
func newestBenchmark(book farm.CountyBook, county string, c crop.Commodity, p farm.Practice) (newest crop.CropYear) {
	for _, e := range book.Entries(county, c, p) {
		for y := range e.BenchmarkYield {
			newest = max(newest, y)
		}
	}
	return newest
}
