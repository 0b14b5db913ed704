package builtin

import (
	"bytes"
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// pastFile is a gzip file of one CSV table (docs/formats.md): what stands beside the county
// yields in the agencies' tables of past crop years.
//
//go:embed past.csv.gz
var pastFile []byte

// pastHeading is the first line of the unpacked file.
const pastHeading = "kind,commodity,practice,crop_year,values\n"

// The kinds of its lines. The last three have a value for each county in the order of codes,
// an empty one where none is known.
const (
	kindForecast = "forecast"            // WASDE: the day, then the projected price
	kindEnrolled = "enrolled"            // the nation's base acres in PLC, in ARC-CO
	kindBase     = "base_acres"          // of each county that has an actual yield of the commodity
	kindOnBase   = "payment_yield"       // of the same counties
	kindFive     = "five_less_benchmark" // of each county with an actual yield of that practice and year: hundredths of a unit
)

// Past returns the tables of past crop years that come with the program: FSA's county yields,
// base acres and enrolment, WASDE's prices of May and November, NASS's yields, of corn,
// soybeans, wheat and grain sorghum. Rows are in the order of crop year, commodity, practice
// and county. Their prices, benchmark revenues and payment rates are 0: backtest.Completed
// computes them. From 2019 on the five adjusted yields of a row are not those of the agency
// one by one, but five with the same mean and Olympic average. The error is that of a damaged
// file, which a test excludes.
func Past() (farm.Past, error) {
	text, err := unpack(bytes.NewReader(pastFile))
	if err != nil {
		return farm.Past{}, fmt.Errorf("built-in tables of past crop years: %w", err)
	}
	states, err := index()
	if err != nil {
		return farm.Past{}, err
	}
	members := make([]string, len(states))
	for i, s := range states {
		if members[i], err = s.lines(); err != nil {
			return farm.Past{}, err
		}
	}
	return readPast(string(text), members)
}

// readPast reads the table of past crop years and the lines of States beside it.
func readPast(text string, members []string) (farm.Past, error) {
	r := pastReader{
		past:  farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}, Enrolled: map[crop.Commodity]map[crop.CropYear]farm.Enrolled{}},
		lists: map[listKey][]string{}, benchmarks: map[farm.PastUnit]map[crop.CropYear]crop.Yield{},
	}
	for one := range strings.Lines(strings.TrimPrefix(text, pastHeading)) {
		if err := r.take(strings.Split(strings.TrimSuffix(one, "\n"), ",")); err != nil {
			return farm.Past{}, fmt.Errorf("built-in tables of past crop years: line %.60q: %w", one, err)
		}
	}
	for _, member := range members {
		for one := range strings.Lines(member) {
			if err := r.series(strings.TrimSuffix(one, "\n")); err != nil {
				return farm.Past{}, fmt.Errorf("built-in county tables: line %q: %w", one, err)
			}
		}
	}
	if err := r.setLists(); err != nil {
		return farm.Past{}, fmt.Errorf("built-in tables of past crop years: %w", err)
	}
	return r.past, nil
}

// listKey names a line with a value for each county.
type listKey struct {
	kind      string
	commodity crop.Commodity
	practice  farm.Practice
	cropYear  crop.CropYear
}

// pastReader gathers the tables.
type pastReader struct {
	past       farm.Past
	lists      map[listKey][]string
	benchmarks map[farm.PastUnit]map[crop.CropYear]crop.Yield
}

// take takes a line of the table.
func (r *pastReader) take(cells []string) error {
	const before = 4 // columns
	if pair := cells[0] == kindForecast || cells[0] == kindEnrolled; len(cells) <= before || pair && len(cells) != before+2 {
		return fmt.Errorf("%d cells", len(cells))
	}
	k := listKey{cells[0], crop.Commodity(cells[1]), farm.Practice(cells[2]), 0}
	values := cells[before:]
	if cells[3] != "" {
		y, err := strconv.Atoi(cells[3])
		if err != nil {
			return err
		}
		k.cropYear = y
	}
	switch k.kind {
	case kindForecast:
		day, err := time.Parse(time.DateOnly, values[0])
		price, err2 := strconv.ParseFloat(values[1], 64)
		r.past.Forecasts = append(r.past.Forecasts, farm.Forecast{Date: day, Commodity: k.commodity, CropYear: k.cropYear, Price: price})
		return cmp.Or(err, err2)
	case kindEnrolled:
		plc, err := strconv.ParseFloat(values[0], 64)
		arcco, err2 := strconv.ParseFloat(values[1], 64)
		if r.past.Enrolled[k.commodity] == nil {
			r.past.Enrolled[k.commodity] = map[crop.CropYear]farm.Enrolled{}
		}
		r.past.Enrolled[k.commodity][k.cropYear] = farm.Enrolled{PLC: plc, ARCCO: arcco}
		return cmp.Or(err, err2)
	case kindBase, kindOnBase, kindFive:
		r.lists[k] = values
		return nil
	}
	return fmt.Errorf("kind %q", k.kind)
}

// series takes a line of a State: FSA's actual yields become rows, which FSA's benchmark
// yields, the lines after them, fill.
func (r *pastReader) series(text string) error {
	l, err := split(text)
	if err != nil {
		return err
	}
	u := farm.PastUnit{County: l.county, Commodity: crop.Commodity(l.commodity), Practice: farm.Practice(l.practice)}
	if _, counts := r.lists[listKey{kind: kindBase, commodity: u.Commodity}]; !counts {
		return nil
	}
	switch {
	case l.kind == kindActual:
		return l.each(func(at int, value crop.Yield) {
			r.past.Rows = append(r.past.Rows, farm.PastRow{PastUnit: u, CropYear: l.first + at, ActualYield: value})
		})
	case l.kind == kindBenchmark:
		r.benchmarks[u] = map[crop.CropYear]crop.Yield{}
		return l.each(func(at int, value crop.Yield) { r.benchmarks[u][l.first+at] = value })
	case strings.HasPrefix(l.kind, kindHarvested):
		class := strings.TrimPrefix(strings.TrimPrefix(l.kind, kindHarvested), "_")
		series := make(map[crop.CropYear]crop.Yield, strings.Count(l.values, ",")+1)
		r.past.Harvested[farm.PastSeries{PastUnit: u, Class: class}] = series
		return l.each(func(at int, value crop.Yield) { series[l.first+at] = value })
	}
	return nil
}

// setLists sorts the rows and gives each the figures of its county.
func (r *pastReader) setLists() error {
	rows := r.past.Rows
	sort.Slice(rows, func(i, j int) bool {
		a, b := &rows[i], &rows[j]
		return cmp.Or(cmp.Compare(a.CropYear, b.CropYear), cmp.Compare(a.Commodity, b.Commodity), cmp.Compare(a.Practice, b.Practice), cmp.Compare(a.County, b.County)) < 0
	})
	for i := range rows {
		rows[i].BenchmarkYield = r.benchmarks[rows[i].PastUnit][rows[i].CropYear]
	}
	for k, values := range r.lists {
		ofList := func(row farm.PastRow) bool {
			return row.Commodity == k.commodity && (k.kind != kindFive || row.Practice == k.practice && row.CropYear == k.cropYear)
		}
		counties := countiesOf(rows, ofList)
		if len(counties) != len(values) {
			return fmt.Errorf("%s of %s %s %d: %d values for %d counties", k.kind, k.commodity, k.practice, k.cropYear, len(values), len(counties))
		}
		for i := range rows {
			if !ofList(rows[i]) {
				continue
			}
			at, _ := slices.BinarySearch(counties, rows[i].County)
			if err := k.set(&rows[i], values[at]); err != nil {
				return err
			}
		}
	}
	return nil
}

// countiesOf returns the codes of the counties of some rows, sorted.
func countiesOf(rows []farm.PastRow, some func(farm.PastRow) bool) (codes []string) {
	for _, row := range rows {
		if some(row) {
			codes = append(codes, row.County)
		}
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// set sets a figure of a row; an empty one is not known.
func (k listKey) set(row *farm.PastRow, text string) error {
	if text == "" {
		return nil
	}
	value, err := strconv.ParseFloat(text, 64)
	switch b := row.BenchmarkYield; k.kind {
	case kindBase:
		row.BaseAcres = value
	case kindOnBase:
		row.PaymentYield = value
	case kindFive:
		const hundredths = 100
		row.Adjusted = &[5]crop.Yield{b, b, b, b, b + value/hundredths}
	}
	return err
}
