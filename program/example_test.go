package program_test

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/farm"
)

// Corn of crop year 2016: the price of 3.36 is 34 cents under the reference
// price (DTN, 29 September 2017).
func ExamplePLC_Rate() {
	corn := program.PLC{TargetPrice: 3.70, LoanRate: 1.95, Decimals: 2}
	rate := corn.Rate(3.36)
	fmt.Printf("%.2f per bushel, %.2f on 100 base acres with a payment yield of 150\n",
		rate, program.PLCPayment(rate, 150, program.PaymentAcres(100, 0.85)))
	// Output: 0.34 per bushel, 4335.00 on 100 base acres with a payment yield of 150
}

// Long grain rice in hundredweight, before the Act of 2025 (Farm CPA Report, 3
// June 2025): the guarantee of 957.36 less the actual revenue of 886.43.
func ExampleARCCO_Rate() {
	rice := program.NewARCCO(73.869, 15.07, 0.86, 0.10)
	actual := program.ActualRevenue(73.869, program.ActualPrice(12.00, 7.00))
	fmt.Printf("%.2f - %.2f = %.2f, at most %.2f\n", rice.Guarantee, actual, rice.Rate(actual), rice.Maximum)
	// Output: 957.36 - 886.43 = 70.93, at most 111.32
}

// The terms of a commodity and crop year come from the law's rows.
func ExampleTermsFor() {
	terms, err := program.TermsFor("corn", 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	prices := [5]float64{4.53, 6.00, 6.54, 4.55, 4.24} // crop years 2020 to 2024
	target := terms.TargetPrice(prices)
	fmt.Printf("reference price %.2f, effective %.2f, benchmark price %.2f\n",
		terms.ReferencePrice, target, program.BenchmarkPrice(prices, target, terms.BenchmarkDecimals))
	// Output: reference price 4.10, effective 4.42, benchmark price 5.03
}

// Corn of crop year 2025: 88 percent of the middle three prices of 2019 to 2023,
// between the reference price and 115 percent of it (CODAK Group, January 2026).
func ExampleEffectiveReferencePrice() {
	prices := [5]float64{3.56, 4.53, 6.00, 6.54, 4.55}
	fmt.Printf("%.2f\n", program.EffectiveReferencePrice(4.10, 0.88, 1.15, prices, 2))
	// Output: 4.42
}

// Half of what a joint operation earns reaches each of two partners, who each may be paid
// 155,000: of 200,000 each, 45,000 are kept back.
func ExampleNewAttribution() {
	firm := farm.Producer{ID: "firm", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}}
	a := program.NewAttribution([]farm.Producer{firm}, program.LimitRule{Limit: 155_000, CropYear: 2026})
	n := len(a.Recipients)
	earned, arrived, paid := make([]float64, n), make([]float64, n), make([]float64, n)
	earned[a.Find("firm")] = 400_000
	a.Trace(program.GeneralPool, earned, arrived, paid)
	for i, r := range a.Recipients {
		fmt.Printf("%s: %.0f arrives, %.0f stays\n", r.ID, arrived[i], paid[i])
	}
	// Output:
	// ann: 200000 arrives, 155000 stays
	// ben: 200000 arrives, 155000 stays
	// firm: 400000 arrives, 0 stays
}

// A farm's own benchmark revenue of 800.00 guarantees 90 percent, 720.00; 160 bushels at
// 4.20 are 672.00, 48.00 less. 65 percent of 120 base acres are 78; 48.00 x 78 = 3,744.00.
func ExampleNewARCIC() {
	crops := []program.IndividualCrop{{Share: 1, PlantedAcres: 100, BenchmarkRevenue: 800}}
	coverage, ok := program.NewARCIC(crops, 0.90, 0.12)
	rate := coverage.Rate(program.IndividualRevenue(crops, []float64{160}, []float64{4.20}))
	fmt.Printf("%v: %.2f per acre, %.2f in all\n", ok, rate, program.ARCICPayment(rate, program.PaymentAcres(120, 0.65)))
	// Output: true: 48.00 per acre, 3744.00 in all
}

// Ten acres in three equal parts: the hundredth that is left goes to the first.
func ExampleSharedBase() {
	fmt.Println(program.SharedBase(10, []float64{50, 50, 50}))
	// Output: [3.34 3.33 3.33]
}
