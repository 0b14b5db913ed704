package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const root = "../.."

const notice, license = root + "/NOTICE", root + "/LICENSE"

var update = flag.Bool("update", false, "renew NOTICE")

func init() { folder = root } // tests run in the folder of the package

// TestNotice: NOTICE is made from the modules that the released programs link and the
// licence texts in them, never typed. Renew it with -update.
func TestNotice(t *testing.T) {
	modules, err := linkedModules()
	if err != nil {
		fmt.Println("NOT CHECKED: NOTICE and the licences of linked modules: " + err.Error())
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
		t.Errorf("%s is not what the program links (%v): renew it with go test ./cmd/release -run TestNotice -update, and read the change", notice, err)
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
	modules, missing := linkedModules()
	others := 0
	for _, m := range modules {
		for _, name := range licenceFiles(m.folder) {
			other, err := os.ReadFile(filepath.Join(m.folder, name))
			if err == nil && string(other) == text {
				others++
			}
		}
	}
	if missing != nil {
		fmt.Println("NOT CHECKED: LICENSE against the text in linked modules: " + missing.Error())
	} else if others == 0 {
		t.Error("LICENSE is the text of no linked module under this licence")
	}
}

// knownLicences are told by sentences that only their texts have, in the order of this list.
var knownLicences = []struct {
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
	for _, l := range knownLicences {
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
		"Made by go test ./cmd/release -run TestNotice -update; do not edit.\n")
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

// TestDependencies: docs/dependencies.md has a row for every module of go.mod and none else, in
// the part where it belongs, and names the licence of its text.
func TestDependencies(t *testing.T) {
	required, err := goTool([]string{"GOPROXY=off"}, "mod", "edit", "-json")
	if err != nil {
		t.Fatal(err)
	}
	var of struct {
		Require []struct{ Path string }
		Replace []struct{ Old struct{ Path string } }
	}
	if err := json.Unmarshal(required, &of); err != nil {
		t.Fatal(err)
	}
	modules, err := linkedModules()
	if err != nil {
		fmt.Println("NOT CHECKED: docs/dependencies.md: " + err.Error())
		t.Skip("the module cache is not whole")
	}
	want := map[string]string{} // the part of each module
	for _, m := range of.Require {
		want[m.Path] = "In tests alone"
	}
	texts := map[string]string{}
	for _, m := range modules {
		want[m.path] = "Linked into the program"
		for _, name := range licenceFiles(m.folder) {
			text, _ := os.ReadFile(filepath.Join(m.folder, name)) // a folder is of parts
			texts[m.path] += strings.Join(licencesIn(string(text)), ", ") + ", "
		}
	}
	for _, m := range of.Replace {
		want[m.Old.Path] = "Replaced by a few lines of our own"
	}
	page, err := os.ReadFile(root + "/docs/dependencies.md")
	if err != nil {
		t.Fatal(err)
	}
	rows, part := 0, ""
	for _, line := range strings.Split(string(page), "\n") {
		if heading, is := strings.CutPrefix(line, "## "); is {
			part = heading
		}
		cells := strings.Split(line, "|")
		if len(cells) != 5 || !strings.Contains(cells[1], ".") {
			continue
		}
		name, licence := strings.TrimSpace(cells[1]), strings.TrimSpace(cells[3])
		if want[name] != part {
			t.Errorf("%s stands under %q, it belongs under %q", name, part, want[name])
		}
		if part == "Linked into the program" && !strings.Contains(texts[name], licence) {
			t.Errorf("%s: the licence is %s, its texts are %s", name, licence, texts[name])
		}
		delete(want, name)
		rows++
	}
	for name, part := range want {
		t.Errorf("docs/dependencies.md has no row for %s under %q", name, part)
	}
	fmt.Printf("modules of go.mod: checked %d of %d\n", rows-len(want), len(of.Require))
}
