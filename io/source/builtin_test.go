package source_test

import (
	"strings"
	"testing"

	"fencerow/io/read/builtin"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// agencyCounty returns a county that the built-in tables have corn of, with benchmark
// yields of 2024 and 2025.
func agencyCounty(t *testing.T) (farm.County, farm.CountyYield) {
	t.Helper()
	all, err := builtin.Sources("")
	if err != nil {
		t.Fatal(err)
	}
	for _, code := range farm.CountyBook(all[:1]).Codes("") {
		for _, y := range all[0].Counties[code].Yields {
			if y.Commodity == crop.Corn && y.Practice == farm.AllPractices && y.BenchmarkYield[2024] > 0 && y.BenchmarkYield[2025] > 0 {
				return all[0].Counties[code], y
			}
		}
	}
	t.Fatal("no county has corn")
	return farm.County{}, farm.CountyYield{}
}

// newer is a county book that has the benchmark yield of 2025 of one county alone.
type newer struct {
	book
	county string
}

func (n *newer) Sources(...string) ([]farm.CountySource, error) {
	y := farm.CountyYield{Commodity: crop.Corn, Practice: farm.AllPractices, BenchmarkYield: map[crop.CropYear]crop.Yield{2025: 999}}
	counties := map[string]farm.County{n.county: {Code: n.county, Yields: []farm.CountyYield{y}}}
	return []farm.CountySource{{Name: "imported", Status: crop.Agency, Agency: true, Counties: counties}}, nil
}

// The built-in tables come last: what was imported wins year by year, the other years
// stay those of the built-in tables, and each figure names its source. Source: the order
// in the comment of Question.
func TestBuiltInTablesComeLast(t *testing.T) {
	county, yields := agencyCounty(t)
	benchmark := func(r source.Request, y crop.CropYear) (crop.Yield, string) {
		t.Helper()
		r.Counties, r.Today = []string{county.Code}, today
		found, err := source.Question(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range found.Question.Counties.Entries(county.Code, crop.Corn, farm.AllPractices) {
			if value, has := e.BenchmarkYield[y]; has {
				if e.Source.Status == "" {
					t.Errorf("%s has no status", e.Source.Name)
				}
				return value, e.Source.Name
			}
		}
		return 0, ""
	}
	imported := &newer{county: county.Code}
	for _, c := range []struct {
		r     source.Request
		y     crop.CropYear
		want  crop.Yield
		named string
	}{
		{source.Request{}, 2025, yields.BenchmarkYield[2025], "built in"},
		{source.Request{Book: imported}, 2025, 999, "imported"},
		{source.Request{Book: imported}, 2024, yields.BenchmarkYield[2024], "built in"},
		{source.Request{Book: imported, WithoutBuiltIn: true}, 2025, 999, "imported"},
		{source.Request{Book: imported, WithoutBuiltIn: true}, 2024, 0, ""},
		{source.Request{WithoutBuiltIn: true}, 2025, 0, ""},
	} {
		if got, from := benchmark(c.r, c.y); got != c.want || !strings.Contains(from, c.named) {
			t.Errorf("benchmark yield of %d is %v from %q, want %v from %q", c.y, got, from, c.want, c.named)
		}
	}
}

// An invented county has nothing of the built-in tables, and of a real one the whole
// State is there, for the ratios of its neighbors.
func TestBuiltInStates(t *testing.T) {
	county, _ := agencyCounty(t)
	for code, want := range map[string]bool{"99001": false, county.Code: true} {
		found, err := source.Question(source.Request{Counties: []string{code}, Today: today})
		if err != nil {
			t.Fatal(err)
		}
		if got := len(found.Question.Counties.Codes(code[:2])) > 1; got != want {
			t.Errorf("%s: %v", code, found.Question.Counties.Codes(code[:2]))
		}
	}
}
