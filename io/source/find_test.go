package source_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// wrong tells whether an error is a Wrong with a field and words of its reason and hint.
func wrong(t *testing.T, err error, field, reason, hint string) {
	t.Helper()
	var w source.Wrong
	if !errors.As(err, &w) || w.Field != field || !strings.Contains(w.Reason, reason) || !strings.Contains(w.Hint, hint) {
		t.Errorf("%+v, want field %q, reason %q, hint %q", err, field, reason, hint)
	}
}

// A farm is found by its number where it is the only one of that number, else by its key.
func TestFindFarm(t *testing.T) {
	o := farm.Operation{Farms: []farm.Farm{{Number: "1", County: "99001"}, {Number: "2", County: "99001"}, {Number: "2", County: "99003"}}}
	for name, county := range map[string]string{"1": "99001", "99001-1": "99001", "99003-2": "99003"} {
		if f, err := source.FindFarm(o, name); err != nil || f.County != county {
			t.Errorf("%q is in county %s, %v, want %s", name, f.County, err, county)
		}
	}
	_, err := source.FindFarm(o, "2")
	wrong(t, err, "", `several farms have the number "2"`, "99001-2, 99003-2")
	_, err = source.FindFarm(o, "3")
	wrong(t, err, "", `no farm "3"`, "")
	if w := err.(source.Wrong); w.OneOf != "farm" || !slices.Equal(w.Choices, []string{"99001-1", "99001-2", "99003-2"}) {
		t.Errorf("choices %+v", w)
	}
}

// A commodity is found in any spelling, if the farm has base of it.
func TestFindCommodity(t *testing.T) {
	f := farm.Farm{Number: "1", County: "99001", Bases: []farm.Base{{Commodity: crop.Corn}, {Commodity: crop.Soybeans}}}
	for _, name := range []string{"corn", "CORN", " Corn "} {
		if k, err := source.FindCommodity(f, name); err != nil || k != crop.Corn {
			t.Errorf("%q is %q, %v", name, k, err)
		}
	}
	for _, name := range []string{"wheat", "", "turnips"} {
		_, err := source.FindCommodity(f, name)
		wrong(t, err, "", "farm 99001-1 has no base of", "")
		if w := err.(source.Wrong); w.OneOf != "commodity" || !slices.Equal(w.Choices, []string{"corn", "soybeans"}) {
			t.Errorf("choices %+v", w)
		}
	}
}

// Lists are read with commas; years each once, and only those the law covers. PLC and ARC
// begin with crop year 2014 (7 U.S.C. 9011, 9016, 9017).
func TestParseLists(t *testing.T) {
	if first, last := source.LawYears(); first != 2014 || last < 2031 {
		t.Errorf("the law covers %d to %d", first, last)
	}
	years, err := source.ParseCropYears(" 2027,2026 ,2027")
	if err != nil || !slices.Equal(years, []crop.CropYear{2027, 2026}) {
		t.Error(years, err)
	}
	for _, text := range []string{"2013", "x", "2026,", "2999"} {
		_, err := source.ParseCropYears(text)
		wrong(t, err, "crop-year", "names ", "from 2014 to")
	}
	only, err := source.ParseCommodities("CORN,soybeans")
	if err != nil || !slices.Equal(only, []crop.Commodity{crop.Corn, crop.Soybeans}) {
		t.Error(only, err)
	}
	_, err = source.ParseCommodities("corn,turnips")
	wrong(t, err, "commodity", `names "turnips"`, "soybeans")
	if y, err := source.ParseCropYears(""); y != nil || err != nil {
		t.Error(y, err)
	}
	if k, err := source.ParseCommodities(""); k != nil || err != nil {
		t.Error(k, err)
	}
	if text := (source.Wrong{Field: "mya", Reason: "is 3"}).Error() + (source.Wrong{Reason: ", alone"}).Error(); text != "mya is 3, alone" {
		t.Error(text)
	}
}
