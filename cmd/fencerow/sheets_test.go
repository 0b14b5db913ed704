package main

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Invented operations whose sheets are looked at: 2 farms with 2 crops, 1 farm with 6
// crops, 12 farms and 3 people, 12 farms and 5 people with some choices typed; with the most pieces of letter paper that they may take,
// one for the operation (two where six circles of people decide), one for a farm and two
// crops, two for more.
var operations = []struct {
	name   string
	sheets int
}{{"two-farms", 1 + 2}, {"six-crops", 2}, {"twelve-farms", 1 + 12}, {"decided", 2 + 12}}

// operationPage is the page of one of the operations.
func operationPage(t *testing.T, name string) string {
	t.Helper()
	return madeOnce(t, name+".html", "compare", filepath.Join("testdata", "sheets", name+".yaml"), "--book", "none", "--builtin", "none", "--today", demoToday)
}

// operationPages are the pages of all of them in a long run, else of the shortest.
func operationPages(t *testing.T) (pages []string) {
	for _, o := range operations[:ofLong(1, len(operations))] {
		pages = append(pages, operationPage(t, o.name))
	}
	return pages
}

// readerPage is the page of the demo for one reader: a person of it, or a lender.
func readerPage(t *testing.T, reader string) string {
	t.Helper()
	return madeOnce(t, reader+".html", "compare", "--demo", "--sheet", reader)
}

// headings are the first headings of the sheets of a page.
var headings = regexp.MustCompile(`(?s)<section[^>]*>\s*<h[12]>([^<]*)</h[12]>`)

// Each sheet begins on a new piece of paper, and all keep to the paper they may take.
func TestSheetsOfPaper(t *testing.T) {
	t.Parallel()
	needsPaper(t, "sheets of paper")
	all := map[string]int{demoPage(t): 1 + 3, demoHandout(t): 1 + 5, readerPage(t, "landowner"): 1, readerPage(t, forLender): 1}
	for _, o := range operations[:ofLong(1, len(operations))] {
		all[operationPage(t, o.name)] = o.sheets
	}
	if os.Getenv(longRun) != "" {
		many, _ := manyHandout(t)
		all[many] = 2 + 60
	}
	for page, most := range all {
		source, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		sheets := printed(t, page)
		if len(sheets) != most {
			t.Errorf("%s takes %d pieces of paper, want %d", filepath.Base(page), len(sheets), most)
		}
		for _, h := range headings.FindAllStringSubmatch(string(source), -1) {
			first := html.UnescapeString(h[1])
			if !slices.ContainsFunc(sheets, func(text string) bool { return strings.HasPrefix(strings.TrimSpace(text), first) }) {
				t.Errorf("%s: no piece of paper begins with %q", filepath.Base(page), first)
			}
		}
		if n := strings.Count(strings.Join(sheets, ""), "Caution."); n != strings.Count(string(source), "<section") {
			t.Errorf("%s: %d cautions on %d sheets", filepath.Base(page), n, strings.Count(string(source), "<section"))
		}
		fmt.Printf("paper: %s takes %d of at most %d\n", filepath.Base(page), len(sheets), most)
	}
}

// leastPoints is the smallest type on paper and on a screen; 3 points are 4 pixels.
const leastPoints = 9

// measured is what a browser finds on a page in a window of some width, in pixels.
type measured struct {
	Inner, Wide float64  // the window, and the page in it
	Beyond      []string // elements that reach beyond the window
	Smallest    float64  // type, in pictures as they are shown
	Where       string   // its text
}

// measure is the script behind measured.
const measure = `(() => {
  const beyond = [...document.querySelectorAll('main *')].filter(e => !e.closest('thead') && e.getBoundingClientRect().width > 0 && e.getBoundingClientRect().right > innerWidth + 0.5).map(e => e.tagName + ' ' + e.textContent.slice(0, 30))
  let smallest = 1000, where = ''
  for (const e of document.querySelectorAll('main *')) {
    if (![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) continue
    let size = parseFloat(getComputedStyle(e).fontSize)
    const svg = e.closest('svg')
    if (svg) size *= svg.getBoundingClientRect().width / svg.viewBox.baseVal.width
    if (size < smallest) { smallest = size; where = e.textContent.slice(0, 30) }
  }
  return {inner: innerWidth, wide: document.documentElement.scrollWidth, beyond, smallest, where}
})()`

// view is a page in a window of some width, in pixels.
type view struct {
	name  string
	page  string // its text
	width int
}

// measuredIn measures a page in a window.
func measuredIn(t *testing.T, v view) (found measured) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "measured.html")
	if err := os.WriteFile(path, []byte(v.page), 0o600); err != nil {
		t.Fatal(err)
	}
	const height = 844 // of a phone
	inBrowser(t, path, v.width, height, func(b *chromium, id string) error { return b.evaluate(id, measure, &found) })
	return found
}

// asPrinted is a page with the style of its print on a screen.
func asPrinted(page string) string {
	page = regexp.MustCompile(`@media screen and \([^)]*\)`).ReplaceAllString(page, "@media not all")
	return strings.Replace(page, "@media print", "@media all", 1)
}

// Nothing is cut at the width of a phone, a larger phone or letter paper, and no type is
// smaller than 9 points there or on paper.
func TestNothingIsCutOrTooSmall(t *testing.T) {
	t.Parallel()
	needsPaper(t, "what is cut, and the smallest type")
	const inside = 720 // pixels between the margins of letter paper
	for _, path := range append(operationPages(t), demoPage(t), demoHandout(t), readerPage(t, "landowner"), readerPage(t, forLender)) {
		source, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		name, page := filepath.Base(path), string(source)
		views := []view{{"window", page, 360}, {"window", page, 390}, {"print", asPrinted(page), inside}, {"window", page, letterWidth}}
		for _, v := range views {
			m := measuredIn(t, v)
			points := m.Smallest * 3 / 4
			fmt.Printf("%s, %s of %.0f pixels: %.0f wide, %d elements beyond, smallest type %.2f points (%s)\n", name, v.name, m.Inner, m.Wide, len(m.Beyond), points, m.Where)
			if m.Inner != float64(v.width) || m.Wide > m.Inner || len(m.Beyond) > 0 {
				t.Errorf("%s at %d: %+v", name, v.width, m)
			}
			if points < leastPoints-0.005 {
				t.Errorf("%s, %s of %d: %q is set in %.2f points", name, v.name, v.width, m.Where, points)
			}
		}
	}
}

// shownText is what a page shows: without what is read aloud from pictures, which would
// be found twice.
func shownText(t *testing.T, path string) string {
	t.Helper()
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return spaces.ReplaceAllString(html.UnescapeString(regexp.MustCompile(`aria-label="[^"]*"|<[^>]*>`).ReplaceAllString(string(page), " ")), " ")
}

// The page of a question shows the figures of its JSON, worked out here anew: who pays more
// in how many of 100 outcomes, by how much a program is ahead, and what people are paid.
func TestPageShowsTheSame(t *testing.T) {
	shown := shownText(t, demoPage(t))
	var c comparison
	if err := json.Unmarshal([]byte(runs(t, "compare", "--demo", "--json")), &c); err != nil {
		t.Fatal(err)
	}
	compared := 0
	holds := func(want string) {
		if compared++; !strings.Contains(shown, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	y := c.CropYears[0]
	for _, f := range y.Farms {
		for _, k := range f.Commodities {
			n := hundred(k.Neither, k.ARC, k.PLC, k.Equal)
			leads, other, more, less := "ARC-CO", "PLC", n[1], n[2]
			if k.PLC > k.ARC {
				leads, other, more, less = other, leads, less, more
			}
			odds := fmt.Sprintf("%s pays more in %s of 100 outcomes, %s in %s, and neither pays in %s.", leads, more, other, less, n[0])
			if k.Neither == 0 {
				odds = fmt.Sprintf("%s pays more in %s of 100 outcomes, and %s in %s.", leads, more, other, less)
			}
			ahead := "ARC-CO"
			if k.Difference.Mean < 0 {
				ahead = "PLC"
			}
			holds(odds + fmt.Sprintf(" Averaged over all 100, zeros included, %s is $%.0f a base acre ahead", ahead, math.Abs(k.Difference.Mean)))
		}
	}
	for _, y := range c.CropYears {
		for _, under := range y.Operation.Under {
			holds(dollars(under.Mean) + " on average")
			for _, p := range under.ByPerson {
				if y.CropYear != c.CropYears[0].CropYear { // people are told of the first year alone
					continue
				}
				holds(dollars(p.Mean))
				if under.Elections == "leads" {
					holds(dollars(p.Percentiles["10"]) + " " + dollars(p.Percentiles["25"]) + " " + dollars(p.Mean))
				}
			}
		}
	}
	fmt.Printf("figures of the demo's page beside its JSON: checked %d\n", compared)
}

// dollars writes whole dollars, with a comma before the thousands.
func dollars(x float64) string {
	n := fmt.Sprintf("%.0f", x)
	if len(n) > 3 {
		n = n[:len(n)-3] + "," + n[len(n)-3:]
	}
	return "$" + n
}
