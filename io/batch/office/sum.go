package office

import (
	"encoding/csv"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/batch/sorted"
	"fencerow/program"
	"fencerow/program/farm"
)

// Line is one farm, commodity and crop year of the results, with what is counted and listed
// of it. Amounts are USD; nil where a figure is missing.
type Line struct {
	Client, Operation, Farm, County string // the farm's number, and the county that keeps its records
	Commodity                       string
	CropYear                        int32
	Counties                        string // codes of those in which the base lies, with blanks between
	BaseAcres                       float64
	Leader, Highest, OnRecord       string
	Contract, Producers             string
	NewElection                     bool     // the year asks for one
	Difference                      *float64 // ARC-CO less PLC per base acre, before limits
	Gain, AfterLimit                *float64
}

// Sums are what the summary shows, gathered result by result; memory grows with counties
// and commodities, not with farms.
type Sums struct {
	groups   map[group]*groupSum
	counties map[countyGroup]*countySum
	change   sorted.Top[Line]   // elections that differ from the record, by what they gain after limits
	gains    int                // lines that gain
	gained   float64            // USD over all of them
	waiting  int                // lines of elect, and of those that did not fit
	unknown  int                // lines with an election that cannot be compared: nothing on record, or ARC-IC without figures
	elect    sorted.Top[Line]   // lines without a contract in a year that asks for a new election, by base acres
	largest  sorted.Top[record] // lines of operations.csv, by average after limits
	limited  sorted.Top[record] // likewise, by what the limit costs
	people   sorted.Top[record] // lines of people.csv, by average
	reached  sorted.Top[record] // likewise, by how often a limit is reached
	left     int                // lines of people.csv that leave farms out
	across   sorted.Top[record] // likewise, of persons of several operations, by what one limit takes
	refused  firstLines         // of refused.csv
	farms    firstLines         // of exceptions.csv, those of one farm
	general  firstLines         // of exceptions.csv, those that many farms have
	calls    firstLines         // of calls.csv
	years    map[int32]bool
}

// firstLines are the first lines of a file, and how many there are in all.
type firstLines struct {
	lines []record
	all   int
}

func (f *firstLines) add(line record) error {
	if f.all++; len(f.lines) < mostLines {
		f.lines = append(f.lines, line)
	}
	return nil
}

// mostLines is the most lines of a file that a sheet holds.
const mostLines = 10_000

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
const listed = 1000

// NewSums returns sums of nothing.
func NewSums() *Sums {
	return &Sums{groups: map[group]*groupSum{}, counties: map[countyGroup]*countySum{}, years: map[int32]bool{}}
}

// Add adds one result; they come in their order.
func (s *Sums) Add(r Line) {
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
		s.change.Add(*r.Gain, r, listed)
	}
	s.years[r.CropYear] = true
	if r.Contract != string(farm.Signed) && r.NewElection {
		s.waiting++
		s.elect.Add(r.BaseAcres, r, listed)
	}
	s.addCounty(key, r)
}

// addCounty adds a result to its county, where its base lies in one county alone.
func (s *Sums) addCounty(key group, r Line) {
	counties := strings.Fields(r.Counties)
	if len(counties) != 1 || r.Difference == nil {
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
	c.difference += *r.Difference * r.BaseAcres
	c.leaders[r.Leader]++
}

// AddFiles adds the joined files in a folder to the results that are added already.
func (s *Sums) AddFiles(folder string) (err error) {
	for _, one := range []struct {
		name string
		add  func(line record) error
	}{{"operations.csv", s.addOperation}, {"people.csv", s.addPerson}, {"refused.csv", s.refused.add}, {"exceptions.csv", s.addException}, {"calls.csv", s.calls.add}} {
		if err == nil {
			err = sorted.EachLine(filepath.Join(folder, one.name), func(columns, cells []string) error { return one.add(record{columns, cells}) })
		}
	}
	return err
}

// addException adds a line of exceptions.csv.
func (s *Sums) addException(line record) error {
	if line.of("farm") == "" {
		return s.general.add(line)
	}
	return s.farms.add(line)
}

// addOperation adds a line of operations.csv.
func (s *Sums) addOperation(line record) error {
	s.largest.Add(line.number("mean_after_limit"), line, listed)
	if cost := line.number("cost_of_limit"); cost > 0 {
		s.limited.Add(cost, line, listed)
	}
	return nil
}

// addPerson adds a line of people.csv.
func (s *Sums) addPerson(line record) error {
	s.people.Add(line.number("mean_after_limit"), line, listed)
	if often := line.number("chance_of_limit"); often > 0 {
		s.reached.Add(often, line, listed)
	}
	if line.number("operations") > 1 {
		s.across.Add(line.number("mean_each_alone")-line.number("mean_across"), line, listed)
	}
	if line.of("left_out") != "" {
		s.left++
	}
	return nil
}

// record is a line of a file with the names of its columns.
type record struct {
	columns []string
	cells   []string
}

// of returns the cell of a column that the file has.
func (r record) of(column string) string { return r.cells[slices.Index(r.columns, column)] }

// number returns the number in a column, 0 where it is empty.
func (r record) number(column string) float64 {
	x, err := strconv.ParseFloat(r.of(column), 64)
	if err != nil {
		return 0
	}
	return x
}

// WriteCounties writes the summary that may be shared: it names no client, operation,
// farm or person, and groups of fewer farms than least are left out.
func (s *Sums) WriteCounties(w io.Writer, least int) error {
	var lines [][]string
	hidden := 0
	for at, c := range s.counties {
		if c.farms < least {
			hidden++
			continue
		}
		difference := c.difference / c.acres
		lines = append(lines, []string{at.county, at.commodity, strconv.Itoa(int(at.cropYear)), strconv.Itoa(c.farms), program.Text(c.acres, money), program.Text(difference, money),
			strconv.Itoa(c.leaders["PLC"]), strconv.Itoa(c.leaders["ARC-CO"]), strconv.Itoa(c.leaders["close"]), strconv.Itoa(c.leaders["little_chance"])})
	}
	slices.SortFunc(lines, func(a, b []string) int { return strings.Compare(strings.Join(a[:3], "|"), strings.Join(b[:3], "|")) })
	if hidden > 0 {
		lines = append(lines, []string{"", "", "", "", "", "", "", "", "", strconv.Itoa(hidden) + " groups of fewer than " + strconv.Itoa(least) + " farms are not shown"})
	}
	out := csv.NewWriter(w)
	if err := out.Write(strings.Fields("county commodity crop_year farms base_acres difference_mean lean_plc lean_arc_co close little_chance")); err != nil {
		return err
	}
	return out.WriteAll(lines)
}

// money is the decimals of dollars and acres in a file.
const money = 2
