package builtin

import (
	"encoding/csv"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	_ "embed"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// agencies in the order in which their figures win, and what their tables are called
// before their date.
var agencies = []struct{ agency, words string }{
	{"FSA", "FSA ARC-CO county tables, built in, the newest"},
	{"RMA", "RMA county yields, built in,"},
	{"NASS", "NASS county yields, built in,"},
}

// File is one of the agencies' files from which the tables were made.
type File struct {
	Agency  string
	File    string // name, and the program years taken from it
	Edition string // the agency's date, YYYY-MM-DD; "not dated"
	SHA256  string // of the copy that was read
}

//go:embed builtin-sources.csv
var sourcesText string

// notDated stands for the edition of a file that carries no date.
const notDated = "not dated"

// Files returns the agencies' files from which the tables were made.
var Files = sync.OnceValue(func() (all []File) {
	rows, _ := csv.NewReader(strings.NewReader(sourcesText)).ReadAll() // a test reads it
	for _, row := range rows[min(1, len(rows)):] {
		all = append(all, File{row[0], row[1], row[2], row[3]})
	}
	return all
})

// tableYear is the program year in the name of one of FSA's county tables.
var tableYear = regexp.MustCompile(`^ARC-CO county table, program year (\d{4})`)

// NewestTable returns the newest program year of which FSA's county table is built in; 0
// for none.
func NewestTable() (newest crop.CropYear) {
	for _, f := range Files() {
		if found := tableYear.FindStringSubmatch(f.File); found != nil {
			y, _ := strconv.Atoi(found[1]) // four digits
			newest = max(newest, y)
		}
	}
	return newest
}

// dateOf returns the newest date of an agency's files, "of 2026-06-27" or "not dated".
func dateOf(agency string) string {
	newest := notDated
	for _, f := range Files() {
		if f.Agency == agency && f.Edition != notDated && (newest == notDated || "of "+f.Edition > newest) {
			newest = "of " + f.Edition
		}
	}
	return newest
}

// Sources returns what each agency's tables say of the counties whose code begins with
// one of the prefixes (a county's code, the two digits of its State; "": all): one source
// for each agency that has any, in the order in which their figures win. A State is
// unpacked when it is first asked for. Yields are in the commodity's unit per acre. The
// maps are shared by all callers and must not be changed. The error is that of a damaged
// file, which a test excludes.
func Sources(prefixes ...string) ([]farm.CountySource, error) {
	all, err := AllSources(prefixes...)
	return slices.DeleteFunc(all, func(s farm.CountySource) bool { return len(s.Counties) == 0 }), err
}

// AllSources is Sources with one source for every agency, without counties where it has none
// of them.
func AllSources(prefixes ...string) ([]farm.CountySource, error) {
	states, err := index()
	if err != nil {
		return nil, err
	}
	found := byAgency{}
	for _, s := range states {
		for _, prefix := range prefixes {
			if !s.inState(prefix) {
				continue
			}
			if err := gather(found, s, prefix); err != nil {
				return nil, err
			}
		}
	}
	var sources []farm.CountySource
	for _, a := range agencies {
		sources = append(sources, farm.CountySource{
			Name: a.words + " " + dateOf(a.agency), Status: crop.Agency, Agency: a.agency == "FSA", Counties: found[a.agency],
		})
	}
	return sources, nil
}

// gather adds a State's counties whose code begins with prefix.
func gather(found byAgency, s stateMember, prefix string) error {
	read := s.whole
	if len(prefix) > len(s.code) {
		read = func() (byAgency, error) { return s.counties(prefix) }
	}
	all, err := read()
	if err != nil {
		return err
	}
	for agency, counties := range all {
		if found[agency] == nil {
			found[agency] = make(map[string]farm.County, len(counties))
		}
		maps.Copy(found[agency], counties)
	}
	return nil
}
