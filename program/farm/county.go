package farm

import "fencerow/program/crop"

// Practice is how a county yield is split.
type Practice string

// The practices.
const (
	AllPractices Practice = "all"
	Irrigated    Practice = "irrigated"
	Nonirrigated Practice = "nonirrigated"
)

// County is what one source says of one county.
type County struct {
	Code   string // five digits, and a sub-county letter where there is one
	Name   string
	Yields []CountyYield
}

// CountyYield is one commodity and practice. All yields are per planted acre in
// the unit of the commodity.
type CountyYield struct {
	Commodity      crop.Commodity
	Practice       Practice
	Adjusted       map[crop.CropYear][5]crop.Yield // the five of the program year, oldest first
	BenchmarkYield map[crop.CropYear]crop.Yield    // as published
	Actual         map[crop.CropYear]crop.Yield
	Plug           map[crop.CropYear]crop.Yield // 80 percent of the T-yield
	Trend          map[crop.CropYear]crop.Yield // units per acre and year
	Outlook        map[crop.CropYear]YieldOutlook
	History        map[crop.CropYear]crop.Yield // a long series, for variability
}

// YieldOutlook is what a file says of a yield that is not final.
type YieldOutlook struct {
	Yield     *crop.Yield // mean; nil: by the program's own order of sources
	KnownFrom string      // stage of knowledge (sim/odds)
	SD        *crop.Yield // spread in units, 0 for known; nil: by the stage
	Shape     string      // weibull, normal, t or lognormal; "" by the stage
}

// CountySource is one file, table or book with the counties it holds.
type CountySource struct {
	Name     string      // as shown to people: "alder.yaml", "FSA county table ..."
	Status   crop.Status // of its benchmark and actual yields
	Agency   bool        // an agency's table, not typed by the user
	Counties map[string]County
}

// CountyBook is an ordered list of sources: the first that has a figure wins.
type CountyBook []CountySource

// Entry is one source's word on one county, commodity and practice.
type Entry struct {
	CountyYield
	CountyName string
	Source     CountySource
}

// Entries returns every source's entry for a county, commodity and practice,
// in the book's order.
func (b CountyBook) Entries(code string, c crop.Commodity, p Practice) []Entry {
	var found []Entry
	for _, source := range b {
		county, ok := source.Counties[code]
		if !ok {
			continue
		}
		for _, y := range county.Yields {
			if y.Commodity == c && y.Practice == p {
				found = append(found, Entry{CountyYield: y, CountyName: county.Name, Source: source})
			}
		}
	}
	return found
}

// Practices returns how the first source that has any yield of the commodity
// in the county splits it: all, or irrigated and nonirrigated. A source with a
// benchmark for crop year y goes before one without.
func (b CountyBook) Practices(code string, c crop.Commodity, y crop.CropYear) []Practice {
	withBenchmark := func(u CountyYield) bool {
		_, adjusted := u.Adjusted[y]
		_, published := u.BenchmarkYield[y]
		return adjusted || published
	}
	if found := b.practices(code, c, withBenchmark); len(found) > 0 {
		return found
	}
	return b.practices(code, c, func(CountyYield) bool { return true })
}

func (b CountyBook) practices(code string, c crop.Commodity, counts func(CountyYield) bool) []Practice {
	for _, source := range b {
		var found []Practice
		for _, y := range source.Counties[code].Yields {
			if y.Commodity == c && counts(y) {
				found = append(found, y.Practice)
			}
		}
		if len(found) > 0 {
			return found
		}
	}
	return nil
}

// Name returns the county's name, or "" where no source has one.
func (b CountyBook) Name(code string) string {
	for _, source := range b {
		if name := source.Counties[code].Name; name != "" {
			return name
		}
	}
	return ""
}
