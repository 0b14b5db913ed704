package main

import (
	"bytes"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/xuri/excelize/v2"
)

// allOutputs are the texts that people are shown, cut into units.
func allOutputs(t *testing.T) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	printed := func(name string, args ...string) {
		var stdout, stderr bytes.Buffer
		if code := run(args, &stdout, &stderr); code != exitDone {
			t.Fatalf("%v: exit %d: %s", args, code, stderr.String())
		}
		all[name] = append(all[name], units(stdout.String()+"\n"+stderr.String())...)
	}
	few := []string{"--draws", "1024"}
	demo := func(more ...string) []string {
		return append(append([]string{"compare", "--demo", "--full"}, few...), more...)
	}
	for name, args := range map[string][]string{"compare": {"compare", "--demo"}, "farm": {"compare", "--demo", "--farm", "0588"}} {
		all[name] = answerUnits(runs(t, args...))
	}
	for _, reader := range []string{"landowner", "operator", forLender} {
		printed("sheet of "+reader, "compare", "--demo", "--sheet", reader)
		printed("2025, sheet of "+reader, "compare", "--demo", "--sheet", reader, "--crop-year", "2025,2026", "--model", "history")
		printed("many farms, sheet of "+reader, "compare", filepath.Join("testdata", "sheets", "twelve-farms.yaml"), "--book", "none", "--builtin", "none", "--today", demoToday, "--sheet", reader)
	}
	for _, list := range []string{byOffice, bySigner} {
		printed("list of "+list, "compare", "--demo", "--sheet", list)
		printed("many farms, list of "+list, "compare", filepath.Join("testdata", "sheets", "decided.yaml"), "--book", "none", "--builtin", "none", "--today", demoToday, "--sheet", list)
	}
	for _, reader := range []string{"operator", "sister", "estate", forLender} {
		printed("decided, sheet of "+reader, "compare", filepath.Join("testdata", "sheets", "decided.yaml"), "--book", "none", "--builtin", "none", "--today", demoToday, "--sheet", reader)
	}
	printed("full", "compare", "--demo", "--full")
	printed("several crop years", demo("--crop-year", "2025,2026,2027")...)
	printed("criteria", demo("--criterion", "all")...)
	printed("history", demo("--model", "history")...)
	printed("stress", demo("--tail", "t")...)
	printed("explain", "explain", "--demo", "--farm", "0417", "--commodity", "corn", "--crop-year", "2026", "--mya", "corn=4.10,soybeans=10.00", "--county-yield", "170")
	printed("with ARC-IC", demo("--with-arc-ic")...)
	printed("typed", append([]string{"compare", "--county", "Story, Iowa", "--base", "corn:120:171", "--base", "soybeans:80:47@0.5", "--base", "canola:10:1500", "--today", demoToday, "--book", "none"}, few...)...)
	printed("check", "check", "--demo")
	printed("replay", "replay", "--demo")
	printed("base", "base", "--demo")
	printed("rules", "rules", "corn", "--crop-year", "2026")
	printed("market", "market", "show", "corn", "--today", demoToday, "--book", "none")
	printed("county", "county", "show", "19169", "--today", demoToday, "--book", "none")
	printed("score", "score", "--least-base", "600000", "--draws", "64")
	printed("version", "version")
	printed("version", "version", "--check", writeText(t, filepath.Join(t.TempDir(), "corrections.yaml"), inventedCorrections))
	oddFarms(t, all, printed)
	sinceUnits(t, all, printed)
	all["new"] = newUnits(t)
	all["page"] = pageUnits(fileText(t, demoPage(t)))
	all["pages of people"] = peopleUnits(t)
	all["pages of the site"] = siteUnits(t)
	all["handout"] = pageUnits(fileText(t, demoHandout(t)))
	noisy, _, talk := noisyHandout(t)
	all["handout of real counties"] = pageUnits(fileText(t, filepath.Join(noisy, handoutPage)))
	all["handout's notes"] = append(units(fileText(t, filepath.Join(noisy, handoutNotes))), units(talk)...)
	all["workbook"] = workbookUnits(t, demoWorkbook(t))
	all["batch"] = batchUnits(t)
	all["help"] = helpUnits(newRoot(io.Discard, io.Discard))
	all["errors"] = errorUnits(t)
	return all
}

// answerUnits cuts an answer of short paragraphs, whose lines after the first are indented,
// and of tables, whose rows are units.
func answerUnits(text string) []string {
	return strings.FieldsFunc(continued.ReplaceAllString(text, " $1"), func(r rune) bool { return r == '\n' })
}

// continued is the begin of a line that goes on with the one before.
var continued = regexp.MustCompile(`\n  (\S)`)

// oddFarms asks about farms on which as many flags as can be are raised, and about those
// of the worked reductions, with entities and limits.
func oddFarms(t *testing.T, all map[string][]string, printed func(name string, args ...string)) {
	t.Helper()
	odd := filepath.Join(t.TempDir(), "odd.yaml")
	if err := os.WriteFile(odd, []byte(oddOperation), 0o600); err != nil {
		t.Fatal(err)
	}
	paths, err := filepath.Glob("../../testdata/derived/reductions/20*.yaml")
	if err != nil || len(paths) < 5 {
		t.Fatalf("%d operations, %v", len(paths), err)
	}
	for _, path := range append(paths, odd) {
		ask := []string{path, "--book", "none", "--today", demoToday}
		printed("odd farms", append([]string{"check"}, ask...)...)
		printed("odd farms", append([]string{"compare", "--full", "--draws", "256"}, ask...)...)
		all["odd farms"] = append(all["odd farms"], answerUnits(runs(t, append([]string{"compare", "--draws", "256"}, ask...)...))...)
		printed("odd farms", append([]string{"base"}, ask...)...)
		printed("odd farms", append([]string{"replay"}, ask...)...)
	}
}

// sinceUnits asks about the demo and the odd farms with what changed since an answer of
// other prices, other outcomes, another close margin and another record.
func sinceUnits(t *testing.T, all map[string][]string, printed func(name string, args ...string)) {
	t.Helper()
	folder := t.TempDir()
	cheap := writeText(t, filepath.Join(folder, "cheap.yaml"), "format: fencerow/market/1\nas_of: 2026-12-10\nsource: invented\noutlook: {corn: {2026: {price: 3.90}}, soybeans: {2026: {price: 9.80}}, wheat: {2026: {price: 5.10}}}\n")
	odd := writeText(t, filepath.Join(folder, "odd.yaml"), oddOperation)
	other := writeText(t, filepath.Join(folder, "other.yaml"), strings.NewReplacer("base_acres: 120", "base_acres: 130", "payment_yield: 40", "payment_yield: 55", "acres: 90", "acres: 200").Replace(oddOperation))
	for _, c := range [][2]string{{"demo/operation.yaml", "demo/operation.yaml"}, {odd, other}} {
		ask := func(name string, more ...string) []string {
			return append([]string{"compare", name, "--book", "none", "--draws", "1024", "--today", demoToday}, more...)
		}
		last := writeText(t, filepath.Join(folder, "last.json"), runs(t, ask(c[0], "--json")...))
		ways := [][]string{{"--market", cheap, "--seed", "2", "--close", "9"}, {"--market", cheap}, {"--seed", "2"}, nil}
		for _, more := range ways[:ofLong(1, len(ways))] {
			since := append(ask(c[1], more...), "--since", last)
			for _, text := range []string{runs(t, since...), runs(t, append(since, "--farm", "0417")...)} {
				all["since"] = append(all["since"], answerUnits(partSince.FindString(text))...)
			}
			if c[0] == odd {
				continue
			}
			printed("since", append(since, "--full")...)
			page := filepath.Join(folder, "page.html")
			runs(t, append(since, "--page", page, "--force")...)
			all["since"] = append(all["since"], pageUnits(fileText(t, page))...)
		}
	}
}

// partSince is what an answer says of what changed: its table and the paragraph under it.
var partSince = regexp.MustCompile(`(?s)\nSince .*?\n(?:\n.*?\n)?\n`)

const oddOperation = `format: fencerow/operation/1
crop_years: [2025, 2026, 2027]
producers:
  - {id: operator, kind: person, income_over_limit: true, limit_used: {2026: {general: 1000}}}
  - {id: firm, kind: pass_through, members: [{id: ann, share: 0.5}, {id: ben, share: 0.5}]}
  - {id: ann, kind: person}
  - {id: ben, kind: person}
farms:
  - farm: 0417
    county: "Story, Iowa"
    contract: {2025: missed, 2026: open}
    lease: flex
    merge_with: "0418"
    record_before_notice: true
    notice: {corn: {base_acres: 150}}
    cropland: 100
    total_acres: 400
    unassigned_base_acres: 5
    stax_bought: {2026: true}
    shares: {2025: {operator: 1}, 2026: {operator: 0.5, firm: 0.5}, 2027: {firm: 1}}
    election_on_record: {corn: ARC-CO, soybeans: PLC}
    bases:
      - {commodity: corn, base_acres: 120, payment_yield: 150, crp_reduction: 3}
      - {commodity: soybeans, base_acres: 80, county: "Kearney, Nebraska", payment_yield: 40}
      - {commodity: canola, base_acres: 10}
      - {commodity: seed_cotton, base_acres: 9, payment_yield: 900}
      - {commodity: wheat, base_acres: 300, payment_yield: 41, county: "Ellis, Kansas"}
    planted:
      - {crop_year: 2026, commodity: fruit_vegetables, acres: 90}
      - {crop_year: 2026, commodity: oats, acres: 20, prevented: 10}
  - farm: 0418
    county: "Story, Iowa"
    idle_2009_2017: true
    shares: {operator: 1}
    election_on_record: {corn: ARC-IC}
    bases:
      - {commodity: corn, base_acres: 9, payment_yield: 150}
`

// newUnits are the questions of new, answered and explained, and its answer.
func newUnits(t *testing.T) []string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	root := newRoot(&stdout, &stderr)
	root.SetIn(strings.NewReader("?\n0417\n?\n99001\n?\ncorn\n?\n120\n?\n171\n?\np\n?\nsoybeans\n80\n\n\n\n?\n60\n?\ny\n?\n132.5\n?\n\n85\n\n?\n\n"))
	alder, _ := filepath.Abs("demo/alder.yaml")
	root.SetArgs([]string{"new", "--out", filepath.Join(t.TempDir(), "farms.yaml"), "--county-file", alder, "--book", "none", "--today", demoToday, "--draws", "256"})
	if err := root.Execute(); err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	return append(units(stdout.String()), strings.Split(strings.TrimSpace(stderr.String()), "\n")...)
}

// peopleUnits are the pages of one person each, and the lender's.
func peopleUnits(t *testing.T) (all []string) {
	t.Helper()
	folder := t.TempDir()
	runs(t, "compare", "--demo", "--draws", "1024", "--page", filepath.Join(folder, "page.html"), "--people", "all")
	runs(t, "compare", "--demo", "--draws", "1024", "--page", filepath.Join(folder, "lender.html"), "--sheet", "lender")
	pages, err := filepath.Glob(filepath.Join(folder, "*.html"))
	if err != nil || len(pages) < 3 {
		t.Fatalf("%d pages, %v", len(pages), err)
	}
	for _, page := range pages {
		all = append(all, pageUnits(fileText(t, page))...)
	}
	return all
}

func fileText(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// demoWorkbook writes the demo's workbook.
func demoWorkbook(t *testing.T) string {
	path := filepath.Join(t.TempDir(), "demo.xlsx")
	runs(t, "compare", "--demo", "--workbook", path, "--draws", "1024")
	return path
}

// workbookUnits are the cells of all sheets.
func workbookUnits(t *testing.T, path string) (all []string) {
	t.Helper()
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, sheet)
		for _, cell := range slices.Concat(rows...) {
			if cell != "" {
				all = append(all, cell)
			}
		}
	}
	return all
}

// batchUnits are the summary and the refused rows of a batch.
func batchUnits(t *testing.T) (all []string) {
	t.Helper()
	folder := t.TempDir()
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	rows := manyFarms(12, 7)
	rows = append(rows, slices.Clone(rows[1]), slices.Clone(rows[2]))
	rows[len(rows)-2][6], rows[len(rows)-1][4] = "-3", "maize"
	writeRows(t, table, rows)
	var stdout, stderr bytes.Buffer
	if code := run(batchArgs(table, out, "--draws", "256"), &stdout, &stderr); code != exitSome {
		t.Fatalf("exit %d: %s", code, stderr.String())
	}
	all = append(units(stdout.String()+"\n"+stderr.String()), workbookUnits(t, filepath.Join(out, "summary.xlsx"))...)
	refused, err := csv.NewReader(strings.NewReader(fileText(t, filepath.Join(out, "refused.csv")))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	template := filepath.Join(folder, "empty.xlsx")
	runs(t, "batch", "--template", template)
	all = slices.Concat(all, slices.Concat(refused...), workbookUnits(t, template))
	return slices.DeleteFunc(all, func(unit string) bool { return unit == "commodity" }) // the name of a column
}

// helpUnits are what the verb and those under it say of themselves: not their command
// lines and their names of flags.
func helpUnits(c *cobra.Command) (all []string) {
	all = append(all, c.Short)
	all = append(all, units(c.Long)...)
	c.LocalFlags().VisitAll(func(f *pflag.Flag) { all = append(all, f.Usage) })
	for _, sub := range c.Commands() {
		all = append(all, helpUnits(sub)...)
	}
	return all
}

// errorUnits are the errors and hints of many wrong questions.
func errorUnits(t *testing.T) (all []string) {
	t.Helper()
	complaint := func(args ...string) {
		var stdout, stderr bytes.Buffer
		if run(args, &stdout, &stderr) != exitDone {
			all = append(all, units(stderr.String())...)
		}
	}
	const ask = "--book=none --today=" + demoToday
	for _, name := range wrongFiles(t) {
		switch kind, _, _ := strings.Cut(filepath.Base(name), "-"); kind {
		case "operation":
			complaint(append([]string{"check", name}, strings.Fields(ask)...)...)
		case "county":
			complaint(append([]string{"check", "demo/operation.yaml", "--county-file", name}, strings.Fields(ask)...)...)
		case "market":
			complaint(append([]string{"check", "demo/operation.yaml", "--market", name}, strings.Fields(ask)...)...)
		}
	}
	for _, line := range wrongUses {
		complaint(strings.Fields(line)...)
	}
	demo := runs(t, "compare", "--demo", "--draws", "64", "--json")
	for _, text := range []string{"", "{", "[]", `{"format": 3}`, `{"a": 1}`, `{"format": "fencerow/rules/1"}`, `{"format": "fencerow/comparison/3"}`, strings.Replace(demo, `"figures": "`, `"figures": "x`, 1), strings.Replace(demo, "fencerow/inputs/1", "fencerow/inputs/0", 1),
		strings.ReplaceAll(demo, `"0417"`, `"0499"`), strings.Replace(demo, `"leader": "ARC-CO"`, `"leader": "PLC"`, 1), strings.ReplaceAll(demo, "-0", "-9"), strings.ReplaceAll(demo, `"crop_year": 202`, `"crop_year": 201`)} {
		complaint("compare", "--demo", "--draws", "64", "--since", writeText(t, filepath.Join(t.TempDir(), "last.json"), text))
	}
	return all
}

func wrongFiles(t *testing.T) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/badfarm/*.yaml")
	if err != nil || len(names) < 100 {
		t.Fatalf("%d wrong files, %v", len(names), err)
	}
	return names
}

// wrongUses are command lines that are refused.
var wrongUses = []string{
	"compare", "compare --demo operation.yaml", "compare none.yaml", "compare --demo --today yesterday", "compare --demo --nonsense", "dance",
	"compare --demo --draws 0", "compare --demo --close -1", "compare --demo --builtin some", "compare --demo --tail x", "compare --demo --model x", "compare --demo --until 0",
	"compare --demo --model history --tail t", "compare --demo --model history --until 1", "compare --demo --criterion x", "compare --demo --crop-year 1999", "compare --demo --crop-year x",
	"compare --demo --sheet x", "compare --demo --since none.json", "compare --demo --since x --sheet lender", "compare --demo --sheet lender --json", "compare --demo --sheet lender --full", "compare --demo --people x", "compare --demo --people all",
	"compare --demo extra", "compare --base corn:1", "compare --county 99001", "compare --county 99001 --base x", "compare --county 99001 --base corn:1:1 --share x", "compare a.yaml --county 99001",
	"explain --demo", "explain --demo --farm 0417 --commodity corn --crop-year 2026", "explain --demo --farm 9 --commodity corn --crop-year 2026 --mya 4 --county-yield 170",
	"explain --demo --farm 0417 --commodity rye --crop-year 2026 --mya 4 --county-yield 170", "explain --demo --farm 0417 --commodity corn --crop-year 2026 --mya x --county-yield 170",
	"explain --demo --farm 1203 --commodity corn --crop-year 2026 --mya 4 --county-yield 170", "base --demo --factor 2", "batch", "batch none.csv", "batch none.csv --out x", "batch none.csv --out x --part 9", "batch none.csv --out x --least 0",
	"check --demo --suggest-columns x.yaml", "check none.csv", "county show", "county show 12345", "county show Nowhere", "county list nowhere", "county import none.xlsx", "county fetch", "county fetch --state 19",
	"county fetch --state 19 --commodity CORN", "handout", "handout 99001", "handout 12345 --out x", "market show", "market show rye", "market import none.csv", "rules", "rules rye", "rules corn --crop-year 1999",
	"score --data", "score --least-base 9e9", "new", "replay", "replay none.yaml",
}
