package county

import (
	"fmt"

	"fencerow/io/read/countyname"
	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Format is the format line of the files that Parse reads.
const Format = "fencerow/county/1"

// Parse returns the county in the text of a file; name stands in messages. All
// mistakes of the file are reported at once, as an error of type farm.Mistakes.
func Parse(name string, text []byte) (farm.County, error) {
	root, err := document.Parse(name, text)
	if err != nil {
		return farm.County{}, err
	}
	r := &reader{Reader: document.NewReader(name), lines: map[entry]int{}}
	if r.Format(root, Format) {
		r.readCounty(root)
	}
	if err := r.Err(); err != nil {
		return farm.County{}, err
	}
	return r.county, nil
}

// entry names what can stand once in a county.
type entry struct {
	commodity crop.Commodity
	practice  farm.Practice
}

// reader is one reading of a county file.
type reader struct {
	*document.Reader
	county farm.County
	lines  map[entry]int
}

func (r *reader) readCounty(root document.Node) {
	r.Fields(root, "the county",
		document.Must("format", func(document.Node) {}),
		document.Must("code", func(v document.Node) {
			if text, ok := r.Text(v, "the county code"); ok {
				code, fault := countyname.Find("the county code", text)
				r.Check(v, fault)
				r.county.Code = code
			}
		}),
		document.May("name", func(v document.Node) { r.county.Name, _ = r.Name(v, "the county name") }),
		document.Must("yields", func(v document.Node) {
			r.Items(v, "yields", r.readYields)
			if v.Kind == document.List && len(v.Items) == 0 {
				r.Refuse(v, "yields is an empty list", "add the yields of at least one crop")
			}
		}))
}

// readYields reads one entry of the list: a commodity and practice.
func (r *reader) readYields(item document.Node) {
	y := farm.CountyYield{Practice: farm.AllPractices}
	practiceRead := true
	r.Fields(item, "an entry of yields",
		document.Must("commodity", func(v document.Node) { y.Commodity, _ = r.Commodity(v, "crop of yields") }),
		document.May("practice", func(v document.Node) {
			y.Practice, practiceRead = document.Word(r.Reader, v, "practice of yields", farm.AllPractices, farm.Irrigated, farm.Nonirrigated)
		}),
		r.maySay("adjusted", &y, func(v document.Node, what string) { y.Adjusted = r.adjusted(v, what, y.Commodity) }),
		r.maySay("benchmark_yield", &y, func(v document.Node, what string) {
			y.BenchmarkYield = r.yields(v, what, y.Commodity, farm.BenchmarkYields)
		}),
		r.maySay("actual", &y, func(v document.Node, what string) {
			y.Actual = r.yields(v, what, y.Commodity, farm.HarvestYields)
		}),
		r.maySay("plug", &y, func(v document.Node, what string) {
			y.Plug = r.yields(v, what, y.Commodity, farm.PlugYields)
		}),
		r.maySay("trend", &y, func(v document.Node, what string) { y.Trend = r.trend(v, what, y.Commodity) }),
		r.maySay("outlook", &y, func(v document.Node, what string) { y.Outlook = r.outlook(v, what, y.Commodity) }),
		r.maySay("history", &y, func(v document.Node, what string) {
			y.History = r.yields(v, what, y.Commodity, farm.HarvestYields)
		}))
	if y.Commodity != "" && practiceRead {
		r.add(item, y)
	}
}

// maySay is a key whose values need the commodity for their unit, and are
// called after it.
func (r *reader) maySay(key string, y *farm.CountyYield, read func(v document.Node, what string)) document.Field {
	return document.May(key, func(v document.Node) {
		if y.Commodity != "" {
			read(v, fmt.Sprintf("%s of %s", key, y.Commodity.Name()))
		}
	})
}

// add keeps an entry. A commodity stands once in each practice, and not both as
// a whole and by practice with benchmarks for one crop year: it would be
// unclear which holds.
func (r *reader) add(item document.Node, y farm.CountyYield) {
	key := entry{y.Commodity, y.Practice}
	if line, twice := r.lines[key]; twice {
		r.Refuse(item, fmt.Sprintf("%s, practice %s, stands twice", y.Commodity.Name(), y.Practice), fmt.Sprintf("it is also on line %d; join both", line))
		return
	}
	r.lines[key] = item.Line
	for _, other := range r.county.Yields {
		if other.Commodity != y.Commodity || (other.Practice == farm.AllPractices) == (y.Practice == farm.AllPractices) {
			continue
		}
		for _, year := range benchmarkYears(other) {
			if hasBenchmark(y, year) {
				r.Refuse(item, fmt.Sprintf("%s has benchmarks of crop year %d for practice %s and for practice %s", y.Commodity.Name(), year, other.Practice, y.Practice),
					fmt.Sprintf("the agency has one or the other in a county; take out those of the practice it does not use (line %d)", r.lines[entry{other.Commodity, other.Practice}]))
				break
			}
		}
	}
	r.county.Yields = append(r.county.Yields, y)
}

// benchmarkYears returns the crop years of which y has a benchmark, in order.
func benchmarkYears(y farm.CountyYield) []crop.CropYear {
	var years []crop.CropYear
	span := farm.ProgramYears()
	for year := span.First; year <= span.Last; year++ {
		if hasBenchmark(y, year) {
			years = append(years, year)
		}
	}
	return years
}

func hasBenchmark(y farm.CountyYield, year crop.CropYear) bool {
	_, five := y.Adjusted[year]
	_, published := y.BenchmarkYield[year]
	return five || published
}
