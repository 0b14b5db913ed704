package backtest_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"sync"
	"testing"

	"fencerow/io/read/market"
	"fencerow/io/read/past"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
)

const sharedData = "../../../shared/data"

// pastTables are read once.
var pastTables = sync.OnceValues(func() (farm.Past, error) { return past.Read(sharedData) })

// scored are the commodities whose past years are scored: one without FENCEROW_LONG.
func scored() []crop.Commodity {
	if invented.LongRun {
		return []crop.Commodity{crop.Corn, crop.GrainSorghum, crop.Soybeans, crop.Wheat}
	}
	return []crop.Commodity{crop.GrainSorghum}
}

// tablesOfThePast returns the agencies' tables with the forecasts of scored commodities,
// or skips.
func tablesOfThePast(t *testing.T) farm.Past {
	t.Helper()
	if invented.UnderRace {
		t.Skip("left to the run without the race detector")
	}
	if _, err := os.Stat(sharedData); err != nil {
		t.Skip("NOT CHECKED: the odds of past crop years, ../shared is absent")
	}
	p, err := pastTables()
	if err != nil {
		t.Fatal(err)
	}
	all := p.Forecasts
	p.Forecasts = nil
	for _, f := range all {
		if slices.Contains(scored(), f.Commodity) {
			p.Forecasts = append(p.Forecasts, f)
		}
	}
	return p
}

// inSample is a run of the same model by another program: WASDE's May price with
// log SDs of .17, .145, .135 and .18, mean yields 1.03 times the benchmark,
// Weibull, SD of the State; shares of county rows paid and payments over
// benchmark revenue, said and come. Source: model checks handed to this project
// (payment_backtest_2014_2023), from USDA FSA's county tables and WASDE; of 40
// figures the eight of 2016 and 2022 have no county rows here.
var inSample = []struct {
	commodity                            crop.Commodity
	cropYear                             crop.CropYear
	saidShare, saidMean, share, meanCame float64
}{
	{crop.Corn, 2014, 0.627, 0.052, 0.646, 0.053},
	{crop.Corn, 2015, 0.879, 0.081, 0.793, 0.067},
	{crop.Corn, 2017, 0.480, 0.038, 0.294, 0.020},
	{crop.Corn, 2018, 0.211, 0.016, 0.185, 0.014},
	{crop.Corn, 2019, 0.415, 0.032, 0.351, 0.024},
	{crop.Corn, 2020, 0.471, 0.037, 0.076, 0.006},
	{crop.Corn, 2021, 0.025, 0.002, 0.027, 0.002},
	{crop.Corn, 2023, 0.087, 0.007, 0.083, 0.007},
	{crop.GrainSorghum, 2014, 0.648, 0.056, 0.515, 0.039},
	{crop.GrainSorghum, 2015, 0.703, 0.061, 0.795, 0.072},
	{crop.GrainSorghum, 2017, 0.724, 0.064, 0.675, 0.057},
	{crop.GrainSorghum, 2018, 0.415, 0.034, 0.740, 0.055},
	{crop.GrainSorghum, 2019, 0.686, 0.060, 0.646, 0.051},
	{crop.GrainSorghum, 2020, 0.581, 0.049, 0.085, 0.007},
	{crop.GrainSorghum, 2021, 0.049, 0.004, 0.034, 0.003},
	{crop.GrainSorghum, 2023, 0.186, 0.015, 0.258, 0.020},
	{crop.Soybeans, 2014, 0.433, 0.033, 0.294, 0.019},
	{crop.Soybeans, 2015, 0.759, 0.065, 0.726, 0.056},
	{crop.Soybeans, 2017, 0.475, 0.037, 0.331, 0.020},
	{crop.Soybeans, 2018, 0.182, 0.013, 0.319, 0.022},
	{crop.Soybeans, 2019, 0.510, 0.039, 0.571, 0.040},
	{crop.Soybeans, 2020, 0.408, 0.031, 0.039, 0.003},
	{crop.Soybeans, 2021, 0.025, 0.002, 0.028, 0.002},
	{crop.Soybeans, 2023, 0.063, 0.005, 0.098, 0.009},
	{crop.Wheat, 2014, 0.173, 0.014, 0.289, 0.023},
	{crop.Wheat, 2015, 0.699, 0.060, 0.833, 0.074},
	{crop.Wheat, 2017, 0.798, 0.071, 0.623, 0.048},
	{crop.Wheat, 2018, 0.428, 0.034, 0.393, 0.028},
	{crop.Wheat, 2019, 0.528, 0.043, 0.648, 0.056},
	{crop.Wheat, 2020, 0.515, 0.042, 0.396, 0.029},
	{crop.Wheat, 2021, 0.136, 0.011, 0.086, 0.007},
	{crop.Wheat, 2023, 0.063, 0.005, 0.134, 0.012},
}

// mediansOfThatRun are the medians of the spreads of county yields which that run took, of all
// ten years. Source: model-parameters.csv handed to this project.
func mediansOfThatRun(t *testing.T) *odds.Constants {
	t.Helper()
	file, err := os.Open("../../../shared/facts/model-parameters.csv")
	if err != nil {
		t.Skip("NOT CHECKED: the odds of past crop years, ../shared is absent")
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	k := &odds.Constants{}
	for _, row := range rows {
		value, err := strconv.ParseFloat(row[4], 64)
		switch region := row[2]; {
		case err != nil:
		case row[0] == "county_yield_cv_median":
			k.Replace(row[0], row[1], region, "annual", value)
		case row[0] == "county_yield_cv_quantile" && row[3] == "q50":
			k.Replace(row[0], row[1], "US", "q50", value)
		}
	}
	return k
}

func TestPastOddsOfAnotherProgram(t *testing.T) {
	const shareTolerance, meanTolerance = 0.02, 0.003
	s, err := backtest.Run(backtest.Setup{Past: tablesOfThePast(t), Market: market.Builtin(), Draws: 1024, Seed: 1, Yield: 1.03, EachRow: true, Constants: mediansOfThatRun(t),
		PriceSD: map[crop.Commodity]float64{crop.Corn: 0.17, crop.Soybeans: 0.145, crop.Wheat: 0.135, crop.GrainSorghum: 0.18}}, func(int, int) {})
	if err != nil {
		t.Fatal(err)
	}
	checked, rows := 0, 0
	for _, want := range inSample {
		if slices.Contains(scored(), want.commodity) {
			rows++
		}
		for _, o := range s.Odds {
			for _, y := range o.Years {
				if o.Commodity != want.commodity || y.CropYear != want.cropYear {
					continue
				}
				checked++
				for name, pair := range map[string][3]float64{
					"share said": {float64(y.SaidShare), want.saidShare, shareTolerance}, "mean said": {float64(y.SaidMean), want.saidMean, meanTolerance},
					"share paid": {float64(y.CameShare), want.share, shareTolerance}, "mean paid": {float64(y.CameMean), want.meanCame, meanTolerance},
				} {
					if math.Abs(pair[0]-pair[1]) > pair[2] {
						t.Errorf("%s %d, %s: got %.4f, want %.4f within %g", want.commodity, want.cropYear, name, pair[0], pair[1], pair[2])
					}
				}
			}
		}
	}
	fmt.Printf("odds of past years: checked %d of %d rows of another program's run, of %v; %d rows in all\n", checked, rows, scored(), len(inSample))
	if checked != rows || rows < 8*len(scored()) {
		t.Errorf("checked %d of %d", checked, rows)
	}
}

// muchBase are the base acres of the counties that stand for all where a run is short.
const muchBase = 20_000

// ofMuchBase is the run of those counties, at which several tests look.
var ofMuchBase struct {
	once   sync.Once
	result backtest.Result
	err    error
}

// ofCounties are the odds of past years of counties of so much base, with those at other
// spreads.
func ofCounties(p farm.Past, leastBase crop.Acres) (s backtest.Result, err error) {
	run := func() {
		s, err = backtest.Run(backtest.Setup{Past: p, Market: market.Builtin(), Draws: 1024, Seed: 1, LeastBase: leastBase, OtherSpreads: true}, func(int, int) {})
	}
	if leastBase != muchBase {
		run()
		return s, err
	}
	ofMuchBase.once.Do(func() { run(); ofMuchBase.result, ofMuchBase.err = s, err })
	return ofMuchBase.result, ofMuchBase.err
}

// After harvest the SD of the county yield is neither too narrow nor far too
// wide: chances score better than at half of it, and no worse than a thousandth
// than at one and a half times. Hindsight is never beaten, and what came lies in
// the middle 80 of 100 in 70 to 90 of 100. Without FENCEROW_LONG counties of much base stand
// for all.
func TestPastOddsExAnte(t *testing.T) {
	const worse = 0.001
	leastBase := 2000.0
	if !invented.LongRun {
		leastBase = muchBase
	}
	s, err := ofCounties(tablesOfThePast(t), leastBase)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, o := range s.Odds {
		if o.KnownFrom != backtest.November {
			continue
		}
		checked++
		if o.Brier.Mean >= o.BrierHalf.Mean || o.Brier.Mean > o.BrierWide.Mean+worse {
			t.Errorf("%s: Brier score %.4f, at half the spread %.4f, at one and a half %.4f", o.Commodity, o.Brier.Mean, o.BrierHalf.Mean, o.BrierWide.Mean)
		}
		if o.Within[1] < 0.70 || o.Within[1] > 0.90 {
			t.Errorf("%s: the middle 80 held %.2f", o.Commodity, o.Within[1])
		}
	}
	for _, d := range s.Decisions {
		if d.Following > d.Hindsight || d.AlwaysARCCO > d.Hindsight || d.AlwaysPLC > d.Hindsight {
			t.Errorf("%s %s: %+v", d.KnownFrom, d.Commodity, d)
		}
	}
	fmt.Printf("odds of past years after harvest: checked %d of %d commodities, %v, counties of %.0f base acres and more\n", checked, len(scored()), scored(), leastBase)
	if checked != len(scored()) || len(s.WorstYears) != 2 {
		t.Errorf("checked %d commodities, %d worst years", checked, len(s.WorstYears))
	}
}
