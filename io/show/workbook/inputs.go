package workbook

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// inputs is the sheet of what can be changed, and where each figure stands on it. A
// figure that holds for several farms or crop years stands there once.
type inputs struct {
	*sheet
	comparison answer.Comparison
	workings   []explain.Workings
	prices     map[priceKey]place
	past       map[priceKey]place // a past price, by its own crop year
	yields     map[yieldKey]place
	five       map[yieldKey]span // the adjusted yields; none where only the benchmark is known
	benchmarks map[yieldKey]place
	bases      map[baseKey]basePlaces
	cuts       map[cutKey]place
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
type basePlaces struct{ acres, paymentYield, irrigated place }

// inputsTitle is the name of the sheet of inputs, which other sheets cite.
const inputsTitle = "Your figures"

// liftName is the name of the cell of program.Lift.
const liftName = "lift"

// layInputs lays out the sheet of inputs.
func layInputs(c answer.Comparison, workings []explain.Workings) *inputs {
	t := &inputs{
		sheet:      newSheet(inputsTitle, 12, 18, 14, 12, 12, 11, 11, 11, 11, 11, 11, 11, 11, 13, 32),
		comparison: c, workings: workings,
		prices: map[priceKey]place{}, past: map[priceKey]place{}, yields: map[yieldKey]place{}, five: map[yieldKey]span{},
		benchmarks: map[yieldKey]place{}, bases: map[baseKey]basePlaces{}, cuts: map[cutKey]place{},
	}
	t.line(look{title: true}, inputsTitle)
	t.line(look{}, "Change a figure in a bordered cell. Every rate, payment, total, table and chart of the four sheets after this one follows; the odds do not.")
	t.frozen = len(t.rows)
	t.line(look{}, "Only bordered cells can be changed; there is no password. A cell that says unknown lacks a figure: add it to your file and make the workbook again.")
	t.gap()
	t.layPrices()
	t.layYields()
	t.layBases()
	t.gap()
	t.add(plain("Rounding aid"), figure(liftFormat, program.Lift), plain("Makes a spreadsheet round an exact half up, as USDA does. Leave as is."))
	t.name(t.last(2), liftName)
	return t
}

func (t *inputs) layPrices() {
	t.line(look{bold: true}, fmt.Sprintf("National prices of %s, dollars per unit: %s", wording.Date(t.comparison.Market.AsOf), t.comparison.Market.Source))
	t.heads("crop", "crop year", "unit", "price used", "status", "past price 1, oldest", "past price 2", "past price 3", "past price 4", "past price 5", "of crop years", "status", "", "", "price from")
	t.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		key := priceKey{w.Commodity, y}
		if _, laid := t.prices[key]; !laid {
			t.layPrice(key, w)
		}
	})
	t.gap()
}

func (t *inputs) layPrice(key priceKey, w explain.Working) {
	format := decimalsFormat(w.Terms.PriceDecimals)
	row := []cell{plain(w.Commodity.Name()), yearCell(key.cropYear), plain(w.Commodity.Unit().Price())}
	row = append(row, inputOf(format, w.Price)...)
	var statuses []crop.Status
	for _, p := range w.History {
		row = append(row, t.pastPrice(format, w.Commodity, p))
		if p.Status != "" {
			statuses = append(statuses, p.Status)
		}
	}
	first, last := w.History[0].CropYear, w.History[len(w.History)-1].CropYear
	row = append(row, plain(fmt.Sprintf("%d-%d", first, last)), plain(string(crop.Weakest(statuses...))), plain(""), plain(""))
	if w.Price != nil {
		row = append(row, plain(w.Price.Source))
	}
	t.add(row...)
	const price, past = 4, 6
	t.prices[key] = t.last(price)
	t.name(t.last(price), "price", w.Commodity, key.cropYear)
	for i, p := range w.History {
		own := priceKey{w.Commodity, p.CropYear}
		if at := t.last(past + i); at.known() && !t.past[own].known() {
			t.past[own] = at
			t.name(at, "past_price", w.Commodity, p.CropYear)
		}
	}
}

// pastPrice is an input where it stands for the first time, and else follows
// that one.
func (t *inputs) pastPrice(format string, c crop.Commodity, p explain.PastPrice) cell {
	if p.Status == "" {
		return plain(unknown)
	}
	if at := t.past[priceKey{c, p.CropYear}]; at.known() {
		return t.same(format, at)
	}
	return input(format, p.Value)
}

// yearCell is a crop year, set as a word.
func yearCell(y crop.CropYear) cell { return plain(fmt.Sprint(y)) }

// inputOf is a figure that can be changed, and its status.
func inputOf(format string, f *farm.Figure) []cell {
	if f == nil || f.Status == "" {
		return []cell{plain(unknown), plain("")}
	}
	return []cell{input(format, f.Value), plain(string(f.Status))}
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
