package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fencerow/io/file"
)

// release is what is made.
type release struct {
	version string    // 1.0.0
	day     time.Time // of every file in it
	commit  string    // that it is made from; "" where it is not known
	out     string    // the folder it goes to
	work    string    // a folder for what is thrown away
	files   *file.Run
	made    []string // names in out
}

// target is a system and processor that a program is built for.
type target struct{ system, processor string }

// partsTool lists the parts of a program (CycloneDX); it is no module of ours.
const partsTool = "github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod@v1.10.0"

// flags are those that make a build a release, and the same on every computer.
func (r *release) flags() []string {
	set := fmt.Sprintf("-X main.version=%s -X main.released=%s -X main.commit=%s", r.version, r.day.Format(time.DateOnly), r.commit)
	return []string{"build", "-trimpath", "-ldflags=-s -w -buildid= " + set}
}

// program builds the program for a target and lists its parts.
func (r *release) program(t target) (program, parts []byte, err error) {
	place := filepath.Join(r.work, t.system+"-"+t.processor, "fencerow")
	if _, err := goTool([]string{"GOOS=" + t.system, "GOARCH=" + t.processor}, append(r.flags(), "-o", place, "./cmd/fencerow")...); err != nil {
		return nil, nil, err
	}
	if program, err = os.ReadFile(place); err != nil {
		return nil, nil, err
	}
	// Without licences: it takes a module's first text for the whole; NOTICE has them all.
	parts, err = goTool(nil, "run", partsTool, "bin", "-json", "-noserial", "-notimestamp", "-std", "-version", r.version, place)
	return program, parts, err
}

// makePage writes the pages as one file.
func makePage(place string) error {
	place, err := filepath.Abs(place)
	if err == nil {
		_, err = goTool(nil, "run", "./cmd/page", "--out", place)
	}
	return err
}

// shared is what all archives have: papers, licences, man pages, completion.
func (r *release) shared() ([]entry, error) {
	all, err := licences()
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"README.md", "LICENSE", "NOTICE", "SECURITY.md"} {
		papers, err := entriesUnder(filepath.Join(folder, name), name, nil)
		if err != nil {
			return nil, err
		}
		all = append(all, papers...)
	}
	docs, err := entriesUnder(filepath.Join(folder, "docs"), "docs", func(name string) bool {
		return (strings.HasSuffix(name, ".md") || strings.HasSuffix(name, ".yaml")) && !strings.HasPrefix(name, "docs/changes/")
	})
	if err != nil {
		return nil, err
	}
	changes, err := r.changes()
	if err != nil {
		return nil, err
	}
	made, err := r.helped()
	return append(append(append(all, docs...), changes), made...), err
}

// changes are the notes of all changes in one file.
func (r *release) changes() (entry, error) {
	notes, err := entriesUnder(filepath.Join(folder, "docs", "changes"), "", nil)
	text := fmt.Sprintf("Changes up to fencerow %s of %s, in the order of their names.\n", r.version, r.day.Format(time.DateOnly))
	for _, note := range ordered(notes) {
		text += "\n" + strings.TrimSpace(string(note.content)) + "\n"
	}
	return entry{name: "CHANGES.md", content: []byte(text)}, err
}

// helped are the man pages and completion scripts, which the program itself writes.
func (r *release) helped() (all []entry, err error) {
	place := filepath.Join(r.work, "here", "fencerow")
	if _, err := goTool(nil, append(r.flags(), "-o", place, "./cmd/fencerow")...); err != nil {
		return nil, err
	}
	pages := filepath.Join(r.work, "man")
	if _, err := command(nil, place, "manual", "--out", pages).Output(); err != nil {
		return nil, err
	}
	written, err := entriesUnder(pages, "man", nil)
	if err != nil {
		return nil, err
	}
	for _, page := range written { // fencerow.1 into man1, where man looks
		page.name = "man/man" + page.name[len(page.name)-1:] + strings.TrimPrefix(page.name, "man")
		all = append(all, page)
	}
	for shell, name := range map[string]string{"bash": "fencerow.bash", "zsh": "_fencerow", "fish": "fencerow.fish", "powershell": "fencerow.ps1"} {
		script, err := command(nil, place, "completion", shell).Output()
		if err != nil {
			return nil, err
		}
		all = append(all, entry{name: "completion/" + name, content: script})
	}
	return all, nil
}
