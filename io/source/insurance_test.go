package source

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/program/farm"
)

const insuredOperation = "format: fencerow/operation/1\nfarms:\n  - {farm: 0417, county: 99001, bases: [{commodity: corn, base_acres: 120, payment_yield: 150}]}\n"

// The entries of an insurance file go to the farms that they name; a farm that is not there
// is a mistake of that file.
func TestInsuranceFile(t *testing.T) {
	entry := func(farm string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("format: fencerow/insurance/1\ninsurance:\n  - {farm: " + farm + ", crop_year: 2026, commodity: corn, plan: YP, coverage_level: 0.7, approved_yield: 150, acres: 90, projected_price: 4.6, expected_area_yield: 170, layers: [{layer: SCO}]}\n")}
	}
	files := fstest.MapFS{"farms.yaml": {Data: []byte(insuredOperation)}, "known.yaml": entry("0417"), "key.yaml": entry("99001-0417"), "other.yaml": entry("0999")}
	for _, name := range []string{"known.yaml", "key.yaml"} {
		found, err := Question(Request{Files: files, Operation: "farms.yaml", Insurance: name, Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), WithoutBuiltIn: true})
		if err != nil || !Insured(found.Question.Operation) || found.Question.Operation.Farms[0].Insurance[0].Acres != 90 {
			t.Errorf("%s: %+v, %v", name, found.Question.Operation.Farms, err)
		}
	}
	_, err := Question(Request{Files: files, Operation: "farms.yaml", Insurance: "other.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), WithoutBuiltIn: true})
	var mistakes farm.Mistakes
	if !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Hint, "99001-0417") || mistakes[0].File != "other.yaml" {
		t.Errorf("%v", err)
	}
	found, err := Question(Request{Files: files, Operation: "farms.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), WithoutBuiltIn: true})
	if err != nil || Insured(found.Question.Operation) {
		t.Errorf("without the file: %v", err)
	}
}
