package program

import (
	"fencerow/program/crop"
)

// TenAcreBars reports whether a producer is paid nothing because of too little
// base: at most least acres (10) on the farms counted, and no exemption. Exactly
// ten acres are too few.
//
// Source: 7 U.S.C. 9014(d).
func TenAcreBars(baseAcres, least crop.Acres, exempt bool) bool {
	return !exempt && Round(baseAcres, 2) <= least // base acres are recorded to the hundredth
}
