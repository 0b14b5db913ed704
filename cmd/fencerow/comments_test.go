package main

import (
	"go/ast"
	"strings"
	"testing"
)

// TestHouseCommentsNameWhatTheyStandBy: the comment of a function or type begins with its
// name, so that a renamed one is not left with another's words.
func TestHouseCommentsNameWhatTheyStandBy(t *testing.T) {
	checked := 0
	for _, f := range goFiles(t) {
		if strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		for _, d := range f.tree.Decls {
			name, doc := "", (*ast.CommentGroup)(nil)
			switch d := d.(type) {
			case *ast.FuncDecl:
				name, doc = d.Name.Name, d.Doc
			case *ast.GenDecl:
				if len(d.Specs) == 1 {
					if s, is := d.Specs[0].(*ast.TypeSpec); is {
						name, doc = s.Name.Name, d.Doc
					}
				}
			}
			if name == "" || doc == nil || strings.HasPrefix(doc.List[0].Text, "//go:") {
				continue
			}
			checked++
			if first := strings.Fields(doc.Text())[0]; strings.Trim(first, ",:") != name {
				t.Errorf("%s: the comment of %s begins with %q", f.path, name, first)
			}
		}
	}
	t.Logf("checked %d", checked)
}
