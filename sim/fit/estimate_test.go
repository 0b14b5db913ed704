package fit

import (
	"encoding/csv"
	"flag"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"fencerow/io/read/past"
	"fencerow/program/farm"
)

var update = flag.Bool("update", false, "write rows of sim/odds/parameters.csv anew")

const (
	sharedData    = "../../../shared/data"
	parameterFile = "../odds/parameters.csv"
)

var pastTables = sync.OnceValues(func() (farm.Past, error) { return past.Read(sharedData) })

// agencies returns what the agencies printed of past crop years, or skips the test.
func agencies(t *testing.T, what string) farm.Past {
	t.Helper()
	if _, err := os.Stat(sharedData); err != nil {
		t.Skipf("NOT CHECKED: %s, ../shared is absent", what)
	}
	p, err := pastTables()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// holdRows checks that each estimate is a row of parameters.csv, word for word, and prints
// it with its count and error. With -update it writes those rows: in place of the row of the
// same four keys, else after the last one of the same param, else at the end.
func holdRows(t *testing.T, estimates []Estimate) {
	t.Helper()
	file, err := os.ReadFile(parameterFile)
	if err != nil {
		t.Fatal(err)
	}
	before := strings.Split(strings.TrimSuffix(string(file), "\n"), "\n")
	lines := slices.Clone(before)
	for _, e := range estimates {
		t.Logf("%s, %s, %s, %s: %g (standard error %.3g, n = %d, %s)", e.Param, e.Commodity, e.Region, e.Key, e.Value, e.Error, e.Count, e.Period)
		line := csvLine(t, e.Row())
		same := func(fields int) func(string) bool {
			return func(l string) bool { return strings.HasPrefix(l, strings.Join(e.Row()[:fields], ",")+",") }
		}
		switch at := slices.IndexFunc(lines, same(4)); {
		case at < 0 && *update:
			last := len(lines)
			for i, l := range lines {
				if same(1)(l) {
					last = i + 1
				}
			}
			lines = slices.Insert(lines, last, line)
		case at < 0:
			t.Errorf("%s has no row %v", parameterFile, e.Row())
		case lines[at] != line && *update:
			lines[at] = line
		case lines[at] != line:
			t.Errorf("%s has\n%s\nthe tables give\n%s", parameterFile, lines[at], line)
		}
	}
	if *update && !slices.Equal(lines, before) {
		if err := os.WriteFile(parameterFile, []byte(strings.Join(lines, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// csvLine returns fields as a line of CSV; the four keys hold no comma.
func csvLine(t *testing.T, fields []string) string {
	t.Helper()
	var text strings.Builder
	w := csv.NewWriter(&text)
	if err := w.Write(fields); err != nil {
		t.Fatal(err)
	}
	w.Flush()
	return strings.TrimSuffix(text.String(), "\n")
}

// Fields with commas are quoted; what is not known stays blank.
func TestRowsAreLinesOfCSV(t *testing.T) {
	e := Estimate{Param: "p", Commodity: "corn", Region: "US", Key: "annual", Value: 1, Source: "judgement", Note: "a, b"}
	if got, want := csvLine(t, e.Row()), `p,corn,US,annual,1,,,judgement,"a, b"`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
