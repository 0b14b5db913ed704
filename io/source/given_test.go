package source_test

import (
	"maps"
	"testing"

	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// One price is of the commodity worked out; several are named. Yields are named by county
// and practice, or hold everywhere.
func TestParseGiven(t *testing.T) {
	given, err := source.ParseGiven("soybeans=10.00, CORN = 4.10", "99001=188,99003:irrigated=201", "corn")
	prices := map[crop.Commodity]crop.Price{crop.Corn: 4.10, crop.Soybeans: 10}
	yields := explain.CountyYields{{County: "99001"}: 188, {County: "99003", Practice: farm.Irrigated}: 201}
	if err != nil || given.MYA != 4.10 || !maps.Equal(given.Prices, prices) || !maps.Equal(given.CountyYield, yields) {
		t.Errorf("%+v, %v", given, err)
	}
	// Code and names of Story and Polk County, Iowa: FSA's county tables.
	named := explain.CountyYields{{County: "19169"}: 188, {County: "19153", Practice: farm.Irrigated}: 201, {County: "99001"}: 190}
	given, err = source.ParseGiven("4.10", "Story, Iowa=188, polk county, ia:irrigated=201,99001=190", "corn")
	if err != nil || !maps.Equal(given.CountyYield, named) {
		t.Errorf("%+v, %v", given, err)
	}
	given, err = source.ParseGiven("4.10", "175", "corn")
	if err != nil || given.MYA != 4.10 || given.CountyYield[explain.CountyPractice{}] != 175 {
		t.Errorf("%+v, %v", given, err)
	}
}

func TestParseGivenRefuses(t *testing.T) {
	for _, c := range []struct{ mya, yield, field, reason string }{
		{"turnips=3", "175", "mya", `names "turnips"`},
		{"corn=4,CORN=5", "175", "mya", "names corn twice"},
		{"soybeans=10", "175", "mya", "has no price of corn"},
		{"x", "175", "mya", `is "x"`},
		{"NaN", "175", "mya", `is "NaN"`},
		{"-1", "175", "mya", `is "-1"`},
		{"4", "1e9", "county-yield", `is "1e9"`},
		{"4", "", "county-yield", `is ""`},
		{"4", "99001:wet=3", "county-yield", `names the practice "wet"`},
		{"4", "99001=3,99001=4", "county-yield", "names 99001 twice"},
		{"4", "Story, Iowa=3,19-169=4", "county-yield", "names 19169 twice"},
		{"4", "Stroy, Iowa=3", "", `the county of county-yield "Stroy, Iowa" is not known in Iowa`},
		{"4", "x,188", "county-yield", `is "x"`},
		{"4", "188,x", "county-yield", `is "x"`},
		{"4", "3,4", "county-yield", "names all counties twice"},
	} {
		_, err := source.ParseGiven(c.mya, c.yield, "corn")
		wrong(t, err, c.field, c.reason, "")
	}
}

// What the farm does not have is refused: it would be left out of the arithmetic.
func TestCheckGiven(t *testing.T) {
	found, err := source.Question(source.Request{Files: house(), Operation: "home/operation.yaml", Today: today})
	if err != nil {
		t.Fatal(err)
	}
	f := found.Question.Operation.Farms[0]
	check := func(mya, yield string) error {
		given, err := source.ParseGiven(mya, yield, "corn")
		if err != nil {
			t.Fatal(err)
		}
		return source.CheckGiven(found.Question, f, crop.Corn, given)
	}
	for _, yield := range []string{"175", "99001=175"} {
		if err := check("4.10", yield); err != nil {
			t.Error(yield, err)
		}
	}
	wrong(t, check("4.10", "99003=175"), "county-yield", "names county 99003, where farm 99001-0417 has no base of corn", "99001")
	wrong(t, check("4.10", "99001:irrigated=175"), "county-yield", "names 99001:irrigated, a practice without a county yield", "99001")
	wrong(t, check("corn=4.10,wheat=6", "175"), "mya", "names wheat, of which farm 99001-0417 has no base and no planting in 2026", "corn")
}
