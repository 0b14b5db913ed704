package farm

import (
	"slices"
	"testing"

	"fencerow/program/crop"
)

// The agencies' lists leave out the word County; a name that has one of its own keeps it.
func TestCountiesByName(t *testing.T) {
	book := CountyBook{{Counties: map[string]County{"99001": {Name: "Alder County"}, "99003": {Name: "Birch"}, "22001": {Name: "Acadia"}, "51510": {Name: "Alexandria City"}}}}
	for code, want := range map[string]string{
		"99001": "Alder County (99001)", "99003": "Birch County (99003)", "22001": "Acadia Parish (22001)", "51510": "Alexandria City (51510)", "99005": "county 99005",
	} {
		if got := book.Called(code); got != want {
			t.Errorf("%s is called %q, want %q", code, got, want)
		}
	}
}

// How a county splits its yields is told by the first source that has yields of it: one that knows only another county, or
// another crop of this one, leaves it to the next.
func TestPracticesOfTheFirstSourceThatKnows(t *testing.T) {
	yields := func(c crop.Commodity, practices ...Practice) (all []CountyYield) {
		for _, p := range practices {
			all = append(all, CountyYield{Commodity: c, Practice: p})
		}
		return all
	}
	source := func(code string, all []CountyYield) CountySource {
		return CountySource{Counties: map[string]County{code: {Code: code, Yields: all}}}
	}
	book := CountyBook{source("99002", yields(crop.Corn, AllPractices)), source("99001", yields(crop.Wheat, AllPractices)), source("99001", yields(crop.Corn, Irrigated, Nonirrigated)), source("99001", yields(crop.Corn, AllPractices))}
	if got := book.Practices("99001", crop.Corn, 2026); !slices.Equal(got, []Practice{Irrigated, Nonirrigated}) {
		t.Errorf("practices %v, want those of the third source", got)
	}
	if got := book.Practices("99001", crop.Oats, 2026); len(got) > 0 {
		t.Errorf("oats have practices %v", got)
	}
}
