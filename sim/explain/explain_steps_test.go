package explain

import (
	"fmt"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// Each printed step follows from the printed figures above it: several farms,
// commodities, practices and crop years.
func TestEachPrintedStepFollowsFromThoseAbove(t *testing.T) {
	share := 0.35
	wet := invented.Base(crop.Corn, 80.25, 151)
	wet.Tract, wet.County, wet.IrrigatedShare = "12", "99003", &share
	plain := invented.OneFarm("0417", invented.Base(crop.Corn, 120.37, 150), invented.Base(crop.Soybeans, 88.40, 44))
	two := invented.OneFarm("0588", func() farm.Base { b := invented.Base(crop.Corn, 33.33, 120); b.Tract = "11"; return b }(), wet, invented.Base(crop.Peanuts, 60, 3100), invented.Base(crop.LongGrainRice, 500, 6900))
	shares := farm.Shares{"firm": 0.6, "operator": 0.25}
	two.Shares.Every = &shares
	garden := plain
	garden.Number, garden.Planted = "0700", []farm.Planting{
		{CropYear: 2026, Commodity: position.FruitVegetables, Acres: 60}, {CropYear: 2016, Commodity: position.FruitVegetables, Acres: 60}}
	own := plain
	own.Number = "0900"
	own.History = map[crop.Commodity]map[crop.CropYear]float64{crop.Corn: {}, crop.Soybeans: {}}
	for y := 2008; y <= 2030; y++ {
		own.History[crop.Corn][y], own.History[crop.Soybeans][y] = float64(90+(y*13)%80), float64(20+(y*11)%30)
	}
	for y := 2014; y <= 2031; y++ {
		own.Planted = append(own.Planted, farm.Planting{CropYear: y, Commodity: "corn", Acres: 77.5, Yield: invented.Number(131.5)},
			farm.Planting{CropYear: y, Commodity: "soybeans", Acres: 50.25, Prevented: 4, Yield: invented.Number(41.25)})
	}
	c := cases.Question(invented.LongMarket(), invented.BookOf(
		farm.County{Code: "99001", Yields: []farm.CountyYield{invented.EveryYear(crop.Corn, farm.AllPractices, 160), invented.EveryYear(crop.Soybeans, farm.AllPractices, 48), invented.EveryYear(crop.Peanuts, farm.AllPractices, 3900), invented.EveryYear(crop.LongGrainRice, farm.AllPractices, 7400)}},
		farm.County{Code: "99003", Yields: []farm.CountyYield{invented.EveryYear(crop.Corn, farm.Irrigated, 205), invented.EveryYear(crop.Corn, farm.Nonirrigated, 119)}},
	), plain, two, garden, own)
	c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "firm", Kind: farm.PassThrough, Members: []farm.Member{{ID: "elder", Share: 0.7}, {ID: "younger", Share: 0.2}}}}
	checked := 0
	for _, f := range c.Operation.Farms {
		for _, k := range f.Commodities() {
			for _, y := range []crop.CropYear{2014, 2016, 2018, 2019, 2023, 2025, 2026, 2031} {
				for _, price := range []float64{0.75, 1.0, 1.3} {
					p := pencil{t: t, name: fmt.Sprintf("farm %s %s %d at %.2f", f.Number, k, y, price)}
					mya := c.Market.MYA[k][2020].Value * price
					given := Given{MYA: invented.HalfUp(mya, 2), CountyYield: CountyYields{{}: c.Counties[0].Counties["99001"].Yields[0].Adjusted[2020][1]},
						Prices: map[crop.Commodity]float64{crop.Corn: invented.HalfUp(4*price, 2), crop.Soybeans: invented.HalfUp(9*price, 2)}}
					e, err := Explain(c, f, k, y, given)
					if err != nil {
						t.Fatal(p.name, err)
					}
					programs := []*ProgramSteps{e.Programs.Of(farm.PLC), e.Programs.Of(farm.ARCCO)}
					if e.Programs.Of(farm.ARCIC) != nil && e.Programs.Of(farm.ARCIC).Missing == "" {
						programs = append(programs, e.Programs.Of(farm.ARCIC))
					}
					for _, steps := range programs {
						if steps.Missing != "" {
							t.Fatalf("%s: missing %s", p.name, steps.Missing)
						}
						p.order = nil
						declaredSteps(t, p.name, k, steps.Steps)
						declaredSteps(t, p.name, k, steps.People)
						p.check(steps.Steps)
						if last := steps.Steps[len(steps.Steps)-1]; last.Name != "payment" || last.Value.Value != float64(*steps.Payment) {
							t.Errorf("%s: the last step is %s %v, the payment %v", p.name, last.Name, last.Value.Value, *steps.Payment)
						}
						p.checkPeople(steps.People)
					}
					checked += p.checked
				}
			}
		}
	}
	const least = 5000 // fewer would mean that steps went unrecognized
	if checked < least {
		t.Errorf("recomputed %d steps, want at least %d", checked, least)
	}
	fmt.Printf("printed steps recomputed from those above: checked %d of %d\n", checked, checked)
}
