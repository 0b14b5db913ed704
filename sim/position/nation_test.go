package position

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"

	"fencerow/io/read/yields"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

const agencyFolder = "../../../shared/data/"

// nation is what the agencies' tables beside the repository say of every county,
// by State.
type nation map[string]*stateYields

type stateYields struct {
	tables   []tableRow                                  // FSA's, program years 2014 to 2025
	insured  map[CountyUnit]map[crop.CropYear]crop.Yield // RMA's
	harvests map[classUnit]map[crop.CropYear]crop.Yield  // NASS's
}

// tableRow is one row of FSA's county tables; its unit has the program year.
type tableRow struct {
	CountyUnit
	five      *[5]crop.Yield // nil before 2019
	benchmark crop.Yield
	actual    *crop.Yield // nil where it is not in the table yet
}

// classUnit is a series of NASS's: the unit has no crop year.
type classUnit struct {
	CountyUnit
	class string
}

// read is what theNation has read, once.
var read = sync.OnceValues(readNation)

// theNation returns the agencies' tables, or skips.
func theNation(t *testing.T) nation {
	t.Helper()
	if invented.UnderRace {
		t.Skip("left to the run without the race detector")
	}
	if _, err := os.Stat(agencyFolder); err != nil {
		t.Skip("NOT CHECKED: county yields of the whole nation, ../shared is absent")
	}
	n, err := read()
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func readNation() (nation, error) {
	n := nation{}
	var failed error
	rows := func(name string, each func(map[string]string)) { failed = errors.Join(failed, agencyRows(name, each)) }
	for _, name := range []string{"fsa/arcco_county_py2014_2018.csv.gz", "fsa/arcco_county_py2019_2025.csv.gz"} {
		rows(name, func(r map[string]string) { n.addTable(r) })
	}
	rows("rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz", func(r map[string]string) {
		c, ok := crop.ParseCommodity(r["Commodity Name"])
		if y := cell(r, "Yield Amount"); ok && y != nil {
			u := CountyUnit{r["State Code"] + r["County Code"], c, farm.Nonirrigated, 0}
			put(n.of(u.County).insured, u, r["Yield Year"], *y)
		}
	})
	rows("nass/county_yields_1980_2025.csv.gz", func(r map[string]string) {
		c, class, practice, ok := yields.Item(r["short_desc"])
		if y := cell(r, "value"); ok && y != nil && r["county_code"] != "998" { // 998: other counties together
			u := classUnit{CountyUnit{r["state_ansi"] + r["county_code"], c, practice, 0}, class}
			put(n.of(u.County).harvests, u, r["year"], *y)
		}
	})
	return n, failed
}

func (n nation) of(county string) *stateYields {
	state := StateOf(county)
	if n[state] == nil {
		n[state] = &stateYields{insured: map[CountyUnit]map[crop.CropYear]crop.Yield{}, harvests: map[classUnit]map[crop.CropYear]crop.Yield{}}
	}
	return n[state]
}

func (n nation) addTable(r map[string]string) {
	c, ok := crop.ParseCommodity(r["crop"] + r["crop_name"])
	benchmark := cell(r, "benchmark_yield")
	if !ok || benchmark == nil {
		return
	}
	practice := farm.AllPractices
	switch strings.ToLower(r["yield_designation"]) {
	case "irrigated":
		practice = farm.Irrigated
	case "nonirrigated", "non-irrigated":
		practice = farm.Nonirrigated
	}
	year, _ := strconv.Atoi(r["program_year"])
	row := tableRow{CountyUnit: CountyUnit{r["st_cty"] + r["sub_county"], c, practice, year}, benchmark: *benchmark, actual: cell(r, "actual_yield")}
	if cell(r, "yield_lag6") != nil {
		row.five = &[5]crop.Yield{}
		for i, name := range []string{"yield_lag6", "yield_lag5", "yield_lag4", "yield_lag3", "yield_lag2"} {
			if y := cell(r, name); y != nil {
				row.five[i] = *y
			}
		}
	}
	state := n.of(row.County)
	state.tables = append(state.tables, row)
}

// Final is up to which year each kind of figure is in a book, that of the day.
type known struct{ table, actual, insured, harvested crop.CropYear }

// Book is the county book of a State as it stood when that was known.
func (s *stateYields) book(k known) farm.CountyBook {
	book := farm.CountyBook{}
	for _, name := range []string{"FSA", "RMA", "NASS"} {
		book = append(book, farm.CountySource{Name: name, Status: crop.Agency, Agency: name == "FSA", Counties: map[string]farm.County{}})
	}
	fsa := map[CountyUnit]*farm.CountyYield{}
	for _, r := range s.tables {
		u := r.CountyUnit
		u.CropYear = 0
		if fsa[u] == nil {
			fsa[u] = &farm.CountyYield{Commodity: u.Commodity, Practice: u.Practice,
				Adjusted: map[crop.CropYear][5]crop.Yield{}, BenchmarkYield: map[crop.CropYear]crop.Yield{}, Actual: map[crop.CropYear]crop.Yield{}}
		}
		if r.CropYear <= k.table {
			fsa[u].BenchmarkYield[r.CropYear] = r.benchmark
			if r.five != nil {
				fsa[u].Adjusted[r.CropYear] = *r.five
			}
		}
		if r.actual != nil && r.CropYear <= k.actual {
			fsa[u].Actual[r.CropYear] = *r.actual
		}
	}
	add := func(source int, u CountyUnit, y farm.CountyYield) {
		county := book[source].Counties[u.County]
		county.Code = u.County
		county.Yields = append(county.Yields, y)
		book[source].Counties[u.County] = county
	}
	for u, y := range fsa {
		add(0, u, *y)
	}
	for u, series := range s.insured {
		add(1, u, farm.CountyYield{Commodity: u.Commodity, Practice: u.Practice, Insured: upTo(series, k.insured)})
	}
	for _, class := range []string{"", "durum", "spring", "winter"} { // the book's order
		for u, series := range s.harvests {
			if u.class == class {
				add(2, u.CountyUnit, farm.CountyYield{Commodity: u.Commodity, Practice: u.Practice, Harvested: upTo(series, k.harvested)})
			}
		}
	}
	return book
}

func upTo(series map[crop.CropYear]crop.Yield, last crop.CropYear) map[crop.CropYear]crop.Yield {
	some := map[crop.CropYear]crop.Yield{}
	for y, yield := range series {
		if y <= last {
			some[y] = yield
		}
	}
	return some
}

func put[U comparable](all map[U]map[crop.CropYear]crop.Yield, u U, year string, yield crop.Yield) {
	y, err := strconv.Atoi(strings.TrimSpace(year))
	if err != nil {
		return
	}
	if all[u] == nil {
		all[u] = map[crop.CropYear]crop.Yield{}
	}
	all[u][y] = yield
}

// cell is a figure of a row, nil where it has none.
func cell(r map[string]string, column string) *float64 {
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		return nil
	}
	return &x
}

// agencyRows gives each row of a packed table by the names of its columns.
func agencyRows(name string, each func(map[string]string)) error {
	file, err := os.Open(agencyFolder + name)
	if err != nil {
		return err
	}
	defer file.Close()
	plain, err := gzip.NewReader(file)
	if err != nil {
		return err
	}
	rows := csv.NewReader(plain)
	rows.LazyQuotes, rows.ReuseRecord = true, true
	first, err := rows.Read()
	if err != nil {
		return err
	}
	heading := strings.Split(strings.Join(first, "|"), "|")
	row := map[string]string{}
	for {
		cells, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		for i, c := range cells {
			row[heading[i]] = strings.TrimSpace(c)
		}
		each(row)
	}
}
