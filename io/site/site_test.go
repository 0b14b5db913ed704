package site

import (
	"fmt"
	"html"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/show/page"
	"fencerow/io/show/sheet"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/sim/compare"

	"pgregory.net/rapid"
)

// demoFiles are an invented farm and its county; 99 is no State.
var demoFiles = fstest.MapFS{
	"operation.yaml": {Data: []byte(`format: fencerow/operation/1
crop_years: [2026]
county_files: [alder.yaml]
producers: [{id: operator}]
farms:
  - {farm: "0417", county: "99001", shares: {operator: 1}, bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]}
`)},
	"alder.yaml": {Data: []byte(`format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [180, 180, 180, 180, 180]}, outlook: {2026: {yield: 180, known_from: local_harvest}}}
`)},
}

func tested() *Site {
	today := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	return &Site{Today: today, Seed: 1, Draws: 1024, Demo: Demo{Files: demoFiles, Name: "operation.yaml", Today: today}}
}

// form makes a form of "name=value".
func form(pairs ...string) url.Values {
	v := url.Values{}
	for _, pair := range pairs {
		name, value, _ := strings.Cut(pair, "=")
		v.Add(name, value)
	}
	return v
}

func (s *Site) page(t *testing.T, path string, pairs ...string) string {
	t.Helper()
	a := s.Answer(Request{Path: path, Form: form(pairs...)})
	if a.Status != 200 {
		t.Fatalf("%s: status %d: %s", path, a.Status, a.Body)
	}
	return string(a.Body)
}

// typed is the record of one farm in a county of the built-in tables.
var typed = []string{"f1.county=Story, Iowa", "f1.number=0417", "f1.b1.crop=corn", "f1.b1.acres=1,120.5", "f1.b1.yield=171", "f1.b1.elected=PLC", "f1.share=60", "w1.name=landowner", "f1.w1=40"}

// The answer of a typed record is the page that the same operation file gives.
func TestTypedRecordIsTheSameQuestion(t *testing.T) {
	s := tested()
	found, err := source.Question(source.Request{Operation: "operation.yaml", Today: s.Today, Seed: 1, Draws: 1024, OperationText: []byte(`format: fencerow/operation/1
producers:
  - {id: operator, kind: person}
  - {id: landowner, kind: person}
farms:
  - farm: "0417"
    county: "19169"
    election_on_record: {corn: PLC}
    shares: {operator: 0.6, landowner: 0.4}
    bases: [{commodity: corn, base_acres: 1120.5, payment_yield: 171}]
`)})
	if err != nil {
		t.Fatal(err)
	}
	c, err := compare.Answer(found.Question)
	if err != nil {
		t.Fatal(err)
	}
	body, err := page.Body(sheet.Of(c, false))
	if err != nil {
		t.Fatal(err)
	}
	if answered := s.page(t, answerPath, typed...); !strings.Contains(answered, body) {
		t.Errorf("the answer of the typed record is not that of the operation file:\n%s", answered)
	}
}

var hiddenField = regexp.MustCompile(`<(?:input|textarea)[^>]* name="([^"]+)"(?: id="[^"]+")? value="([^"]*)"`)
var chosen = regexp.MustCompile(`(?s)<select name="([^"]+)"[^>]*>.*?</select>`)
var selected = regexp.MustCompile(`<option value="([^"]*)" selected>`)

// fieldsOf are the fields of the first form of a page that goes to a path.
func fieldsOf(page, path string) url.Values {
	v := url.Values{}
	_, form, _ := strings.Cut(page, `action="`+path+`"`)
	form, _, _ = strings.Cut(form, "</form>")
	for _, m := range hiddenField.FindAllStringSubmatch(form, -1) {
		v.Set(html.UnescapeString(m[1]), html.UnescapeString(m[2]))
	}
	for _, m := range chosen.FindAllStringSubmatch(form, -1) {
		if one := selected.FindStringSubmatch(m[0]); one != nil {
			v.Set(html.UnescapeString(m[1]), html.UnescapeString(one[1]))
		}
	}
	return v
}

// Whatever is typed on a page is in the form of every page after it.
func TestNothingTypedIsLost(t *testing.T) {
	s := tested()
	text := rapid.StringMatching(`[a-zA-Z0-9<>"&' .,%-]{1,12}`)
	rapid.Check(t, func(t *rapid.T) {
		v := url.Values{}
		for i := range rapid.IntRange(1, 3).Draw(t, "farms") {
			name := fmt.Sprintf("f%d.", i+1)
			v.Set(name+"county", text.Draw(t, "county"))
			v.Set(name+"number", text.Draw(t, "number"))
			v.Set(name+"share", text.Draw(t, "share"))
			for j := range rapid.IntRange(1, 3).Draw(t, "bases") {
				line := fmt.Sprintf("%sb%d.", name, j+1)
				v.Set(line+"crop", rapid.SampledFrom([]string{"corn", "soybeans", "seed_cotton"}).Draw(t, "crop"))
				v.Set(line+"acres", text.Draw(t, "acres"))
				v.Set(line+"yield", text.Draw(t, "yield"))
				v.Set(line+"elected", "ARC-CO")
			}
		}
		v.Set("w1.name", text.Draw(t, "name"))
		v.Set("p.corn.2026", text.Draw(t, "price"))
		for _, path := range []string{landPath, sharesPath} {
			shown := string(s.Answer(Request{Path: path, Form: v}).Body)
			got := fieldsOf(shown, path)
			for name := range v {
				if want := strings.TrimSpace(v.Get(name)); want != "" && got.Get(name) != want {
					t.Fatalf("%s: %s was %q, is %q", path, name, want, got.Get(name))
				}
			}
		}
	})
}

// Each mistake stands beside its field, and all at once.
func TestMistakesStandBesideTheirField(t *testing.T) {
	s := tested()
	shown := s.page(t, landPath, "do=next", "f1.county=Storey, Iowa", "f1.b1.crop=corn", "f1.b1.acres=many", "f1.b1.yield=1710", "f1.b2.acres=80")
	for _, field := range []string{"f1.county", "f1.b1.acres", "f1.b1.yield", "f1.b2.crop"} {
		if !strings.Contains(shown, `aria-invalid="true" aria-describedby="fault-`+field+`"`) || !strings.Contains(shown, `id="fault-`+field+`"`) {
			t.Errorf("nothing is said beside %s", field)
		}
	}
	if !strings.Contains(shown, "Story") {
		t.Error("the county meant is not suggested")
	}
}

// A county with two yields asks once for the irrigated percentage, and takes none.
func TestIrrigatedPercentageIsAskedWhereItCounts(t *testing.T) {
	s := tested()
	record := []string{"do=next", "f1.county=Yuma, Colorado", "f1.b1.crop=corn", "f1.b1.acres=100", "f1.b1.yield=150"}
	shown := s.page(t, landPath, record...)
	if !strings.Contains(shown, `name="f1.b1.irrigated"`) {
		t.Fatal("the irrigated percentage is not asked for")
	}
	again := fieldsOf(shown, landPath)
	again.Set("do", "next")
	if a := s.Answer(Request{Path: landPath, Form: again}); !strings.Contains(string(a.Body), "Who shares") || strings.Contains(string(a.Body), `name="f1.b1.crop" id`) {
		t.Errorf("an unknown percentage keeps people from the next page: %s", a.Body)
	}
	if shown := s.page(t, landPath, "do=next", "f1.county=Story, Iowa", "f1.b1.crop=corn", "f1.b1.acres=100"); strings.Contains(shown, "irrigated") {
		t.Error("the irrigated percentage is asked for where it does not count")
	}
}

// A price and a yield that are typed are the ones used, and are in the file to keep.
func TestTypedPriceAndYieldAreUsed(t *testing.T) {
	s := tested()
	s.Market = []byte("format: fencerow/market/1\nas_of: 2026-11-20\nsource: invented\noutlook: {soybeans: {2026: {price: 9.99}}}\n")
	more := append([]string{"p.corn.2026=3.90", "y.19169.corn.all.2026=175", "s.19169.corn.all.2026=local_harvest"}, typed...)
	shown := s.page(t, answerPath, more...)
	for _, want := range []string{"price used $3.90", "175 bushels"} {
		if !strings.Contains(shown, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	kept := s.Answer(Request{Path: keepPath, Form: form(more...)})
	if kept.Name != "farms.zip" {
		t.Fatalf("kept as %q", kept.Name)
	}
	if a := s.Answer(Request{Path: answerPath, Form: form(append([]string{"p.corn.2026=390"}, typed...)...)}); !strings.Contains(string(a.Body), "fault-p.corn.2026") {
		t.Errorf("390 dollars a bushel is taken")
	}
}

// A pasted table, a table from a spreadsheet and a file are answered alike.
func TestOpened(t *testing.T) {
	s := tested()
	table := "farm,county,crop,base acres,PLC yield\n0417,\"Story, Iowa\",corn,120,171\n"
	pasted := s.page(t, startPath, "do=open", "pasted="+table)
	tabbed := s.page(t, startPath, "do=open", "pasted="+strings.NewReplacer(`"Story, Iowa"`, "19169", ",", "\t").Replace(table))
	a := s.Answer(Request{Path: startPath, Form: url.Values{"do": {"open"}}, Files: []File{{Name: "farms.csv", Text: []byte(table)}}})
	for name, shown := range map[string]string{"pasted": pasted, "tabbed": tabbed, "file": string(a.Body)} {
		if !strings.Contains(shown, "Corn, 120 base acres") {
			t.Errorf("%s: no answer: %s", name, shown)
		}
	}
	wrong := s.page(t, startPath, "do=open", "pasted=farm,county,crop,base acres\n1,Story Iowa,corn,-5\n")
	if !strings.Contains(wrong, "role=\"alert\"") || !strings.Contains(wrong, "-5") {
		t.Errorf("a mistake in a table is not said: %s", wrong)
	}
}

// A form with more farms than the pages hold is refused, and unknown paths are a page.
func TestRefused(t *testing.T) {
	s := tested()
	for _, name := range []string{"f101.county", "f1.b41.crop", "w21.name", "file21.name"} {
		if a := s.Answer(Request{Path: landPath, Form: form(name + "=x")}); a.Status != 400 {
			t.Errorf("%s: status %d", name, a.Status)
		}
	}
	if a := s.Answer(Request{Path: "/etc/passwd"}); a.Status != 404 {
		t.Errorf("status %d", a.Status)
	}
}

// A share that looks like a part of one, and shares that leave somebody out, are asked
// about once, in percent; more than 100 is refused each time.
func TestShares(t *testing.T) {
	s := tested()
	record := []string{"do=next", "f1.county=Story, Iowa", "f1.b1.crop=corn", "f1.b1.acres=100", "f1.b1.yield=171", "w1.name=landowner"}
	for name, c := range map[string]struct {
		shares []string
		says   string // "": goes on
	}{
		"a part of one":     {[]string{"f1.share=0.6", "f1.w1=40"}, "or 60 percent write 60"},
		"somebody left out": {[]string{"f1.share=60"}, "other 40 percent"},
		"asked before":      {[]string{"f1.share=60", "s.asked.f1.share=yes"}, ""},
		"all":               {[]string{"f1.share=60", "f1.w1=40"}, ""},
		"too much":          {[]string{"f1.share=60", "f1.w1=60", "s.asked.f1.share=yes"}, "add to 120 percent"},
		"no number":         {[]string{"f1.share=half", "f1.w1=50"}, "from 0 to 100"},
		"landowner on cash": {[]string{"f1.share=100"}, ""},
	} {
		shown := s.page(t, sharesPath, append(c.shares, record...)...)
		if goesOn := strings.Contains(shown, "What is known of prices"); goesOn != (c.says == "") || !strings.Contains(shown, c.says) {
			t.Errorf("%s: goes on %v, want %q", name, goesOn, c.says)
		}
	}
}

// A slip of a decimal point is asked about once.
func TestSlips(t *testing.T) {
	s := tested()
	record := []string{"do=next", "f1.county=Story, Iowa", "f1.b1.crop=corn", "f1.b1.acres=16320", "f1.b1.yield=21.5"}
	shown := s.page(t, landPath, record...)
	for _, want := range []string{"fault-f1.b1.yield", "fault-f1.b1.acres", "far from what the county makes"} {
		if !strings.Contains(shown, want) {
			t.Errorf("%q is not said", want)
		}
	}
	again := fieldsOf(shown, landPath)
	again.Set("do", "next")
	if a := s.Answer(Request{Path: landPath, Form: again}); !strings.Contains(string(a.Body), "Who shares in the crops?") {
		t.Error("it is asked twice")
	}
}

// What was kept opens again in the forms, as it was typed: the file alone, and the .zip.
func TestKeptFileOpensAgain(t *testing.T) {
	s := tested()
	known := []string{"p.corn.2026=3.90", "y.19169.corn.all.2026=175", "s.19169.corn.all.2026=local_harvest"}
	for name, fields := range map[string][]string{"file": typed, "zip": append(known, typed...)} {
		kept := s.Answer(Request{Path: keepPath, Form: form(fields...)})
		a := s.Answer(Request{Path: startPath, Form: form("do=open"), Files: []File{{Name: kept.Name, Text: kept.Body}}})
		shown := string(a.Body)
		got := fieldsOf(shown, answerPath)
		if !strings.Contains(shown, "Change the record") || got.Get("f1.b1.acres") != "1120.5" || got.Get("f1.w1") != "40" || got.Get("f1.b1.elected") != "PLC" {
			t.Errorf("%s: opened again as %v", name, got)
		}
		if name == "zip" && (got.Get("y.19169.corn.all.2026") != "175" || got.Get("s.19169.corn.all.2026") != "local_harvest" || !strings.Contains(shown, "price used $3.90")) {
			t.Errorf("%s: %v", name, got)
		}
	}
	if shown := s.page(t, startPath, "do=open"); !strings.Contains(shown, "Choose a file") {
		t.Error("nothing is said where nothing is chosen")
	}
	broken := s.Answer(Request{Path: startPath, Form: form("do=open"), Files: []File{{Name: "farms.zip", Text: []byte("PK")}}})
	if !strings.Contains(string(broken.Body), "unpack it") {
		t.Error("a broken .zip is not said")
	}
}

// A file with more than the forms show is answered, and stays a file.
func TestFileWithMore(t *testing.T) {
	s := tested()
	more := "format: fencerow/operation/1\nproducers:\n  - {id: operator, kind: person, other_income: 5}\nfarms:\n  - {farm: \"1\", county: \"19169\", shares: {operator: 1}, bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]}\n"
	a := s.Answer(Request{Path: startPath, Form: form("do=open"), Files: []File{{Name: "farms.yaml", Text: []byte(more)}}})
	if shown := string(a.Body); !strings.Contains(shown, "Corn, 100 base acres") || strings.Contains(shown, "Change the record") {
		t.Errorf("a file with more is not answered as it is: %s", shown)
	}
}

// No page loses what another asks for, whatever the crop is called: every field of a draft
// is in the form of every page, and an empty line of the record is no mistake.
func TestEveryPageKeepsEveryField(t *testing.T) {
	s := tested()
	for _, c := range crop.Commodities() {
		price, yield := fmt.Sprintf("p.%s.2026=1.23", c), fmt.Sprintf("y.19169.%s.all.2026=55", c)
		given := append([]string{price, yield, "s." + strings.TrimPrefix(strings.TrimSuffix(yield, "=55"), "y.") + "=local_harvest", "f1.b2.crop=", "f1.b2.acres="}, typed...)
		for _, path := range []string{landPath, sharesPath} {
			kept := fieldsOf(s.page(t, path, given...), path)
			for _, pair := range given {
				if name, value, _ := strings.Cut(pair, "="); kept.Get(name) != value {
					t.Errorf("%s: page %s has %q of %q, want %q", c, path, kept.Get(name), name, value)
				}
			}
		}
	}
}

// Shares may be parts of the crop; what is wrong names who has it.
func TestSharesAsParts(t *testing.T) {
	s := tested()
	thirds := func(a, b string) string {
		return s.page(t, sharesPath, "f1.county=Story, Iowa", "f1.b1.crop=corn", "f1.b1.acres=100", "f1.b1.yield=150", "w1.name=sister", "f1.share="+a, "f1.w1="+b, "do=next")
	}
	if said := thirds("2/3", "1/3"); !strings.Contains(said, "What is known of prices") {
		t.Errorf("2/3 and 1/3 are refused:\n%s", said)
	}
	if said := thirds("2/3", "1/0"); !strings.Contains(said, "share of Sister is &#34;1/0&#34;") {
		t.Errorf("1/0 is not refused as the sister's:\n%s", said)
	}
	if d := (&draft{farms: []typedFarm{{share: "2/3"}}}); !strings.Contains(d.operation().text.String(), "operator: 66.6666666666666") {
		t.Error(d.operation().text.String())
	}
}

// Names that steer, pass for others, are too long or begin a formula are refused in the forms,
// with the reason.
func TestHostileNamesInForms(t *testing.T) {
	for name, why := range map[string]string{"=1+1": "begins with", "@SUM(A1)": "begins with", "04\u202e17": "not seen", "\uff10417": "looks like another", "\u0410nn": "looks like another", strings.Repeat("x", 101): "more than 100 letters"} {
		for _, field := range []string{"f1.number=", "w1.name="} {
			said := tested().page(t, answerPath, append(slices.DeleteFunc(slices.Clone(typed), func(pair string) bool { return strings.HasPrefix(pair, field) }), field+name)...)
			if !strings.Contains(said, why) {
				t.Errorf("%s%q is not refused: %.2000s", field, name, said[max(0, len(said)-2000):])
			}
		}
	}
}
