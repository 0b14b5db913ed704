package odds

import (
	"fmt"
	"slices"

	"fencerow/program/crop"
)

// irrigatedWest are the states where an irrigated yield does not feel the
// droughts that move the nation's price: Plains and West, a judgement.
var irrigatedWest = []string{
	"Arizona", "California", "Colorado", "Idaho", "Kansas", "Montana", "Nebraska", "Nevada", "New Mexico",
	"North Dakota", "Oklahoma", "Oregon", "South Dakota", "Texas", "Utah", "Washington", "Wyoming",
}

const elsewhere = "elsewhere"

// PriceYieldCorrelation returns the correlation of the yield of a county with
// the national price of its commodity before harvest, by state (two digits)
// and practice, and in words which rule gave it. It is that of the Gaussian
// copula. Irrigated yields of the Plains and the West have the commodity's row
// for elsewhere. An unknown state such as 99 is taken to be in the Corn Belt
// for corn and soybeans, elsewhere for other commodities.
func PriceYieldCorrelation(c crop.Commodity, state, practice string) (rho float64, rule string) {
	name, known := crop.StateNames[state]
	remark := ""
	switch {
	case !known && (c == crop.Corn || c == crop.Soybeans):
		name, remark = "Illinois", "; state unknown, taken as Corn Belt"
	case !known:
		remark = "; state unknown"
	case practice == "irrigated" && slices.Contains(irrigatedWest, name):
		name, remark = elsewhere, "; irrigated"
	}
	listed, row, region := correlationRow(c, name)
	return row.Value, fmt.Sprintf("price with county yields of %s, %s%s", listed, region, remark)
}

// regions are the names of the groups of states in parameters.csv.
var regions = []string{
	"Corn Belt", "Plains", "Michigan and Northeast", "South, Texas, irrigated West", "Kansas and the Dakotas",
	"other Plains wheat", "Kansas and Oklahoma", "North Dakota and Minnesota", elsewhere, "all states",
}

// correlationRow finds the row of a state, else of elsewhere, else that of
// commodities without measurements.
func correlationRow(c crop.Commodity, state string) (listed string, row parameter, region string) {
	const param = "rho_price_county_yield_default"
	as := measuredAs(c)
	if isRice(c) {
		as = measuredAs(crop.LongGrainRice)
	}
	for _, where := range [][2]string{{as, state}, {as, elsewhere}, {"other", elsewhere}} {
		for _, region := range regions {
			if row, ok := find(param, where[0], where[1], region); ok {
				if where[0] == "other" {
					return "commodities without measurements", row, region
				}
				return c.Name(), row, region
			}
		}
	}
	panic("sim/odds/parameters.csv: no " + param + " for other commodities")
}

func isRice(c crop.Commodity) bool {
	return c == crop.LongGrainRice || c == crop.MediumGrainRice || c == crop.TemperateJaponicaRice
}
