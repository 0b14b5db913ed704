package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// module is one that is linked.
type module struct{ path, version, folder string }

// linkedModules are those of the released programs, of all systems together, but for those
// that go.mod replaces by folders of this repository. Nothing is fetched: what the module
// cache lacks is an error.
func linkedModules() (all []module, err error) {
	for _, system := range []string{"linux", "windows", "darwin"} {
		out, err := goTool([]string{"GOOS=" + system, "GOPROXY=off"}, "list", "-deps", "-f", "{{with .Module}}{{if not .Replace}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/fencerow")
		if err != nil {
			return nil, fmt.Errorf("go list of %s: %w", system, err)
		}
		for _, line := range strings.Split(string(out), "\n") {
			cells := strings.Split(line, "\t")
			if len(cells) != 3 || cells[0] == "fencerow" {
				continue
			}
			m := module{cells[0], cells[1], cells[2]}
			if m.folder == "" {
				return nil, errors.New(m.path + " is not in the module cache")
			}
			if !slices.Contains(all, m) {
				all = append(all, m)
			}
		}
	}
	slices.SortFunc(all, func(a, b module) int { return strings.Compare(a.path, b.path) })
	return all, nil
}

var licenceName = regexp.MustCompile(`(?i)^(licen[sc]es?|copying|notice|patents|third_party)`)

// licenceFiles are the files and folders at the top of a module that hold licences.
func licenceFiles(folder string) (names []string) {
	entries, _ := os.ReadDir(folder) // a module without is told by the caller
	for _, e := range entries {
		if licenceName.MatchString(e.Name()) && !strings.HasSuffix(e.Name(), ".go") {
			names = append(names, e.Name())
		}
	}
	return names
}

// licences are the texts of all linked modules and of Go, each under the path of its module.
func licences() (all []entry, err error) {
	modules, err := linkedModules()
	if err != nil {
		return nil, err
	}
	goRoot, err := goTool(nil, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	modules = append(modules, module{path: "go", folder: strings.TrimSpace(string(goRoot))})
	for _, m := range modules {
		names := licenceFiles(m.folder)
		if len(names) == 0 {
			return nil, fmt.Errorf("%s has no licence in %s", m.path, m.folder)
		}
		for _, name := range names {
			texts, err := entriesUnder(filepath.Join(m.folder, name), "licenses/"+m.path+"/"+name, nil)
			if err != nil {
				return nil, err
			}
			all = append(all, texts...)
		}
	}
	return all, nil
}

// entriesUnder are the file or all files of a folder, as entries of this name; of a folder
// those that taken accepts, where it is given.
func entriesUnder(place, name string, taken func(name string) bool) (all []entry, err error) {
	err = filepath.WalkDir(place, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(place, at)
		if err != nil {
			return err
		}
		to := name
		if rel != "." {
			to += "/" + filepath.ToSlash(rel)
		}
		if taken != nil && !taken(to) {
			return nil
		}
		content, err := os.ReadFile(at)
		all = append(all, entry{name: to, content: content})
		return err
	})
	return all, err
}
