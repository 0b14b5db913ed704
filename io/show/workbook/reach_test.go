package workbook

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
)

var referred = regexp.MustCompile(`(?:'([^']+)'!)?\$?([A-Z]{1,3})\$?(\d+)(?::\$?([A-Z]{1,3})\$?(\d+))?`)

// Every formula of the farms is held against package program, or enters one that is.
func TestEveryFormulaIsHeldAgainstTheLaw(t *testing.T) {
	a := ask(t, testCase())
	sheets, want, _ := typedBook(a, rand.New(rand.NewPCG(1, 2)))
	byTitle := map[string]*cells.Sheet{}
	for _, s := range sheets {
		byTitle[s.Title] = s
	}
	reached := map[cells.Place]bool{}
	var follow func(at cells.Place)
	follow = func(at cells.Place) {
		if reached[at] || at.Row > len(at.On.Rows) || at.Column > len(at.On.Rows[at.Row-1]) {
			return
		}
		formula := at.On.Rows[at.Row-1][at.Column-1].Formula
		if formula == "" {
			return
		}
		reached[at] = true
		for _, r := range referred.FindAllStringSubmatch(formula, -1) {
			on := at.On
			if r[1] != "" {
				on = byTitle[r[1]]
			}
			for _, place := range places(t, on, r) {
				follow(place)
			}
		}
	}
	for at := range want {
		follow(at)
	}
	f, err := draft(sheets)
	if err != nil {
		t.Fatal(err)
	}
	all, checked := 0, 0
	for _, s := range ofFarms(sheets) {
		if s.Title == "Crops" || s.Title == "Counties" {
			continue // tests of package front hold each of their columns
		}
		for at := range s.Formulas() {
			all++
			if reached[at] || sameOrDifference(t, f, at, byTitle) {
				checked++
			} else {
				t.Errorf("%s is held against nothing: %s", at.Absolute(), at.On.Rows[at.Row-1][at.Column-1].Formula)
			}
		}
	}
	fmt.Printf("checked %d of %d formulas: held against package program, entering one that is, or a copy or difference of figures\n", checked, all)
}

var plainReference = regexp.MustCompile(`^(?:'[^']+'!)?\$?[A-Z]+\$?\d+(-\$?[A-Z]+\$?\d+)?$`)

// sameOrDifference reports whether a formula is a mere reference or the difference of
// two, and comes to that.
func sameOrDifference(t *testing.T, f *excelize.File, at cells.Place, byTitle map[string]*cells.Sheet) bool {
	t.Helper()
	formula := at.On.Rows[at.Row-1][at.Column-1].Formula
	if !plainReference.MatchString(formula) {
		return false
	}
	want, sign := 0.0, 1.0
	for _, r := range referred.FindAllStringSubmatch(formula, -1) {
		on := at.On
		if r[1] != "" {
			on = byTitle[r[1]]
		}
		from := places(t, on, r)[0]
		x, isNumber := from.On.Rows[from.Row-1][from.Column-1].Value.(float64)
		if !isNumber {
			x = calculated(t, f, from)
		}
		want, sign = want+sign*x, -1
	}
	return math.Abs(calculated(t, f, at)-want) < halfCent
}

// places are those of a reference or a range.
func places(t *testing.T, on *cells.Sheet, r []string) (all []cells.Place) {
	t.Helper()
	number := func(column, row string) (int, int) {
		c, line, err := excelize.CellNameToCoordinates(column + row)
		if err != nil {
			t.Fatal(err)
		}
		return c, line
	}
	left, top := number(r[2], r[3])
	right, bottom := left, top
	if r[4] != "" {
		right, bottom = number(r[4], r[5])
	}
	for c := left; c <= right; c++ {
		for row := top; row <= bottom; row++ {
			all = append(all, cells.At(on, c, row))
		}
	}
	return all
}
