package odds

import (
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
)

func TestParameterFileMistakesAreRefused(t *testing.T) {
	const row = "phi,all,US,1 year,0.8,,,judgement,\n"
	if _, err := readParameters(strings.NewReader(parameterHeader + "\n" + row)); err != nil {
		t.Fatalf("a good table is refused: %v", err)
	}
	for reason, text := range map[string]string{
		"empty file":         "",
		"unknown column":     parameterHeader + ",extra\n",
		"blank value":        parameterHeader + "\nphi,all,US,1 year,,,,judgement,\n",
		"value is a word":    parameterHeader + "\nphi,all,US,1 year,high,,,judgement,\n",
		"blank commodity":    parameterHeader + "\nphi,,US,1 year,0.8,,,judgement,\n",
		"blank source":       parameterHeader + "\nphi,all,US,1 year,0.8,,,,\n",
		"source not listed":  parameterHeader + "\nphi,all,US,1 year,0.8,,,hearsay,\n",
		"the same row twice": parameterHeader + "\n" + row + row,
		"ragged row":         parameterHeader + "\nphi,all\n",
	} {
		if _, err := readParameters(strings.NewReader(text)); err == nil {
			t.Errorf("%s: accepted", reason)
		}
	}
}

// Asking everything for every commodity, state, practice, stage and month uses
// every row, so that no row of the table is idle.
func TestEveryParameterIsUsed(t *testing.T) {
	used := map[rowKey]bool{}
	onLookup = func(k rowKey) { used[k] = true }
	defer func() { onLookup = func(rowKey) {} }()
	priceMatrix(nil)
	yieldMatrix()
	Yield{Mean: 1, SD: 0.01, Shape: ShapeMiss}.Quantile()
	must("estimate_error_degrees_of_freedom", "all", "US", "t") // read once by studentCurve
	tailFreedom()
	years, steady := straight(YearsForTrend)
	for _, c := range crop.Commodities() {
		for month := day(2025, time.December, 1); month.Year() < 2028; month = month.AddDate(0, 1, 0) {
			Usual.Volatility(c, 2026, month)
		}
		for state := range crop.StateNames {
			PriceYieldCorrelation(c, state, "all")
			Usual.CountyCV(c, state, OwnSpread{})
			Usual.CountyCV(c, state, SpreadOf(years, steady, false)) // down to the floor of the state
		}
		Usual.CountyCV(c, "99", OwnSpread{})
		for _, stage := range Stages() {
			DependenceAtStage(c, stage, 0)
			Usual.CVAtStage(c, stage, 0.1)
		}
	}
	FarmOwnCV(0.1)
	for _, stage := range Stages() {
		ProjectedBenchmarkAccuracy(stage, 1)
		ProjectedBenchmarkAccuracy(stage, 2)
	}
	GivesMean(years, years[0])
	InLine(1, 1)
	Usual.MeanWeight()
	FromInsurance(0.2)
	LateProjectionError()
	HarvestPriceCorrelation()
	StageFactor(BeforeHarvest, 2026, day(2026, time.September, 1))
	idle := 0
	for k := range parameters() {
		if !used[k] {
			idle++
			t.Errorf("row %v is used by nothing", k)
		}
	}
	t.Logf("checked %d of %d rows", len(used), len(parameters()))
}

// Fifty states by the agency's code, and every state that a row names.
func TestStateNames(t *testing.T) {
	names := map[string]bool{}
	for code, name := range crop.StateNames {
		if len(code) != 2 || names[name] {
			t.Errorf("state %q %q: not two digits, or a name twice", code, name)
		}
		names[name] = true
	}
	if len(names) != 50 {
		t.Errorf("%d states, want 50", len(names))
	}
	for _, name := range irrigatedWest {
		if !names[name] {
			t.Errorf("irrigated state %q is no state", name)
		}
	}
}
