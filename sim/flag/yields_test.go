package flag

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// The flag names both figures, what is used and what to do; a yield that the file
// gives is never held against the benchmark.
func TestYieldOutOfLineFlag(t *testing.T) {
	c := cases.Corn()
	y := invented.CornYield(farm.YieldOutlook{})
	y.History = invented.Rising(2005, 2025, 40)
	c.Counties = invented.Book(y)
	find := func() *answer.Flag {
		people, err := limits.NewRules(c.Operation, 2026)
		if err != nil {
			t.Fatal(err)
		}
		flags := Raise(c, c.Operation.Farms[0], people)
		if i := slices.IndexFunc(flags, func(f answer.Flag) bool { return f.Code == "yield_out_of_line" }); i >= 0 {
			return &flags[i]
		}
		return nil
	}
	f := find()
	if f == nil {
		t.Fatal("not raised")
	}
	// 40 + 21; the middle three of 184.20 187.00 193.10 178.43 190.70; their mean 186.686
	for _, part := range []string{"99001", "corn", "61.0", "187.3", "186.7", "outlook"} {
		if !strings.Contains(f.Message, part) {
			t.Errorf("%q does not name %s", f.Message, part)
		}
	}
	if f.Severity != answer.Warning || f.Source == "" {
		t.Errorf("%+v", f)
	}
	typed := 61.0
	y.Outlook = map[crop.CropYear]farm.YieldOutlook{2026: {Yield: &typed}}
	c.Counties = invented.Book(y)
	if f := find(); f != nil {
		t.Errorf("raised for a typed yield: %s", f.Message)
	}
}

// The flag comes with the day after the usual end of harvest, and goes with any
// knowledge of the county's yield.
func TestYieldNotKnownAfterHarvest(t *testing.T) {
	published := invented.CornYield(farm.YieldOutlook{})
	published.Outlook, published.Harvested = nil, map[crop.CropYear]float64{2021: 180, 2022: 181, 2023: 182, 2026: 180}
	published.Actual = map[crop.CropYear]float64{2021: 180, 2022: 181, 2023: 182} // without common years its level is not known
	actual := invented.CornYield(farm.YieldOutlook{})
	actual.Actual = map[crop.CropYear]float64{2026: 180}
	for _, f := range []struct {
		what   string
		yield  farm.CountyYield
		today  string
		raised bool
	}{
		{"the last usual day of harvest", invented.CornYield(farm.YieldOutlook{}), "2026-11-24", false},
		{"the day after", invented.CornYield(farm.YieldOutlook{}), "2026-11-25", true},
		{"a mean of one's own, from before harvest", invented.CornYield(farm.YieldOutlook{Yield: invented.Number(180)}), "2026-11-25", true},
		{"the State's report", invented.CornYield(farm.YieldOutlook{KnownFrom: "state_report"}), "2026-11-25", false},
		{"a yield taken as known", invented.CornYield(farm.YieldOutlook{Yield: invented.Number(180), SD: invented.Number(0)}), "2026-11-25", false},
		{"NASS's county estimate", published, "2027-03-01", false},
		{"the final yield", actual, "2027-11-01", false},
	} {
		c := cases.Corn()
		c.Counties, c.Today = invented.Book(f.yield), invented.Date(f.today)
		if got := slices.Contains(codes(c, 2026), "yield_not_known"); got != f.raised {
			t.Errorf("%s: raised %v, want %v", f.what, got, f.raised)
		}
	}
}
