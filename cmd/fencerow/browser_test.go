package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// needs skips a test where the race detector runs and, saying so, where a program is missing.
func needs(t *testing.T, what string, programs ...string) {
	t.Helper()
	if underRace {
		t.Skip("other programs' work has no races to find here")
	}
	for _, program := range programs {
		if _, err := exec.LookPath(program); err != nil {
			fmt.Printf("NOT CHECKED: %s, for want of %s\n", what, program)
			t.Skip(program + " is not installed")
		}
	}
}

// needsPaper skips a test of sheets of paper where a browser, its text or the font in
// which sheets are fitted is missing.
func needsPaper(t *testing.T, what string) {
	t.Helper()
	needs(t, what, "chromium", "pdftotext", "fc-match")
	const font = "Liberation Sans" // of Arial's widths
	if match, err := exec.Command("fc-match", font).Output(); err != nil || !strings.Contains(string(match), font) {
		fmt.Printf("NOT CHECKED: %s, for want of the font %s\n", what, font)
		t.Skip("the font is not installed")
	}
}

// made holds the pages that several tests look at: each is made once for all.
var made = struct {
	mutex  sync.Mutex
	folder string
	pages  map[string]string
}{pages: map[string]string{}}

// madeOnce returns the page that a command line writes for --page; name names its file.
func madeOnce(t *testing.T, name string, args ...string) string {
	t.Helper()
	return madeBy(t, name, func(path string) { runs(t, append(args, "--page", path)...) })
}

// madeBy returns the page that make writes, made by the first test that asks for it.
func madeBy(t *testing.T, name string, make func(path string)) string {
	t.Helper()
	made.mutex.Lock()
	defer made.mutex.Unlock()
	if path, has := made.pages[name]; has {
		return path
	}
	if made.folder == "" {
		var err error
		if made.folder, err = os.MkdirTemp("", "pages"); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(made.folder, name)
	make(path)
	made.pages[name] = path
	return path
}

// demoPage is the page of the demo; demoHandout that of its two counties.
func demoPage(t *testing.T) string { return madeOnce(t, "page.html", "compare", "--demo") }

func demoHandout(t *testing.T) string {
	return madeBy(t, "handout.html", func(path string) {
		runs(t, "handout", "demo/alder.yaml", "demo/birch.yaml", "--market", "demo/market.yaml", "--book", "none", "--today", demoToday, "--crop-year", "2026,2027", "--out", filepath.Dir(path))
	})
}

// runs carries out a command line and returns its results.
func runs(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run(args, &stdout, &stderr); code != exitDone {
		t.Fatalf("%v: exit %d: %s", args, code, stderr.String())
	}
	return stdout.String()
}

// letterWidth and letterHeight are those of letter paper, in pixels.
const letterWidth, letterHeight = 816, 1056

// printed returns the text of each sheet of paper that a page prints.
func printed(t *testing.T, page string) []string {
	t.Helper()
	var paper struct{ Data []byte }
	inBrowser(t, page, letterWidth, letterHeight, func(b *chromium, id string) error {
		return b.ask(id, "Page.printToPDF", map[string]any{"printBackground": true, "preferCSSPageSize": true}, &paper)
	})
	pdf := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(pdf, paper.Data, 0o600); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSuffix(string(text), "\f"), "\f")
}

// axeFile is where the accessibility checks of npm's axe-core lie.
const axeFile = "FENCEROW_AXE"

// No page breaks a rule of axe-core, at the width of a phone or of letter paper.
func TestAccessibility(t *testing.T) {
	needs(t, "accessibility", "chromium")
	checks, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		fmt.Printf("NOT CHECKED: accessibility, for want of axe-core (%s names its axe.min.js)\n", axeFile)
		t.Skip("axe-core is not there")
	}
	const run = `axe.run().then(r => ({rules: r.passes.length, broken: r.violations.map(v => [v.id, v.nodes[0].html])}))`
	for _, page := range slices.Concat([]string{demoPage(t), demoHandout(t), readerPage(t, "landowner"), readerPage(t, forLender)}, operationPages(t)) {
		for _, size := range [][2]int{{390, 844}, {letterWidth, letterHeight}} {
			var result struct {
				Rules  int
				Broken [][2]string
			}
			inBrowser(t, page, size[0], size[1], func(b *chromium, id string) error {
				return errors.Join(b.evaluate(id, string(checks)+"; 0", new(int)), b.evaluate(id, run, &result))
			})
			if result.Rules == 0 {
				t.Fatalf("no result of axe-core at %v", size)
			}
			for _, broken := range result.Broken {
				t.Errorf("%s, at %v: %s: %s", filepath.Base(page), size, broken[0], broken[1])
			}
			fmt.Printf("axe-core on %s at %v: %d rules passed, %d broken\n", filepath.Base(page), size, result.Rules, len(result.Broken))
		}
	}
}
