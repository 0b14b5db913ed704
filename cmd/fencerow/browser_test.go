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
	"regexp"
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

var wholePaper = regexp.MustCompile(`(?s)<h[12]>([^<]*)</h[12]>`)

// A page prints one sheet of letter paper for the operation and one for each farm;
// a handout one for the area and one for each county and commodity.
func TestOneSheetOfPaperEach(t *testing.T) {
	needsPaper(t, "sheets of paper")
	for name, c := range map[string]struct {
		page   string
		sheets int
	}{"three farms": {demoPage(t), 1 + 3}, "five county sheets": {demoHandout(t), 1 + 5}} {
		source, err := os.ReadFile(c.page)
		if err != nil {
			t.Fatal(err)
		}
		headings := wholePaper.FindAllStringSubmatch(string(source), -1)
		sheets := printed(t, c.page)
		if len(sheets) != c.sheets || len(headings) != c.sheets {
			t.Fatalf("%s: %d sheets under %d headings, want %d", name, len(sheets), len(headings), c.sheets)
		}
		for i, sheet := range sheets {
			if want := html.UnescapeString(headings[i][1]); !strings.Contains(sheet, want) || !strings.Contains(sheet, "Caution.") {
				t.Errorf("%s: sheet %d lacks %q or the caution", name, i+1, want)
			}
		}
	}
}

// A farm of many commodities still goes on one sheet.
func TestManyCommoditiesOnOneSheet(t *testing.T) {
	needsPaper(t, "sheets of many commodities")
	lists := [][]string{{"corn", "soybeans", "wheat", "oats", "barley", "grain_sorghum"}, {"corn"}, {"corn", "soybeans", "wheat"}, {"corn", "soybeans", "wheat", "oats", "barley"}}
	for _, commodities := range lists[:ofLong(1, len(lists))] {
		folder := t.TempDir()
		farm, county, market := "", "", ""
		for _, c := range commodities {
			farm += fmt.Sprintf("      - {commodity: %s, base_acres: 50, payment_yield: 60}\n", c)
			county += fmt.Sprintf("  - {commodity: %s, practice: all, adjusted: {2026: [80, 82, 84, 78, 81]}, outlook: {2026: {yield: 80, known_from: local_harvest}}}\n", c)
			market += fmt.Sprintf("  %s: {2026: {price: 4.00}}\n", c)
		}
		for name, text := range map[string]string{
			"operation.yaml": "format: fencerow/operation/1\ncrop_years: [2026]\ncounty_files: [county.yaml]\nmarket_file: market.yaml\nfarms:\n  - farm: \"1\"\n    county: \"99001\"\n    bases:\n" + farm,
			"county.yaml":    "format: fencerow/county/1\ncode: \"99001\"\nname: Alder County\nyields:\n" + county,
			"market.yaml":    "format: fencerow/market/1\nas_of: 2026-11-10\nsource: invented\noutlook:\n" + market,
		} {
			if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		page := filepath.Join(folder, "page.html")
		runs(t, "compare", filepath.Join(folder, "operation.yaml"), "--book", "none", "--today", demoToday, "--page", page)
		if sheets := printed(t, page); len(sheets) != 1 {
			t.Errorf("%d commodities take %d sheets, want 1", len(commodities), len(sheets))
		}
	}
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
	for _, page := range []string{demoPage(t), demoHandout(t)} {
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
