package program

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// Every declared step stands in the list, in one file with a comment that names the same
// paragraph: a step's citation is that of its rule.
func TestStepsStandBesideTheirRules(t *testing.T) {
	citation := map[[2]string]string{} // by name and title
	for _, g := range Steps() {
		for _, s := range g.Steps {
			citation[[2]string{s.Name, s.Title}] = s.Citation
		}
	}
	declared := declaredSteps(t)
	for _, d := range declared {
		cited, listed := citation[[2]string{d.name, d.title}]
		if !listed {
			t.Errorf("%s: step %s, %s, is not among Steps()", d.file, d.name, d.title)
		}
		for _, paragraph := range strings.Split(cited, "; ") {
			if !strings.Contains(d.comments, paragraph) {
				t.Errorf("%s: step %s cites %s, no comment of the file does", d.file, d.name, paragraph)
			}
		}
	}
	if len(declared) != len(citation) {
		t.Errorf("%d steps are declared, %d are listed", len(declared), len(citation))
	}
}

// declaredStep is a step as it stands in a file.
type declaredStep struct{ file, comments, name, title string }

func declaredSteps(t *testing.T) (declared []declaredStep) {
	t.Helper()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range names {
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for name, object := range tree.Scope.Objects {
			value, is := object.Decl.(*ast.ValueSpec)
			if !is || !strings.HasPrefix(name, "Step") {
				continue
			}
			parts := value.Values[slices.IndexFunc(value.Names, func(n *ast.Ident) bool { return n.Name == name })].(*ast.CompositeLit).Elts
			text := func(i int) string { return strings.Trim(parts[i].(*ast.BasicLit).Value, `"`) }
			declared = append(declared, declaredStep{file, commentsOf(tree), text(0), text(1)})
		}
	}
	return declared
}

// commentsOf joins all comments of a file to one line.
func commentsOf(tree *ast.File) string {
	var words []string
	for _, group := range tree.Comments {
		words = append(words, strings.Fields(group.Text())...)
	}
	return strings.Join(words, " ")
}

// A step has a name, a title and a unit. A row of the law has its citation and unit
// itself: a step of that name leaves the citation to it and has its unit.
func TestStepsAreWhole(t *testing.T) {
	for _, g := range Steps() {
		for _, s := range g.Steps {
			if s.Name == "" || s.Title == "" || s.Unit == "" {
				t.Errorf("%s: %+v lacks a part", g.Title, s)
			}
			rows := law.Rows(s.Name)
			if len(rows) == 0 {
				continue
			}
			if s.Citation != "" {
				t.Errorf("%s has rows of the law and cites %s itself", s.Name, s.Citation)
			}
			if s.Unit != perUnit && slices.ContainsFunc(rows, func(f law.Figure) bool { return f.Unit != s.Unit }) {
				t.Errorf("%s is in %s, its rows are not", s.Name, s.Unit)
			}
		}
	}
}

// Corn is priced by the bushel, seed cotton by the pound, ARC-CO pays by the acre:
// 7 U.S.C. 9011(19), 9017(d).
func TestUnitOfAStepIsThatOfTheCommodity(t *testing.T) {
	for _, c := range []struct {
		step Step
		of   crop.Commodity
		want string
	}{
		{StepPLCRate, crop.Corn, "USD/bu"}, {StepPLCRate, crop.SeedCotton, "USD/lb"}, {StepBenchmarkYield, crop.Corn, "bu/acre"},
		{StepARCCORate, crop.SeedCotton, "USD/acre"}, {StepGuaranteeShare, crop.Corn, "1"},
	} {
		if got := c.step.UnitFor(c.of); got != c.want {
			t.Errorf("%s of %s is in %s, want %s", c.step.Name, c.of, got, c.want)
		}
	}
}
