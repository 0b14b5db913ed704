package builtin

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/io/read/yields"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

var update = flag.Bool("update", false, "make counties.csv.gz, past.csv.gz and builtin-sources.csv anew from the agencies' files in ../shared/data")

// The agencies' files beside the repository.
const (
	shared  = "../../../../shared/data/"
	fsaOld  = "fsa/arcco_county_py2014_2018.csv.gz"
	fsaNew  = "fsa/arcco_county_py2019_2025.csv.gz"
	rmaFile = "rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz"
	nass    = "nass/county_yields_1980_2025.csv.gz"
)

// editions of FSA's tables, by program year. Source: the dates of their sheets, as
// PROVENANCE.md beside the files has them; those of 2014-2018 are not known.
var editions = map[crop.CropYear]string{
	2014: notDated, 2015: notDated, 2017: notDated, 2018: notDated,
	2019: "2021-12-01", 2020: "2022-01-31", 2021: "2023-01-31", 2023: "2025-02-03", 2024: "2024-01-02", 2025: "2025-02-10",
}

// nassEdition is the day of NASS's bulk file. Source: PROVENANCE.md.
const nassEdition = "2026-06-27"

// enrolledEdition is the newest day that the rows of enrolled base acres carry, wasdeEdition
// the day of the newest report in the file.
const enrolledEdition, wasdeEdition = "2025-01-06", "2025-05-12"

// seriesKey names a series.
type seriesKey struct {
	county    string
	commodity crop.Commodity
	practice  farm.Practice
	kind      string
}

// tables are the agencies' files as they are gathered.
type tables struct {
	states, names map[string]string
	series        map[seriesKey]map[crop.CropYear]string
	newest        crop.CropYear         // program year of the newest of FSA's tables
	programYears  map[crop.CropYear]int // rows of each
	twice         int
}

// needsShared skips a test where the agencies' files are not beside the repository.
func needsShared(t testing.TB) {
	t.Helper()
	for _, name := range []string{fsaOld, fsaNew, rmaFile, nass, baseFile, enrolledFile, wasdeFile} {
		if _, err := os.Stat(shared + name); err != nil {
			t.Skipf("NOT CHECKED: the built-in county tables against the agencies' files, %s is absent", name)
		}
	}
}

// TestMadeAnew: the embedded file is what the agencies' files give, byte for byte.
func TestMadeAnew(t *testing.T) {
	needsShared(t)
	if underRace {
		t.Skip("over whole agency files: in the run without the race detector")
	}
	all := gatherAll(t)
	file, ofPast, sources := all.file(t), pack(t, pastText(t)), all.sources(t)
	if *update {
		for name, text := range map[string][]byte{"counties.csv.gz": file, "past.csv.gz": ofPast, "builtin-sources.csv": sources} {
			if err := os.WriteFile(name, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		counties, pastFile, sourcesText = file, ofPast, string(sources)
	}
	const most = 2_000_000 // bytes
	if len(file)+len(ofPast) > most {
		t.Errorf("the files have %d and %d bytes, more than %d", len(file), len(ofPast), most)
	}
	if all.twice > 0 {
		t.Errorf("%d figures stand twice in a file, with two values", all.twice)
	}
	if !bytes.Equal(file, counties) {
		t.Errorf("counties.csv.gz is not what the agencies' files give (unpacked it is: %v): renew it with go test ./io/read/builtin -run TestMadeAnew -update", bytes.Equal(unpacked(t, file), unpacked(t, counties)))
	}
	if !bytes.Equal(ofPast, pastFile) {
		t.Errorf("past.csv.gz is not what the agencies' files give: renew it as counties.csv.gz")
	}
	if string(sources) != sourcesText {
		t.Error("builtin-sources.csv is not what the agencies' files give: renew it as counties.csv.gz")
	}
	fmt.Printf("built-in county tables: %d series of %d counties in %d States, %d bytes packed, and %d of past crop years, made anew byte for byte\n", len(all.series), len(all.counties()), len(all.states), len(file), len(ofPast))
}

func unpacked(t testing.TB, file []byte) []byte {
	t.Helper()
	z, err := gzip.NewReader(bytes.NewReader(file))
	if err != nil {
		return nil
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// gatherAll reads the agencies' files.
func gatherAll(t testing.TB) *tables {
	all := &tables{map[string]string{}, map[string]string{}, map[seriesKey]map[crop.CropYear]string{}, 2025, map[crop.CropYear]int{}, 0}
	all.nass(t) // first: the names of FSA win
	all.rma(t)
	eachRow(t, fsaOld, func(r map[string]string) { all.fsa(t, r, r["crop"]) })
	eachRow(t, fsaNew, func(r map[string]string) { all.fsa(t, r, r["crop_name"]) })
	for y := range editions {
		if all.programYears[y] == 0 {
			t.Errorf("program year %d has no row", y)
		}
	}
	return all
}

// eachRow gives the lines of a packed CSV by the names of the columns.
func eachRow(t testing.TB, name string, each func(map[string]string)) {
	t.Helper()
	file, err := os.Open(shared + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	z, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	lines := csv.NewReader(z)
	heading, err := lines.Read()
	if err != nil {
		t.Fatal(err)
	}
	row := map[string]string{}
	for {
		cells, err := lines.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for i, cell := range cells {
			row[heading[i]] = strings.TrimSpace(cell)
		}
		each(row)
	}
}

// put keeps a figure to two decimals, as the agencies publish yields: the files have
// binary noise.
func (a *tables) put(t testing.TB, k seriesKey, y crop.CropYear, cell string) {
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil || x < 0 {
		t.Fatalf("%v of %d is %q", k, y, cell)
	}
	text := strconv.FormatFloat(x, 'f', 2, 64)
	text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	text = cmp.Or(text, "0")
	if a.series[k] == nil {
		a.series[k] = map[crop.CropYear]string{}
	}
	if old, has := a.series[k][y]; has && old != text {
		a.twice++
	}
	a.series[k][y] = text
}

// oldNames are crop names of the copy of 2014-2018 as the agency's tables spell them.
var oldNames = map[string]string{"cotton": "Seed Cotton", "mustard": "Mustard Seed", "sesame": "Sesame Seed", "sunflower": "Sunflower Seed"}

var practices = map[string]farm.Practice{"All": farm.AllPractices, "Irrigated": farm.Irrigated, "Nonirrigated": farm.Nonirrigated}

// fsa keeps a row of FSA's tables.
func (a *tables) fsa(t testing.TB, r map[string]string, name string) {
	y, err := strconv.Atoi(r["program_year"])
	c, known := crop.ParseCommodity(cmp.Or(oldNames[name], name))
	p := practices[r["yield_designation"]]
	mass, _, _ := strings.Cut(strings.ToLower(r["unit"]), " ")
	if err != nil || !known || p == "" || mass != c.Unit().Mass || len(r["st_cty"]) != 5 || editions[y] == "" {
		t.Fatalf("row %v is not understood", r)
	}
	a.programYears[y]++
	code := r["st_cty"] + r["sub_county"]
	a.names[code], a.states[code[:2]] = r["county_name"], r["state_name"]
	for kind, cell := range map[string]string{kindBenchmark: r["benchmark_yield"], kindActual: r["actual_yield"]} {
		if cell != "" {
			a.put(t, seriesKey{code, c, p, kind}, y, cell)
		}
	}
	five := []string{r["yield_lag6"], r["yield_lag5"], r["yield_lag4"], r["yield_lag3"], r["yield_lag2"]}
	if y == a.newest && !slices.Contains(five, "") {
		for i, cell := range five {
			a.put(t, seriesKey{code, c, p, kindAdjusted}, y-adjustedLag+i, cell)
		}
	}
}

// rma keeps RMA's yields.
func (a *tables) rma(t testing.TB) {
	file, err := os.Open(shared + rmaFile)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	read, err := yields.Read(file, func(yields.File) error { return nil }, func(y yields.Yield) error {
		a.name(y.County, y.CountyName)
		a.put(t, seriesKey{y.County, y.Commodity, y.Practice, kindInsured}, y.CropYear, strconv.FormatFloat(y.Value, 'f', -1, 64))
		return nil
	}, func(yields.Month) error { return nil })
	if err != nil || read.Noted > 0 {
		t.Fatal(err, read.Notes)
	}
	eachRow(t, rmaFile, func(r map[string]string) { a.state(r["State Code"], r["State Name"]) })
}

// nass keeps NASS's yields of covered commodities, each county by itself.
func (a *tables) nass(t testing.TB) {
	const otherCounties = "998" // printed together
	eachRow(t, nass, func(r map[string]string) {
		c, class, practice, known := yields.Item(r["short_desc"])
		if !known || r["county_code"] == "" || r["county_code"] == otherCounties {
			return
		}
		kind := kindHarvested
		if class != "" {
			kind += "_" + class
		}
		y, err := strconv.Atoi(r["year"])
		code := r["state_ansi"] + r["county_code"]
		if err != nil || len(code) != 5 {
			t.Fatalf("row %v is not understood", r)
		}
		a.name(code, r["county_name"])
		a.state(code[:2], r["state_alpha"])
		a.put(t, seriesKey{code, c, practice, kind}, y, r["value"])
	})
}

// name and state keep a name; a later agency's wins.
func (a *tables) name(code, name string) {
	if name != "" {
		a.names[code] = name
	}
}

func (a *tables) state(code, name string) {
	if code = strings.TrimSpace(code); name != "" {
		a.states[code] = strings.TrimSpace(name)
	}
}

// counties are the codes of all counties, sorted.
func (a *tables) counties() []string {
	all := map[string]bool{}
	for k := range a.series {
		all[k.county] = true
	}
	return slices.Sorted(maps.Keys(all))
}

// sources lists the files: one line for each of FSA's program years.
func (a *tables) sources(t testing.TB) []byte {
	text := "agency,file,edition,sha256\n"
	for _, y := range slices.Sorted(maps.Keys(editions)) {
		name := fsaNew
		if y <= 2018 {
			name = fsaOld
		}
		text += fmt.Sprintf("FSA,\"ARC-CO county table, program year %d (%s)\",%s,%s\n", y, filepath.Base(name), editions[y], checksum(t, name))
	}
	text += fmt.Sprintf("FSA,\"base acres by county, program year 2015 (%s)\",%s,%s\n", filepath.Base(baseFile), notDated, checksum(t, baseFile))
	text += fmt.Sprintf("FSA,\"enrolled base acres, program years 2015-2024 (%s)\",%s,%s\n", filepath.Base(enrolledFile), enrolledEdition, checksum(t, enrolledFile))
	text += fmt.Sprintf("RMA,\"county yields report, crop years 2010-2024 (%s)\",%s,%s\n", filepath.Base(rmaFile), notDated, checksum(t, rmaFile))
	text += fmt.Sprintf("NASS,\"Quick Stats, survey, county yields 1980-2025 (%s)\",%s,%s\n", filepath.Base(nass), nassEdition, checksum(t, nass))
	text += fmt.Sprintf("WASDE,\"season-average prices, reports of 2010-07-09 to %s (%s)\",%s,%s\n", wasdeEdition, filepath.Base(wasdeFile), wasdeEdition, checksum(t, wasdeFile))
	return []byte(text)
}

func checksum(t testing.TB, name string) string {
	text, err := os.ReadFile(shared + name)
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// file writes the whole file: the index, then a member for each State.
func (a *tables) file(t testing.TB) []byte {
	byState := map[string][]seriesKey{}
	for k := range a.series {
		byState[k.county[:2]] = append(byState[k.county[:2]], k)
	}
	index, members := heading, []byte{}
	for _, state := range slices.Sorted(maps.Keys(byState)) {
		packed := pack(t, apart(a.member(byState[state])))
		index += fmt.Sprintf("%s,,,%s,,%s,%d,%d\n", state, kindState, a.states[state], len(members), len(packed))
		members = append(members, packed...)
	}
	return append(pack(t, index), members...)
}

// pack packs one member, without a time so that the same text gives the same bytes.
func pack(t testing.TB, text string) []byte {
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.WriteString(z, text); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return packed.Bytes()
}

// apart sets the lines of a member apart as together puts them together.
func apart(text string) string {
	var heads, values strings.Builder
	before := make([]string, left)
	for line := range strings.Lines(text) {
		cells := strings.SplitN(strings.TrimSuffix(line, "\n"), ",", 6)
		same := 0
		for same < left && cells[same] == before[same] {
			same++
		}
		for same > 0 && same < left && cells[same] == "" { // an empty cell would count as one more
			same--
		}
		heads.WriteString(strings.Repeat(",", same) + strings.Join(cells[same:5], ",") + "\n")
		values.WriteString(cells[5] + "\n")
		copy(before, cells)
	}
	return heads.String() + "\n" + values.String()
}

// member writes the lines of a State: by county its name, then its series, by kind last
// so that FSA's stand side by side.
func (a *tables) member(keys []seriesKey) string {
	slices.SortFunc(keys, func(a, b seriesKey) int {
		return cmp.Or(cmp.Compare(a.county, b.county), cmp.Compare(a.commodity, b.commodity), cmp.Compare(a.practice, b.practice), cmp.Compare(a.kind, b.kind))
	})
	var text strings.Builder
	county := ""
	for _, k := range keys {
		if k.county != county {
			county = k.county
			fmt.Fprintf(&text, "%s,,,%s,,%s\n", county, kindName, a.names[county])
		}
		years := slices.Sorted(maps.Keys(a.series[k]))
		fmt.Fprintf(&text, "%s,%s,%s,%s,%d", county, k.commodity, k.practice, k.kind, years[0])
		for y := years[0]; y <= years[len(years)-1]; y++ {
			text.WriteString("," + a.series[k][y])
		}
		text.WriteString("\n")
	}
	return text.String()
}
