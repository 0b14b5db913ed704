package front

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/invented"
)

// halfCent is what money to the cent may be off, and oneOutcome a chance of 100.
const (
	halfCent   = 0.005 + 1e-9
	oneOutcome = 100.0/1024 + 1e-9
)

// near reports whether a figure of Front is what is wanted.
func near(name string, got, want float64) bool {
	if strings.HasSuffix(name, "more") || name == "neither_pays" {
		return math.Abs(got-want) < oneOutcome
	}
	return math.Abs(got-want) < halfCent
}

// way is one way of using Front: what is chosen and typed.
type way struct {
	used    usedFigures
	what    string
	refused bool // a typed price is
}

// tryRandomly chooses a row of Front and types what comes.
func tryRandomly(t *testing.T, b *Book, r *rand.Rand) way {
	t.Helper()
	year := b.first()
	row := year.Rows[r.IntN(len(year.Rows))]
	w := way{used: atStart(year, row)}
	terms := w.used.crop.Working.Terms
	county, shown := shownCounties(year.Rows)[row.County], cropShown(row.Commodity, practiceWord(row.Practice.Practice))
	if r.IntN(4) == 0 {
		county = "Cedar County"
		w.used = b.addRow(t, county, row, w.used, r)
	}
	put(b.figure(t, "county_chosen"), county)
	put(b.figure(t, "crop_chosen"), shown)
	w.what = county + ", " + shown
	typed := func(name string, used *float64, decimals int) {
		if r.IntN(3) == 0 {
			return
		}
		*used = program.Round(*used*(0.65+0.7*r.Float64()), decimals)
		put(b.figure(t, name), *used)
		w.what += fmt.Sprintf(", %s %v", name, *used)
	}
	typed("county_yield_typed", &w.used.yield, 1)
	typed("plc_yield_typed", &w.used.plcYield, 0)
	if w.refused = r.IntN(8) == 0; w.refused {
		put(b.figure(t, "price_typed"), 480.0)
		w.what += ", price 480"
		return w
	}
	typed("price_typed", &w.used.price, terms.PriceDecimals)
	return w
}

// Whatever is chosen and typed, Front shows what package program makes of the same
// outcomes.
func TestFrontFollowsWhatIsTyped(t *testing.T) {
	ways := 12
	if invented.UnderRace {
		ways = 2
	}
	years, r, checked := testYears(t), rand.New(rand.NewPCG(7, 8)), 0
	for range ways {
		b := Lay(years)
		w := tryRandomly(t, b, r)
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatalf("%s: %v", w.what, err)
		}
		for name, want := range w.used.figures() {
			if got := found.Number(b.figure(t, name)); !near(name, got, want) {
				t.Errorf("%s: %s is %v, package program says %v", w.what, name, got, want)
				continue
			}
			checked++
		}
		if said, _ := found[cells.At(b.Front, 5, priceRow)].(string); strings.HasPrefix(said, "REFUSED") != w.refused {
			t.Errorf("%s: the price is %q", w.what, said)
		}
	}
	fmt.Printf("checked %d of %d figures of %d ways to use Front\n", checked, ways*len(frontFigures), ways)
	if checked != ways*len(frontFigures) {
		t.Error("some are not equal")
	}
}

// At the start all checks are equal, and Front has the engine's own odds of its row.
func TestStartIsEqual(t *testing.T) {
	b := Lay(testYears(t))
	found, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	if got := found[b.figure(t, "all_checks")]; got != cells.Equal {
		t.Errorf("the checks are %v", got)
	}
	for i, want := range ownOdds(*b.first().Rows[0].Paid) {
		if name := frontFigures[i].name; !near(name, found.Number(b.figure(t, name)), want) {
			t.Errorf("%s is %v, the engine says %v", name, found.Number(b.figure(t, name)), want)
		}
	}
}

// A typed figure is a change, a program that reckons otherwise a difference.
func TestChecksTellChangesFromDifferences(t *testing.T) {
	years := testYears(t)
	check := func(what string, change func(b *Book), want string) {
		b := Lay(years)
		change(b)
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		if got := found[b.figure(t, "all_checks")]; got != want {
			t.Errorf("%s: the checks are %v, want %s", what, got, want)
		}
	}
	check("a price typed on Front", func(b *Book) { put(b.figure(t, "price_typed"), 4.01) }, cells.Changed)
	check("another county yield", func(b *Book) { put(cells.At(b.Counties, rowYield, b.blocks[0].firstRow), 40.0) }, cells.Changed)
	check("another past price", func(b *Book) { put(cells.At(b.Crops, cropPast, b.blocks[0].firstCrop), 9.0) }, cells.Changed)
	check("a loan rate that is not the law's", func(b *Book) { put(cells.At(b.Crops, cropLoan, b.blocks[0].firstCrop), 6.0) }, cells.Differs)
}

// A county and crop without a row show no figure, and the sheet says so.
func TestNoRowIsSaid(t *testing.T) {
	b := Lay(testYears(t))
	put(b.figure(t, "county_chosen"), "Birch County")
	put(b.figure(t, "crop_chosen"), "peanuts")
	found, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	said := func(row int) string { text, _ := found[cells.At(b.Front, 1, row)].(string); return text }
	if said(typedRow) != "Now choose the crop: Birch County has" || !strings.HasPrefix(said(warningRow), "corn") || strings.Contains(said(warningRow), "peanuts") {
		t.Errorf("the sheet says %q, %q", said(typedRow), said(warningRow))
	}
	blank := []cells.Place{cells.At(b.Front, 2, plcRow), cells.At(b.Front, 4, priceRow), cells.At(b.Front, 6, arcRow), cells.At(b.Front, 1, rangeRow), cells.At(b.Front, 1, mostRow), cells.At(b.Front, 4, legendRow),
		cells.At(b.Front, chartColumn, legendRow), cells.At(b.lists, listChart+1, usedPoints)}
	if legend := found[cells.At(b.lists, listChart+2, 3)]; legend != "ARC-CO" {
		t.Errorf("the legend keeps %q", legend)
	}
	for _, at := range blank {
		if found[at] != "" {
			t.Errorf("%s shows %v", at.Absolute(), found[at])
		}
	}
}

// A price left over from another crop is used only where it can be right, and is flagged
// where it is far off: 4.05 dollars of corn is no price of peanuts, and an odd one of
// wheat. That it is typed is said whatever it is, and what is accepted stays in sight.
func TestLeftOverPriceIsFlagged(t *testing.T) {
	for _, k := range []struct {
		crop        crop.Commodity
		typed       float64
		used        bool
		from, warns string
	}{
		{crop.Peanuts, 4.05, false, "REFUSED, not used", "Is it of the crop chosen? Price not used."},
		{crop.Soybeans, 4.05, true, "typed by you: far off", "Is it of the crop chosen? Price far off. PLC yield not used."},
		{crop.Wheat, 5.05, true, "typed by you", ""},
	} {
		b := Lay(testYears(t))
		put(b.figure(t, "county_chosen"), "Alder County")
		put(b.figure(t, "crop_chosen"), k.crop.Name())
		put(b.figure(t, "price_typed"), k.typed)
		count := "1 figure typed"
		if k.crop == crop.Soybeans {
			put(b.figure(t, "plc_yield_typed"), 9000.0)
			count = "2 figures typed"
		}
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatal(err)
		}
		from, _ := found[cells.At(b.Front, 5, priceRow)].(string)
		said := func(row int) string { text, _ := found[cells.At(b.Front, 1, row)].(string); return text }
		used := found.Number(b.figure(t, "national_price")) == k.typed
		if used != k.used || from != k.from || said(warningRow) != k.warns {
			t.Errorf("%v of %s: used %v, %q, %q", k.typed, k.crop, used, from, said(warningRow))
		}
		if said(typedRow) != count+" by you, kept for any county and crop. Delete empties a cell." || !strings.HasPrefix(said(rangeRow), "Accepts price ") {
			t.Errorf("%v of %s: %q, %q", k.typed, k.crop, said(typedRow), said(rangeRow))
		}
		if look := cells.At(b.Front, 1, typedRow).Cell().Look; !look.Red || cells.At(b.Front, 1, rangeRow).Cell().Look.Red {
			t.Error("warnings are not told apart by color")
		}
	}
}

// The price cell refuses 480 for corn, before Enter: its least and most are those of the
// crop chosen.
func TestPriceCellRefusesCents(t *testing.T) {
	b := Lay(testYears(t))
	put(b.figure(t, "crop_chosen"), "corn")
	found, err := cells.Evaluate(b.all())
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(written(t, b, found)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	checks, err := f.GetDataValidations(frontTitle)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range checks {
		if v.Sqref != b.figure(t, "price_typed").Address() {
			continue
		}
		least, most := found.Number(b.figure(t, v.Formula1)), found.Number(b.figure(t, v.Formula2))
		if v.Type != "decimal" || v.Operator != "" && v.Operator != "between" || *v.ErrorStyle != "stop" || !v.ShowErrorMessage || !(least <= 4.80 && 4.80 <= most) || least <= 480 && 480 <= most {
			t.Errorf("the price of corn may be %s %v to %v: %+v", v.Type, least, most, v)
		}
		return
	}
	t.Errorf("nothing checks the price: %+v", checks)
}

// The same rows give the same bytes.
func TestSameBytes(t *testing.T) {
	years := testYears(t)
	file := func() []byte {
		b := Lay(years)
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatal(err)
		}
		return written(t, b, found)
	}
	if !bytes.Equal(file(), file()) {
		t.Error("two files of the same rows differ")
	}
}

// No type on Front is smaller than 12 points, and its rows fit a window of 720 pixels.
func TestFrontCanBeReadFromTheBack(t *testing.T) {
	b := Lay(testYears(t))
	laid := len(b.Front.Rows)
	b.Front.End("a caution")
	const least, window = 12, 480 // pixels below ribbon, formula bar and tabs
	high := 0.0
	for r, row := range b.Front.Rows {
		if r < laid {
			high += heights[r+1] * 96 / 72
		}
		for _, c := range row {
			if c != (cells.Cell{}) && c.Look.Size < least {
				t.Errorf("row %d of Front has type of %v points", r+1, c.Look.Size)
			}
		}
	}
	for _, column := range []int{2, 3, 6} { // the heads that are not of two columns
		text, _ := cells.At(b.Front, column, resultHeads).Cell().Value.(string)
		if lines := cells.Wrapped(text, int(b.Front.Widths[column-1])); float64(len(lines))*1.3*least > heights[resultHeads] {
			t.Errorf("%q takes %d lines", text, len(lines))
		}
	}
	if high > window {
		t.Errorf("Front is %v pixels high", high)
	}
}

// A county typed into an empty row is in the list of Front; what a row lacks is said in it.
func TestAddedRowIsListed(t *testing.T) {
	b := Lay(testYears(t))
	row := b.first().Rows[0]
	at := func(column int) cells.Place { return cells.At(b.Counties, column, b.blocks[0].lastStart+1) }
	b.addRow(t, "Cedar County", row, atStart(b.first(), row), rand.New(rand.NewPCG(1, 2)))
	listed := func() (counties []string, said any) {
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatal(err)
		}
		for r := range b.blocks[0].lastRow - b.blocks[0].firstRow + 1 {
			if county, _ := found[cells.At(b.lists, listCounty, r+2)].(string); county != "" {
				counties = append(counties, county)
			}
		}
		return counties, found[at(rowListed)]
	}
	if counties, said := listed(); !slices.Equal(counties, []string{"Alder County", "Birch County", "Cedar County"}) || said != "yes" {
		t.Errorf("Front lists %v, the row says %v", counties, said)
	}
	for _, k := range []struct {
		column int
		value  any
		said   string
	}{{rowPLCYield, nil, "no: PLC yield"}, {rowYield, nil, "no: county yield"}, {rowAdjusted, nil, "no: benchmark yield"}, {rowFollows, "nobody", "no: outcomes follow"}, {rowCrop, "gold", "no: crop"}} {
		kept := at(k.column).Cell().Value
		put(at(k.column), k.value)
		if counties, said := listed(); len(counties) != 2 || said != k.said {
			t.Errorf("without column %d Front lists %v, the row says %v, want %s", k.column, counties, said, k.said)
		}
		put(at(k.column), kept)
	}
}

// Every figure fits its cell, whatever row is chosen: peanuts and rice are in thousands of
// pounds, seed cotton in tenths of a cent.
func TestFrontFiguresFit(t *testing.T) {
	years, checked := testYears(t), 0
	rows := years[0].Rows
	if invented.UnderRace {
		rows = rows[:2]
	}
	for _, row := range rows {
		b := Lay(years)
		put(b.figure(t, "county_chosen"), shownCounties(years[0].Rows)[row.County])
		put(b.figure(t, "crop_chosen"), cropShown(row.Commodity, practiceWord(row.Practice.Practice)))
		found, err := cells.Evaluate(b.all())
		if err != nil {
			t.Fatal(err)
		}
		for r := priceRow; r <= neitherRow; r++ {
			for column := 2; column <= 6; column++ {
				at := cells.At(b.Front, column, r)
				x, is := found[at].(float64)
				if !is {
					continue
				}
				if wide, room := pixelsOf(x, at.Cell().Look), 8*b.Front.Widths[column-1]+5; wide > room {
					t.Errorf("%s of %s: %v takes %.0f of %.0f pixels", at.Address(), row.Commodity, x, wide, room)
				}
				checked++
			}
		}
	}
	fmt.Printf("checked %d figures of Front that fit their cells\n", checked)
}

// pixelsOf is how wide a figure is in Arial, whose digits are 0.556 of the type's size and
// whose points and commas half of that, with the indent at its right.
func pixelsOf(x float64, look cells.Look) float64 {
	const digit, point, indent = 0.556, 0.278, 10
	text := strconv.FormatFloat(program.Round(x, 4), 'f', -1, 64)
	switch {
	case look.Format == "0" || x >= 1000:
		text = program.Text(x, 0)
	case look.Format == roomMoney:
		text = program.Text(x, 2)
	}
	em := look.Size * 96 / 72
	wide := indent + float64(len(text))*digit*em
	if strings.Contains(text, ".") {
		wide -= (digit - point) * em
	}
	if x >= 1000 {
		wide += point * em // the comma
	}
	return wide
}
