package program_test

import (
	"fmt"

	"fencerow/program"
)

// The average of the middle three of five adjusted county yields: (184.20 + 187.00 + 190.70)/3.
func ExampleBenchmarkYield() {
	fmt.Printf("%.2f\n", program.BenchmarkYield([5]float64{184.20, 187.00, 193.10, 178.43, 190.70}, 2))
	// Output: 187.30
}

// A county with two yields, and 40 percent of the base with irrigated history: the guarantees of 900
// and 540 are weighted, 0.4 x 900 + 0.6 x 540.
func ExampleWeighted() {
	irrigated, dry := program.NewARCCO(200, 5.00, 0.90, 0.12), program.NewARCCO(120, 5.00, 0.90, 0.12)
	fmt.Printf("%.2f\n", program.Weighted(0.4, irrigated, dry).Guarantee)
	// Output: 684.00
}

// The bases of a commodity together are paid the larger sum, as the law of 2025 has it.
func ExampleHigherOf() {
	fmt.Println(program.HigherOf(4335.00, 5202.00))
	// Output: 5202
}

// 5.7 percent of 1,000.00 are withheld.
func ExampleAfterSequestration() {
	fmt.Printf("%.2f\n", program.AfterSequestration(1000, 0.057))
	// Output: 943.00
}

// Exactly ten acres of base are too few, but for those who are exempt (7 U.S.C. 9014(d)).
func ExampleTenAcreBars() {
	fmt.Println(program.TenAcreBars(10, 10, false), program.TenAcreBars(10.01, 10, false), program.TenAcreBars(8, 10, true))
	// Output: true false false
}

// Half up, as FSA rounds, also where binary arithmetic lies just under the half: 1.15 x 3.70
// is 4.255.
func ExampleRound() {
	fmt.Println(program.Round(1.15*3.70, 2), program.Text(0.005, 2))
	// Output: 4.26 0.01
}

// The mean plantings of five years are 150 acres, the base is 120, the farm has 140: 20 are added
// (P.L. 119-21, sec. 10302).
func ExampleNewBase() {
	n := program.NewBase{CoveredMean: 150, TotalAcres: 140, ExistingBase: 120, NoncoveredShare: 0.15}
	fmt.Println(n.Eligible(), n.Added())
	// Output: true 20
}
