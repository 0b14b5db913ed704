package source

import (
	"slices"
	"strings"
	"sync"

	"fencerow/io/read/builtin"
	"fencerow/program/farm"
)

// countyNamed finds counties by name in the county tables and the county book of the
// request, and in the built-in tables. It reads them when a name is first asked for, and passes over those that
// cannot be read: the error comes when their yields are read.
func (l *loader) countyNamed() func(state, name string) (code string, ok bool) {
	tables := sync.OnceValue(func() (all farm.CountyBook) {
		for _, path := range l.CountyTables {
			if l.Tables == nil {
				break
			}
			if source, _, err := l.Tables.County(path); err == nil {
				all = append(all, source)
			}
		}
		return all
	})
	return countyNames(func(state string) farm.CountyBook {
		var imported, builtIn []farm.CountySource
		if l.Book != nil {
			imported, _ = l.Book.Sources(state)
		}
		if !l.WithoutBuiltIn {
			builtIn, _ = builtin.Sources(state)
		}
		return slices.Concat(tables(), imported, builtIn)
	})
}

// CountyNames finds the code of a county by the two digits of its State and its name.
// A name that two counties of the State have is not found.
func CountyNames(counties farm.CountyBook) func(state, name string) (code string, ok bool) {
	return countyNames(func(string) farm.CountyBook { return counties })
}

// countyNames is CountyNames with the sources of each State read when first asked for.
func countyNames(sources func(state string) farm.CountyBook) func(state, name string) (code string, ok bool) {
	byState := map[string]map[string]string{}
	return func(state, name string) (string, bool) {
		if byState[state] == nil {
			byState[state] = namesOf(sources(state), state)
		}
		code, ok := byState[state][foldCounty(name)]
		return code, ok && code != severalCounties
	}
}

// severalCounties marks a name that two counties of a State have.
const severalCounties = "several"

// namesOf returns the codes of a State's counties by folded name.
func namesOf(counties farm.CountyBook, state string) map[string]string {
	codes := map[string]string{}
	for _, code := range counties.Codes(state) {
		name := foldCounty(counties.Name(code))
		if name == "" {
			continue
		}
		if other, has := codes[name]; has && other != code {
			code = severalCounties
		}
		codes[name] = code
	}
	return codes
}

// foldCounty makes one of the spellings of a county's name: "Alder County", "ALDER"
// and "alder".
func foldCounty(name string) string {
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	return strings.TrimSuffix(strings.TrimSuffix(name, " county"), " parish")
}
