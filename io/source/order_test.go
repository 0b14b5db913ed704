package source_test

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/read/lines"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

var today = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// countyText is a county file of 99001 with one benchmark yield of corn.
func countyText(benchmark string) *fstest.MapFile {
	return &fstest.MapFile{Data: []byte("format: fencerow/county/1\ncode: \"99001\"\nyields: [{commodity: corn, practice: all, benchmark_yield: {2026: " + benchmark + "}}]\n")}
}

// corn is what one source says of corn in 99001.
func corn(name string, benchmark crop.Yield) farm.CountySource {
	yields := []farm.CountyYield{{Commodity: crop.Corn, Practice: farm.AllPractices, BenchmarkYield: map[crop.CropYear]crop.Yield{2026: benchmark}}}
	return farm.CountySource{Name: name, Status: crop.Agency, Agency: true, Counties: map[string]farm.County{"99001": {Code: "99001", Name: "Alder", Yields: yields}}}
}

// tables are spreadsheets that nobody has to read: a county table, and a table of farms
// whose county stands there by name.
type tables struct{ at int }

func (tables) Lines(name string) (lines.Lines, []string, error) {
	if name != "farms.xlsx" {
		return nil, nil, lines.Refuse(name, "", "no such table", "")
	}
	return &tables{}, []string{"one note"}, nil
}

func (t *tables) Next() (lines.Line, error) {
	rows := [][]string{{"farm", "state", "county", "commodity", "base_acres"}, {"1", "99", "ALDER county", "corn", "100"}}
	if t.at++; t.at > len(rows) {
		return lines.Line{}, io.EOF
	}
	return lines.Line{Number: t.at, Cells: rows[t.at-1]}, nil
}

func (*tables) Close() error { return nil }

func (tables) County(name string) (farm.CountySource, []string, error) {
	if name != "table.xlsx" {
		return farm.CountySource{}, nil, fs.ErrNotExist
	}
	return corn("table", 104), []string{name + " line 3: not understood"}, nil
}

// book notes the States it was asked about.
type book struct {
	asked  []string
	prices farm.Market
	err    error
}

func (b *book) Sources(states ...string) ([]farm.CountySource, error) {
	b.asked = append(b.asked, states...)
	return []farm.CountySource{corn("book", 105)}, b.err
}

func (b *book) Market() (farm.Market, bool, error) { return b.prices, b.prices.MYA != nil, nil }

// house is every source at once.
func house() fstest.MapFS {
	all := fstest.MapFS{
		"home/operation.yaml": {Data: []byte(strings.Replace(string(files["operation.yaml"].Data), "market_file", "county_files: [own.yaml]\nmarket_file", 1))},
		"home/market.yaml":    files["market.yaml"],
		"home/own.yaml":       countyText("101"),
		"named.yaml":          countyText("102"),
		"counties/a.yaml":     countyText("103"),
		"counties/readme.txt": {Data: []byte("no county file")},
		"farms.csv":           {Data: []byte("farm,state,county,commodity,base_acres,hobby\n1,99,ALDER county,corn,100,x\n")},
	}
	return all
}

// County yields come from the first source that has them: county_files of the operation,
// CountyFiles, CountyFolder, CountyTables, Book. Each in turn is left out.
// Source: docs/formats.md and the comment of Question.
func TestOrderOfCountySources(t *testing.T) {
	r := source.Request{Files: house(), Operation: "home/operation.yaml", CountyFiles: []string{"named.yaml"}, CountyFolder: "counties",
		CountyTables: []string{"table.xlsx"}, Tables: tables{}, Book: &book{}, Today: today}
	without := []func(){
		func() { r.OperationText = files["operation.yaml"].Data },
		func() { r.CountyFiles = nil },
		func() { r.CountyFolder = "" },
		func() { r.CountyTables = nil },
		func() { r.Book = nil },
	}
	for first, leave := range without {
		found, err := source.Question(r)
		if err != nil {
			t.Fatal(err)
		}
		entries := found.Question.Counties.Entries("99001", crop.Corn, farm.AllPractices)
		var yields []crop.Yield
		for _, e := range entries {
			yields = append(yields, e.BenchmarkYield[2026])
		}
		if want := []crop.Yield{101, 102, 103, 104, 105}[first:]; !reflect.DeepEqual(yields, want) {
			t.Errorf("with sources from the %d. on the yields come in the order %v, want %v", first+1, yields, want)
		}
		leave()
	}
	found, err := source.Question(r)
	if err != nil || len(found.Question.Counties) != 0 {
		t.Errorf("without a source there are %v, %v", found.Question.Counties, err)
	}
}

// Prices: the request's market file, else the operation's; under it imported prices that
// are newer than the built-in ones; under those the built-in ones.
func TestOrderOfPrices(t *testing.T) {
	imported := farm.Market{AsOf: today, Source: "imported", MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{
		crop.Corn: {1990: {Value: 9.90}, 2026: {Value: 9.26}},
	}, Printed: map[crop.Commodity]map[crop.CropYear]time.Time{}}
	all := house()
	all["asked.yaml"] = &fstest.MapFile{Data: []byte("format: fencerow/market/1\nas_of: 2026-11-11\nsource: asked\noutlook: {corn: {2026: {price: 4.44}}}\n")}
	r := source.Request{Files: all, Operation: "home/operation.yaml", Market: "asked.yaml", Book: &book{prices: imported}, Today: today}
	for _, step := range []struct {
		source         string
		outlook, known float64 // of corn in 2026; 0: not looked at, none
		leave          func()
	}{
		{"asked", 4.44, 0, func() { r.Market = "" }},
		{"invented", 3.50, 0, func() { r.Operation = "" }},
		{"imported", 0, 9.26, func() { r.Book = nil }},
	} {
		found, err := source.Question(r)
		if err != nil {
			t.Fatal(err)
		}
		m := found.Question.Market
		if m.Source != step.source || step.outlook != 0 && m.Outlook[crop.Corn][2026].Value != step.outlook || m.MYA[crop.Corn][2026].Value != step.known {
			t.Errorf("market of %q: outlook %v, known %v, want %+v", m.Source, m.Outlook[crop.Corn][2026], m.MYA[crop.Corn][2026], step)
		}
		if m.MYA[crop.Corn][1990].Value != 9.90 {
			t.Errorf("market of %q lost the book's price of 1990", m.Source)
		}
		step.leave()
	}
	found, err := source.Question(r)
	if m := found.Question.Market; err != nil || !strings.HasPrefix(m.Source, "WASDE") || m.MYA[crop.Corn][1990].Value != 0 {
		t.Errorf("without files and book the market is of %q, %v", m.Source, err)
	}
}

// Crop years: the request's, else the operation's, else the year of the day; operations
// that follow bring their own. The close margin of the request goes before the file's.
func TestOrderOfSettings(t *testing.T) {
	margin := 9.0
	for name, c := range map[string]struct {
		r    source.Request
		want []crop.CropYear
	}{
		"asked":      {source.Request{OperationText: files["operation.yaml"].Data, CropYears: []crop.CropYear{2027, 2028}}, []crop.CropYear{2027, 2028}},
		"operation":  {source.Request{OperationText: files["operation.yaml"].Data}, []crop.CropYear{2026}},
		"day":        {source.Request{Today: today.AddDate(1, 0, 0)}, []crop.CropYear{2027}},
		"many":       {source.Request{ManyOperations: true}, nil},
		"many asked": {source.Request{ManyOperations: true, CropYears: []crop.CropYear{2026}}, []crop.CropYear{2026}},
	} {
		if c.r.Today.IsZero() {
			c.r.Today = today
		}
		c.r.Files, c.r.CloseMargin = files, &margin
		found, err := source.Question(c.r)
		if err != nil || !slices.Equal(found.Question.CropYears, c.want) || *found.Question.Operation.Settings.CloseMargin != margin {
			t.Errorf("%s: crop years %v, want %v; %v", name, found.Question.CropYears, c.want, err)
		}
	}
	if _, err := source.Question(source.Request{}); err != source.ErrNoDay {
		t.Errorf("without a day: %v", err)
	}
}

// The book is asked about whole States: those of the operation, those of the counties,
// or all; and about the State of a county that is named in words.
func TestStatesOfTheBook(t *testing.T) {
	for name, c := range map[string]struct {
		r    source.Request
		want []string
	}{
		"operation": {source.Request{Operation: "home/operation.yaml"}, []string{"99"}},
		"counties":  {source.Request{Counties: []string{"98001", "named.yaml", "98003"}}, []string{"98", "99"}},
		"many":      {source.Request{ManyOperations: true}, []string{""}},
		"table":     {source.Request{Operation: "farms.csv", CropYears: []crop.CropYear{2026}}, []string{"99", "99"}},
		"prices":    {source.Request{}, nil},
	} {
		b := &book{}
		c.r.Files, c.r.Book, c.r.Today = house(), b, today
		if _, err := source.Question(c.r); err != nil || !slices.Equal(b.asked, c.want) {
			t.Errorf("%s: the book was asked about %q, want %q; %v", name, b.asked, c.want, err)
		}
	}
}

// All mistakes of all files come back together and notes with them; an error of the book
// comes back as it is.
func TestMistakesTogether(t *testing.T) {
	all := house()
	maps.Copy(all, fstest.MapFS{"bad.yaml": {Data: []byte("format: fencerow/county/1\ncode: \"99x\"\n")}, "counties/b.yaml": countyText("150")})
	r := source.Request{Files: all, Tables: tables{}, Counties: []string{"990", "bad.yaml", "99003", "99003"}, CountyFiles: []string{"absent.yaml"}, CountyFolder: "counties",
		CountyTables: []string{"absent.xlsx", "table.xlsx"}, Market: "absent.yaml", Today: today}
	found, err := source.Question(r)
	var mistakes farm.Mistakes
	if !errors.As(err, &mistakes) {
		t.Fatalf("%T %v", err, err)
	}
	for _, want := range []string{`county is "990"`, "bad.yaml", "absent.yaml line 0: cannot be read", "counties/b.yaml", "county 99001 stands in counties/a.yaml too", "absent.xlsx line 0: cannot be read"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not told of:\n%v", want, err)
		}
	}
	if strings.Count(err.Error(), "absent.yaml line 0") != 2 {
		t.Errorf("the market file is not told of:\n%v", err)
	}
	if !slices.Equal(found.Counties, []string{"99003"}) || !slices.Equal(found.Notes, []string{"table.xlsx line 3: not understood"}) {
		t.Errorf("counties %q, notes %q", found.Counties, found.Notes)
	}
	fault := errors.New("another program has it")
	r.Book = &book{err: fault}
	if _, err := source.Question(r); err != fault {
		t.Errorf("error of the book: %v", err)
	}
}

// A table of farms is read as text from Files, or by Tables; a county's name is looked up
// in county tables and book.
func TestTableOfFarms(t *testing.T) {
	for name, note := range map[string]string{"farms.csv": `farms.csv: column "hobby" is not known`, "farms.xlsx": "farms.xlsx: one note"} {
		found, err := source.Question(source.Request{Files: house(), Operation: name, Tables: tables{}, CountyTables: []string{"table.xlsx"}, Today: today})
		if err != nil {
			t.Fatal(err)
		}
		farms := found.Question.Operation.Farms
		if len(farms) != 1 || farms[0].County != "99001" || farms[0].Bases[0].BaseAcres != 100 {
			t.Errorf("%s: farms %+v", name, farms)
		}
		if len(found.Notes) != 2 || !strings.HasPrefix(found.Notes[0], note) {
			t.Errorf("%s: notes %q, want %q first", name, found.Notes, note)
		}
	}
}

// Without anybody to read tables they are refused with a word, and nothing panics
// without files.
func TestNothingToReadWith(t *testing.T) {
	for _, name := range []string{"farms.csv", "farms.xlsx", "farms.yaml"} {
		_, err := source.Question(source.Request{Operation: name, CountyTables: []string{"table.xlsx"}, Today: today})
		if err == nil || !strings.Contains(err.Error(), name) || !strings.Contains(err.Error(), "county tables are not read here") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A county's name is found in any spelling; a name of two counties is not.
func TestCountyNames(t *testing.T) {
	two := farm.CountySource{Counties: map[string]farm.County{"99001": {Code: "99001", Name: "Alder"}, "99003": {Code: "99003", Name: "Birch County"}, "99005": {Code: "99005", Name: "BIRCH"}}}
	find := source.CountyNames(farm.CountyBook{two})
	for name, want := range map[string]string{"ALDER": "99001", " alder  Parish": "99001", "Alder County": "99001", "Birch": "", "Cedar": ""} {
		if code, ok := find("99", name); ok != (want != "") || ok && code != want {
			t.Errorf("%q is %q, %v, want %q", name, code, ok, want)
		}
	}
}
