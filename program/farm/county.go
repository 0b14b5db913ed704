package farm

import (
	"maps"
	"slices"
	"strings"

	"fencerow/program/crop"
)

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
	Insured        map[crop.CropYear]crop.Yield // RMA's county yields, per planted acre
	Harvested      map[crop.CropYear]crop.Yield // NASS's county yields, per harvested acre
}

// YieldOutlook is what a file says of a yield that is not final.
type YieldOutlook struct {
	Yield     *crop.Yield // mean; nil: by the program's own order of sources
	KnownFrom string      // stage of knowledge (sim/odds)
	SD        *crop.Yield // standard deviation, units per acre; 0: known; nil: by the stage
	Shape     string      // weibull, normal, t or lognormal; "" by the stage
}

// CountySource is one file, table or book with the counties it holds.
type CountySource struct {
	Name     string      // as shown to people: "alder.yaml", "FSA county table ..."
	Status   crop.Status // of its benchmark and actual yields
	Agency   bool        // an agency's table, not typed by the user
	Counties map[string]County
	Notes    []string `json:"-"` // for people: what of it is left out
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

// Practices returns how a county splits the yields of a commodity: all, or
// irrigated and nonirrigated. It goes by the newest benchmark at or before crop
// year y that some source has, since a county can change; without any by what
// yields there are, all before the pair.
func (b CountyBook) Practices(code string, c crop.Commodity, y crop.CropYear) []Practice {
	for back := 0; back <= mostYearsBack; back++ {
		found := b.practices(code, c, func(u CountyYield) bool {
			_, adjusted := u.Adjusted[y-back]
			_, published := u.BenchmarkYield[y-back]
			return adjusted || published
		})
		if len(found) > 0 {
			return found
		}
	}
	found := b.practices(code, c, func(CountyYield) bool { return true })
	if slices.Contains(found, AllPractices) {
		return []Practice{AllPractices}
	}
	return found
}

// mostYearsBack is how old a benchmark may be to say how a county splits its
// yields.
const mostYearsBack = 12

func (b CountyBook) practices(code string, c crop.Commodity, counts func(CountyYield) bool) []Practice {
	for _, source := range b {
		var found []Practice
		for _, y := range source.Counties[code].Yields {
			if y.Commodity == c && counts(y) && !slices.Contains(found, y.Practice) {
				found = append(found, y.Practice)
			}
		}
		if len(found) > 0 {
			return found
		}
	}
	return nil
}

// Codes returns the codes of all counties of a State, by its two digits, sorted.
func (b CountyBook) Codes(state string) []string {
	all := map[string]bool{}
	for _, source := range b {
		for code := range source.Counties {
			if strings.HasPrefix(code, state) {
				all[code] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(all))
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

// Called returns a county as a sentence names it: "Alder County (99001)", or "county
// 99001" where no source has its name.
func (b CountyBook) Called(code string) string {
	if name := b.Name(code); name != "" {
		return CountyName(code, name) + " (" + code + ")"
	}
	return "county " + code
}

// CountyName returns a county's name with its word, which the agencies' lists leave out:
// "Alder County" for "Alder".
func CountyName(code, name string) string {
	last := name[strings.LastIndex(name, " ")+1:]
	switch {
	case slices.Contains([]string{"County", "Parish", "Borough", "Area", "City", "Municipality"}, last):
		return name
	case strings.HasPrefix(code, louisiana):
		return name + " Parish"
	}
	return name + " County"
}

// louisiana is the State whose counties are parishes.
const louisiana = "22"
