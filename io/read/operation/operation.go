package operation

import (
	"fmt"
	"path/filepath"
	"regexp"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Format is the format line of the files that Parse reads.
const Format = "fencerow/operation/1"

// Read returns the operation in a file. All mistakes of the file are reported at
// once, as an error of type farm.Mistakes.
func Read(path string) (farm.Operation, error) {
	text, err := document.Load(path)
	if err != nil {
		return farm.Operation{}, err
	}
	return Parse(path, text)
}

// Parse returns the operation in the text of a file; name stands in messages.
// Its errors are those of Read.
func Parse(name string, text []byte) (farm.Operation, error) {
	root, err := document.Parse(name, text)
	if err != nil {
		return farm.Operation{}, err
	}
	r := &reader{Reader: document.NewReader(name), producers: map[string]bool{}, farms: map[string]int{}}
	if r.Format(root, Format) {
		r.readOperation(root)
	}
	if err := r.Err(); err != nil {
		return farm.Operation{}, err
	}
	return r.operation, nil
}

// beginning is how the text of an operation file may begin: with a comment, the mark of a
// document, or one of its keys.
var beginning = regexp.MustCompile(`^(\x{feff})?\s*(#|---|(format|crop_years|settings|county_files|market_file|producers|farms)\s*:)`)

// Begins reports whether a text begins as an operation file does, and not as a table.
func Begins(text []byte) bool { return beginning.Match(text) }

// reader is one reading of an operation file.
type reader struct {
	*document.Reader
	operation farm.Operation
	producers map[string]bool // ids
	named     bool            // the file names a producer
	farms     map[string]int  // line of each farm, by its key
}

// readOperation reads the whole. Producers and crop years come before the farms
// that name them, wherever they stand in the file.
func (r *reader) readOperation(root document.Node) {
	producers, farms := root.Get("producers"), document.Node{}
	keep := func(document.Node) {}
	r.Fields(root, "the operation",
		document.Must("format", keep),
		document.May("crop_years", r.readCropYears),
		document.May("settings", r.readSettings),
		document.May("county_files", r.readCountyFiles),
		document.May("market_file", r.readMarketFile),
		document.May("producers", keep),
		document.Must("farms", func(v document.Node) { farms = v }))
	r.readProducers(producers)
	if farms.Kind == document.Empty {
		return
	}
	r.declareByUse(farms)
	r.Items(farms, "farms", r.readFarm)
	if farms.Kind == document.List && len(farms.Items) == 0 {
		r.Refuse(farms, "farms is an empty list", "add at least one farm")
	}
}

func (r *reader) readCropYears(v document.Node) {
	if v.Kind == document.List && len(v.Items) == 0 {
		r.Refuse(v, "crop_years is an empty list", "name the crop years asked about, as crop_years: [2026], or leave the key out")
		return
	}
	span := farm.ProgramYears()
	seen := map[crop.CropYear]bool{}
	r.Items(single(v), "crop_years", func(item document.Node) {
		year, ok := r.CropYear(item, "crop_years", span)
		switch {
		case ok && seen[year]:
			r.Refuse(item, fmt.Sprintf("crop year %d stands twice in crop_years", year), "name each crop year once")
		case ok:
			seen[year] = true
			r.operation.CropYears = append(r.operation.CropYears, year)
		}
	})
}

// beside reports whether the name of another file stays in the folder of this one: a file
// that somebody sends must not make others of the computer be read.
func (r *reader) beside(v document.Node, what, name string) bool {
	if filepath.IsLocal(filepath.FromSlash(name)) {
		return true
	}
	r.Refuse(v, fmt.Sprintf("%s is %q, which is not in the folder of this file", what, name), "copy the file beside this one and give its name alone, or name it on the command line")
	return false
}

func (r *reader) readCountyFiles(v document.Node) {
	r.Items(single(v), "county_files", func(item document.Node) {
		if file, ok := r.Text(item, "county file"); ok && r.beside(item, "county file", file) {
			r.operation.CountyFiles = append(r.operation.CountyFiles, file)
		}
	})
}

func (r *reader) readMarketFile(v document.Node) {
	if file, ok := r.Text(v, "market_file"); ok && r.beside(v, "market_file", file) {
		r.operation.MarketFile = file
	}
}

// single lets one value stand for a list of one.
func single(v document.Node) document.Node {
	if v.Kind != document.Scalar {
		return v
	}
	return document.Node{Kind: document.List, Items: []document.Node{v}, Line: v.Line, Column: v.Column}
}
