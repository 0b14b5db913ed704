package program

import (
	"fencerow/program/crop"
)

// HigherOf returns what a commodity of a farm is paid, USD, in a crop year whose
// law pays the higher of PLC and ARC-CO, whatever was elected; plc and arcCO are
// the payments on all the farm's payment acres of the commodity.
//
// Source: 7 U.S.C. 9015 as amended by P.L. 119-21 sec. 10303; crop year 2025.
func HigherOf(plc, arcCO crop.Money) crop.Money { return max(plc, arcCO) }
