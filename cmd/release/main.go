package main

import (
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"fencerow/io/file"
)

// mostBytes is how large a file of a release may be.
const mostBytes = 20_000_000

// targets are those of a release.
var targets = []target{{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"}}

func main() {
	version := flag.String("version", "", "of the release, as 1.0.0")
	day := flag.String("date", "", "of the release, as 2026-12-01")
	commit := flag.String("commit", "", "that it is made from (default: what git says)")
	out := flag.String("out", "dist", "the folder that the files go to; made if it is not there")
	only := flag.String("only", "", "one target alone, as linux/amd64, to try")
	flag.Parse()
	r, err := newRelease(*version, *day, *commit, *out)
	if err == nil {
		err = r.make(*only)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "release: "+err.Error())
		os.Exit(1)
	}
}

// newRelease checks what is given.
func newRelease(version, day, commit, out string) (*release, error) {
	if !regexp.MustCompile(`^\d{1,6}\.\d{1,6}\.\d{1,6}$`).MatchString(version) {
		return nil, fmt.Errorf("--version is %q: give three numbers, as 1.0.0", version)
	}
	on, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return nil, fmt.Errorf("--date is %q: give a day, as 2026-12-01", day)
	}
	if on.Year() < 1980 { // the first year that a zip can say
		return nil, fmt.Errorf("--date is %s: before 1980", day)
	}
	return &release{version: version, day: on, commit: commit, out: out, files: file.NewRun()}, nil
}

// make makes all files.
func (r *release) make(only string) (err error) {
	if r.work, err = os.MkdirTemp("", "fencerow-release"); err != nil {
		return err
	}
	defer os.RemoveAll(r.work)
	if err := os.MkdirAll(r.out, 0o755); err != nil {
		return err
	}
	if r.commit == "" {
		r.commit = commitOf()
	}
	shared, err := r.shared()
	if err != nil {
		return err
	}
	tried := 0
	for _, t := range targets {
		if only != "" && only != t.system+"/"+t.processor {
			continue
		}
		tried++
		if err := r.pack(t, shared); err != nil {
			return fmt.Errorf("%s/%s: %w", t.system, t.processor, err)
		}
	}
	if tried == 0 {
		return fmt.Errorf("--only is %q: no such target", only)
	}
	page := fmt.Sprintf("fencerow-%s.html", r.version)
	if err := makePage(filepath.Join(r.out, page)); err != nil {
		return err
	}
	r.made = append(r.made, page)
	return r.sums()
}

// pack builds the program for a target and packs it with what all archives share.
func (r *release) pack(t target, shared []entry) error {
	program, parts, err := r.program(t)
	if err != nil {
		return err
	}
	name := "fencerow"
	if t.system == "windows" {
		name += ".exe"
	}
	all := append(slices.Clone(shared), entry{name, program, true}, entry{"sbom.cdx.json", parts, false})
	base := fmt.Sprintf("fencerow-%s-%s-%s", r.version, t.system, t.processor)
	if err := r.write(base+".cdx.json", func(w io.Writer) error { _, err := w.Write(parts); return err }); err != nil {
		return err
	}
	if t.system == "windows" {
		return r.write(base+".zip", func(w io.Writer) error { return writeZip(w, "fencerow-"+r.version, r.day, all) })
	}
	return r.write(base+".tar.gz", func(w io.Writer) error { return writeTar(w, "fencerow-"+r.version, r.day, all) })
}

// write writes a file of the release.
func (r *release) write(name string, write func(io.Writer) error) error {
	r.made = append(r.made, name)
	return r.files.Write(filepath.Join(r.out, name), write)
}

// sums writes SHA256SUMS, which sha256sum -c reads, and refuses what is too large.
func (r *release) sums() error {
	var b strings.Builder
	slices.Sort(r.made)
	for _, name := range r.made {
		content, err := os.ReadFile(filepath.Join(r.out, name))
		if err != nil {
			return err
		}
		if len(content) >= mostBytes {
			return fmt.Errorf("%s has %d bytes, %d or more", name, len(content), mostBytes)
		}
		sum := sha256.Sum256(content)
		fmt.Fprintf(&b, "%s  %s\n", hex.EncodeToString(sum[:]), name)
		fmt.Printf("%9d  %s\n", len(content), name)
	}
	return r.files.Write(filepath.Join(r.out, "SHA256SUMS"), func(w io.Writer) error { _, err := io.WriteString(w, b.String()); return err })
}
