package source

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// ParseGiven reads the price and county yields at which a farm is worked out. mya is
// one price, in the unit of the commodity, or one for each crop
// ("corn=4.10,soybeans=10.00"); countyYield is one yield, or one for each county and
// practice ("99001=188,99003:irrigated=201"; a county may have its name and State,
// "Story, Iowa=188"). The error is a Wrong.
func ParseGiven(mya, countyYield, commodity string) (explain.Given, error) {
	given := explain.Given{CountyYield: explain.CountyYields{}}
	if err := parsePrices(&given, mya, commodity); err != nil {
		return given, err
	}
	for _, pair := range yieldPairs(countyYield) {
		where, value, named := strings.Cut(pair, "=")
		if !named {
			where, value = "", pair
		}
		yield, err := positive("county-yield", value)
		if err != nil {
			return given, err
		}
		county, practice, _ := strings.Cut(strings.TrimSpace(where), ":")
		if practice != "" && practice != string(farm.Irrigated) && practice != string(farm.Nonirrigated) && practice != string(farm.AllPractices) {
			return given, Wrong{Field: "county-yield", Reason: fmt.Sprintf("names the practice %q", practice), Hint: "use all, irrigated or nonirrigated"}
		}
		if county != "" {
			code, fault := countyname.Find("the county of county-yield", county)
			if fault != nil {
				return given, Wrong{Reason: fault.Reason, Hint: fault.Hint}
			}
			county = code
		}
		place := explain.CountyPractice{County: county, Practice: farm.Practice(practice)}
		if _, twice := given.CountyYield[place]; twice {
			return given, Wrong{Field: "county-yield", Reason: "names " + placeName(place) + " twice", Hint: "give each yield once"}
		}
		given.CountyYield[place] = yield
	}
	return given, nil
}

// yieldPairs parts yields at their commas. What stands before a comma, has no "=" and is
// no number begins a name: "Story, Iowa=188".
func yieldPairs(text string) (pairs []string) {
	name := ""
	for _, piece := range strings.Split(text, ",") {
		_, err := strconv.ParseFloat(strings.TrimSpace(piece), 64)
		named := strings.Contains(piece, "=")
		switch {
		case !named && err != nil:
			name += piece + ","
			continue
		case !named && name != "":
			pairs, name = append(pairs, strings.TrimSuffix(name, ",")), ""
		}
		pairs, name = append(pairs, name+piece), ""
	}
	if name != "" {
		pairs = append(pairs, strings.TrimSuffix(name, ","))
	}
	return pairs
}

// parsePrices reads one price, or one for each crop: corn=4.10,soybeans=10.00.
func parsePrices(given *explain.Given, mya, commodity string) error {
	asked, _ := crop.ParseCommodity(commodity)
	given.Prices = map[crop.Commodity]crop.Price{}
	for _, pair := range strings.Split(mya, ",") {
		name, value, named := strings.Cut(pair, "=")
		if !named {
			name, value = commodity, pair
		}
		of, known := crop.ParseCommodity(strings.TrimSpace(name))
		if named && !known {
			return Wrong{Field: "mya", Reason: fmt.Sprintf("names %q", name), Hint: "name a crop, as in corn=4.10,soybeans=10.00"}
		}
		price, err := positive("mya", value)
		if err != nil {
			return err
		}
		if _, twice := given.Prices[of]; twice {
			return Wrong{Field: "mya", Reason: fmt.Sprintf("names %s twice", of.Name()), Hint: "give each price once"}
		}
		given.Prices[of] = price
	}
	price, has := given.Prices[asked]
	if !has {
		return Wrong{Field: "mya", Reason: fmt.Sprintf("has no price of %s", commodity), Hint: "give the price of the crop explained too"}
	}
	given.MYA = price
	return nil
}

// positive reads a number of 0 or more; field is named in the error.
func positive(field, text string) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(x >= 0 && x < 1e9) {
		return 0, Wrong{Field: field, Reason: fmt.Sprintf("is %q", text), Hint: "give a number such as 4.10"}
	}
	return x, nil
}

// CheckGiven refuses a price or county yield that the farm has no use for: it would be
// ignored, and nobody would notice. The error is a Wrong.
func CheckGiven(asked answer.Question, f farm.Farm, k crop.Commodity, given explain.Given) error {
	y := asked.CropYears[0]
	places, err := explain.CountyPractices(asked, f, k, y)
	if err != nil {
		return err
	}
	var names []string
	for _, p := range places {
		names = append(names, placeName(p))
	}
	hint := "name what the base of " + k.Name() + " has: " + strings.Join(names, ", ")
	for _, p := range sortedPlaces(given.CountyYield) {
		inCounty := func(has explain.CountyPractice) bool { return p.County == "" || p.County == has.County }
		known := func(has explain.CountyPractice) bool {
			return inCounty(has) && (p.Practice == "" || has.Practice == "" || p.Practice == has.Practice)
		}
		switch {
		case !slices.ContainsFunc(places, inCounty):
			return Wrong{Field: "county-yield", Reason: fmt.Sprintf("names county %s, where farm %s has no base of %s", p.County, f.Key(), k.Name()), Hint: hint}
		case !slices.ContainsFunc(places, known):
			return Wrong{Field: "county-yield", Reason: fmt.Sprintf("names %s:%s, a practice without a county yield of %s", p.County, p.Practice, k.Name()), Hint: hint}
		}
	}
	return checkPrices(f, y, given)
}

// checkPrices refuses the price of a crop that the farm neither has base of nor plants.
func checkPrices(f farm.Farm, y crop.CropYear, given explain.Given) error {
	var of, names []string
	for _, c := range crop.Commodities() {
		has := slices.Contains(f.Commodities(), c) || f.PlantedAcres(string(c), y)+f.PreventedAcres(string(c), y) > 0
		_, priced := given.Prices[c]
		switch {
		case has:
			names = append(names, string(c))
		case priced:
			of = append(of, string(c))
		}
	}
	if len(of) == 0 {
		return nil
	}
	return Wrong{Field: "mya", Reason: fmt.Sprintf("names %s, of which farm %s has no base and no planting in %d", strings.Join(of, ", "), f.Key(), y), Hint: "name only the farm's crops: " + strings.Join(names, ", ")}
}

// sortedPlaces returns the counties and practices that have a yield, sorted by
// placeName.
func sortedPlaces(yields explain.CountyYields) []explain.CountyPractice {
	return slices.SortedFunc(maps.Keys(yields), func(a, b explain.CountyPractice) int { return strings.Compare(placeName(a), placeName(b)) })
}

// placeName writes a county and practice as the flag takes them.
func placeName(p explain.CountyPractice) string {
	switch {
	case p == explain.CountyPractice{}:
		return "all counties"
	case p.Practice == "":
		return p.County
	}
	return p.County + ":" + string(p.Practice)
}
