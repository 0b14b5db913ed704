package main

import (
	"fmt"
	"go/ast"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/io/show/wording"
	"fencerow/io/source"
	"fencerow/sim/answer"
)

// madePage holds a page of docs to what the program says. Renew it with -update.
func madePage(t *testing.T, name, want string) {
	t.Helper()
	path := root + "/docs/" + name
	if *update {
		writeText(t, path, want)
	}
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s is not what the program says (%v): renew it with go test ./cmd/fencerow -run %s -update", path, err, t.Name())
	}
}

// TestGlossaryPage: docs/glossary.md has the words of fencerow help words.
func TestGlossaryPage(t *testing.T) {
	var b strings.Builder
	b.WriteString("# Words\n\nMade from `io/show/wording` by `go test ./cmd/fencerow -run TestGlossaryPage -update`; do not edit. `fencerow words` prints the same.\n\n| word | meaning |\n|---|---|\n")
	_, last := source.LawYears()
	for _, term := range wording.Glossary(last) {
		fmt.Fprintf(&b, "| %s | %s |\n", term.Word, term.Line)
	}
	madePage(t, "glossary.md", b.String())
}

// raised is a flag in the code.
type raised struct {
	severities []string
	when       string // what the function that raises it says of itself
}

// TestFlagsPage: docs/flags.md lists every code of a flag that the code can raise.
func TestFlagsPage(t *testing.T) {
	all := flagsInCode(t)
	var b strings.Builder
	b.WriteString("# Flags\n\nMade from `sim/flag` by `go test ./cmd/fencerow -run TestFlagsPage -update`; do not edit. A flag is part of the answer: its message says what, why and what to do, with the\n" +
		"source behind it. `info` is good to know, `warning` is to be checked, `error` says that a figure is missing, or a payment is 0, because of it.\n\n| code | severity | raised by what |\n|---|---|---|\n")
	for _, code := range slices.Sorted(maps.Keys(all)) {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", code, strings.Join(all[code].severities, ", "), all[code].when)
	}
	madePage(t, "flags.md", b.String())
	if len(all) < 40 || all[answer.NewElectionFlag] == nil {
		t.Errorf("%d flags", len(all))
	}
	fmt.Printf("flags: %d codes in docs/flags.md\n", len(all))
}

// flagsInCode finds the flags that functions of sim and io make.
func flagsInCode(t *testing.T) map[string]*raised {
	all := map[string]*raised{}
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") || !inRoom(f.folder, "sim") && !inRoom(f.folder, "io") {
			continue
		}
		for _, decl := range f.tree.Decls {
			function, is := decl.(*ast.FuncDecl)
			if !is {
				continue
			}
			ast.Inspect(function, func(n ast.Node) bool {
				made, is := n.(*ast.CompositeLit)
				if !is {
					return true
				}
				code, severity := "", ""
				for _, e := range made.Elts {
					pair, is := e.(*ast.KeyValueExpr)
					if !is {
						return true
					}
					switch key, _ := pair.Key.(*ast.Ident); {
					case key == nil:
					case key.Name == "Code":
						code = codeOf(pair.Value)
					case key.Name == "Severity":
						severity = severityOf(pair.Value)
					}
				}
				if code == "" || severity == "" {
					return true
				}
				if all[code] == nil {
					all[code] = &raised{when: whenOf(function)}
				}
				if one := all[code]; !slices.Contains(one.severities, severity) {
					one.severities = slices.Sorted(slices.Values(append(one.severities, severity)))
				}
				return true
			})
		}
	}
	return all
}

// codeOf is the code of a flag: a text, or the one constant that names one.
func codeOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		code, _ := strconv.Unquote(e.Value)
		return code
	case *ast.SelectorExpr:
		if e.Sel.Name == "NewElectionFlag" {
			return answer.NewElectionFlag
		}
	}
	return ""
}

// severityOf is a severity in words; "by case" where it is decided when it is raised.
func severityOf(e ast.Expr) string {
	if s, is := e.(*ast.SelectorExpr); is {
		return strings.ToLower(s.Sel.Name)
	}
	return "by case"
}

var firstSentence = regexp.MustCompile(`(?s)^(.*?)(?:\.(?:\s|$)|:\s|$)`)

// whenOf is the first sentence of a function's comment without its name.
func whenOf(f *ast.FuncDecl) string {
	if f.Doc == nil {
		return ""
	}
	said := strings.Join(strings.Fields(firstSentence.FindStringSubmatch(f.Doc.Text())[1]), " ")
	said = strings.TrimPrefix(strings.TrimPrefix(said, f.Name.Name+" "), "flags ")
	return said
}
