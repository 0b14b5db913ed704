package source

import (
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"sync"

	"fencerow/io/read/builtin"
	"fencerow/io/read/county"
	"fencerow/io/read/countyname"
	"fencerow/io/read/farmtable"
	"fencerow/io/read/lines"
	"fencerow/io/read/market"
	"fencerow/io/read/operation"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/parallel"
)

// loader reads the files of a request in turn and collects their mistakes.
type loader struct {
	Request
	builtin  func() farm.Market
	counties farm.CountyBook
	imported *farm.Market // prices of the county book; nil where there are none
	profile  farmtable.Profile
	mistakes farm.Mistakes
	notes    []string
}

// newLoader returns a loader. It starts to read the built-in prices, which goes on
// while other files are read.
func newLoader(r Request) *loader {
	l := &loader{Request: r, builtin: sync.OnceValue(market.Builtin)}
	parallel.Ahead(func() { l.builtin() })
	if l.Files == nil {
		l.Files = noFiles{}
	}
	return l
}

// noFiles is a file system without files.
type noFiles struct{}

// Open returns fs.ErrNotExist.
func (noFiles) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// keep collects the mistakes in an error; any other error becomes one mistake of the
// file.
func (l *loader) keep(name string, err error) {
	if err == nil {
		return
	}
	if mistakes, ok := err.(farm.Mistakes); ok {
		l.mistakes = append(l.mistakes, mistakes...)
		return
	}
	l.mistakes = append(l.mistakes, farm.Mistake{File: name, Reason: "cannot be read: " + err.Error(), Hint: "check the name and that the file can be opened"})
}

// parsed reads a file and parses it.
func parsed[T any](l *loader, name string, parse func(string, []byte) (T, error)) (value T) {
	data, err := fs.ReadFile(l.Files, name)
	if err == nil {
		value, err = parse(name, data)
	}
	l.keep(name, err)
	return value
}

// operation reads the operation, where there is one: from a file, a text or a table.
func (l *loader) operation() (o farm.Operation) {
	var err error
	switch {
	case l.OperationText != nil:
		o, err = operation.Parse(l.Operation, l.OperationText)
	case l.Operation == "":
		return o
	case farmtable.IsTable(l.Operation):
		o, err = l.farmTable(l.Operation)
	default:
		return parsed(l, l.Operation, operation.Parse)
	}
	l.keep(l.Operation, err)
	return o
}

// columnsFile reads the columns file, which goes with a table of farms alone: else the
// error is a Wrong.
func (l *loader) columnsFile() error {
	if l.Columns == "" {
		return nil
	}
	if !l.ManyOperations && (l.OperationText != nil || !farmtable.IsTable(l.Operation)) {
		return Wrong{Field: "columns", Reason: "goes with a table of farms", Hint: "name a table (.csv, .xlsx or .parquet), or leave it out"}
	}
	l.profile = parsed(l, l.Columns, farmtable.ParseProfile)
	return nil
}

// farmTable reads the one operation of a table of farms.
func (l *loader) farmTable(name string) (farm.Operation, error) {
	profile := l.profile
	if l.Insured {
		profile = profile.WithInsurance()
	}
	rows, err := OpenFarms(l.Files, l.Tables, name, l.countyNamed(), profile)
	if err != nil {
		return farm.Operation{}, err
	}
	o, notes, err := farmtable.ReadOperation(name, rows, len(l.CropYears) > 0)
	for _, note := range notes {
		l.notes = append(l.notes, name+": "+note)
	}
	return o, err
}

// OpenFarms opens a table of farms and reads its headings, as farmtable.Open: .csv from
// files, other kinds by tables. A nil tables reads no other kind; county may be nil.
func OpenFarms(files fs.FS, tables Tables, name string, county farmtable.County, profile farmtable.Profile) (*farmtable.Reader, error) {
	found, notes, err := linesOf(files, tables, name)
	if err != nil {
		return nil, err
	}
	return farmtable.Open(name, found, notes, county, profile)
}

// SuggestColumns returns a columns file for a table of farms: farmtable.Suggest.
func SuggestColumns(files fs.FS, tables Tables, name string) ([]byte, error) {
	found, _, err := linesOf(files, tables, name)
	if err != nil {
		return nil, err
	}
	return farmtable.Suggest(name, found)
}

// linesOf opens a table: .csv here, other kinds by tables.
func linesOf(files fs.FS, tables Tables, name string) (lines.Lines, []string, error) {
	if farmtable.Ending(name) == farmtable.CSVEnding {
		file, err := files.Open(name)
		if err != nil {
			return nil, nil, lines.Unreadable(name, err)
		}
		text, err := farmtable.CSV(name, file)
		return text, nil, err
	}
	if tables == nil {
		return nil, nil, lines.Refuse(name, farmtable.Ending(name), "tables of this kind are not read here", "save the table as .csv")
	}
	return tables.Lines(name)
}

// namedCounties returns the codes of Request.Counties, each once, and reads the county
// files among them.
func (l *loader) namedCounties() (codes []string) {
	for _, code := range l.Counties {
		if IsCountyFile(code) {
			code = l.countyFile(code, filepath.Base(code)) // "": its mistakes are kept
		} else if found, fault := countyname.Find("county", code); fault != nil {
			l.mistakes = append(l.mistakes, farm.Mistake{Value: code, Reason: fault.Reason, Hint: fault.Hint})
			continue
		} else {
			code = found
		}
		if code != "" && !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}

// countyFile reads a county file, shown to people under the name shown, and returns
// the code of the county.
func (l *loader) countyFile(name, shown string) string {
	c := parsed(l, name, county.Parse)
	l.counties = append(l.counties, farm.CountySource{Name: shown, Status: crop.Assumed, Counties: map[string]farm.County{c.Code: c}})
	return c.Code
}

// countyFolder reads the county files of a folder as one source, so that a county is
// found at once among thousands.
func (l *loader) countyFolder(names []string) {
	if l.CountyFolder == "" {
		return
	}
	source := farm.CountySource{Name: filepath.Base(l.CountyFolder), Status: crop.Assumed, Counties: map[string]farm.County{}}
	from := map[string]string{} // file by county
	files := l.countyFiles(names)
	for i, name := range names {
		c := files[i].county
		l.keep(name, files[i].err)
		if other, twice := from[c.Code]; twice && c.Code != "" {
			l.mistakes = append(l.mistakes, farm.Mistake{File: name, Value: c.Code, Reason: fmt.Sprintf("county %s stands in %s too", c.Code, other), Hint: "join both files, or take one away"})
			continue
		}
		from[c.Code], source.Counties[c.Code] = name, c
	}
	l.counties = append(l.counties, source)
}

// countyParsed is a county file that was read.
type countyParsed struct {
	county farm.County
	err    error
}

// countyFiles reads county files on all cores, in the order of their names.
func (l *loader) countyFiles(names []string) []countyParsed {
	all := make([]countyParsed, len(names))
	parallel.Do(len(names), func(i int) {
		data, err := fs.ReadFile(l.Files, names[i])
		if err == nil {
			all[i].county, err = county.Parse(names[i], data)
		}
		all[i].err = err
	})
	return all
}

// countyTable reads one of the agency's county tables.
func (l *loader) countyTable(name string) {
	if l.Tables == nil {
		l.mistakes = append(l.mistakes, farm.Mistake{File: name, Reason: "county tables are not read here", Hint: "give the county's yields in a county file"})
		return
	}
	source, notes, err := l.Tables.County(name)
	l.keep(name, err)
	l.notes = append(l.notes, notes...)
	if err == nil {
		l.counties = append(l.counties, source)
	}
}

// countyBook adds the figures that the county book has for some States.
func (l *loader) countyBook(states []string) error {
	if l.Book == nil {
		return nil
	}
	sources, err := l.Book.Sources(states...)
	if err != nil {
		return err
	}
	l.counties = append(l.counties, sources...)
	for _, source := range sources {
		l.notes = append(l.notes, source.Notes...)
	}
	return nil
}

// importedPrices takes the prices of the county book.
func (l *loader) importedPrices() error {
	if l.Book == nil {
		return nil
	}
	prices, has, err := l.Book.Market()
	if has {
		l.imported = &prices
	}
	return err
}

// builtInTables adds what the built-in county tables have of some States.
func (l *loader) builtInTables(states []string) error {
	if l.WithoutBuiltIn {
		return nil
	}
	sources, err := builtin.Sources(states...)
	l.counties = append(l.counties, sources...)
	return err
}

// market returns the prices: those of the market file (the request's, else the one
// named by the operation), over the imported ones where they are newer, over the
// built-in ones.
func (l *loader) market(named string) farm.Market {
	builtin := l.builtin()
	if l.imported != nil {
		builtin = withImported(builtin, *l.imported)
	}
	switch {
	case l.Market != "":
		return parsed(l, l.Market, market.Parse).Over(builtin)
	case named != "":
		return parsed(l, beside(l.Operation, named), market.Parse).Over(builtin)
	}
	return builtin
}

// withImported returns the built-in prices with the imported ones over them where those
// are newer.
func withImported(builtin, imported farm.Market) farm.Market {
	return imported.Newer(builtin).Over(builtin)
}

// Prices returns the national prices that an answer rests on where no market file is
// named: the imported ones of a county book, which may be nil, over the built-in ones where
// they are newer. The error is the book's.
func Prices(b Book) (farm.Market, error) {
	builtin := market.Builtin()
	if b == nil {
		return builtin, nil
	}
	imported, has, err := b.Market()
	if err != nil || !has {
		return builtin, err
	}
	return withImported(builtin, imported), nil
}
