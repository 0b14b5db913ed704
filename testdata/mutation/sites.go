package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// rooms are those whose source is changed, with the rooms below them.
var rooms = []string{"program", "sim/payoff", "sim/limits"}

// change is one change of the source: the bytes from From to To become Text.
type change struct {
	file     string // of the tree, with slashes
	line     int
	from, to int
	old, new string
}

func (c change) key() string {
	return fmt.Sprintf("%s:%d:%d %s => %s", c.file, c.line, c.from, oneLine(c.old), oneLine(c.new))
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// room is the folder of the changed file.
func (c change) room() string { return filepath.ToSlash(filepath.Dir(c.file)) }

func (c change) apply(text []byte) []byte {
	return slices.Concat(text[:c.from], []byte(c.new), text[c.to:])
}

func sites(changes []change) int {
	at := map[string]bool{}
	for _, c := range changes {
		at[fmt.Sprint(c.file, c.from)] = true
	}
	return len(at)
}

// allChanges are those of all sites of the rooms, in the order of files and places.
func allChanges(tree string) (all []change, err error) {
	for _, room := range rooms {
		err := filepath.WalkDir(filepath.Join(tree, room), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			rel, err := filepath.Rel(tree, path)
			if err != nil {
				return err
			}
			found, err := changesOf(path, filepath.ToSlash(rel))
			all = append(all, found...)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

// finder collects the changes of one file.
type finder struct {
	file  string
	text  []byte
	set   *token.FileSet
	found []change
}

func changesOf(path, name string) ([]change, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	f := finder{file: name, text: text, set: token.NewFileSet()}
	tree, err := parser.ParseFile(f.set, path, text, 0)
	if err != nil {
		return nil, err
	}
	for _, d := range tree.Decls {
		if g, is := d.(*ast.GenDecl); is && g.Tok == token.IMPORT {
			continue
		}
		ast.Inspect(d, func(n ast.Node) bool {
			f.look(n)
			return true
		})
	}
	slices.SortStableFunc(f.found, func(a, b change) int { return a.from - b.from })
	return f.found, nil
}

func (f *finder) at(p token.Pos) int { return f.set.Position(p).Offset }

func (f *finder) source(n ast.Node) string { return string(f.text[f.at(n.Pos()):f.at(n.End())]) }

func (f *finder) add(from, to token.Pos, text string) {
	a, b := f.at(from), f.at(to)
	f.found = append(f.found, change{f.file, f.set.Position(from).Line, a, b, string(f.text[a:b]), text})
}

// replace changes a token at a place.
func (f *finder) replace(at token.Pos, old token.Token, text string) {
	f.add(at, at+token.Pos(len(old.String())), text)
}

// others are what an operator becomes.
var others = map[token.Token][]string{
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"}, token.REM: {"/"},
	token.LSS: {"<=", ">"}, token.LEQ: {"<", ">="}, token.GTR: {">=", "<"}, token.GEQ: {">", "<="},
	token.EQL: {"!="}, token.NEQ: {"=="}, token.LAND: {"||"}, token.LOR: {"&&"},
	token.ADD_ASSIGN: {"-="}, token.SUB_ASSIGN: {"+="}, token.MUL_ASSIGN: {"/="}, token.QUO_ASSIGN: {"*="},
	token.INC: {"--"}, token.DEC: {"++"},
}

// ordered are the operators whose operands may not change places.
var ordered = []token.Token{token.SUB, token.QUO}

// aYear is the name of what holds a year.
var aYear = regexp.MustCompile(`^(y|.*[yY]ear|First|Last|first|last)$`)

func (f *finder) look(n ast.Node) {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		f.binary(n)
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			f.replace(n.OpPos, n.Op, "")
		}
	case *ast.IncDecStmt:
		f.replace(n.TokPos, n.Tok, others[n.Tok][0])
	case *ast.AssignStmt:
		for _, other := range others[n.Tok] {
			f.replace(n.TokPos, n.Tok, other)
		}
	case *ast.BasicLit:
		f.literal(n)
	case *ast.SliceExpr:
		f.slice(n)
	case *ast.CallExpr:
		f.call(n)
	case *ast.ReturnStmt:
		f.years(n.Results)
	case *ast.KeyValueExpr:
		f.years([]ast.Expr{n.Value})
	case *ast.Ident:
		if n.Name == "true" || n.Name == "false" {
			f.add(n.Pos(), n.End(), strconv.FormatBool(n.Name == "false"))
		}
	}
}

func (f *finder) binary(n *ast.BinaryExpr) {
	for _, other := range others[n.Op] {
		f.replace(n.OpPos, n.Op, other)
	}
	if slices.Contains(ordered, n.Op) {
		f.add(n.Pos(), n.End(), "("+f.source(n.Y)+") "+n.Op.String()+" ("+f.source(n.X)+")")
	}
	if n.Op == token.MUL { // a factor left out
		f.add(n.Pos(), n.End(), f.source(n.X))
		f.add(n.Pos(), n.End(), f.source(n.Y))
	}
	f.years([]ast.Expr{n.X, n.Y})
}

// years adds one to what is named after a year.
func (f *finder) years(all []ast.Expr) {
	for _, e := range all {
		name := ""
		switch e := e.(type) {
		case *ast.Ident:
			name = e.Name
		case *ast.SelectorExpr:
			name = e.Sel.Name
		}
		if aYear.MatchString(name) {
			f.add(e.Pos(), e.End(), "("+f.source(e)+" + 1)")
		}
	}
}

func (f *finder) literal(n *ast.BasicLit) {
	switch n.Kind {
	case token.INT:
		f.add(n.Pos(), n.End(), "("+n.Value+" + 1)")
	case token.FLOAT:
		f.add(n.Pos(), n.End(), "("+n.Value+" * 1.1)")
	}
}

// slice moves a boundary by one.
func (f *finder) slice(n *ast.SliceExpr) {
	if n.Low != nil {
		f.add(n.Low.Pos(), n.Low.End(), "("+f.source(n.Low)+") + 1")
	} else {
		f.add(n.Lbrack+1, n.Lbrack+1, "1")
	}
	if n.High != nil {
		f.add(n.High.Pos(), n.High.End(), "("+f.source(n.High)+") - 1")
	}
}

// call takes the greater for the less, and years as arguments.
func (f *finder) call(n *ast.CallExpr) {
	f.years(n.Args)
	if name, is := n.Fun.(*ast.Ident); is && (name.Name == "min" || name.Name == "max") {
		f.add(name.Pos(), name.End(), map[string]string{"min": "max", "max": "min"}[name.Name])
	}
}
