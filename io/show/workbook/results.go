package workbook

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// results is the sheet of payments at the figures entered, and where its figures stand.
type results struct {
	*sheet
	bases *bases
	of    map[commodityBaseKey]commodityBasePlaces
	farms map[farmKey][]commodityBasePlaces // those with both figures
}

type commodityBaseKey struct {
	farm      string
	commodity crop.Commodity
	cropYear  crop.CropYear
}

type farmKey struct {
	farm     string
	cropYear crop.CropYear
}

// commodityBasePlaces are payments in USD and per base acre.
type commodityBasePlaces struct{ plc, arc, plcAcre, arcAcre place }

// layResults lays out the payments of every farm and commodity, and totals.
func layResults(b *bases) *results {
	o := &results{sheet: newSheet("Payments at these figures", 14, 18, 12, 12, 13, 20, 13, 14, 14, 14, 20, 44), bases: b, of: map[commodityBaseKey]commodityBasePlaces{}, farms: map[farmKey][]commodityBasePlaces{}}
	inputs := b.arithmetic.inputs
	o.line(look{title: true}, "Payments at these prices and county yields")
	o.line(look{}, fmt.Sprintf("Prices of %s. Dollars before shares, payment limit and sequestration. This is one price and one county yield: for what else may happen see the sheet Odds.", wording.Date(inputs.comparison.Market.AsOf)))
	o.frozen = len(o.rows)
	for _, year := range inputs.workings {
		o.gap()
		o.layYear(year)
		o.gap()
		o.layTotals(year)
	}
	return o
}

func (o *results) layYear(year explain.Workings) {
	o.line(look{bold: true}, fmt.Sprintf("Crop year %d, by farm and crop", year.CropYear))
	if o.paysHigher(year.CropYear) {
		o.line(look{}, "For this crop year the law pays the higher of the two, whatever was elected.")
	}
	o.heads("farm", "crop", "base acres", "PLC rate", "ARC-CO guarantee, $/acre", "ARC-CO rate, $/acre", "PLC, $", "PLC per base acre", "ARC-CO, $", "ARC-CO per base acre", "ahead, $ per base acre", "note")
	for _, w := range year.Commodities {
		o.layCommodityBase(commodityBaseKey{w.Farm, w.Commodity, year.CropYear}, w)
	}
}

// paysHigher reports whether the law of the crop year pays the higher of both.
func (o *results) paysHigher(y crop.CropYear) bool {
	for _, year := range o.bases.arithmetic.inputs.comparison.CropYears {
		for _, f := range year.Farms {
			for _, c := range f.Commodities {
				if year.CropYear == y && c.Programs.Of(farm.HigherOf) != nil {
					return true
				}
			}
		}
	}
	return false
}

// Columns of the first table.
const (
	commodityBaseAcresColumn = iota + 3
	_
	_
	_
	commodityBasePLCColumn
	commodityBasePLCAcreColumn
	commodityBaseARCColumn
	commodityBaseARCAcreColumn
)

func (o *results) layCommodityBase(key commodityBaseKey, w explain.Working) {
	all := o.basesOf(key, w)
	row := len(o.rows) + 1
	here := func(column int) place { return place{o.sheet, column, row} }
	national := o.bases.arithmetic.national[priceKey{w.Commodity, key.cropYear}]
	guarantee, rate := plain("see "+basesTitle), plain("see "+basesTitle)
	if len(all) == 1 {
		guarantee, rate = o.same(moneyFormat, all[0].guarantee), o.same(moneyFormat, all[0].rate)
	}
	acres := o.sum(decimalsFormat(2), each(all, func(b baseYear) place { return b.acres }))
	plc := o.sum(moneyFormat, each(all, func(b baseYear) place { return b.plc }))
	arc := o.sum(moneyFormat, each(all, func(b baseYear) place { return b.arc }))
	plcAcre, arcAcre, ahead := plain(unknown), plain(unknown), plain(unknown)
	if plc.number() {
		plcAcre = o.perAcre(here(commodityBaseAcresColumn), "?*?*?", each(all, func(b baseYear) []reference { return []reference{national.plcRate, b.paymentYield, b.paymentAcres} }))
	}
	if arc.number() {
		arcAcre = o.perAcre(here(commodityBaseAcresColumn), "?*?", each(all, func(b baseYear) []reference { return []reference{b.rate, b.paymentAcres} }))
	}
	if w.Unpaid != "" {
		plcAcre, arcAcre = figure(moneyFormat, 0), figure(moneyFormat, 0)
	}
	if plcAcre.number() && arcAcre.number() {
		ahead = o.calc(aheadFormat, "?-?", here(commodityBaseARCAcreColumn), here(commodityBasePLCAcreColumn))
	}
	o.add(plain(o.bases.arithmetic.inputs.farmName(w.Farm)), plain(w.Commodity.Name()), acres, o.same(decimalsFormat(w.Terms.RateDecimals), national.plcRate), guarantee, rate, plc, plcAcre, arc, arcAcre, ahead, plain(joinedNotes(w)))
	o.note(key, w)
}

// note keeps where the figures of a commodity base stand and names them.
func (o *results) note(key commodityBaseKey, w explain.Working) {
	p := commodityBasePlaces{o.last(commodityBasePLCColumn), o.last(commodityBaseARCColumn), o.last(commodityBasePLCAcreColumn), o.last(commodityBaseARCAcreColumn)}
	o.of[key] = p
	if p.plc.known() && p.arc.known() {
		farm := farmKey{key.farm, key.cropYear}
		o.farms[farm] = append(o.farms[farm], p)
	}
	for name, at := range map[string]place{"plc_usd": p.plc, "arc_co_usd": p.arc, "plc_per_base_acre": p.plcAcre, "arc_co_per_base_acre": p.arcAcre} {
		o.name(at, name, w.Farm, w.Commodity, key.cropYear)
	}
}

// basesOf returns the bases of a commodity base.
func (o *results) basesOf(key commodityBaseKey, w explain.Working) (all []baseYear) {
	for n := range w.Bases {
		all = append(all, o.bases.at[cutKey{baseKey{key.farm, key.commodity, n}, key.cropYear}])
	}
	return all
}

// each takes one thing of every element.
func each[T, U any](all []T, take func(T) U) []U {
	taken := make([]U, len(all))
	for i, one := range all {
		taken[i] = take(one)
	}
	return taken
}

// sum adds places that need not stand together; unknown where one is.
func (s *sheet) sum(format string, of []place) cell {
	return s.calc(format, strings.Repeat("+?", len(of))[min(1, len(of)):], each(of, func(p place) reference { return p })...)
}

// perAcre divides a sum of products by the base acres, to the cent; a farm
// without base acres is paid 0.
func (s *sheet) perAcre(acres place, product string, of [][]reference) cell {
	args := append([]reference{acres}, slices.Concat(of...)...)
	sum := strings.Repeat("+"+product, len(of))[1:]
	return s.calc(moneyFormat, "IF(?>0,"+rounded(2, "("+sum+")/?")+",0)", append(args, acres)...)
}

// layTotals lays out the totals of each farm and of all.
func (o *results) layTotals(year explain.Workings) {
	o.line(look{bold: true}, fmt.Sprintf("Crop year %d, totals in dollars of the base that has both figures", year.CropYear))
	o.heads("farm", "", "all PLC", "all ARC-CO", "the higher for each crop", "ahead of the first two", "", "", "", "", "left out")
	first := len(o.rows) + 1
	for _, farm := range farmsOf(year) {
		o.layFarm(farmKey{farm, year.CropYear}, leftOut(farm, year))
	}
	row := len(o.rows)
	total := []cell{words(look{bold: true}, "all farms"), plain("")}
	for column := 3; column <= 5; column++ {
		total = append(total, o.calc(moneyFormat, "SUM(?)", span{place{o.sheet, column, first}, place{o.sheet, column, row}}))
	}
	o.add(append(total, o.calc(aheadFormat, "?-?", place{o.sheet, 4, row + 1}, place{o.sheet, 3, row + 1}))...)
	for i, name := range []string{"plc_total", "arc_co_total", "higher_total"} {
		o.name(o.last(3+i), name, year.CropYear)
	}
}

func (o *results) layFarm(key farmKey, without []string) {
	all := o.farms[key]
	row := len(o.rows) + 1
	cells := []cell{plain(o.bases.arithmetic.inputs.farmName(key.farm)), plain(""), plain(unknown), plain(unknown), plain(unknown), plain(unknown)}
	if len(all) > 0 {
		cells[2] = o.sum(moneyFormat, each(all, func(h commodityBasePlaces) place { return h.plc }))
		cells[3] = o.sum(moneyFormat, each(all, func(h commodityBasePlaces) place { return h.arc }))
		higher := strings.Repeat("+MAX(?,?)", len(all))[1:]
		cells[4] = o.calc(moneyFormat, higher, slices.Concat(each(all, func(h commodityBasePlaces) []reference { return []reference{h.plc, h.arc} })...)...)
		cells[5] = o.calc(aheadFormat, "?-?", place{o.sheet, 4, row}, place{o.sheet, 3, row})
	}
	o.add(append(cells, plain(""), plain(""), plain(""), plain(""), plain(strings.Join(without, ", ")))...)
	for i, name := range []string{"plc_farm", "arc_co_farm", "higher_farm"} {
		o.name(o.last(3+i), name, key.farm, key.cropYear)
	}
}

// farmsOf returns the farms in order.
func farmsOf(year explain.Workings) (farms []string) {
	for _, w := range year.Commodities {
		if !slices.Contains(farms, w.Farm) {
			farms = append(farms, w.Farm)
		}
	}
	return farms
}

// leftOut names the commodities of a farm that lack a figure.
func leftOut(farm string, year explain.Workings) (names []string) {
	for _, w := range year.Commodities {
		if w.Farm == farm && w.Unpaid == "" && (w.PLCMissing != "" || w.ARCMissing != "" || w.Price == nil) {
			names = append(names, w.Commodity.Name())
		}
	}
	return names
}
