package batch

import (
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fencerow/sim/answer"
)

// sums gathers what the summary shows, result by result; memory grows with counties
// and commodities, not with farms.
type sums struct {
	groups   map[group]*groupSum
	counties map[countyGroup]*countySum
	flags    map[string]int
	change   top[Result]   // elections that differ from the record, by what they gain after limits
	gains    int           // lines that gain
	gained   float64       // USD over all of them
	unknown  int           // lines with an election that cannot be compared: nothing on record, or ARC-IC without figures
	elect    top[Result]   // lines without a contract in a year that asks for a new election, by base acres
	largest  top[[]string] // lines of operations.csv, by average after limits
	limited  top[[]string] // likewise, by what the limit costs
	people   top[[]string] // lines of people.csv, by average
	reached  top[[]string] // likewise, by how often a limit is reached
	left     int           // lines of people.csv that leave farms out
	across   top[[]string] // likewise, of persons of several operations, by what one limit takes
}

type group struct {
	cropYear  int32
	commodity string
}

type groupSum struct {
	lines, gains int
	acres        float64
	leaders      map[string]int
	gained       float64 // USD by which the elections average more than what is on record, after limits
}

type countyGroup struct {
	county string
	group
}

type countySum struct {
	farms             int
	acres, difference float64 // the latter weighted by acres
	leaders           map[string]int
}

// listed is the most lines of a top list.
const listed = 200

func newSums() *sums {
	return &sums{groups: map[group]*groupSum{}, counties: map[countyGroup]*countySum{}, flags: map[string]int{}}
}

// add adds one result.
func (s *sums) add(r Result) {
	key := group{r.CropYear, r.Commodity}
	g := s.groups[key]
	if g == nil {
		g = &groupSum{leaders: map[string]int{}}
		s.groups[key] = g
	}
	g.lines++
	g.acres += r.BaseAcres
	g.leaders[r.Leader]++
	switch {
	case r.Highest != "" && r.Gain == nil:
		s.unknown++
	case r.Gain != nil && *r.Gain > 0:
		g.gains++
		g.gained += *r.Gain
		s.gains++
		s.gained += *r.Gain
		s.change.add(*r.Gain, r)
	}
	for _, flag := range strings.Fields(r.Flags) {
		s.flags[flag]++
		if flag == answer.NewElectionFlag && r.Contract != "signed" {
			s.elect.add(r.BaseAcres, r)
		}
	}
	s.addCounty(key, r)
}

// addCounty adds a result to its county, where its base lies in one county alone.
func (s *sums) addCounty(key group, r Result) {
	counties := strings.Fields(r.Counties)
	if len(counties) != 1 || r.DifferenceMean == nil {
		return
	}
	at := countyGroup{counties[0], key}
	c := s.counties[at]
	if c == nil {
		c = &countySum{leaders: map[string]int{}}
		s.counties[at] = c
	}
	c.farms++
	c.acres += r.BaseAcres
	c.difference += *r.DifferenceMean * r.BaseAcres
	c.leaders[r.Leader]++
}

// gather sums up all parts.
func gather(f folder) (*sums, error) {
	s := newSums()
	names, err := f.parts("results", ".parquet")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		err := eachResult(name, func(some []Result) error {
			for _, r := range some {
				s.add(r)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	if err := eachLine(filepath.Join(f.path, "operations.csv"), s.addOperation); err != nil {
		return nil, err
	}
	return s, eachLine(filepath.Join(f.path, "people.csv"), s.addPerson)
}

// addOperation adds a line of operations.csv.
func (s *sums) addOperation(line []string) {
	s.largest.add(numberIn(line, operationColumns, "mean_after_limit"), line)
	if cost := numberIn(line, operationColumns, "cost_of_limit"); cost > 0 {
		s.limited.add(cost, line)
	}
}

// addPerson adds a line of people.csv.
func (s *sums) addPerson(line []string) {
	s.people.add(numberIn(line, personColumns, "mean_after_limit"), line)
	if often := numberIn(line, personColumns, "chance_of_limit"); often > 0 {
		s.reached.add(often, line)
	}
	if numberIn(line, personColumns, "operations") > 1 {
		s.across.add(numberIn(line, personColumns, "mean_each_alone")-numberIn(line, personColumns, "mean_across"), line)
	}
	if line[slices.Index(personColumns, "left_out")] != "" {
		s.left++
	}
}

// numberIn returns the number in a column that this package wrote, 0 where it is
// empty.
func numberIn(line, columns []string, column string) float64 {
	x, err := strconv.ParseFloat(line[slices.Index(columns, column)], 64)
	if err != nil {
		return 0
	}
	return x
}

// eachLine calls do with each line of a CSV file of this package, without its
// headings.
func eachLine(path string, do func(line []string)) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	in := csv.NewReader(file)
	if _, err := in.Read(); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	for {
		line, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		do(line)
	}
}

// writeCounties writes the summary that may be shared: it names no client, operation,
// farm or person, and groups of fewer farms than least are left out.
func (s *sums) writeCounties(w io.Writer, least int) error {
	var lines [][]string
	hidden := 0
	for at, c := range s.counties {
		if c.farms < least {
			hidden++
			continue
		}
		difference := c.difference / c.acres
		lines = append(lines, []string{at.county, at.commodity, strconv.Itoa(int(at.cropYear)), strconv.Itoa(c.farms), number(&c.acres, money), number(&difference, money),
			strconv.Itoa(c.leaders["PLC"]), strconv.Itoa(c.leaders["ARC-CO"]), strconv.Itoa(c.leaders["close"]), strconv.Itoa(c.leaders["little_chance"])})
	}
	slices.SortFunc(lines, func(a, b []string) int { return strings.Compare(strings.Join(a[:3], "|"), strings.Join(b[:3], "|")) })
	if hidden > 0 {
		lines = append(lines, []string{"", "", "", "", "", "", "", "", "", strconv.Itoa(hidden) + " groups of fewer than " + strconv.Itoa(least) + " farms are not shown"})
	}
	return writeCSV(w, strings.Fields("county commodity crop_year farms base_acres difference_mean lean_plc lean_arc_co close little_chance"), lines)
}

// top holds the lines of highest value, at most listed of them; among equals the
// first.
type top[T any] struct{ lines []valued[T] }

type valued[T any] struct {
	value float64
	line  T
}

func (t *top[T]) add(value float64, line T) {
	if len(t.lines) == listed && value <= t.lines[listed-1].value {
		return
	}
	at, _ := slices.BinarySearchFunc(t.lines, value, func(v valued[T], value float64) int {
		if v.value >= value {
			return -1 // equals before it stay before it
		}
		return 1
	})
	t.lines = slices.Insert(t.lines, at, valued[T]{value, line})
	t.lines = t.lines[:min(len(t.lines), listed)]
}
