package program

import (
	"math"
	"strconv"
)

// scales are the powers of ten by number of decimals.
var scales = [...]float64{1, 10, 100, 1000, 10_000, 100_000, 1_000_000, 10_000_000, 100_000_000}

// Lift is the factor by which a product is raised before it is rounded: binary
// arithmetic leaves some just under a half, such as 1.15 x 3.70 = 4.2549999....
const Lift = 1 + 1e-12

// Round rounds x half up (away from zero) to a number of decimals, as FSA does
// at every step of its tables. Plain binary rounding misses 855 published
// benchmark revenues; this form misses none.
//
// Source: recomputation of FSA's ARC-CO county tables, program years 2014-2025
// (docs/validation.md).
func Round(x float64, decimals int) float64 {
	s := scales[decimals]
	y := float64(x * s * Lift)
	whole := math.Floor(y + half) // as math.Round, in one instruction
	if off := whole - y; off > half || off == half && y < 0 {
		whole--
	}
	return whole / s
}

const half = 0.5

// HalfCent is the least money, USD, that is not written as 0.00.
const HalfCent = 0.005

// OneCent is what money is rounded to, USD.
const OneCent = 0.01

// centDecimals are the decimals of money and of revenue per acre.
const centDecimals = 2

// Cent rounds money, or revenue per acre, to the cent.
func Cent(x float64) float64 { return Round(x, centDecimals) }

// Text writes x with a number of decimals, half up as Round; what rounds to zero has no
// sign. Beyond a billion, more than any farm is paid, the lift of Round would be more
// than a cent, and the nearest decimal is written.
func Text(x float64, decimals int) string {
	if math.Abs(x) < 1e9 {
		x = Round(x, decimals) + 0
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

// conversionDecimals keep what a change of unit may add to a statutory price
// (USD 16.9845 per cwt is 0.169845 per pound) and drop binary noise.
const conversionDecimals = 8
