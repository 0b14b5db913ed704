package countyname

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"encoding/csv"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write counties.csv from the agencies' tables in ../shared")

// sharedData holds the agencies' tables (its PROVENANCE.md names each).
const sharedData = "../../../../shared/data/"

// Tables with codes and names. Rank says whose newest spelling goes first: FSA's
// county tables of ARC-CO, FSA's base acres, RMA's yields report, NASS's yields.
var agencyTables = []struct {
	file       string
	rank       int
	year, name string
	code       []string // columns that joined are the code, the sub-county last
}{
	{"fsa/arcco_county_py2014_2018.csv.gz", 3, "program_year", "county_name", []string{"st_cty"}},
	{"fsa/arcco_county_py2019_2025.csv.gz", 3, "program_year", "county_name", []string{"st_cty", "sub_county"}},
	{"fsa/county_base_acres_2014_2023.csv.gz", 2, "program_year", "county", []string{"state_fips", "county_fips"}},
	{"rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz", 1, "Yield Year", "County Name", []string{"State Code", "County Code"}},
	{"nass/county_yields_1980_2025.csv.gz", 0, "year", "county_name", []string{"state_ansi", "county_code"}},
}

// combined is NASS's code of the counties of a State that it does not publish apart.
const combined = "998"

// use is where a spelling stands: the newest table of the highest rank, and how often.
type use struct{ rank, year, rows int }

// spellingsOf are the spellings of the agencies' tables by code.
func spellingsOf(t *testing.T) map[string]map[string]use {
	all := map[string]map[string]use{}
	for _, table := range agencyTables {
		for row := range rowsOf(t, table.file) {
			code := ""
			for _, column := range table.code {
				code += row(column)
			}
			if len(code) < codeDigits || code[stateDigits:] == combined {
				continue // FSA's base acres of 2021 and later have no codes
			}
			if all[code] == nil {
				all[code] = map[string]use{}
			}
			year, err := strconv.Atoi(row(table.year))
			if err != nil {
				t.Fatal(table.file, err)
			}
			u := all[code][row(table.name)]
			if now := (use{table.rank, year, 0}); u.rows == 0 || cmp.Or(cmp.Compare(now.rank, u.rank), cmp.Compare(now.year, u.year)) > 0 {
				u.rank, u.year = now.rank, now.year
			}
			u.rows++
			all[code][row(table.name)] = u
		}
	}
	return all
}

// rowsOf reads a table row by row; the function that it gives returns a column.
func rowsOf(t *testing.T, file string) func(yield func(func(column string) string) bool) {
	return func(yield func(func(string) string) bool) {
		packed, err := os.Open(sharedData + file)
		if err != nil {
			t.Skipf("NOT CHECKED: the agencies' spellings of counties, ../shared is absent")
		}
		defer packed.Close()
		text, err := gzip.NewReader(packed)
		if err != nil {
			t.Fatal(err)
		}
		rows := csv.NewReader(text)
		rows.TrimLeadingSpace, rows.ReuseRecord = true, true
		first, err := rows.Read()
		if err != nil {
			t.Fatal(file, err)
		}
		headings := slices.Clone(first)
		for {
			row, err := rows.Read()
			if err == io.EOF {
				return
			} else if err != nil {
				t.Fatal(file, err)
			}
			if !yield(func(column string) string {
				return strings.TrimSpace(strings.Clone(row[slices.Index(headings, column)]))
			}) {
				return
			}
		}
	}
}

// TestCounties: counties.csv is what the agencies' tables say, byte for byte.
func TestCounties(t *testing.T) {
	all := spellingsOf(t)
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Write([]string{"code", "newest_fsa_table", "spellings"})
	for _, code := range slices.Sorted(maps.Keys(all)) {
		uses := all[code]
		names := slices.SortedFunc(maps.Keys(uses), func(a, b string) int {
			x, y := uses[a], uses[b]
			return cmp.Or(cmp.Compare(y.rank, x.rank), cmp.Compare(y.year, x.year), cmp.Compare(y.rows, x.rows), cmp.Compare(a, b))
		})
		newest := ""
		if u := uses[names[0]]; u.rank == 3 {
			newest = strconv.Itoa(u.year)
		}
		w.Write([]string{code, newest, strings.Join(distinct(names, uses), "|")})
	}
	w.Flush()
	if *update {
		if err := os.WriteFile("counties.csv", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile("counties.csv")
	if err != nil || !bytes.Equal(kept, out.Bytes()) {
		t.Fatalf("counties.csv is not what the agencies' tables say (%v): renew it with -update", err)
	}
	fmt.Printf("counties.csv: %d codes, %d bytes, as the agencies' tables have them\n", len(all), len(kept))
}

// distinct keeps all of FSA's spellings in its county tables, and of the other tables
// those that fold to something new.
func distinct(names []string, uses map[string]use) (kept []string) {
	folded := map[string]bool{}
	for _, name := range names {
		if uses[name].rank == 3 || !folded[fold(name)] {
			kept = append(kept, name)
		}
		folded[fold(name)] = true
	}
	return kept
}
