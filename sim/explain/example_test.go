package explain_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Both programs step by step at a price of 4.00 and a county yield of 190. By hand: PLC pays
// (4.42 - 4.00) x 150 x 102 payment acres; ARC-CO (847.91 - 190 x 4.00) x 102.
func ExampleExplain() {
	q := cases.Corn() // 120 base acres of corn, payment yield 150
	given := explain.Given{MYA: 4.00, CountyYield: explain.CountyYields{{}: 190}}
	e, err := explain.Explain(q, q.Operation.Farms[0], crop.Corn, 2026, given)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range e.Programs {
		last := p.Figures.Steps[len(p.Figures.Steps)-1]
		fmt.Printf("%s: %s %.2f\n", p.Program, last.Name, last.Value.Value)
	}
	// Output:
	// PLC: payment 6426.00
	// ARC-CO: payment 8966.82
}

// The parameters of a commodity and crop year, the computed ones too: corn of 2026 with the
// prices of 2020 to 2024 (4.53, 6.00, 6.54, 4.55, 4.24).
func ExampleRulesOf() {
	rules, err := explain.RulesOf(invented.Market("2026-11-10"), crop.Corn, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range rules.Figures[:4] {
		fmt.Printf("%s %.2f\n", f.ID, f.Value.Value)
	}
	// Output:
	// reference_price 4.10
	// effective_reference_price 4.42
	// loan_rate 2.42
	// benchmark_price 5.03
}

// What PLC would have paid under the rules of 2026 at the price of a past year: 4.24 in 2024,
// when the five prices of 2018 to 2022 would have to be known; here they are not, and it says so.
func ExampleReplay() {
	r, err := explain.Replay(cases.Corn())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, y := range r.Farms[0].Commodities[0].Years {
		if y.CropYear == 2024 && y.Rules == explain.OfCropYear {
			fmt.Println(y.MYA.Value, y.PLC == nil, y.Missing)
		}
	}
	// Output: 4.24 true PLC: the national price of corn for crop year 2018; ARC-CO: the national price of corn for crop year 2018
}

// The prices that an answer rests on: that of 2025 is known, that of 2026 a projection with
// an interval around it.
func ExampleViewMarket() {
	q := cases.Corn()
	q.CropYears = []crop.CropYear{2025, 2026}
	for _, p := range explain.ViewMarket(q, []crop.Commodity{crop.Corn}, farm.Market{}).Prices {
		fmt.Println(p.CropYear, p.Mean.Value, p.Status, p.Low.Value < p.Mean.Value)
	}
	// Output:
	// 2025 4.15 agency false
	// 2026 4.8 projected true
}

// What the sources know of a county: one series of corn, with the benchmark yield of 2026, the
// average of the middle three of 184.20, 187.00, 193.10, 178.43 and 190.70.
func ExampleViewCounty() {
	view := explain.ViewCounty(cases.Corn(), "99001")
	for _, s := range view.Yields {
		for _, b := range s.Benchmarks {
			if b.CropYear == 2026 {
				fmt.Printf("%s, %s: %.2f\n", view.Name, s.Commodity, b.Yield)
			}
		}
	}
	// Output: Alder County, corn: 187.30
}

// New base of 2026: 150 acres were planted each year from 2019 to 2023, 120 are base, so that
// 30 are added (P.L. 119-21, sec. 10302).
func ExampleNewBase() {
	q, total := cases.Corn(), 200.0
	f := &q.Operation.Farms[0]
	f.TotalAcres = &total
	for y := 2019; y <= 2023; y++ {
		f.Planted = append(f.Planted, farm.Planting{CropYear: y, Commodity: "corn", Practice: farm.AllPractices, Acres: 150})
	}
	n, err := explain.NewBase(q, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: %.2f acres are added\n", *n.Farms[0].Eligible, *n.Farms[0].Added)
	// Output: true: 30.00 acres are added
}

// The figures behind each line of an answer, for those who work it out anew.
func ExampleWorkingsOf() {
	w, err := explain.WorkingsOf(cases.Corn(), 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	one := w.Commodities[0]
	fmt.Printf("%s %s: up to %.2f, on %.2f acres\n", one.Farm, one.Commodity, one.Target.Value, one.Bases[0].PaymentAcres)
	// Output: 99001-0417 corn: up to 4.42, on 102.00 acres
}

// A sheet for each commodity of a county, per base acre, for no farm in particular.
func ExampleMakeHandout() {
	q := cases.Corn()
	q.Draws = 256
	h, err := explain.MakeHandout(q, []string{"99001"}, nil, func(done int) {})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range h.Sheets {
		fmt.Println(s.CountyName, s.Commodity, s.Practice)
	}
	// Output: Alder County corn all
}
