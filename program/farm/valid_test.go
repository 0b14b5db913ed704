package farm

import (
	"slices"
	"testing"

	"fencerow/program/crop"
)

// The crop years are those of the law's rows: the Acts of 2014 to 2025 run to
// 2031.
func TestProgramYears(t *testing.T) {
	if got, want := ProgramYears(), (Span{First: 2014, Last: 2031}); got != want {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestChecks(t *testing.T) {
	for _, c := range []struct {
		why   string
		fault *Fault
		wrong bool
	}{
		{"the first crop year of the 2014 Act", ProgramYears().Check("crop year", 2014), false},
		{"no program before it", ProgramYears().Check("crop year", 2013), true},
		{"prices of 2009 enter the benchmark of 2014", HistoryYears().Check("crop year", 2009), false},
		{"seed cotton is covered from 2018", CheckCovered(crop.SeedCotton, 2018), false},
		{"seed cotton before 2018", CheckCovered(crop.SeedCotton, 2017), true},
		{"an oilseed by its class", CheckCovered(crop.Crambe, 2014), false},
		{"no acres", CheckAcres("acres", 0), false},
		{"negative acres", CheckAcres("acres", -0.01), true},
		{"a base of nothing", CheckBaseAcres("acres", 0), true},
		{"all", CheckShare("share", 1), false},
		{"more than all", CheckShare("share", 1.01), true},
		{"0.7 + 0.2 + 0.1 with binary noise", CheckTotal("shares", 0.7+0.2+0.1), false},
		{"a thousandth too much", CheckTotal("shares", 1.001), true},
		{"a county", CheckCountyCode("county", "99001"), false},
		{"a sub-county", CheckCountyCode("county", "99001A"), false},
		{"a lost zero", CheckCountyCode("county", "1001"), true},
		{"six digits", CheckCountyCode("county", "990011"), true},
		{"no code", CheckCountyCode("county", ""), true},
	} {
		if (c.fault != nil) != c.wrong {
			t.Errorf("%s: %v", c.why, c.fault)
		}
		if c.fault != nil && (c.fault.Reason == "" || c.fault.Hint == "") {
			t.Errorf("%s: reason or hint missing: %+v", c.why, c.fault)
		}
	}
}

// A day after the day of the question is refused, that day itself and what has no day not.
func TestCheckSigned(t *testing.T) {
	f := Farm{Number: "0417", County: "99001", Signed: map[crop.CropYear]map[string]Signature{
		2026: {"ann": {Yes, "2026-11-25"}, "bob": {Yes, "2026-11-26"}, "cy": {Yes, ""}},
		2027: {"ann": {No, ""}, "bob": {Yes, "2027-01-02"}},
	}}
	var said []string
	for _, fault := range f.CheckSigned("2026-11-25") {
		said = append(said, fault.Reason)
	}
	want := []string{"farm 99001-0417: bob signed for crop year 2026 on 2026-11-26, which is after the day of this question, 2026-11-25", "farm 99001-0417: bob signed for crop year 2027 on 2027-01-02, which is after the day of this question, 2026-11-25"}
	if !slices.Equal(said, want) {
		t.Errorf("%q, want %q", said, want)
	}
}
