package source

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// FindFarm finds a farm by its number, where it is the only one of that number, else by
// its key of county and number. The error is a Wrong.
func FindFarm(o farm.Operation, name string) (farm.Farm, error) {
	var found []farm.Farm
	var keys []string
	for _, f := range o.Farms {
		keys = append(keys, f.Key())
		if f.Key() == name || f.Number == name {
			found = append(found, f)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return farm.Farm{}, Wrong{Reason: fmt.Sprintf("no farm %q in the operation", name), OneOf: "farm", Choices: keys}
	}
	return farm.Farm{}, Wrong{Reason: fmt.Sprintf("several farms have the number %q", name), Hint: "name the county too: " + strings.Join(keys, ", ")}
}

// FindCommodity reads a commodity in any agency spelling and checks that the farm has
// base of it. The error is a Wrong.
func FindCommodity(f farm.Farm, name string) (crop.Commodity, error) {
	var keys []string
	k, known := crop.ParseCommodity(name)
	for _, c := range f.Commodities() {
		if known && c == k {
			return k, nil
		}
		keys = append(keys, string(c))
	}
	return k, Wrong{Reason: fmt.Sprintf("farm %s has no base of %q", f.Key(), name), OneOf: "commodity", Choices: keys}
}

// ParseCommodities reads commodities in any agency spelling, with commas: "corn,soybeans".
// "" is none. The error is a Wrong.
func ParseCommodities(text string) (only []crop.Commodity, err error) {
	if text == "" {
		return nil, nil
	}
	for _, word := range strings.Split(text, ",") {
		commodity, ok := crop.ParseCommodity(word)
		if !ok {
			return nil, Wrong{Field: "commodity", Reason: fmt.Sprintf("names %q", word), Hint: "give keys such as corn,soybeans,long_grain_rice"}
		}
		only = append(only, commodity)
	}
	return only, nil
}

// ParseCropYears reads "2026" or "2026,2027", each once. "" is none. The error is a Wrong.
func ParseCropYears(text string) (years []crop.CropYear, err error) {
	if text == "" {
		return nil, nil
	}
	first, last := LawYears()
	for _, word := range strings.Split(text, ",") {
		y, err := strconv.Atoi(strings.TrimSpace(word))
		if err != nil || y < first || y > last {
			return nil, Wrong{Field: "crop-year", Reason: fmt.Sprintf("names %q", word), Hint: fmt.Sprintf("give crop years from %d to %d, as 2026 or 2026,2027", first, last)}
		}
		if !slices.Contains(years, y) {
			years = append(years, y)
		}
	}
	return years, nil
}

// LawYears are the first and last crop year that the program's law covers.
func LawYears() (first, last crop.CropYear) {
	rows := law.Rows("guarantee_share")
	first, last = rows[0].First, rows[0].Last
	for _, row := range rows {
		first, last = min(first, row.First), max(last, row.Last)
	}
	return first, last
}
