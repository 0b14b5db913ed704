package answer

import (
	"fmt"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// longMarket has invented prices for every year that some benchmark needs.
func longMarket() farm.Market {
	m := testMarket("2026-11-10")
	for c, start := range map[crop.Commodity]float64{crop.Corn: 3.20, crop.Soybeans: 8.10, crop.Peanuts: 0.19, crop.LongGrainRice: 0.105} {
		m.MYA[c] = map[crop.CropYear]farm.Figure{}
		m.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
		for y := 2008; y < 2031; y++ {
			wave := 1 + 0.37*float64((y*7)%11)/10 // up and down, no order
			decimals := 2
			if start < 1 {
				decimals = 4
			}
			m.MYA[c][y] = farm.Figure{Value: halfUp(start*wave, decimals), Status: crop.Agency, Source: "invented"}
		}
	}
	return m
}

// everyYear is a county with adjusted yields for every crop year.
func everyYear(c crop.Commodity, p farm.Practice, height float64) farm.CountyYield {
	u := farm.CountyYield{Commodity: c, Practice: p, Adjusted: map[crop.CropYear][5]float64{}, Plug: map[crop.CropYear]float64{}}
	for y := 2014; y <= 2031; y++ {
		for i := range 5 {
			five := u.Adjusted[y]
			five[i] = halfUp(height*(0.8+0.03*float64((y*5+i*7)%13)), 2)
			u.Adjusted[y] = five
		}
		u.Plug[y-6] = halfUp(0.7*height, 2)
	}
	return u
}

// Each printed step follows from the printed figures above it: several farms,
// commodities, practices and crop years.
func TestEachPrintedStepFollowsFromThoseAbove(t *testing.T) {
	share := 0.35
	wet := base(crop.Corn, 80.25, 151)
	wet.Tract, wet.County, wet.IrrigatedShare = "12", "99003", &share
	plain := oneFarm("0417", base(crop.Corn, 120.37, 150), base(crop.Soybeans, 88.40, 44))
	two := oneFarm("0588", func() farm.Base { b := base(crop.Corn, 33.33, 120); b.Tract = "11"; return b }(), wet, base(crop.Peanuts, 60, 3100), base(crop.LongGrainRice, 500, 6900))
	shares := farm.Shares{"firm": 0.6, "operator": 0.25}
	two.Shares.Every = &shares
	garden := plain
	garden.Number, garden.Planted = "0700", []farm.Planting{
		{CropYear: 2026, Commodity: fruitVegetables, Acres: 60}, {CropYear: 2016, Commodity: fruitVegetables, Acres: 60}}
	own := plain
	own.Number = "0900"
	own.History = map[crop.Commodity]map[crop.CropYear]float64{crop.Corn: {}, crop.Soybeans: {}}
	for y := 2008; y <= 2030; y++ {
		own.History[crop.Corn][y], own.History[crop.Soybeans][y] = float64(90+(y*13)%80), float64(20+(y*11)%30)
	}
	for y := 2014; y <= 2031; y++ {
		own.Planted = append(own.Planted, farm.Planting{CropYear: y, Commodity: "corn", Acres: 77.5, Yield: number(131.5)},
			farm.Planting{CropYear: y, Commodity: "soybeans", Acres: 50.25, Prevented: 4, Yield: number(41.25)})
	}
	c := testCase(longMarket(), bookOf(
		farm.County{Code: "99001", Yields: []farm.CountyYield{everyYear(crop.Corn, farm.AllPractices, 160), everyYear(crop.Soybeans, farm.AllPractices, 48), everyYear(crop.Peanuts, farm.AllPractices, 3900), everyYear(crop.LongGrainRice, farm.AllPractices, 7400)}},
		farm.County{Code: "99003", Yields: []farm.CountyYield{everyYear(crop.Corn, farm.Irrigated, 205), everyYear(crop.Corn, farm.Nonirrigated, 119)}},
	), plain, two, garden, own)
	c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "firm", Kind: farm.PassThrough, Members: []farm.Member{{ID: "elder", Share: 0.7}, {ID: "younger", Share: 0.2}}}}
	checked := 0
	for _, f := range c.Operation.Farms {
		for _, k := range f.Commodities() {
			for _, y := range []crop.CropYear{2014, 2016, 2018, 2019, 2023, 2025, 2026, 2031} {
				for _, price := range []float64{0.75, 1.0, 1.3} {
					p := pencil{t: t, name: fmt.Sprintf("farm %s %s %d at %.2f", f.Number, k, y, price)}
					mya := c.Market.MYA[k][2020].Value * price
					given := Given{MYA: halfUp(mya, 2), CountyYield: CountyYields{{}: c.Counties[0].Counties["99001"].Yields[0].Adjusted[2020][1]},
						Prices: map[crop.Commodity]float64{crop.Corn: halfUp(4*price, 2), crop.Soybeans: halfUp(9*price, 2)}}
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
