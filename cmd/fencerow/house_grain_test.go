package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/build"
	"go/importer"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A package with fewer references between files than fewestReferences is not judged.
const mostAgainst, fewestReferences = 0.10, 20

// TestHouseReferencesRunOneWay: inside a package the files have an order in which
// references run one way: no more than one in ten runs against it. A reference is a pair
// of declarations in two files, one naming the other (functions, methods, types,
// constants, variables; fields are not counted), however often it does. The order is the
// one with the fewest against it that is found. With -v it prints the table.
func TestHouseReferencesRunOneWay(t *testing.T) {
	byFolder := map[string][]goFile{}
	for _, f := range goFiles(t) {
		matches, err := build.Default.MatchFile(filepath.Join(root, f.folder), filepath.Base(f.path))
		if err != nil {
			t.Fatal(err)
		}
		if matches && !strings.HasSuffix(f.path, "_test.go") {
			byFolder[f.folder] = append(byFolder[f.folder], f)
		}
	}
	imports := importer.ForCompiler(fileSet, "gc", exportData(t))
	judged := 0
	for _, folder := range slices.Sorted(maps.Keys(byFolder)) {
		g := fileReferences(t, folder, byFolder[folder], imports)
		order := g.order()
		all, against := g.total(), g.against(order)
		share := float64(against) / float64(max(1, all))
		if testing.Verbose() {
			fmt.Printf("%-22s %3d files %4d references between files %4d against, %.3f\n", folder, g.n, all, against, share)
		}
		if all < fewestReferences {
			continue
		}
		if judged++; share > mostAgainst {
			t.Errorf("%s: %d of %d references between its files (%.3f) run against their order, more than %.2f:\n%s", folder, against, all, share, mostAgainst, g.tell(order, byFolder[folder]))
		}
	}
	fmt.Printf("packages whose references run one way: checked %d of %d, the others are small\n", judged, len(byFolder))
}

// TestGrainOfThreeFiles: a circle of 3, 3 and 1 is cut where it is thinnest, whatever
// hangs on it.
func TestGrainOfThreeFiles(t *testing.T) {
	g := newFileGraph(5)
	g.weight[2][0], g.weight[0][1], g.weight[1][2] = 3, 3, 1
	g.weight[4][1], g.weight[1][3] = 9, 9
	if order := g.order(); !slices.Equal(order, []int{4, 2, 0, 1, 3}) || g.against(order) != 1 || g.total() != 25 {
		t.Errorf("order %v: %d of %d against it", order, g.against(order), g.total())
	}
}

// exportData finds what the compiler knows of each package, from Go's own cache.
func exportData(t *testing.T) importer.Lookup {
	t.Helper()
	list := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Export", "./...")
	list.Dir, list.Stderr = root, os.Stderr
	text, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for in := json.NewDecoder(strings.NewReader(string(text))); ; {
		var p struct{ ImportPath, Export string }
		err := in.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		files[p.ImportPath] = p.Export
	}
	return func(path string) (io.ReadCloser, error) { return os.Open(files[path]) }
}

// fileReferences counts the references between the files of a package.
func fileReferences(t *testing.T, folder string, files []goFile, imports types.Importer) fileGraph {
	t.Helper()
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	trees := make([]*ast.File, len(files))
	for i, f := range files {
		trees[i] = f.tree
	}
	if _, err := (&types.Config{Importer: imports}).Check("fencerow/"+folder, fileSet, trees, info); err != nil {
		t.Fatal(err)
	}
	at := map[types.Object]declared{}
	for i, tree := range trees {
		for _, node := range declarations(tree) {
			for _, name := range declaredNames(node) {
				at[info.Defs[name]] = declared{i, node}
			}
		}
	}
	g := newFileGraph(len(files))
	for i, tree := range trees {
		for _, node := range declarations(tree) {
			named := map[declared]bool{} // by this declaration
			ast.Inspect(node, func(n ast.Node) bool {
				if id, is := n.(*ast.Ident); is {
					if to, ours := at[origin(info.Uses[id])]; ours && to.file != i {
						named[to] = true
					}
				}
				return true
			})
			for to := range named {
				g.weight[i][to.file]++
			}
		}
	}
	return g
}

// declared is where a name of a package is declared.
type declared struct {
	file int
	node ast.Node
}

// origin is what a generic function or method was made from, else the object itself.
func origin(o types.Object) types.Object {
	if f, is := o.(*types.Func); is {
		return f.Origin()
	}
	return o
}

// declarations are the functions and the single specs of a file.
func declarations(tree *ast.File) (all []ast.Node) {
	for _, decl := range tree.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			all = append(all, d)
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				all = append(all, spec)
			}
		}
	}
	return all
}

func declaredNames(node ast.Node) []*ast.Ident {
	switch d := node.(type) {
	case *ast.FuncDecl:
		return []*ast.Ident{d.Name}
	case *ast.TypeSpec:
		return []*ast.Ident{d.Name}
	case *ast.ValueSpec:
		return d.Names
	}
	return nil // an import
}

// fileGraph has, from file to file, how many references there are.
type fileGraph struct {
	n      int
	weight [][]int
}

func newFileGraph(n int) fileGraph {
	g := fileGraph{n, make([][]int, n)}
	for i := range g.weight {
		g.weight[i] = make([]int, n)
	}
	return g
}

func (g fileGraph) total() (sum int) {
	for _, row := range g.weight {
		for _, w := range row {
			sum += w
		}
	}
	return sum
}

// against counts the references from a later file of an order to an earlier one.
func (g fileGraph) against(order []int) (sum int) {
	for i, later := range order {
		for _, earlier := range order[:i] {
			sum += g.weight[later][earlier]
		}
	}
	return sum
}

// order returns the files in an order with few references against it: files that reach
// each other stay together and are put in order greedily, after P. Eades, X. Lin and
// W. F. Smyth, Information Processing Letters 47 (1993), then moved one at a time as long
// as that helps. The fewest possible are not sure to be found.
func (g fileGraph) order() (order []int) {
	reach := g.reach()
	left := make([]int, g.n)
	for i := range left {
		left[i] = i
	}
	for len(left) > 0 {
		// a first file that no file outside its circle refers to
		first := slices.IndexFunc(left, func(v int) bool {
			return !slices.ContainsFunc(left, func(u int) bool { return reach[u][v] && !reach[v][u] })
		})
		v := left[first]
		var circle, rest []int
		for _, u := range left {
			if u == v || reach[u][v] && reach[v][u] {
				circle = append(circle, u)
			} else {
				rest = append(rest, u)
			}
		}
		order, left = append(order, g.improve(g.greedy(circle))...), rest
	}
	return order
}

// reach says which file refers to which, over any number of others.
func (g fileGraph) reach() [][]bool {
	reach := make([][]bool, g.n)
	for i, row := range g.weight {
		reach[i] = make([]bool, g.n)
		for j, w := range row {
			reach[i][j] = w > 0
		}
	}
	for k := range g.n {
		for i := range g.n {
			for j := range g.n {
				reach[i][j] = reach[i][j] || reach[i][k] && reach[k][j]
			}
		}
	}
	return reach
}

// greedy takes away, again and again, what refers to nothing (to the end), what nothing
// refers to (to the front), or what refers to more than it is referred to (to the front).
func (g fileGraph) greedy(files []int) []int {
	var front, end []int
	left := slices.Clone(files)
	for len(left) > 0 {
		out, in := make([]int, g.n), make([]int, g.n)
		for _, v := range left {
			for _, u := range left {
				out[v], in[u] = out[v]+g.weight[v][u], in[u]+g.weight[v][u]
			}
		}
		sink := slices.IndexFunc(left, func(v int) bool { return out[v] == 0 })
		if sink >= 0 {
			end = append(end, left[sink])
			left = slices.Delete(left, sink, sink+1)
			continue
		}
		next := slices.IndexFunc(left, func(v int) bool { return in[v] == 0 })
		if next < 0 {
			best := slices.MaxFunc(left, func(a, b int) int { return cmp.Compare(out[a]-in[a], out[b]-in[b]) })
			next = slices.Index(left, best)
		}
		front = append(front, left[next])
		left = slices.Delete(left, next, next+1)
	}
	slices.Reverse(end)
	return append(front, end...)
}

// improve moves single files to their best place until no move helps.
func (g fileGraph) improve(order []int) []int {
	for moved := true; moved; {
		moved = false
		for i := 0; i < len(order); i++ {
			v := order[i]
			rest := slices.Delete(slices.Clone(order), i, i+1)
			// change is what the move behind the first of rest adds to what runs against.
			place, least, change := i, 0, 0
			for j := i; j < len(rest); j++ {
				change += g.weight[v][rest[j]] - g.weight[rest[j]][v]
				if change < least {
					place, least = j+1, change
				}
			}
			change = 0
			for j := i - 1; j >= 0; j-- {
				change += g.weight[rest[j]][v] - g.weight[v][rest[j]]
				if change < least {
					place, least = j, change
				}
			}
			if least < 0 {
				order, moved = slices.Insert(rest, place, v), true
			}
		}
	}
	return order
}

// tell names the pairs of files between which most runs against the order.
func (g fileGraph) tell(order []int, files []goFile) string {
	type pair struct {
		text   string
		weight int
	}
	var pairs []pair
	for i, later := range order {
		for _, earlier := range order[:i] {
			if w := g.weight[later][earlier]; w > 0 {
				pairs = append(pairs, pair{fmt.Sprintf("  %2d from %s to %s, %d the other way", w, filepath.Base(files[later].path), filepath.Base(files[earlier].path), g.weight[earlier][later]), w})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(b.weight, a.weight) })
	var lines []string
	for _, p := range pairs[:min(len(pairs), 12)] {
		lines = append(lines, p.text)
	}
	return strings.Join(lines, "\n")
}
