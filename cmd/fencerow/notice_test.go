package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const notice, license = root + "/NOTICE", root + "/LICENSE"

// TestNotice: NOTICE is made from the modules that the released programs link and the
// licence texts in them, never typed. Renew it with -update.
func TestNotice(t *testing.T) {
	modules, missing := linkedModules(t)
	if missing != "" {
		fmt.Println("NOT CHECKED: NOTICE and the licences of linked modules: " + missing)
		t.Skip("the module cache is not whole")
	}
	want, faults := noticeText(modules)
	for _, fault := range faults {
		t.Error(fault)
	}
	if *update {
		if err := os.WriteFile(notice, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(notice)
	if err != nil || string(got) != want {
		t.Errorf("%s is not what the program links (%v): renew it with go test ./cmd/fencerow -run TestNotice -update, and read the change", notice, err)
	}
	fmt.Printf("licences of linked modules: checked %d of %d\n", len(modules)-len(faults), len(modules))
}

// TestLicenseIsWhole: the licence asks for its whole text. The text of another module in
// the cache is the one to compare with.
func TestLicenseIsWhole(t *testing.T) {
	ours, err := os.ReadFile(license)
	if err != nil {
		t.Fatal(err)
	}
	text := string(ours)
	for _, part := range []string{"Apache License\n", "Version 2.0, January 2004", "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", "\n   9. Accepting Warranty", "END OF TERMS AND CONDITIONS", "APPENDIX: How to apply"} {
		if !strings.Contains(text, part) {
			t.Errorf("LICENSE lacks %q", part)
		}
	}
	modules, missing := linkedModules(t)
	others := 0
	for _, m := range modules {
		for _, name := range licenceFiles(m.folder) {
			other, err := os.ReadFile(filepath.Join(m.folder, name))
			if err == nil && string(other) == text {
				others++
			}
		}
	}
	if missing != "" {
		fmt.Println("NOT CHECKED: LICENSE against the text in linked modules: " + missing)
	} else if others == 0 {
		t.Error("LICENSE is the text of no linked module under this licence")
	}
}

// module is one that is linked.
type module struct{ path, version, folder string }

// linkedModules are those of the released programs, of all systems together. What the
// module cache lacks is named; nothing is fetched.
func linkedModules(t *testing.T) (all []module, missing string) {
	t.Helper()
	for _, system := range []string{"linux", "windows", "darwin"} {
		list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Replace}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/fencerow")
		list.Dir = root
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0", "GOPROXY=off", "GOFLAGS=-mod=readonly")
		out, err := list.Output()
		if err != nil {
			return nil, fmt.Sprintf("go list of %s: %v", system, err)
		}
		for _, line := range strings.Split(string(out), "\n") {
			cells := strings.Split(line, "\t")
			if len(cells) != 3 || cells[0] == "fencerow" {
				continue
			}
			m := module{cells[0], cells[1], cells[2]}
			if m.folder == "" {
				return nil, m.path + " is not in the module cache"
			}
			if !slices.Contains(all, m) {
				all = append(all, m)
			}
		}
	}
	slices.SortFunc(all, func(a, b module) int { return strings.Compare(a.path, b.path) })
	return all, ""
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

// licences are told by sentences that only their texts have, in the order of this list.
var licences = []struct {
	name, has string
	endorsing string // "with" or "without" the clause on names; "": either
}{
	{name: "Apache-2.0", has: "apache license version 2.0"},
	{name: "MIT", has: "permission is hereby granted, free of charge, to any person obtaining a copy of this software"},
	{name: "BSD-3-Clause", has: "redistribution and use in source and binary forms", endorsing: "with"},
	{name: "BSD-2-Clause", has: "redistribution and use in source and binary forms", endorsing: "without"},
	{name: "OFL-1.1", has: "sil open font license version 1.1"},
	{name: "CC-BY-4.0", has: "creative commons attribution 4.0"},
	{name: "FTL", has: "the freetype license, which is similar"},
	{name: "public domain", has: "has been dedicated to the public domain by the authors"},
	{name: "patent grant", has: "additional ip rights grant (patents)"},
}

// licencesIn names the licences of a text.
func licencesIn(text string) (names []string) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	endorsing := "without"
	if strings.Contains(text, "neither the name") || strings.Contains(text, "nor the names") {
		endorsing = "with"
	}
	for _, l := range licences {
		if strings.Contains(text, l.has) && (l.endorsing == "" || l.endorsing == endorsing) {
			names = append(names, l.name)
		}
	}
	return names
}

func noticeText(modules []module) (text string, faults []string) {
	var b strings.Builder
	b.WriteString("fencerow\nCopyright 2026 the fencerow authors\n\nLicensed under the Apache License, Version 2.0 (LICENSE).\n\n")
	b.WriteString("The program links the modules below and the standard library of Go (BSD-3-Clause, patent grant).\nThe files named are in each module; their texts go with a release. Of modernc.org/sqlite and\n" +
		"github.com/klauspost/compress parts stand under licences of their own.\n\n" +
		"Made by go test ./cmd/fencerow -run TestNotice -update; do not edit.\n")
	for _, m := range modules {
		fmt.Fprintf(&b, "\n%s %s\n", m.path, m.version)
		known := false
		for _, name := range licenceFiles(m.folder) {
			content, err := os.ReadFile(filepath.Join(m.folder, name))
			if err != nil { // a folder
				fmt.Fprintf(&b, "    %s/: of parts\n", name)
				continue
			}
			kinds := licencesIn(string(content))
			if len(kinds) == 0 {
				kinds = []string{"see there"}
			} else {
				known = true
			}
			fmt.Fprintf(&b, "    %s: %s\n", name, strings.Join(kinds, ", "))
		}
		if !known {
			faults = append(faults, fmt.Sprintf("%s %s in %s has no licence that is known here: read it, and add it to the list or leave the module out", m.path, m.version, m.folder))
		}
	}
	return b.String(), faults
}

// Licences are distinguished by their sentences, also across line breaks.
func TestLicencesAreTold(t *testing.T) {
	const bsd = "Redistribution and use in source and binary\nforms, with or without"
	for text, want := range map[string]string{
		bsd: "BSD-2-Clause", bsd + "\n * Neither the name of": "BSD-3-Clause", "                Apache License\n   Version 2.0, January 2004": "Apache-2.0",
		"no licence": "", "Additional IP Rights Grant (Patents)": "patent grant",
	} {
		if got := strings.Join(licencesIn(text), ", "); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}
