package farm

import "testing"

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
