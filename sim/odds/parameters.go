package odds

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"

	"fencerow/program/crop"
)

// rowKey names one row of parameters.csv.
type rowKey struct {
	Param     string
	Commodity string // a commodity, a pair joined by "|", "all" or "other"
	Region    string
	Key       string // horizon, stage or month
}

// parameter is one row: a number of the model and where it comes from.
type parameter struct {
	Value  float64
	Count  string // number of observations
	Period string // years observed
	Source string // in words
	Note   string
}

const parameterHeader = "param,commodity,region,key,value,n,period,source,note"

//go:embed parameters.csv
var parameterFile string

//go:embed parameter_sources.csv
var parameterSourceFile string

// parameterSources are the sources of parameters.csv in words, by their keys.
var parameterSources = sync.OnceValue(func() map[string]string {
	rows, err := csv.NewReader(strings.NewReader(parameterSourceFile)).ReadAll()
	if err != nil {
		panic("sim/odds/parameter_sources.csv: " + err.Error())
	}
	words := map[string]string{}
	for _, row := range rows[1:] {
		words[row[0]] = row[1]
	}
	return words
})

var parameters = sync.OnceValue(func() map[rowKey]parameter {
	table, err := readParameters(strings.NewReader(parameterFile))
	if err != nil {
		panic("sim/odds/parameters.csv: " + err.Error())
	}
	return table
})

// readParameters refuses unknown columns, blank names, values and sources,
// values that are no numbers, and two rows of one name.
func readParameters(text io.Reader) (map[rowKey]parameter, error) {
	rows := csv.NewReader(text)
	header, err := rows.Read()
	if err != nil {
		return nil, err
	}
	if got := strings.Join(header, ","); got != parameterHeader {
		return nil, fmt.Errorf("the columns are %q, not %q", got, parameterHeader)
	}
	table := map[rowKey]parameter{}
	words := parameterSources()
	for {
		row, err := rows.Read()
		if err == io.EOF {
			return table, nil
		}
		if err != nil {
			return nil, err
		}
		line, _ := rows.FieldPos(0)
		key := rowKey{row[0], row[1], row[2], row[3]}
		value, err := strconv.ParseFloat(row[4], 64)
		if err != nil {
			return nil, fmt.Errorf("line %d: value %q of %v is not a number", line, row[4], key)
		}
		if row[0] == "" || row[1] == "" || row[2] == "" || row[3] == "" || row[7] == "" {
			return nil, fmt.Errorf("line %d: %v needs param, commodity, region, key and source", line, key)
		}
		if words[row[7]] == "" {
			return nil, fmt.Errorf("line %d: the source %q of %v is not in parameter_sources.csv", line, row[7], key)
		}
		if _, twice := table[key]; twice {
			return nil, fmt.Errorf("line %d: %v stands twice", line, key)
		}
		table[key] = parameter{Value: value, Count: row[5], Period: row[6], Source: words[row[7]], Note: row[8]}
	}
}

// onLookup is called with every row that is used; a test sets it to find rows that
// nothing uses.
var onLookup = func(rowKey) {}

// find returns a row of parameters.csv; ok is false where there is none.
func find(param, commodity, region, key string) (parameter, bool) {
	k := rowKey{param, commodity, region, key}
	p, ok := parameters()[k]
	if ok {
		onLookup(k)
	}
	return p, ok
}

// must returns a number that the model cannot do without. A test holds that all rows
// are there, so it panics where one is missing.
func must(param, commodity, region, key string) float64 {
	return Usual.must(param, commodity, region, key)
}

// between returns a number given for a pair of commodities, in whichever order.
func between(param, a, b, region, key string) (float64, bool) {
	if p, ok := find(param, a+"|"+b, region, key); ok {
		return p.Value, true
	}
	p, ok := find(param, b+"|"+a, region, key)
	return p.Value, ok
}

// measuredAs returns the name under which statistics of national prices and
// state yields list a commodity: lint stands for seed cotton and all rice for
// long grain rice.
func measuredAs(c crop.Commodity) string {
	switch c {
	case crop.SeedCotton:
		return "upland_cotton_lint"
	case crop.LongGrainRice:
		return "rice_all"
	}
	return string(c)
}
