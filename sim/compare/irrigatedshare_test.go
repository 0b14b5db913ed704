package compare_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Where only one practice of the pair is published, base of that practice has
// ARC-CO; base of the other one has none, and the practice is named.
func TestOnePracticeOfAPair(t *testing.T) {
	ask := func(share *float64) (answer.Question, []string) {
		c := cases.Corn()
		c.Counties = invented.BookOf(invented.CountyOfCorn("99001", 200, farm.Irrigated))
		c.Operation.Farms[0].Bases[0].IrrigatedShare = share
		return c, codes(c, 2026)
	}
	c, raised := ask(invented.Number(1))
	if p := only(t, c); p.Programs.Of(farm.ARCCO) == nil || slices.Contains(raised, "yield_missing") {
		t.Errorf("all irrigated: ARC-CO %v, flags %v", p.Programs.Of(farm.ARCCO), raised)
	}
	c, raised = ask(invented.Number(0.5))
	p := only(t, c)
	if p.Programs.Of(farm.ARCCO) != nil || p.Leader != answer.None || !strings.Contains(p.LeaderReason, "nonirrigated") || !slices.Contains(raised, "yield_missing") {
		t.Errorf("half irrigated: ARC-CO %v, leader %v because %q, flags %v", p.Programs.Of(farm.ARCCO), p.Leader, p.LeaderReason, raised)
	}
	c, raised = ask(nil)
	if p := only(t, c); p.Programs.Of(farm.ARCCO) == nil || p.AssumedShare == nil || !slices.Contains(raised, "irrigated_history_missing") || slices.Contains(raised, "yield_missing") {
		t.Errorf("share not told: ARC-CO %v, want the one yield there is, assumed; flags %v", p.Programs.Of(farm.ARCCO), raised)
	}
}

// nearly allows for binary noise between two orders of adding.
func nearly(x, y answer.Dollars) bool { return math.Abs(float64(x-y)) < crop.Noise }

func flagOf(t *testing.T, c answer.Question, code string) (answer.Flag, bool) {
	t.Helper()
	flags := ask(t, c).CropYears[0].Farms[0].Flags
	i := slices.IndexFunc(flags, func(f answer.Flag) bool { return f.Code == code })
	if i < 0 {
		return answer.Flag{}, false
	}
	return flags[i], true
}

// Blank counts as 0, marked, and both ends are what a share of 0 and of 1 give.
func TestBlankIrrigatedShare(t *testing.T) {
	for _, f := range []struct {
		name   string
		county farm.County
		stands bool
	}{
		{"far below the guarantee by either yield", invented.TwoPractices("99001", 210, 130, 170, 100), true},
		{"below it nonirrigated, far above it irrigated", invented.TwoPractices("99001", 210, 130, 280, 100), false},
	} {
		none, all := only(t, cases.AtShare(f.county, invented.Number(0))), only(t, cases.AtShare(f.county, invented.Number(1)))
		if (none.Leader == all.Leader) != f.stands {
			t.Fatalf("%s: the case leads %v at 0 and %v at 1", f.name, none.Leader, all.Leader)
		}
		c := cases.AtShare(f.county, nil)
		got := only(t, c)
		a := got.AssumedShare
		if a == nil || !nearly(*a.At0, none.Programs.Of(farm.ARCCO).Mean) || !nearly(*a.At1, all.Programs.Of(farm.ARCCO).Mean) || a.Leader0 != none.Leader || a.Leader1 != all.Leader || a.Status != crop.Assumed {
			t.Fatalf("%s: %+v; a share of 0 averages %v and leads %v, of 1 %v and %v", f.name, a, none.Programs.Of(farm.ARCCO).Mean, none.Leader, all.Programs.Of(farm.ARCCO).Mean, all.Leader)
		}
		if got.Programs.Of(farm.ARCCO).Mean != none.Programs.Of(farm.ARCCO).Mean || got.Programs.Of(farm.ARCCO).Percentiles != none.Programs.Of(farm.ARCCO).Percentiles {
			t.Errorf("%s: ARC-CO %+v, want that at a share of 0, %+v", f.name, got.Programs.Of(farm.ARCCO), none.Programs.Of(farm.ARCCO))
		}
		switch {
		case f.stands && got.Leader != none.Leader:
			t.Errorf("%s: leader %v because %q, want %v", f.name, got.Leader, got.LeaderReason, none.Leader)
		case !f.stands && (got.Leader != answer.Close || !strings.Contains(got.LeaderReason, "depends on the irrigated share")):
			t.Errorf("%s: leader %v because %q, want a toss-up", f.name, got.Leader, got.LeaderReason)
		}
		flag, raised := flagOf(t, c, "irrigated_history_missing")
		both := []string{"$" + program.Text(float64(*a.At0), 2) + " a base acre if none", "$" + program.Text(float64(*a.At1), 2) + " if all"}
		if !raised || flag.Severity != answer.Warning || !strings.Contains(flag.Message, both[0]) || !strings.Contains(flag.Message, both[1]) || !strings.Contains(flag.Message, "HIP") {
			t.Errorf("%s: flag %+v, want a warning with %v", f.name, flag, both)
		}
		if _, raised := flagOf(t, c, "yield_missing"); raised {
			t.Errorf("%s: yield_missing is raised too", f.name)
		}
	}
}

// Several bases without a share are all at 0 and all at 1; one with a share stays.
func TestBlankSharesGoTogether(t *testing.T) {
	ask := func(first, other *float64) answer.CommodityPart {
		c := cases.Corn()
		c.Counties = invented.BookOf(invented.TwoPractices("99001", 210, 130, 190, 110), invented.TwoPractices("99003", 180, 90, 175, 80))
		elsewhere := invented.Base(crop.Corn, 40, 120)
		elsewhere.County, elsewhere.IrrigatedShare = "99003", other
		third := invented.Base(crop.Corn, 30, 120)
		third.IrrigatedShare = invented.Number(0.5)
		c.Operation.Farms[0].Bases[0].IrrigatedShare = first
		c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, elsewhere, third)
		return only(t, c)
	}
	got, none, all := ask(nil, nil), ask(invented.Number(0), invented.Number(0)), ask(invented.Number(1), invented.Number(1))
	if a := got.AssumedShare; !nearly(*a.At0, none.Programs.Of(farm.ARCCO).Mean) || !nearly(*a.At1, all.Programs.Of(farm.ARCCO).Mean) || a.BaseAcres != got.BaseAcres-30 {
		t.Errorf("both ends %v and %v of %v acres, want %v and %v", *a.At0, *a.At1, a.BaseAcres, none.Programs.Of(farm.ARCCO).Mean, all.Programs.Of(farm.ARCCO).Mean)
	}
}

// Without a yield of the other practice the lead cannot be known to hold.
func TestBlankShareWithoutAnIrrigatedBenchmark(t *testing.T) {
	county := invented.TwoPractices("99001", 210, 130, 170, 100)
	county.Yields[0].BenchmarkYield = map[crop.CropYear]float64{2025: 210}
	county.Yields[1].BenchmarkYield = nil
	county.Yields[1].Adjusted = map[crop.CropYear][5]float64{2025: {130, 131, 129, 130, 130}}
	county.Yields[1].Actual = map[crop.CropYear]float64{2024: 130}
	c := cases.AtShare(county, nil)
	got := only(t, c)
	if a := got.AssumedShare; got.Programs.Of(farm.ARCCO) == nil || a.At0 == nil || a.At1 != nil || got.Leader != answer.Close || !strings.Contains(got.LeaderReason, "depends on the irrigated share") {
		t.Fatalf("ARC-CO %v, ends %+v, leader %v because %q; want figures at 0 and a toss-up", got.Programs.Of(farm.ARCCO), a, got.Leader, got.LeaderReason)
	}
	if _, raised := flagOf(t, c, "yield_missing"); raised {
		t.Error("yield_missing is raised, though the base may have no irrigated land")
	}
}

// Where no source has a benchmark, that is what is missing, and nothing else is said.
func TestBlankShareWithoutAnyBenchmark(t *testing.T) {
	county := invented.TwoPractices("99001", 210, 130, 170, 100)
	county.Yields[0].Outlook, county.Yields[0].BenchmarkYield = nil, nil
	county.Yields[0].Insured = map[crop.CropYear]float64{2023: 190, 2024: 200}
	county.Yields = county.Yields[:1]
	c := cases.AtShare(county, nil)
	for code, want := range map[string]bool{"irrigated_history_missing": false, "yield_not_known": false, "yield_missing": true} {
		if _, raised := flagOf(t, c, code); raised != want {
			t.Errorf("%s: raised %v, want %v", code, raised, want)
		}
	}
}

// The steps say that the share is assumed.
func TestExplainAssumesTheShare(t *testing.T) {
	c := cases.AtShare(invented.TwoPractices("99001", 210, 130, 170, 100), nil)
	given := explain.Given{MYA: 4.10, CountyYield: explain.CountyYields{{}: 120}}
	e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, 2026, given)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(e.Programs.Of(farm.ARCCO).Steps, func(s explain.Step) bool { return strings.HasPrefix(s.Name, "irrigated_share") })
	if i < 0 || e.Programs.Of(farm.ARCCO).Steps[i].Status != crop.Assumed || e.Programs.Of(farm.ARCCO).Steps[i].Value.Value != 0 || e.Programs.Of(farm.ARCCO).Payment == nil {
		t.Errorf("steps %+v: no assumed share of 0, or no payment", e.Programs.Of(farm.ARCCO))
	}
}
