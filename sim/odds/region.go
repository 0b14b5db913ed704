package odds

import (
	"fmt"
	"slices"

	"fencerow/program/crop"
)

// stateNames by the agency's two-digit state code (the FIPS codes of INCITS
// 38, U.S. Census Bureau).
var stateNames = map[string]string{
	"01": "Alabama", "02": "Alaska", "04": "Arizona", "05": "Arkansas", "06": "California", "08": "Colorado",
	"09": "Connecticut", "10": "Delaware", "12": "Florida", "13": "Georgia", "15": "Hawaii", "16": "Idaho",
	"17": "Illinois", "18": "Indiana", "19": "Iowa", "20": "Kansas", "21": "Kentucky", "22": "Louisiana",
	"23": "Maine", "24": "Maryland", "25": "Massachusetts", "26": "Michigan", "27": "Minnesota",
	"28": "Mississippi", "29": "Missouri", "30": "Montana", "31": "Nebraska", "32": "Nevada",
	"33": "New Hampshire", "34": "New Jersey", "35": "New Mexico", "36": "New York", "37": "North Carolina",
	"38": "North Dakota", "39": "Ohio", "40": "Oklahoma", "41": "Oregon", "42": "Pennsylvania",
	"44": "Rhode Island", "45": "South Carolina", "46": "South Dakota", "47": "Tennessee", "48": "Texas",
	"49": "Utah", "50": "Vermont", "51": "Virginia", "53": "Washington", "54": "West Virginia",
	"55": "Wisconsin", "56": "Wyoming",
}

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
	name, known := stateNames[state]
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
