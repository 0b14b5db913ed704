package explain

import (
	"cmp"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// LeftOut is a county and commodity without a sheet.
type LeftOut struct {
	State      string         `json:"state"` // its name, "" where the code is of none
	County     string         `json:"county"`
	CountyName string         `json:"county_name"`
	Commodity  crop.Commodity `json:"commodity"` // "": the county has no sheet at all
	Practice   farm.Practice  `json:"practice"`  // "": none of the commodity
	Why        string         `json:"why"`
	Do         string         `json:"do"` // what to do about it
}

// String names what is left out and why: "Alder County (99001), corn: no benchmark yield".
func (l LeftOut) String() string {
	what := "county " + l.County
	if l.CountyName != "" {
		what = farm.CountyName(l.County, l.CountyName) + " (" + l.County + ")"
	}
	if l.Commodity != "" {
		what += ", " + l.Commodity.Name()
	}
	if l.Practice != "" && l.Practice != farm.AllPractices {
		what += " " + string(l.Practice)
	}
	return what + ": " + l.Why
}

// What to do where a sheet lacks a figure.
const (
	enterPrice = "Enter it in a market file, and name that with --market."
	enterYield = "Import FSA's county table (fencerow county import FILE), or give a county file."
)

// byStateAndName sorts counties by the name of their State, then by their own, without
// repeats. A State without a name stands last.
func byStateAndName(book farm.CountyBook, codes []string) []string {
	key := func(code string) string {
		state := crop.StateNames[position.StateOf(code)]
		if state == "" {
			state = "\uffff" + position.StateOf(code)
		}
		return state + "\x00" + strings.ToLower(farm.CountyName(code, book.Name(code))) + "\x00" + code
	}
	sorted := slices.SortedFunc(slices.Values(codes), func(a, b string) int { return cmp.Compare(key(a), key(b)) })
	return slices.Compact(sorted)
}

// countyFarms returns the farms behind the sheets of a county, one for each commodity
// and practice, and what is left out: of the commodities asked about, or else of those
// that a source has of the county.
func countyFarms(c answer.Question, code string, only []crop.Commodity) (farms []farm.Farm, left []LeftOut) {
	place := LeftOut{State: crop.StateNames[position.StateOf(code)], County: code, CountyName: c.Counties.Name(code)}
	leave := func(commodity crop.Commodity, practice farm.Practice, why, do string) {
		l := place
		l.Commodity, l.Practice, l.Why, l.Do = commodity, practice, why, do
		left = append(left, l)
	}
	y := c.CropYears[0]
	for _, commodity := range crop.Commodities() {
		practices := c.Counties.Practices(code, commodity, y)
		switch {
		case len(only) > 0 && !slices.Contains(only, commodity):
			continue
		case len(practices) == 0:
			if len(only) > 0 {
				leave(commodity, "", "no source has a yield of it", enterYield)
			}
			continue
		}
		terms, err := program.TermsFor(commodity, y)
		if _, priced := c.Sources().Price(commodity, y, terms.PriceDecimals); err != nil || !priced {
			leave(commodity, "", "no projected price", enterPrice)
			continue
		}
		for _, practice := range practices {
			f, why, do := sheetFarm(c, position.CountyUnit{County: code, Commodity: commodity, Practice: practice, CropYear: y}, terms)
			if why != "" {
				leave(commodity, practice, why, do)
				continue
			}
			farms = append(farms, f)
		}
	}
	if len(farms) == 0 && len(left) == 0 {
		leave("", "", "no source has a yield of it", enterYield)
	}
	return farms, left
}

// sheetFarm returns the farm of a sheet, or why its figures cannot be worked out and what
// to do.
func sheetFarm(c answer.Question, u position.CountyUnit, terms program.Terms) (f farm.Farm, why, do string) {
	benchmark, ok := c.Sources().BenchmarkYield(u, terms.YieldDecimals)
	if !ok {
		return f, "no benchmark yield", enterYield
	}
	f = countyFarm(u.County, u.Commodity, u.Practice, program.Round(answer.AssumedPaymentYield*benchmark.Value, 0))
	base := c.Sources().CommodityBase(f, u.Commodity, u.CropYear, terms)
	switch {
	case base.PLCMissing != "":
		return f, "not known: " + base.PLCMissing, enterPrice
	case base.ARCMissing != "":
		return f, "not known: " + base.ARCMissing, enterYield
	}
	return f, "", ""
}
