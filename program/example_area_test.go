package program_test

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/farm"
)

// Corn of crop year 2026 under RP (Dakota Crop Insurance, SCO page, undated): 167 bushels
// expected at 4.56, 155 came at 4.10, 635.50 of 761.52 dollars. A policy of 250,000 dollars at 75
// percent makes a crop value of 333,333.33; SCO covers 11 percent of it.
func ExampleSCOBand() {
	band := program.SCOBand(0.86, 0.75)
	ratio := program.AreaRatio(farm.RevenueProtection, 167, 155, 4.56, 4.10)
	protection := band.Protection(250_000/0.75, 1)
	fmt.Printf("%.4f of expected, factor %.4f, %.2f of %.2f\n", ratio, band.Factor(ratio), program.Indemnity(protection, band.Factor(ratio)), protection)
	// Output: 0.8345 of expected, factor 0.2317, 8494.94 of 36666.67
}

// ECO 95 on the same policy at a harvest price of 4.20 and 170 bushels (Dakota Crop Insurance,
// ECO page, undated).
func ExampleECOBand() {
	band := program.ECOBand(0.95, 0.86)
	ratio := program.AreaRatio(farm.RevenueProtection, 167, 170, 4.56, 4.20)
	fmt.Printf("%.2f\n", program.Indemnity(band.Protection(250_000/0.75, 1), band.Factor(ratio)))
	// Output: 4133.84
}

// Cotton at 690 pounds and 0.78 expected, 90 percent less a range of 20 that a companion policy
// at 75 cuts to 15 (USDA RMA, STAX national fact sheet): 80.73 dollars an acre at most.
func ExampleSTAXBand() {
	band, ok := program.STAXBand(0.90, 0.20, 0.75, 0.70, 0.05)
	fmt.Printf("%.2f %v %.2f\n", band.Range, ok, band.Protection(program.STAXValue(690, 0.78, 1, 1), 1))
	// Output: 0.15 true 80.73
}
