package explain

import (
	"reflect"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// A program year between the agency's first and last table is missing where no source
// has a figure of it; what the user typed, or tables of the agency that end earlier or
// begin later, leave no gap. By hand: tables of 2020, 2021 and 2024 lack 2022 and 2023.
func TestTablesMissing(t *testing.T) {
	u := position.CountyUnit{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices, CropYear: 2026}
	of := func(name string, agency bool, years ...crop.CropYear) farm.CountySource {
		y := farm.CountyYield{Commodity: crop.Corn, Practice: farm.AllPractices, BenchmarkYield: map[crop.CropYear]crop.Yield{}}
		for _, year := range years {
			y.BenchmarkYield[year] = 150
		}
		return farm.CountySource{Name: name, Agency: agency, Counties: map[string]farm.County{"99001": {Code: "99001", Yields: []farm.CountyYield{y}}}}
	}
	tables := of("tables", true, 2020, 2021, 2024)
	for _, c := range []struct {
		book farm.CountyBook
		want []crop.CropYear
	}{
		{farm.CountyBook{tables}, []crop.CropYear{2022, 2023}},
		{farm.CountyBook{of("typed", false, 2022), tables}, []crop.CropYear{2023}},
		{farm.CountyBook{of("imported", true, 2022, 2023), tables}, nil},
		{farm.CountyBook{of("typed", false, 2018, 2022)}, nil},
		{farm.CountyBook{of("imported", true, 2020, 2021)}, nil},
		{nil, nil},
	} {
		if got := tablesMissing(answer.Question{Counties: c.book}, u); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%d sources: %v, want %v", len(c.book), got, c.want)
		}
	}
	if text := tablesToImport([]crop.CropYear{2022, 2023}); !strings.Contains(text, "2022, 2023") || !strings.Contains(text, "county import") || tablesToImport(nil) != "" {
		t.Error(text)
	}
}
