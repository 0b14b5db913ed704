package builtin

import (
	"fmt"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// byAgency are counties by agency and code.
type byAgency map[string]map[string]farm.County

// The kinds of lines. NASS's classes of wheat follow kindHarvested: "nass_winter".
const (
	kindName      = "name"
	kindActual    = "actual"        // FSA, per planted acre
	kindBenchmark = "benchmark"     // FSA, by program year
	kindAdjusted  = "adjusted_five" // FSA, the five trend-adjusted yields of one program year; first_year is the oldest
	kindInsured   = "rma"           // per planted acre
	kindHarvested = "nass"          // per harvested acre
)

// adjustedLag is by how many years the oldest adjusted yield lies before the program
// year. Source: USDA FSA, headings of the ARC-CO county tables from 2019 on.
const adjustedLag = 6

// line is one line of a State's member.
type line struct {
	county, commodity, practice, kind string
	first                             crop.CropYear // of a series
	values                            string        // with commas; an empty one is missing
}

// split takes a line apart. Only names have quotes, and they stand last.
func split(text string) (l line, err error) {
	cells := strings.SplitN(text, ",", 6)
	if len(cells) < 6 {
		return l, fmt.Errorf("built-in county tables: line %q", text)
	}
	l = line{county: cells[0], commodity: cells[1], practice: cells[2], kind: cells[3], values: cells[5]}
	if l.kind != kindName {
		l.first, err = strconv.Atoi(cells[4])
	}
	return l, err
}

// parse reads the lines of the counties whose code begins with prefix.
func parse(text, prefix string) (byAgency, error) {
	found := byAgency{}
	name, of := "", ""
	for len(text) > 0 {
		var one string
		one, text, _ = strings.Cut(text, "\n")
		if !strings.HasPrefix(one, prefix) {
			continue
		}
		l, err := split(one)
		if err != nil {
			return nil, err
		}
		if l.kind == kindName {
			name, of = l.values, l.county
			continue
		}
		if of != l.county {
			name, of = "", l.county
		}
		if err := found.add(l, name); err != nil {
			return nil, fmt.Errorf("built-in county tables: line %q: %w", one, err)
		}
	}
	return found, nil
}

// add adds a series to its county.
func (b byAgency) add(l line, name string) error {
	agency := "FSA"
	switch {
	case l.kind == kindInsured:
		agency = "RMA"
	case strings.HasPrefix(l.kind, kindHarvested):
		agency = "NASS"
	}
	if b[agency] == nil {
		b[agency] = map[string]farm.County{}
	}
	county, has := b[agency][l.county]
	if !has {
		county = farm.County{Code: l.county, Name: name}
	}
	y := &farm.CountyYield{Commodity: crop.Commodity(l.commodity), Practice: farm.Practice(l.practice)}
	last := len(county.Yields) - 1
	if agency == "FSA" && last >= 0 && county.Yields[last].Commodity == y.Commodity && county.Yields[last].Practice == y.Practice {
		y = &county.Yields[last] // FSA's kinds stand side by side
	} else {
		county.Yields = append(county.Yields, *y)
		y = &county.Yields[last+1]
	}
	err := l.put(y)
	b[agency][l.county] = county
	return err
}

// put puts the values of a series where they belong.
func (l line) put(y *farm.CountyYield) error {
	if l.kind == kindAdjusted {
		return l.putFive(y)
	}
	series := make(map[crop.CropYear]crop.Yield, strings.Count(l.values, ",")+1)
	err := l.each(func(at int, value crop.Yield) { series[l.first+at] = value })
	switch l.kind {
	case kindActual:
		y.Actual = series
	case kindBenchmark:
		y.BenchmarkYield = series
	case kindInsured:
		y.Insured = series
	default:
		y.Harvested = series
	}
	return err
}

// putFive puts the five adjusted yields of a program year.
func (l line) putFive(y *farm.CountyYield) error {
	var five [5]crop.Yield
	known := 0
	err := l.each(func(at int, value crop.Yield) {
		if known++; at < len(five) {
			five[at] = value
		}
	})
	if err == nil && known != len(five) {
		err = fmt.Errorf("%d adjusted yields", known)
	}
	y.Adjusted = map[crop.CropYear][5]crop.Yield{l.first + adjustedLag: five}
	return err
}

// each gives the values that are not missing, by their place.
func (l line) each(take func(at int, value crop.Yield)) error {
	rest, more := l.values, true
	for at := 0; more; at++ {
		var cell string
		if cell, rest, more = strings.Cut(rest, ","); cell == "" {
			continue
		}
		value, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			return err
		}
		take(at, value)
	}
	return nil
}
