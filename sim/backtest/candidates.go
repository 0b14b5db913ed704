package backtest

import (
	"fencerow/program/crop"
	"fencerow/sim/position"
)

// candidate is a rule of the mean county yield: that of row i of a commodity and year, whose
// outlook by the program's rule is o.
type candidate struct {
	mean func(c *commodityYear, i int, o position.Yield) crop.Yield
}
