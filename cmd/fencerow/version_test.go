package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/io/read/corrections"
)

const inventedCorrections = `format: fencerow/corrections/1
as_of: 2026-12-15
corrections:
  - {id: first, first_wrong: 1.0.0, fixed_in: 1.0.2, wrong: A rate was 2.00 dollars. It is 2.20., affects: PLC on oats., do: Ask again with version 1.0.2.}
  - {id: second, first_wrong: 1.0.1, wrong: A yield was 100. It is 110., affects: ARC-CO in one county., do: Import the table., source: the table}
`

// asRelease lets the program be a release while do runs.
func asRelease(of, day string, do func()) {
	was, on := version, released
	version, released = of, day
	defer func() { version, released = was, on }()
	do()
}

// TestVersion: dates of law, prices and tables are those of the built-in files.
func TestVersion(t *testing.T) {
	asRelease("1.0.1", "2026-12-01", func() {
		got := runs(t, "version")
		for _, want := range []string{"fencerow 1.0.1 of December 1, 2026\n", "\n  built with  go1.", "\n  law         crop years 2014 to 2031, newest text read on November ", "\n  prices      September 11, 2026 (WASDE-675, ", ": FSA February 10, 2025; RMA not dated; NASS June 27, 2026; WASDE May 12, 2025 (all: --json)\n"} {
			if !strings.Contains(got, want) {
				t.Errorf("no %q in\n%s", want, got)
			}
		}
	})
}

// TestVersionCheck: each release hears of the figures that it had wrong, and of no others.
func TestVersionCheck(t *testing.T) {
	list := writeText(t, filepath.Join(t.TempDir(), "corrections.yaml"), inventedCorrections)
	for release, want := range map[string][]string{"0.9.0": nil, "1.0.0": {"first"}, "1.0.1": {"first", "second"}, "1.0.2": {"second"}, "development": {"first", "second"}} {
		asRelease(release, "2026-12-01", func() {
			text, asJSON := runs(t, "version", "--check", list), runs(t, "version", "--check", list, "--json")
			for _, id := range []string{"first", "second"} {
				is := strings.Contains(strings.Join(want, " "), id)
				if strings.Contains(text, "\n"+id+": wrong from version 1.0.") != is || strings.Contains(asJSON, `"id": "`+id+`"`) != is {
					t.Errorf("%s is to hear of %v:\n%s", release, want, text)
				}
			}
			if (len(want) == 0) != strings.Contains(text, "No figure of this version is on it.") || strings.Contains(text, "is no release") != (release == "development") {
				t.Errorf("%s:\n%s", release, text)
			}
		})
	}
	asRelease("1.0.0", "2026-12-16", func() {
		if text := runs(t, "version", "--check", list); !strings.Contains(text, "The list is older than this version (December 16, 2026).") {
			t.Errorf("an old list:\n%s", text)
		}
	})
	for _, name := range []string{"none.yaml", writeText(t, filepath.Join(t.TempDir(), "c.yaml"), inventedCorrections+"  - {id: third}\n")} {
		if code := run([]string{"version", "--check", name}, io.Discard, io.Discard); code != exitInput {
			t.Errorf("%s: exit %d, want %d", name, code, exitInput)
		}
	}
}

// TestCorrections: the table of docs/corrections.md is the list docs/corrections.yaml. Renew it with -update.
func TestCorrections(t *testing.T) {
	const name = root + "/docs/corrections.yaml"
	list, err := corrections.Parse(name, []byte(fileText(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("| id | wrong from | fixed in | what was wrong | answers affected | what to do | source |\n|---|---|---|---|---|---|---|\n")
	for _, c := range list.All {
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s | %s |\n", c.ID, c.FirstWrong, c.FixedIn, c.Wrong, c.Affects, c.Do, c.Source)
	}
	tableIn(t, root+"/docs/corrections.md", b.String(), "TestCorrections")
	example := fileText(t, root+"/docs/corrections.md")
	_, example, _ = strings.Cut(example, "\n    format:")
	example, _, _ = strings.Cut("format:"+example, "\n\n")
	if list, err := corrections.Parse("the example", []byte(strings.ReplaceAll(example, "\n    ", "\n"))); err != nil || len(list.All) != 1 {
		t.Errorf("the example of docs/corrections.md: %+v, %v", list, err)
	}
}
