package source

import (
	"errors"
	"strings"
	"testing"

	"fencerow/io/read/operation"
	"fencerow/program/crop"
)

// What is typed is the operation that a file says.
func TestTypedFarmIsAnOperation(t *testing.T) {
	text, err := Typed{County: "99001", Bases: []string{"corn:120:171@0.35", "soybeans:80.5:47", "wheat:10"}, Share: "0.5"}.Operation()
	if err != nil {
		t.Fatal(err)
	}
	o, err := operation.Parse("typed", text)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	f := o.Farms[0]
	shares, _ := f.Shares.In(2026)
	if f.County != "99001" || len(f.Bases) != 3 || shares["operator"] != 0.5 {
		t.Errorf("%+v", f)
	}
	corn, beans, wheat := f.Bases[0], f.Bases[1], f.Bases[2]
	if corn.Commodity != crop.Corn || corn.BaseAcres != 120 || *corn.PaymentYield != 171 || *corn.IrrigatedShare != 0.35 {
		t.Errorf("%+v", corn)
	}
	if beans.BaseAcres != 80.5 || *beans.PaymentYield != 47 || beans.IrrigatedShare != nil || wheat.PaymentYield != nil {
		t.Errorf("%+v, %+v", beans, wheat)
	}
}

// Acres and yields may have thousands commas; a comma that may stand for decimals is refused.
func TestTypedThousands(t *testing.T) {
	text, err := Typed{County: "99001", Bases: []string{"corn:1,204.5:171", "peanuts:80:3,900"}}.Operation()
	if err != nil {
		t.Fatal(err)
	}
	o, err := operation.Parse("typed", text)
	if err != nil || o.Farms[0].Bases[0].BaseAcres != 1204.5 || *o.Farms[0].Bases[1].PaymentYield != 3900 {
		t.Errorf("%+v, %v", o.Farms, err)
	}
	text, err = Typed{County: "99001", Bases: []string{"corn:120,5:171"}}.Operation()
	if _, wrong := operation.Parse("typed", text); err != nil || wrong == nil || !strings.Contains(wrong.Error(), "comma that may stand") {
		t.Errorf("%v, %v", err, wrong)
	}
}

// A county may have its name: Prince George's, Maryland, is 24033 in FSA's tables.
func TestTypedCountyByName(t *testing.T) {
	text, err := Typed{County: "Prince George’s County, MD", Bases: []string{"corn:120:171"}}.Operation()
	if err != nil {
		t.Fatal(err)
	}
	if o, err := operation.Parse("typed", text); err != nil || o.Farms[0].County != "24033" {
		t.Errorf("%+v, %v", o.Farms, err)
	}
}

// A county's name may have any letter of one, and is found.
func TestTypedCountyHasAName(t *testing.T) {
	text, err := Typed{County: "King & Queen, Virginia", Bases: []string{"corn:1:1"}}.Operation()
	if err != nil || !strings.Contains(string(text), `"King & Queen, Virginia"`) {
		t.Errorf("%s, %v", text, err)
	}
}

// What cannot be a base, a county or a share is refused with what to write, and nothing
// that is typed can be more than a value of the file.
func TestTypedFarmIsRefused(t *testing.T) {
	for _, c := range []struct {
		typed Typed
		field string
	}{
		{Typed{Bases: []string{"corn:120:171"}}, "county"},
		{Typed{County: "99001\"\nfarms: []", Bases: []string{"corn:120:171"}}, "county"},
		{Typed{County: "99001"}, "base"},
		{Typed{County: "99001", Bases: []string{"corn"}}, "base"},
		{Typed{County: "99001", Bases: []string{"corn:x:171"}}, "base"},
		{Typed{County: "99001", Bases: []string{"corn:120:171, tract: 3"}}, "base"},
		{Typed{County: "99001", Bases: []string{"corn:120:171@half"}}, "base"},
		{Typed{County: "99001", Bases: []string{"corn:120:171"}, Share: "}{"}, "share"},
	} {
		_, err := c.typed.Operation()
		var w Wrong
		if !errors.As(err, &w) || w.Field != c.field || !strings.Contains(w.Hint, " ") {
			t.Errorf("%+v: %v", c.typed, err)
		}
	}
}
