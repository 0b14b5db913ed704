package law

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"fencerow/program/crop"
)

// Figure is one row: a value of the law for a span of crop years.
type Figure struct {
	ID        string
	Commodity string // commodity, class of commodities, or "" for all
	First     crop.CropYear
	Last      crop.CropYear
	Number    float64 // the value, where Unit is not a word or date
	Text      string  // the value as written
	Unit      string  // "USD/bu", "1" for a share, "year", "word", "date", ...
	Status    crop.Status
	Source    string // key of Sources
	Pinpoint  string // section or page in the source
	Note      string
}

// Citation returns the source and the place in it: "7 U.S.C. 9017(c)(1)".
func (f Figure) Citation() string {
	switch {
	case f.Pinpoint == "":
		return f.Source
	case f.Pinpoint[0] == '(' || f.Pinpoint[0] == '.':
		return f.Source + f.Pinpoint
	}
	return f.Source + ", " + f.Pinpoint
}

// Source is a document that rows cite.
type Source struct {
	Key, Title, Publisher, Date, Address, Accessed string
}

// table is a loaded set of rows and sources.
type table struct {
	figures map[string][]Figure // by id, in file order
	sources map[string]Source
}

//go:embed *.csv
var files embed.FS

var embedded = sync.OnceValue(func() *table {
	table, err := load(files)
	if err != nil {
		panic("program/law: " + err.Error())
	}
	return table
})

const (
	sourcesFile  = "sources.csv"
	figureHeader = "id,commodity,first_crop_year,last_crop_year,value,unit,status,source,pinpoint,note"
	sourceHeader = "key,title,publisher,date,address,accessed"
)

// units that a row may carry. Words and dates are kept as text.
var units = []string{"USD/bu", "USD/lb", "USD/cwt", "USD/ton", "USD/acre", "USD", "1", "years", "decimals", "month", "lb/bu", "acres", "levels", "crop year", "days", "word", "date"}

// load reads sources.csv and every other CSV of fsys. It refuses unknown
// columns, unknown units, statuses and sources, blank values, spans that run
// backwards, and two rows of one id that hold in the same crop year; the error
// names file and line.
func load(fsys fs.FS) (*table, error) {
	table := &table{figures: map[string][]Figure{}, sources: map[string]Source{}}
	if err := table.loadSources(fsys); err != nil {
		return nil, err
	}
	names, err := fs.Glob(fsys, "*.csv")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if path.Base(name) == sourcesFile {
			continue
		}
		if err := table.loadFigures(fsys, name); err != nil {
			return nil, err
		}
	}
	return table, nil
}

func (t *table) loadSources(fsys fs.FS) error {
	return eachRow(fsys, sourcesFile, sourceHeader, func(row []string) error {
		s := Source{Key: row[0], Title: row[1], Publisher: row[2], Date: row[3], Address: row[4], Accessed: row[5]}
		if s.Key == "" || s.Title == "" || s.Publisher == "" || s.Date == "" {
			return fmt.Errorf("source %q needs key, title, publisher and date", s.Key)
		}
		if _, twice := t.sources[s.Key]; twice {
			return fmt.Errorf("source key %q stands twice", s.Key)
		}
		t.sources[s.Key] = s
		return nil
	})
}

func (t *table) loadFigures(fsys fs.FS, name string) error {
	return eachRow(fsys, name, figureHeader, func(row []string) error {
		f, err := parseFigure(row)
		if err != nil {
			return err
		}
		if _, known := t.sources[f.Source]; !known {
			return fmt.Errorf("source %q is not in %s", f.Source, sourcesFile)
		}
		for _, other := range t.figures[f.ID] {
			if other.Commodity == f.Commodity && f.First <= other.Last && other.First <= f.Last {
				return fmt.Errorf("%s %s: two rows for crop year %d", f.ID, f.Commodity, max(f.First, other.First))
			}
		}
		t.figures[f.ID] = append(t.figures[f.ID], f)
		return nil
	})
}

func parseFigure(row []string) (Figure, error) {
	f := Figure{ID: row[0], Commodity: row[1], Text: row[4], Unit: row[5], Status: crop.Status(row[6]), Source: row[7], Pinpoint: row[8], Note: row[9]}
	var err error
	if f.First, err = strconv.Atoi(row[2]); err != nil {
		return f, fmt.Errorf("first_crop_year is %q, not a crop year", row[2])
	}
	if f.Last, err = strconv.Atoi(row[3]); err != nil {
		return f, fmt.Errorf("last_crop_year is %q, not a crop year", row[3])
	}
	switch {
	case f.ID == "":
		return f, fmt.Errorf("the id is blank")
	case f.Last < f.First:
		return f, fmt.Errorf("%s: last crop year %d is before first %d", f.ID, f.Last, f.First)
	case strings.TrimSpace(f.Text) == "":
		return f, fmt.Errorf("%s: the value is blank", f.ID)
	case !slices.Contains(units, f.Unit):
		return f, fmt.Errorf("%s: unknown unit %q", f.ID, f.Unit)
	case !f.Status.Known():
		return f, fmt.Errorf("%s: unknown status %q", f.ID, f.Status)
	case f.Unit == "word" || f.Unit == "date":
		return f, nil
	}
	if f.Number, err = strconv.ParseFloat(f.Text, 64); err != nil {
		return f, fmt.Errorf("%s: value %q is not a number", f.ID, f.Text)
	}
	return f, nil
}

// eachRow calls read for each data row of a CSV file with the given header.
func eachRow(fsys fs.FS, name, header string, read func(row []string) error) error {
	file, err := fsys.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	rows := csv.NewReader(file)
	first, err := rows.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if got := strings.Join(first, ","); got != header {
		return fmt.Errorf("%s: the columns are %q, not %q", name, got, header)
	}
	for {
		row, err := rows.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if err := read(row); err != nil {
			line, _ := rows.FieldPos(0)
			return fmt.Errorf("%s line %d: %w", name, line, err)
		}
	}
}
