package source

import (
	"fmt"
	"io/fs"
	"path/filepath"

	"fencerow/program/farm"
)

// Input is a file that a question names.
type Input struct {
	What  string   // its use in the question: "operation file", "columns file", "county file", "county folder", "county table", "county book", "market file", "insurance file"
	Name  string   // as in the Request
	Files []string // those of a folder, in the order of their names; nil: it is a file
}

// Inputs returns the files that a request and its operation name, in the order in
// which Question reads them. A run must not write over any of them.
func (r Request) Inputs(o farm.Operation) (all []Input) {
	add := func(what string, names ...string) {
		for _, name := range names {
			if name != "" {
				all = append(all, Input{What: what, Name: name})
			}
		}
	}
	if r.OperationText == nil {
		add("operation file", r.Operation)
	}
	add("columns file", r.Columns)
	for _, name := range o.CountyFiles {
		add("county file", beside(r.Operation, name))
	}
	for _, name := range r.Counties {
		if IsCountyFile(name) {
			add("county file", name)
		}
	}
	add("county file", r.CountyFiles...)
	if r.CountyFolder != "" && r.Files != nil {
		names, _ := countyFilesIn(r.Files, r.CountyFolder) // Question says what is wrong with it
		all = append(all, Input{"county folder", r.CountyFolder, names})
	}
	add("county table", r.CountyTables...)
	add("county book", r.BookName)
	add("market file", r.Market)
	add("insurance file", r.Insurance)
	if o.MarketFile != "" {
		add("market file", beside(r.Operation, o.MarketFile))
	}
	return all
}

// countyFilesIn returns the county files of a folder, every .yaml, in the order of
// their names. The error, also of a folder without any, is a Wrong.
func countyFilesIn(files fs.FS, folder string) (names []string, err error) {
	const hint = "name a folder with county files"
	entries, err := fs.ReadDir(files, folder) // sorted by name
	if err != nil {
		return nil, Wrong{Field: "county-folder", Reason: "cannot be read: " + err.Error(), Hint: hint}
	}
	for _, e := range entries {
		if !e.IsDir() && filepath.Ext(e.Name()) == ".yaml" {
			names = append(names, join(folder, e.Name()))
		}
	}
	if len(names) == 0 {
		return nil, Wrong{Field: "county-folder", Reason: fmt.Sprintf("%s holds no .yaml file", folder), Hint: hint}
	}
	return names, nil
}
