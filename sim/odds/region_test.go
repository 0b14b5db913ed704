package odds

import (
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
)

func TestPriceYieldCorrelationByRegion(t *testing.T) {
	for _, c := range []struct {
		commodity       crop.Commodity
		state, practice string
		want            float64
		rule            string
	}{
		{crop.Corn, "17", "all", -0.45, "Corn Belt"},
		{crop.Corn, "20", "nonirrigated", -0.40, "Plains"},
		{crop.Corn, "20", "irrigated", -0.10, "irrigated"},
		{crop.Corn, "17", "irrigated", -0.45, "Corn Belt"},
		{crop.Corn, "26", "all", -0.15, "Michigan"},
		{crop.Corn, "48", "all", -0.10, "Texas"},
		{crop.Corn, "99", "all", -0.45, "state unknown, taken as Corn Belt"},
		{crop.Soybeans, "19", "all", -0.25, "Corn Belt"},
		{crop.Soybeans, "38", "all", -0.10, "elsewhere"},
		{crop.Soybeans, "99", "all", -0.25, "Corn Belt"},
		{crop.Wheat, "38", "all", -0.35, "Dakotas"},
		{crop.Wheat, "40", "all", -0.15, "Plains wheat"},
		{crop.Wheat, "20", "irrigated", -0.05, "irrigated"},
		{crop.Wheat, "99", "all", -0.05, "state unknown"},
		{crop.GrainSorghum, "20", "all", -0.35, "Kansas"},
		{crop.Barley, "27", "all", -0.40, "Minnesota"},
		{crop.Oats, "27", "all", -0.20, "all states"},
		{crop.SeedCotton, "48", "all", -0.10, "seed cotton"},
		{crop.TemperateJaponicaRice, "06", "all", -0.05, "all states"},
		{crop.Peanuts, "13", "all", -0.05, "peanuts"},
		{crop.Lentils, "30", "all", -0.10, "without measurements"},
	} {
		got, rule := PriceYieldCorrelation(c.commodity, c.state, c.practice)
		if got != c.want || !strings.Contains(rule, c.rule) {
			t.Errorf("%s, state %s, %s: got %g by %q, want %g by %q", c.commodity, c.state, c.practice, got, rule, c.want, c.rule)
		}
	}
}

func TestCorrelationFadesWithTheStage(t *testing.T) {
	july, august := day(2026, time.July, 31), day(2026, time.August, 1)
	for _, c := range []struct {
		stage Stage
		asOf  time.Time
		want  float64
	}{
		{BeforeHarvest, july, 1}, {BeforeHarvest, august, 0.5}, {BeforeHarvest, day(2027, time.January, 1), 0.5},
		{BeforeHarvest, day(2025, time.November, 1), 1},
		{StateReport, july, 0}, {LocalHarvest, august, 0}, {CountyEstimate, july, 0}, {InsuranceYield, july, 0}, {Final, july, 0},
	} {
		if got := StageFactor(c.stage, 2026, c.asOf); got != c.want {
			t.Errorf("%s on %s: got %g, want %g", c.stage, c.asOf.Format(time.DateOnly), got, c.want)
		}
	}
}

// The rows by commodity, before harvest and after: estimates of sim/fit, and for oats the
// judgements for other commodities.
func TestDependenceAtStage(t *testing.T) {
	for c, want := range map[crop.Commodity]YieldDependence{
		crop.Corn: {-0.4, 0.19, 0.51, 0.41}, crop.Soybeans: {-0.4, 0.14, 0.51, 0.45}, crop.Wheat: {-0.4, 0.08, 0.44, 0.51},
		crop.GrainSorghum: {-0.4, 0.10, 0.37, 0.49}, crop.Oats: {-0.4, 0.16, 0.51, 0.46},
	} {
		if got := DependenceAtStage(c, BeforeHarvest, -0.4); got != want {
			t.Errorf("%s before harvest: got %+v, want %+v", c, got, want)
		}
		if got := DependenceAtStage(c, LocalHarvest, 0); got != (YieldDependence{Counties: 0.2, Practices: want.Practices}) {
			t.Errorf("%s after harvest: got %+v", c, got)
		}
	}
}
