package workbook

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// inputs is the sheet of what can be changed, and where each figure stands on it. A
// figure that holds for several farms or crop years stands there once.
type inputs struct {
	*cells.Sheet
	comparison answer.Comparison
	workings   []explain.Workings
	prices     map[priceKey]cells.Place
	past       map[priceKey]cells.Place // a past price, by its own crop year
	yields     map[yieldKey]cells.Place
	five       map[yieldKey]cells.Span // the adjusted yields; none where only the benchmark is known
	benchmarks map[yieldKey]cells.Place
	bases      map[baseKey]basePlaces
	cuts       map[cutKey]cells.Place
}

type priceKey struct {
	commodity crop.Commodity
	cropYear  crop.CropYear
}

type yieldKey struct {
	county    string
	commodity crop.Commodity
	practice  farm.Practice
	cropYear  crop.CropYear
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
func layInputs(c answer.Comparison, workings []explain.Workings) *inputs {
	t := &inputs{
		Sheet:      cells.NewSheet(inputsTitle, 12, 18, 14, 12, 12, 11, 11, 11, 11, 11, 11, 11, 11, 13, 32),
		comparison: c, workings: workings,
		prices: map[priceKey]cells.Place{}, past: map[priceKey]cells.Place{}, yields: map[yieldKey]cells.Place{}, five: map[yieldKey]cells.Span{},
		benchmarks: map[yieldKey]cells.Place{}, bases: map[baseKey]basePlaces{}, cuts: map[cutKey]cells.Place{},
	}
	t.Line(cells.Look{Title: true}, inputsTitle)
	t.Line(cells.Look{}, "Change a figure in a bordered cell. Every rate, payment, total, table and chart of the four sheets after this one follows; the odds do not.")
	t.Frozen = len(t.Rows)
	t.Line(cells.Look{}, "Only bordered made can be changed; there is no password. A cell that says unknown lacks a figure: add it to your file and make the workbook again.")
	t.Gap()
	t.layPrices()
	t.layYields()
	t.layBases()
	t.Gap()
	t.Add(cells.Plain("Rounding aid"), cells.Figure(cells.LiftFormat, program.Lift), cells.Plain("Makes a spreadsheet round an exact half up, as USDA does. Leave as is."))
	t.Name(t.Last(2), cells.LiftName)
	return t
}

func (t *inputs) layPrices() {
	t.Line(cells.Look{Bold: true}, fmt.Sprintf("National prices of %s, dollars per unit: %s", wording.Date(t.comparison.Market.AsOf), t.comparison.Market.Source))
	t.Heads("crop", "crop year", "unit", "price used", "status", "past price 1, oldest", "past price 2", "past price 3", "past price 4", "past price 5", "of crop years", "status", "", "", "price from")
	t.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		key := priceKey{w.Commodity, y}
		if _, laid := t.prices[key]; !laid {
			t.layPrice(key, w)
		}
	})
	t.Gap()
}

func (t *inputs) layPrice(key priceKey, w explain.Working) {
	format := cells.DecimalsFormat(w.Terms.PriceDecimals)
	row := []cells.Cell{cells.Plain(w.Commodity.Name()), yearCell(key.cropYear), cells.Plain(w.Commodity.Unit().Price())}
	row = append(row, inputOf(format, w.Price)...)
	var statuses []crop.Status
	for _, p := range w.History {
		row = append(row, t.pastPrice(format, w.Commodity, p))
		if p.Status != "" {
			statuses = append(statuses, p.Status)
		}
	}
	first, last := w.History[0].CropYear, w.History[len(w.History)-1].CropYear
	row = append(row, cells.Plain(fmt.Sprintf("%d-%d", first, last)), cells.Plain(string(crop.Weakest(statuses...))), cells.Plain(""), cells.Plain(""))
	if w.Price != nil {
		row = append(row, cells.Plain(w.Price.Source))
	}
	t.Add(row...)
	const price, past = 4, 6
	t.prices[key] = t.Last(price)
	t.Name(t.Last(price), "price", w.Commodity, key.cropYear)
	for i, p := range w.History {
		own := priceKey{w.Commodity, p.CropYear}
		if at := t.Last(past + i); at.Known() && !t.past[own].Known() {
			t.past[own] = at
			t.Name(at, "past_price", w.Commodity, p.CropYear)
		}
	}
}

// pastPrice is an input where it stands for the first time, and else follows
// that one.
func (t *inputs) pastPrice(format string, c crop.Commodity, p explain.PastPrice) cells.Cell {
	if p.Status == "" {
		return cells.Plain(cells.Unknown)
	}
	if at := t.past[priceKey{c, p.CropYear}]; at.Known() {
		return t.Same(format, at)
	}
	return cells.Input(format, p.Value)
}

// yearCell is a crop year, set as a word.
func yearCell(y crop.CropYear) cells.Cell { return cells.Plain(fmt.Sprint(y)) }

// inputOf is a figure that can be changed, and its status.
func inputOf(format string, f *farm.Figure) []cells.Cell {
	if f == nil || f.Status == "" {
		return []cells.Cell{cells.Plain(cells.Unknown), cells.Plain("")}
	}
	return []cells.Cell{cells.Input(format, f.Value), cells.Plain(string(f.Status))}
}

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
