package scenario_test

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Very many scenarios are made block by block: each block has the prices, reference and
// benchmark prices, and county yields that all scenarios together have there, also with
// extremes together; few scenarios are one block.
func TestBlocksAreTheirPartOfAllScenarios(t *testing.T) {
	const many = 1 << 17
	from := cornProjected(5.00, 0.25)
	for _, together := range []bool{false, true} {
		year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: many, ExtremesTogether: together}).Year(2028)
		if err != nil {
			t.Fatal(err)
		}
		n, price := corn(t, from, 2028)
		county := position.Practice{Unit: position.CountyUnit{County: "99001", Commodity: crop.Corn, Practice: "all", CropYear: 2028}}
		county.Outlook.Yield = odds.Yield{Mean: 180, SD: 30, Shape: odds.ShapeWeibull}
		county.Outlook.Stage = odds.BeforeHarvest
		ofAll := [][]float64{year.Prices(crop.Corn, price), year.Targets(n), year.BenchmarkPrices(n), year.PriceBefore(crop.Corn)}
		if !together {
			ofAll = append(ofAll, year.Yields(2, county))
		}
		blocks, next := 0, 0
		year.EachBlock(func(block *scenario.Year, first int) {
			if first != next {
				t.Fatalf("block %d begins at scenario %d, want %d", blocks, first, next)
			}
			size := block.Size.N()
			blocks, next = blocks+1, next+size
			if together && blocks > 1 {
				return // a stress takes long
			}
			ofBlock := [][]float64{block.Prices(crop.Corn, price), block.Targets(n), block.BenchmarkPrices(n), block.PriceBefore(crop.Corn), block.Yields(2, county)}
			for k, series := range ofBlock[:len(ofAll)] {
				if !slices.Equal(series, ofAll[k][first:first+size]) {
					t.Errorf("extremes together %v, block %d: series %d is not its part of all scenarios", together, blocks, k)
				}
			}
		})
		before, release := year.PricesBefore(crop.Corn)
		if !slices.Equal(before, year.PriceBefore(crop.Corn)) {
			t.Error("prices of the year before differ by blocks")
		}
		release()
		if blocks != 8 || next != many {
			t.Errorf("%d blocks of %d scenarios, want 8 of %d", blocks, next, many)
		}
	}
	few := drawnFrom(t, from, 2028)
	few.EachBlock(func(block *scenario.Year, first int) {
		if block != few || first != 0 {
			t.Error("few scenarios are not one block")
		}
	})
}

// Scenarios that depend on all others are never in blocks: a list of samples, past years.
func TestWhatDependsOnAllScenariosIsNotInBlocks(t *testing.T) {
	sampled, past := cornProjected(5.00, 0.25), cornProjected(5.00, 0.25)
	outlook := sampled.Market.Outlook[crop.Corn][2026]
	for k := range 20 {
		outlook.Samples = append(outlook.Samples, 4+0.1*float64(k))
	}
	invented.Project(sampled.Market, crop.Corn, 2026, 5.00, 0.25)
	sampled.Market.Outlook[crop.Corn][2026] = outlook
	past.PastYears = true
	for name, from := range map[string]position.Sources{"samples": sampled, "past years": past} {
		year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 1 << 17}).Year(2026)
		if err != nil {
			t.Fatal(err)
		}
		if year.InBlocks() {
			t.Errorf("%s: in blocks", name)
		}
	}
}
