package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

// unusedExports lists exported names that nothing outside their package uses, each with
// the reason why it stays.
const unusedExports = "testdata/unused_exports.csv"

// TestHouseExportsAreUsed: every exported function, method, type, constant and variable of
// program, sim and io is used outside its package; tests of other packages and Examples
// count. Names are looked up as they are written, not by type: of methods, one use of a
// method of that name is enough. A type also counts where an exported declaration of its
// package shows it, and a constant where another of its block is used: they are the words
// of one set. The list of exceptions is short and holds
// no name that is used or gone.
func TestHouseExportsAreUsed(t *testing.T) {
	files := goFiles(t)
	listed, err := readExceptions()
	if err != nil {
		t.Fatal(err)
	}
	const most = 10 // an exception is for a name with a lasting reason
	if len(listed) > most {
		t.Errorf("%s lists %d names, more than %d: give one a caller, or unexport it", unusedExports, len(listed), most)
	}
	used := usedNames(files)
	unused := map[string]bool{}
	exported := 0
	for _, f := range files {
		if strings.HasSuffix(f.path, "_test.go") || !slices.ContainsFunc([]string{"program", "sim", "io"}, func(room string) bool { return inRoom(f.folder, room) }) {
			continue
		}
		sets := constantSets(f.tree)
		for _, name := range exportedNames(f.tree) {
			exported++
			if slices.ContainsFunc(sets[name], func(other string) bool { return used[f.folder+"."+other] }) {
				continue
			}
			if used[f.folder+"."+name] || strings.Contains(name, ".") && used[path.Ext(name)] {
				continue
			}
			key := f.folder + "." + name
			if unused[key] = true; listed[key] == "" {
				t.Errorf("%s: exported %s is used by no other package: unexport it, give it an Example, or say why in %s", f.path, name, unusedExports)
			}
		}
	}
	for key := range listed {
		if !unused[key] {
			t.Errorf("%s lists %s, which is used or gone: take it out", unusedExports, key)
		}
	}
	fmt.Printf("exported names used outside their package: checked %d of %d, %d listed\n", exported-len(unused), exported, len(unused))
}

// readExceptions reads the list: "folder.Name,reason" a line.
func readExceptions() (map[string]string, error) {
	text, err := os.ReadFile(unusedExports)
	listed := map[string]string{}
	for i, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if i == 0 || line == "" {
			continue // the heading
		}
		name, reason, _ := strings.Cut(line, ",")
		if reason == "" || listed[name] != "" {
			return nil, fmt.Errorf("%s line %d: %s has no reason or stands twice", unusedExports, i+1, name)
		}
		listed[name] = reason
	}
	return listed, err
}

// exportedNames are those of a file: "Name", or "Type.Method". Methods by which a value
// serves an interface of others are left out.
func exportedNames(tree *ast.File) (names []string) {
	served := []string{"Error", "Unwrap", "String", "MarshalJSON", "UnmarshalJSON", "MarshalText", "UnmarshalText", "Len", "Less", "Swap"}
	for _, decl := range tree.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			switch {
			case !d.Name.IsExported():
			case d.Recv == nil:
				names = append(names, d.Name.Name)
			default:
				if of := receiver(d); ast.IsExported(of) && !slices.Contains(served, d.Name.Name) {
					names = append(names, of+"."+d.Name.Name)
				}
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() {
						names = append(names, s.Name.Name)
					}
				case *ast.ValueSpec:
					for _, name := range s.Names {
						if name.IsExported() {
							names = append(names, name.Name)
						}
					}
				}
			}
		}
	}
	return names
}

// constantSets are the constants of each block by each of their names.
func constantSets(tree *ast.File) map[string][]string {
	sets := map[string][]string{}
	for _, decl := range tree.Decls {
		d, is := decl.(*ast.GenDecl)
		if !is || d.Tok != token.CONST {
			continue
		}
		var names []string
		for _, spec := range d.Specs {
			for _, name := range spec.(*ast.ValueSpec).Names {
				names = append(names, name.Name)
			}
		}
		for _, name := range names {
			sets[name] = names
		}
	}
	return sets
}

// receiver names the type of a method.
func receiver(d *ast.FuncDecl) (name string) {
	ast.Inspect(d.Recv.List[0].Type, func(n ast.Node) bool {
		if id, is := n.(*ast.Ident); is && name == "" {
			name = id.Name
		}
		return name == ""
	})
	return name
}

// usedNames are "folder.Name" as other packages write it, or as the exported declarations of
// its own package show a type; and ".Name" of what stands behind any point.
func usedNames(files []goFile) map[string]bool {
	used := map[string]bool{}
	for _, f := range files {
		imported := map[string]string{} // folder by the name it has in the file
		for _, spec := range f.tree.Imports {
			folder, ours := strings.CutPrefix(strings.Trim(spec.Path.Value, `"`), "fencerow/")
			if !ours {
				continue
			}
			name := path.Base(folder)
			if spec.Name != nil {
				name = spec.Name.Name
			}
			imported[name] = folder
		}
		ast.Inspect(f.tree, func(n ast.Node) bool {
			s, is := n.(*ast.SelectorExpr)
			if !is {
				return true
			}
			if of, plain := s.X.(*ast.Ident); plain && imported[of.Name] != "" {
				used[imported[of.Name]+"."+s.Sel.Name] = true
			}
			return true
		})
		showTypes(used, f)
	}
	usedMethods(used, files)
	return used
}

// usedMethods notes what stands behind a point in other packages than those that declare it.
func usedMethods(used map[string]bool, files []goFile) {
	declared := map[string][]string{} // folders by method
	for _, f := range files {
		for _, name := range exportedNames(f.tree) {
			if strings.Contains(name, ".") {
				declared[path.Ext(name)] = append(declared[path.Ext(name)], f.folder)
			}
		}
	}
	for _, f := range files {
		outside := strings.HasSuffix(f.tree.Name.Name, "_test")
		ast.Inspect(f.tree, func(n ast.Node) bool {
			if s, is := n.(*ast.SelectorExpr); is {
				name := "." + s.Sel.Name
				if folders := declared[name]; outside || slices.ContainsFunc(folders, func(folder string) bool { return folder != f.folder }) {
					used[name] = true
				}
			}
			return true
		})
	}
}

// showTypes notes the types that exported declarations of a file show: fields, arguments,
// results.
func showTypes(used map[string]bool, f goFile) {
	if strings.HasSuffix(f.path, "_test.go") {
		return
	}
	show := func(n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			if id, is := n.(*ast.Ident); is && id.IsExported() {
				used[f.folder+"."+id.Name] = true
			}
			return true
		})
	}
	for _, decl := range f.tree.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && (d.Recv == nil || ast.IsExported(receiver(d))) {
				show(d.Type)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() {
						show(s.Type)
					}
				case *ast.ValueSpec:
					if s.Type != nil && s.Names[0].IsExported() {
						show(s.Type)
					}
				}
			}
		}
	}
}
