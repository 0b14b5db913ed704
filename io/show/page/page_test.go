package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fencerow/io/show/report"
)

const hostile = `<script>alert("x")</script> & 'y'`

// escaped is hostile as text of a page.
const escaped = `&lt;script&gt;alert(&#34;x&#34;)&lt;/script&gt; &amp; &#39;y&#39;`

// everyBlock has two sheets with a block of every kind, each with a word of its own.
func everyBlock() report.Report {
	return report.Report{Blocks: []report.Block{
		report.Heading{Level: 1, Text: "Title-word"},
		report.Text("Paragraph-word"),
		report.List{{Mark: "warning", Text: "Point-word"}, {Text: "Unmarked-word"}},
		report.Lead("Lead-word"), report.Banner("Banner-word"), report.Small("Small-word"), report.Checklist{"Check-word"},
		report.Beside{Left: []report.Block{report.Text("Left-word")}, Right: []report.Block{report.Text("Right-word")}},
		report.Lines{"Line-word"},
		report.Grid{Title: []string{"Grid-word"}, Columns: []report.Column{{Head: "farm", Left: true}, {Over: "Over-word", Head: "base\nacres"}}, Rows: [][]string{{"0417", "120"}}},
		report.Sheet{Corner: "Corner-word"},
		report.Heading{Level: 2, Text: "Second-word"},
		report.Table{Title: "Table-word", Columns: []string{"", "Column-word"}, Rows: [][]string{{"Row-word", "$1,234.50"}}, Notes: []string{"Note-word"}},
		report.Table{Columns: []string{"Place-word", "Number-word"}, Rows: [][]string{{"Over-word"}, {"Group-word"}, {"Grouped-word", "1"}, {"Next-group-word"}, {"Other-word", "1"}}, ToSheet: true},
		report.Picture{Question: "Squares-word", Says: "Squares-aloud", Drawing: report.Squares{{Kind: "neither pays", Count: 100, Words: "100"}}},
		report.Picture{Question: "Dots-word", Says: "Dots-aloud", Drawing: report.Dots{{Name: "PLC", Values: []float64{0, 30}, Average: 15, AverageText: "$15", Most: 40, MostText: "$40"}}},
		report.Picture{Question: "PriceLine-word", Says: "PriceLine-aloud", Drawing: report.PriceLine{Segments: []report.PriceSegment{{Ahead: "PLC more", To: 3.2, ToText: "$3.20"}, {Ahead: "neither pays"}}, At: 4.55, AtText: "$4.55"}},
	}}
}

func pageOf(t *testing.T, r report.Report) string {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, r); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// Every kind of block that package report has is in everyBlock, so that a new one
// cannot be left out of the page unseen.
func TestEveryKindOfBlockIsTried(t *testing.T) {
	tried := map[string]bool{}
	for _, b := range everyBlock().Blocks {
		tried[strings.TrimPrefix(fmt.Sprintf("%T", b), "report.")] = true
		if p, is := b.(report.Picture); is {
			tried[strings.TrimPrefix(fmt.Sprintf("%T", p.Drawing), "report.")] = true
		}
	}
	kinds := 0
	for _, kind := range methodsOf(t, "../report", "block", "drawing") {
		if kinds++; !tried[kind] {
			t.Errorf("no page is tried with a %s", kind)
		}
	}
	fmt.Printf("kinds of blocks and drawings on a page: checked %d of %d\n", len(tried), kinds)
	if kinds != len(tried) || kinds == 0 {
		t.Errorf("%d kinds, %d tried", kinds, len(tried))
	}
}

// methodsOf names the types of a package that have one of the methods.
func methodsOf(t *testing.T, folder string, methods ...string) (types []string) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, is := d.(*ast.FuncDecl)
			if !is || f.Recv == nil {
				continue
			}
			for _, m := range methods {
				if name, plain := f.Recv.List[0].Type.(*ast.Ident); plain && f.Name.Name == m {
					types = append(types, name.Name)
				}
			}
		}
	}
	return types
}

// All that a report says is on the page, each sheet is a section with its name, and the
// same report gives the same bytes.
func TestEveryBlockIsOnThePage(t *testing.T) {
	text := pageOf(t, everyBlock())
	for _, want := range []string{
		"<title>Title-word</title>", "<h1>Title-word</h1>", "<p>Paragraph-word</p>", "<li><strong>warning:</strong> Point-word</li>", "<li>Unmarked-word</li>", `<p class="lead">Lead-word</p>`, `<p class="banner">Banner-word</p>`, `<p class="small">Small-word</p>`,
		"<ul class=\"checks\">\n<li>Check-word</li>", "<div class=\"beside\">\n<div>\n<p>Left-word</p>\n</div>\n<div>\n<p>Right-word</p>\n</div>", "<h2>Second-word</h2>",
		"<caption>Table-word</caption>", `<th scope="col">Column-word</th>`, `<th scope="row">Row-word</th><td data-head="Column-word">$1,234.50</td>`, `<p class="note">Note-word</p>`,
		"<h2>Second-word</h2>\n<p class=\"corner\">Corner-word</p>", `<section style="--text:10pt;--picture:100%" id="sheet-1" aria-label="Second-word">`,
		"<tbody>\n<tr class=\"group over\"><th scope=\"rowgroup\" colspan=\"2\">Over-word</th></tr>\n</tbody>\n<tbody>\n<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"2\">Group-word</th></tr>",
		"</tbody>\n<tbody>\n<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"2\">Next-group-word</th></tr>", `<th scope="row">Grouped-word</th><td data-head="Number-word"><a href="#sheet-1">1</a></td>`,
		`aria-label="Title-word"`, `aria-label="Second-word: Table-word"`,
		"<figcaption>Squares-word</figcaption><svg", "<figcaption>Dots-word</figcaption><svg", "<figcaption>PriceLine-word</figcaption><svg",
		`aria-label="Squares-aloud"`, `aria-label="Dots-aloud"`, `aria-label="PriceLine-aloud"`,
	} {
		if n := strings.Count(text, want); n != 1 {
			t.Errorf("%q is on the page %d times, want once", want, n)
		}
	}
	if n := strings.Count(text, "<section "); n != 2 {
		t.Errorf("%d sections, want 2", n)
	}
	if again := pageOf(t, everyBlock()); again != text {
		t.Error("the same report gives other bytes")
	}
}

// A page asks nobody for anything: no script, and no address but the names of XML.
func TestPageStandsAlone(t *testing.T) {
	text := pageOf(t, everyBlock())
	if found := regexp.MustCompile(`(?i)<script|<link|<img|<iframe|@import|\son\w+\s*=|javascript:`).FindString(text); found != "" {
		t.Errorf("the page has %q", found)
	}
	for _, address := range regexp.MustCompile(`(?:https?:)?//[a-z][^\s"'<>)]*`).FindAllString(text, -1) {
		if address != "http://www.w3.org/2000/svg" {
			t.Errorf("the page names %s", address)
		}
	}
	for _, one := range regexp.MustCompile(`(?i)(?:src|href|url)\s*[=(]\s*["']?([^"')\s]*)`).FindAllStringSubmatch(text, -1) {
		if !strings.HasPrefix(one[1], "#") {
			t.Errorf("the page points to %q", one[0])
		}
	}
}

// Names and texts of people come out as text wherever they stand.
func TestTextIsEscapedEverywhere(t *testing.T) {
	r := report.Report{Blocks: []report.Block{
		report.Heading{Level: 1, Text: hostile}, report.Text(hostile), report.List{{Mark: hostile, Text: hostile}},
		report.Table{Title: hostile, Columns: []string{hostile, hostile}, Rows: [][]string{{hostile, hostile}}, Notes: []string{hostile}},
		report.Lead(hostile), report.Banner(hostile), report.Small(hostile), report.Checklist{hostile}, report.Beside{Left: []report.Block{report.Text(hostile)}},
		report.Table{Columns: []string{hostile, hostile}, Rows: [][]string{{hostile}, {hostile, hostile}}, ToSheet: true}, report.Sheet{Corner: hostile}, report.Heading{Level: 2, Text: hostile},
		report.Picture{Question: hostile, Says: hostile, Drawing: report.Squares{{Kind: hostile, Count: 100, Words: hostile}}},
		report.Picture{Question: hostile, Says: hostile, Drawing: report.Dots{{Name: hostile, Values: []float64{0}, AverageText: hostile, MostText: hostile}}},
		report.Picture{Question: hostile, Says: hostile, Drawing: report.PriceLine{Segments: []report.PriceSegment{{Ahead: hostile, ToText: hostile}, {Ahead: hostile}}, AtText: hostile, LowText: hostile, High: 1, HighText: hostile, Unit: hostile}},
	}}
	text := pageOf(t, r)
	if strings.Contains(strings.ToLower(text), "<script") || strings.Contains(text, `"x"`) {
		t.Errorf("text became markup:\n%s", text)
	}
	if n := strings.Count(text, escaped); n < 15 {
		t.Errorf("the text is there %d times", n)
	}
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	for {
		if _, err := d.Token(); err != nil {
			if err.Error() != "EOF" {
				t.Error("the markup is broken: ", err)
			}
			return
		}
	}
}

// A long sheet is set smaller than a short one, and no sheet smaller than can be read.
func TestLongSheetsAreSetSmaller(t *testing.T) {
	size := func(rows int) (points float64) {
		table := report.Table{Columns: []string{"", "USD"}}
		for range rows {
			table.Rows = append(table.Rows, []string{"corn", "$1"})
		}
		found := regexp.MustCompile(`--text:([\d.]+)pt`).FindStringSubmatch(pageOf(t, report.Report{Blocks: []report.Block{table}}))
		if found == nil {
			t.Fatal("no size of text")
		}
		fmt.Sscan(found[1], &points)
		return points
	}
	short, long, endless := size(3), size(50), size(5000)
	if short != fittings[0].text || long >= short || endless != fittings[len(fittings)-1].text || endless > long {
		t.Errorf("text of %v, %v and %v points for 3, 50 and 5,000 rows", short, long, endless)
	}
}

// broken is a writer that fails.
type broken struct{}

var errBroken = errors.New("no room")

func (broken) Write([]byte) (int, error) { return 0, errBroken }

// A picture that cannot be drawn, and a writer that fails, are errors.
func TestErrorsAreTold(t *testing.T) {
	if err := Write(broken{}, everyBlock()); !errors.Is(err, errBroken) {
		t.Errorf("a broken writer: %v", err)
	}
	var out bytes.Buffer
	wrong := report.Picture{Question: "What is paid?", Drawing: report.Dots{{Name: "PLC", Values: []float64{-1}}}}
	if err := Write(&out, report.Report{Blocks: []report.Block{wrong}}); err == nil || !strings.Contains(err.Error(), "What is paid?") || out.Len() > 0 {
		t.Errorf("dots below zero: %v, %d bytes", err, out.Len())
	}
}
