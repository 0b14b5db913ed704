package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"os"
	"strings"
	"testing"

	"fencerow/program"
	"fencerow/program/law"
)

const lawTable = root + "/docs/law/figures.md"

// TestLawTable: docs/law/figures.md is made from program/law, never typed.
// Renew it with -update.
func TestLawTable(t *testing.T) {
	want := lawTableText()
	if *update {
		if err := os.WriteFile(lawTable, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(lawTable)
	if err != nil || string(got) != want {
		t.Errorf("%s is not what program/law says (%v): renew it with go test ./cmd/fencerow -run TestLawTable -update", lawTable, err)
	}
}

func lawTableText() string {
	var b strings.Builder
	b.WriteString("# The law's figures\n\nMade from `program/law` by `go test ./cmd/fencerow -run TestLawTable -update`; do not edit.\n\n")
	b.WriteString("| figure | commodity | crop years | value | unit | status | source | note |\n|---|---|---|---|---|---|---|---|\n")
	for _, id := range law.IDs() {
		for _, row := range law.Rows(id) {
			commodity := row.Commodity
			if commodity == "" {
				commodity = "all"
			}
			fmt.Fprintf(&b, "| %s | %s | %d-%d | %s | %s | %s | %s | %s |\n", id, commodity, row.First, row.Last, row.Text, row.Unit, row.Status, row.Citation(), row.Note)
		}
	}
	b.WriteString("\n## Sources\n\n| source | title | publisher | date | address | accessed |\n|---|---|---|---|---|---|\n")
	for _, s := range law.Sources() {
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", s.Key, s.Title, s.Publisher, s.Date, s.Address, s.Accessed)
	}
	return b.String()
}

const stepTable = root + "/docs/law/steps.md"

// TestLawSteps: docs/law/steps.md is made from the steps that program declares, never
// typed. Renew it with -update.
func TestLawSteps(t *testing.T) {
	want := stepTableText()
	if *update {
		if err := os.WriteFile(stepTable, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(stepTable)
	if err != nil || string(got) != want {
		t.Errorf("%s is not what program says (%v): renew it with go test ./cmd/fencerow -run TestLawSteps -update", stepTable, err)
	}
}

func stepTableText() string {
	var b strings.Builder
	b.WriteString("# The steps of the arithmetic\n\nMade from `program` by `go test ./cmd/fencerow -run TestLawSteps -update`; do not edit.\n\n")
	b.WriteString("`explain` and `base` print a step by its name, the workbook in words. USD/unit and units/acre are those of the commodity, 1 is a share.\n")
	b.WriteString("A row has its citation in [figures.md](figures.md). A dash: the figure is entered, or says beside it where it is from.\n")
	for _, g := range program.Steps() {
		fmt.Fprintf(&b, "\n## %s\n\n| name | in words | unit | paragraph |\n|---|---|---|---|\n", g.Title)
		for _, s := range g.Steps {
			cited := s.Citation
			switch {
			case cited == "" && len(law.Rows(s.Name)) > 0:
				cited = "row `" + s.Name + "`"
			case cited == "":
				cited = "-"
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", s.Name, s.Title, s.Unit, cited)
		}
	}
	return b.String()
}

// TestStepsAreCitedByProgram: what prints steps types no paragraph of law itself. Flags and
// other sentences that cite the law stand elsewhere; they are counted.
func TestStepsAreCitedByProgram(t *testing.T) {
	elsewhere := map[string]int{}
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		prints := inRoom(f.folder, "sim/explain") && !strings.Contains(f.path, "handout") && !strings.Contains(f.path, "newbase") || inRoom(f.folder, "io/show/workbook")
		ast.Inspect(f.tree, func(n ast.Node) bool {
			text, is := n.(*ast.BasicLit)
			if !is || !strings.Contains(text.Value, "U.S.C.") && !strings.Contains(text.Value, "CFR ") {
				return true
			}
			if prints {
				t.Errorf("%s cites %s: the step of package program does", f.path, text.Value)
			}
			elsewhere[f.folder]++
			return true
		})
	}
	fmt.Println("texts that cite the law, by room:", elsewhere)
}

// TestHouseJudgementsAreSaidOnce: sentences are made from the one constant that decides what
// they say (sim/odds/judgement.go), and formats stand once; no text types them again.
func TestHouseJudgementsAreSaidOnce(t *testing.T) {
	once := map[string]int{"10 outcomes in 100": 0, "1 of 100 outcomes": 0, "10 in 100": 0, "80 percent of the benchmark": 0, "2006-01-02\"": 0,
		"fencerow/market/1": 1, "other_noncovered\"": 1}
	seen := map[string]int{}
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		ast.Inspect(f.tree, func(n ast.Node) bool {
			if text, is := n.(*ast.BasicLit); is {
				for words := range once {
					if strings.Contains(text.Value, words) {
						seen[words]++
					}
				}
			}
			return true
		})
	}
	for words, most := range once {
		if seen[words] != most {
			t.Errorf("%q stands in %d texts of the code, want %d", words, seen[words], most)
		}
	}
}

// TestReadmeSession: the session in the README is what the program prints. A
// line "..." stands for what is left out at the end.
func TestReadmeSession(t *testing.T) {
	readme, err := os.ReadFile(root + "/README.md")
	if err != nil {
		t.Fatal(err)
	}
	const prompt = "$ go run ./cmd/fencerow "
	sessions := 0
	for _, block := range strings.Split(string(readme), "```")[1:] {
		_, session, found := strings.Cut(block, prompt)
		if !found {
			continue
		}
		command, want, _ := strings.Cut(session, "\n")
		want, cut := strings.CutSuffix(strings.TrimRight(want, "\n"), "\n...")
		var stdout, stderr bytes.Buffer
		if code := run(strings.Fields(command), &stdout, &stderr); code != exitDone {
			t.Fatalf("%s: exit %d: %s", command, code, stderr.String())
		}
		got := strings.TrimRight(stdout.String(), "\n")
		if cut && !strings.HasPrefix(got, want) || !cut && got != want {
			t.Errorf("the README's session of %q is not what the program prints; it prints:\n%s", command, got[:min(len(got), len(want)+200)])
		}
		sessions++
	}
	if sessions == 0 {
		t.Error("the README shows no session")
	}
}
