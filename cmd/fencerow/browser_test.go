package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// browser runs Chromium without a window on a file; it prints what the checks miss
// and skips where there is no browser.
func browser(t *testing.T, flags ...string) []byte {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	all := append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir=" + t.TempDir()}, flags...)
	out, err := exec.CommandContext(ctx, "chromium", all...).Output()
	if err != nil {
		t.Fatalf("chromium %v: %v", flags, err)
	}
	return out
}

// needs skips a test, and says so, where a program is missing.
func needs(t *testing.T, what string, programs ...string) {
	t.Helper()
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

// demoPage is the page of the demo; demoHandout that of its two counties.
func demoPage(t *testing.T) string {
	path := filepath.Join(t.TempDir(), "page.html")
	runs(t, "compare", "--demo", "--page", path)
	return path
}

func demoHandout(t *testing.T) string {
	folder := t.TempDir()
	runs(t, "handout", "demo/alder.yaml", "demo/birch.yaml", "--market", "demo/market.yaml", "--book", "none", "--today", demoToday, "--crop-year", "2026,2027", "--out", folder)
	return filepath.Join(folder, "handout.html")
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

// printed returns the text of each sheet of paper that a page prints.
func printed(t *testing.T, page string) []string {
	t.Helper()
	pdf := filepath.Join(t.TempDir(), "page.pdf")
	browser(t, "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+page)
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
	const begin, end = "AXE-BEGIN", "AXE-END"
	for _, page := range slices.Concat([]string{demoPage(t), demoHandout(t), readerPage(t, "landowner"), readerPage(t, forLender)}, operationPages(t)) {
		source, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		check := "<script>" + string(checks) + "</script><script>axe.run().then(r => { document.title = '" + begin + "' + JSON.stringify({rules: r.passes.length, broken: r.violations.map(v => [v.id, v.nodes[0].html])}) + '" + end + "' })</script></body>"
		checked := filepath.Join(t.TempDir(), "checked.html")
		if err := os.WriteFile(checked, []byte(strings.Replace(string(source), "</body>", check, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, width := range []string{"390,844", "816,1056"} {
			dom := string(browser(t, "--window-size="+width, "--virtual-time-budget=30000", "--dump-dom", "file://"+checked))
			_, rest, _ := strings.Cut(dom, begin)
			found, _, ended := strings.Cut(rest, end)
			var result struct {
				Rules  int
				Broken [][2]string
			}
			if err := json.Unmarshal([]byte(html.UnescapeString(found)), &result); err != nil || !ended || result.Rules == 0 {
				t.Fatalf("no result of axe-core at %s: %v", width, err)
			}
			for _, broken := range result.Broken {
				t.Errorf("%s, at %s: %s: %s", filepath.Base(page), width, broken[0], broken[1])
			}
			fmt.Printf("axe-core at %s: %d rules passed, %d broken\n", width, result.Rules, len(result.Broken))
		}
	}
}
