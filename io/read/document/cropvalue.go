package document

import (
	"fmt"
	"regexp"
	"strconv"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

var fourDigits = regexp.MustCompile(`^[0-9]{4}$`)

// CropYear returns a crop year within the span.
func (r *Reader) CropYear(n Node, what string, span farm.Span) (year crop.CropYear, ok bool) {
	if n.Kind != Scalar || !fourDigits.MatchString(n.Text) {
		r.Refuse(n, fmt.Sprintf("%s is %s, not a crop year", what, n.describe()), "write the calendar year of harvest in four digits, such as 2026")
		return 0, false
	}
	year, _ = strconv.Atoi(n.Text) // four digits
	return year, r.Check(n, span.Check(what, year))
}

// Commodity returns a commodity, by its key or any spelling of the agency.
func (r *Reader) Commodity(n Node, what string) (c crop.Commodity, ok bool) {
	if n.Kind == Scalar {
		if c, ok = crop.ParseCommodity(n.Text); ok {
			return c, true
		}
	}
	var keys []string
	for _, known := range crop.Commodities() {
		keys = append(keys, string(known))
	}
	r.Refuse(n, fmt.Sprintf("%s is %s, which is no covered crop", what, n.describe()), oneOf("it", n.Text, keys))
	return "", false
}

// ByCropYear returns a map with a value for each crop year. read gets the value
// and what it is called in messages, and reports whether it was read.
func ByCropYear[V any](r *Reader, n Node, what string, span farm.Span, read func(value Node, what string, year crop.CropYear) (V, bool)) map[crop.CropYear]V {
	found := map[crop.CropYear]V{}
	r.Entries(n, what+" by crop year", func(key, value Node) {
		year, ok := r.CropYear(key, "crop year of "+what, span)
		if !ok {
			return
		}
		if v, ok := read(value, fmt.Sprintf("%s of crop year %d", what, year), year); ok {
			found[year] = v
		}
	})
	return found
}

// ByCommodity reads a map with a value for each commodity; a commodity under
// two spellings is refused.
func (r *Reader) ByCommodity(n Node, what string, read func(c crop.Commodity, key, value Node)) {
	lines := map[crop.Commodity]int{}
	r.Entries(n, what, func(key, value Node) {
		c, ok := r.Commodity(key, "crop of "+what)
		if !ok {
			return
		}
		if line, twice := lines[c]; twice {
			r.Refuse(key, fmt.Sprintf("%s stands twice in %s", c.Name(), what), fmt.Sprintf("it is also on line %d; keep one of them", line))
			return
		}
		lines[c] = key.Line
		read(c, key, value)
	})
}
