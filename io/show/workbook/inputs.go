package workbook

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// inputs is the sheet of a farm's own figures that can be changed, and where they and
// those of Crops and Counties stand.
type inputs struct {
	*cells.Sheet
	book       *front.Book
	comparison answer.Comparison
	workings   []explain.Workings
	bases      map[baseKey]basePlaces
	cuts       map[cutKey]cells.Place
}

// baseKey is a base: the n-th of its commodity on its farm.
type baseKey struct {
	farm      string
	commodity crop.Commodity
	n         int
}

type cutKey struct {
	baseKey
	cropYear crop.CropYear
}

// basePlaces are the figures of a base that hold in every crop year.
type basePlaces struct{ acres, paymentYield, irrigated cells.Place }

// inputsTitle is the name of the sheet of inputs, which other sheets cite.
const inputsTitle = "Your figures"

// layInputs lays out the sheet of inputs.
func layInputs(c answer.Comparison, workings []explain.Workings, book *front.Book) *inputs {
	t := &inputs{
		Sheet: cells.NewSheet(inputsTitle, 12, 18, 10, 18, 10, 12, 12, 12, 12, 12, 12), book: book,
		comparison: c, workings: workings, bases: map[baseKey]basePlaces{}, cuts: map[cutKey]cells.Place{},
	}
	t.Line(cells.Look{Title: true}, inputsTitle)
	t.Line(cells.Look{}, "Change a figure in a bordered cell. Prices stand on "+front.CropsTitle+", county yields on "+front.CountiesTitle+".")
	t.Frozen = len(t.Rows)
	t.Line(cells.Look{}, "All payments, totals, tables and charts follow. The sheet Odds does not: for live odds use Front.")
	t.Line(cells.Look{}, "Only bordered cells can be changed; there is no password. A cell that says unknown lacks a figure: add it to your file and make the workbook again.")
	t.Gap()
	t.layBases()
	return t
}

// yearCell is a crop year, set as a word.
func yearCell(y crop.CropYear) cells.Cell { return cells.Plain(fmt.Sprint(y)) }

// farmName is the name of a farm in a cell: its number, with the county code where two share
// one.
func (t *inputs) farmName(key string) string {
	if len(t.comparison.CropYears) == 0 {
		return key
	}
	return wording.Farm(key, t.comparison.CropYears[0].Farms)
}

// eachCommodityBase goes through every crop year, farm by farm.
func (t *inputs) eachCommodityBase(do func(crop.CropYear, explain.Working)) {
	for _, year := range t.workings {
		for _, w := range year.Commodities {
			do(year.CropYear, w)
		}
	}
}

func (t *inputs) layBases() {
	t.Line(cells.Look{Bold: true}, "Base acres, the same in every crop year here")
	titles := []string{"farm", "crop", "county", "name", "tract", "base acres", "PLC yield", "irrigated share", "in CRP, acres"}
	for _, year := range t.workings {
		titles = append(titles, fmt.Sprintf("acres cut for fruit and vegetables, %d", year.CropYear))
	}
	t.Heads(titles...)
	if len(t.workings) == 0 {
		return
	}
	for h, w := range t.workings[0].Commodities {
		for n, b := range w.Bases {
			t.layBase(h, n, w, b)
		}
	}
	t.Line(cells.Look{}, "The acres cut were worked out for the base acres in your file. Enter them again if you change base acres. Acres in CRP are not in the base acres and earn nothing.")
}

// layBase lays out the n-th base of the h-th commodity base.
func (t *inputs) layBase(h, n int, w explain.Working, b explain.WorkingBase) {
	acres := cells.DecimalsFormat(2)
	row := []cells.Cell{cells.Plain(t.farmName(w.Farm)), cells.Plain(w.Commodity.Name()), cells.Plain(b.County), cells.Plain(b.CountyName), cells.Plain(b.Tract), cells.Input(acres, b.BaseAcres)}
	if b.PaymentYield == nil {
		row = append(row, cells.Plain(cells.Unknown))
	} else {
		row = append(row, cells.Input(cells.DecimalsFormat(2), *b.PaymentYield))
	}
	row = append(row, irrigatedCell(w, b), cells.Figure(acres, b.CRPReduction))
	for _, year := range t.workings {
		row = append(row, cells.Input(acres, year.Commodities[h].Bases[n].CutAcres))
	}
	t.Add(row...)
	const base, paymentYield, irrigated, cut = 6, 7, 8, 10
	key := baseKey{w.Farm, w.Commodity, n}
	t.bases[key] = basePlaces{t.Last(base), t.Last(paymentYield), t.Last(irrigated)}
	named := []any{"of", w.Farm, w.Commodity, n + 1}
	t.Name(t.Last(base), append([]any{"base_acres"}, named...)...)
	t.Name(t.Last(paymentYield), append([]any{"payment_yield"}, named...)...)
	t.Name(t.Last(irrigated), append([]any{"irrigated_share"}, named...)...)
	for i, year := range t.workings {
		t.cuts[cutKey{key, year.CropYear}] = t.Last(cut + i)
	}
}

// irrigatedCell is the irrigated share: an input where both of the county's
// yields are known, and fixed where the sums can only be done for the one that
// is. A share that is not given is assumed: notes say so.
func irrigatedCell(w explain.Working, b explain.WorkingBase) cells.Cell {
	switch {
	case len(b.Practices) < 2:
		return cells.Plain("-")
	case usable(b.Practices[0]) && usable(b.Practices[1]):
		return cells.Input(cells.ShareFormat, b.IrrigatedShare)
	}
	return cells.Figure(cells.ShareFormat, b.IrrigatedShare)
}

// usable reports whether benchmark and county yield are known.
func usable(p explain.WorkingPractice) bool {
	return p.BenchmarkYield.Status != "" && p.CountyYield.Status != ""
}
