package workbook

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// results is the sheet of payments at the figures entered, and where its figures stand.
type results struct {
	*cells.Sheet
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
type commodityBasePlaces struct{ plc, arc, plcAcre, arcAcre cells.Place }

// layResults lays out the payments of every farm and commodity, and totals.
func layResults(b *bases) *results {
	o := &results{Sheet: cells.NewSheet("Payments at these figures", 14, 18, 12, 12, 13, 20, 13, 14, 14, 14, 20, 44), bases: b, of: map[commodityBaseKey]commodityBasePlaces{}, farms: map[farmKey][]commodityBasePlaces{}}
	inputs := b.inputs
	o.Line(cells.Look{Title: true}, "Payments at these prices and county yields")
	o.Line(cells.Look{}, fmt.Sprintf("Prices of %s. Dollars before shares, payment limit and sequestration. This is one price and one county yield: for what else may happen see the sheet Odds.", wording.Date(inputs.comparison.Market.AsOf)))
	o.Frozen = len(o.Rows)
	for _, year := range inputs.workings {
		o.Gap()
		o.layYear(year)
		o.Gap()
		o.layTotals(year)
	}
	return o
}

func (o *results) layYear(year explain.Workings) {
	o.Line(cells.Look{Bold: true}, fmt.Sprintf("Crop year %d, by farm and crop", year.CropYear))
	if o.paysHigher(year.CropYear) {
		o.Line(cells.Look{}, "For this crop year the law pays the higher of the two, whatever was elected.")
	}
	o.Heads("farm", "crop", "base acres", "PLC rate", "ARC-CO guarantee, $/acre", "ARC-CO rate, $/acre", "PLC, $", "PLC per base acre", "ARC-CO, $", "ARC-CO per base acre", "ahead, $ per base acre", "note")
	for _, w := range year.Commodities {
		o.layCommodityBase(commodityBaseKey{w.Farm, w.Commodity, year.CropYear}, w)
	}
}

// paysHigher reports whether the law of the crop year pays the higher of both.
func (o *results) paysHigher(y crop.CropYear) bool {
	for _, year := range o.bases.inputs.comparison.CropYears {
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
	row := len(o.Rows) + 1
	here := func(column int) cells.Place { return cells.At(o.Sheet, column, row) }
	national := o.bases.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: key.cropYear}]
	guarantee, rate := cells.Plain("see "+basesTitle), cells.Plain("see "+basesTitle)
	if len(all) == 1 {
		guarantee, rate = o.Same(cells.MoneyFormat, all[0].guarantee), o.Same(cells.MoneyFormat, all[0].rate)
	}
	acres := sum(o.Sheet, cells.DecimalsFormat(2), each(all, func(b baseYear) cells.Place { return b.acres }))
	plc := sum(o.Sheet, cells.MoneyFormat, each(all, func(b baseYear) cells.Place { return b.plc }))
	arc := sum(o.Sheet, cells.MoneyFormat, each(all, func(b baseYear) cells.Place { return b.arc }))
	plcAcre, arcAcre, ahead := cells.Plain(cells.Unknown), cells.Plain(cells.Unknown), cells.Plain(cells.Unknown)
	if plc.Number() {
		plcAcre = perAcre(o.Sheet, here(commodityBaseAcresColumn), "?*?*?", each(all, func(b baseYear) []cells.Reference {
			return []cells.Reference{national.PLCRate, b.paymentYield, b.paymentAcres}
		}))
	}
	if arc.Number() {
		arcAcre = perAcre(o.Sheet, here(commodityBaseAcresColumn), "?*?", each(all, func(b baseYear) []cells.Reference { return []cells.Reference{b.rate, b.paymentAcres} }))
	}
	if w.Unpaid != "" {
		plcAcre, arcAcre = cells.Figure(cells.MoneyFormat, 0), cells.Figure(cells.MoneyFormat, 0)
	}
	if plcAcre.Number() && arcAcre.Number() {
		ahead = o.Calc(cells.AheadFormat, "?-?", here(commodityBaseARCAcreColumn), here(commodityBasePLCAcreColumn))
	}
	o.Add(cells.Plain(o.bases.inputs.farmName(w.Farm)), cells.Plain(w.Commodity.Name()), acres, o.Same(cells.DecimalsFormat(w.Terms.RateDecimals), national.PLCRate), guarantee, rate, plc, plcAcre, arc, arcAcre, ahead, cells.Plain(joinedNotes(w)))
	o.note(key, w)
}

// note keeps where the figures of a commodity base stand and names them.
func (o *results) note(key commodityBaseKey, w explain.Working) {
	p := commodityBasePlaces{o.Last(commodityBasePLCColumn), o.Last(commodityBaseARCColumn), o.Last(commodityBasePLCAcreColumn), o.Last(commodityBaseARCAcreColumn)}
	o.of[key] = p
	if p.plc.Known() && p.arc.Known() {
		farm := farmKey{key.farm, key.cropYear}
		o.farms[farm] = append(o.farms[farm], p)
	}
	for name, at := range map[string]cells.Place{"plc_usd": p.plc, "arc_co_usd": p.arc, "plc_per_base_acre": p.plcAcre, "arc_co_per_base_acre": p.arcAcre} {
		o.Name(at, name, w.Farm, w.Commodity, key.cropYear)
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
func sum(s *cells.Sheet, format string, of []cells.Place) cells.Cell {
	return s.Calc(format, strings.Repeat("+?", len(of))[min(1, len(of)):], each(of, func(p cells.Place) cells.Reference { return p })...)
}

// perAcre divides a sum of products by the base acres, to the cent; a farm
// without base acres is paid 0.
func perAcre(s *cells.Sheet, acres cells.Place, product string, of [][]cells.Reference) cells.Cell {
	args := append([]cells.Reference{acres}, slices.Concat(of...)...)
	sum := strings.Repeat("+"+product, len(of))[1:]
	return s.Calc(cells.MoneyFormat, "IF(?>0,"+cells.Rounded(2, "("+sum+")/?")+",0)", append(args, acres)...)
}

// layTotals lays out the totals of each farm and of all.
func (o *results) layTotals(year explain.Workings) {
	o.Line(cells.Look{Bold: true}, fmt.Sprintf("Crop year %d, totals in dollars of the base that has both figures", year.CropYear))
	o.Heads("farm", "", "all PLC", "all ARC-CO", "the higher for each crop", "ahead of the first two", "", "", "", "", "left out")
	first := len(o.Rows) + 1
	for _, farm := range farmsOf(year) {
		o.layFarm(farmKey{farm, year.CropYear}, leftOut(farm, year))
	}
	row := len(o.Rows)
	total := []cells.Cell{cells.Words(cells.Look{Bold: true}, "all farms"), cells.Plain("")}
	for column := 3; column <= 5; column++ {
		total = append(total, o.Calc(cells.MoneyFormat, "SUM(?)", cells.Between(cells.At(o.Sheet, column, first), cells.At(o.Sheet, column, row))))
	}
	o.Add(append(total, o.Calc(cells.AheadFormat, "?-?", cells.At(o.Sheet, 4, row+1), cells.At(o.Sheet, 3, row+1)))...)
	for i, name := range []string{"plc_total", "arc_co_total", "higher_total"} {
		o.Name(o.Last(3+i), name, year.CropYear)
	}
}

func (o *results) layFarm(key farmKey, without []string) {
	all := o.farms[key]
	row := len(o.Rows) + 1
	made := []cells.Cell{cells.Plain(o.bases.inputs.farmName(key.farm)), cells.Plain(""), cells.Plain(cells.Unknown), cells.Plain(cells.Unknown), cells.Plain(cells.Unknown), cells.Plain(cells.Unknown)}
	if len(all) > 0 {
		made[2] = sum(o.Sheet, cells.MoneyFormat, each(all, func(h commodityBasePlaces) cells.Place { return h.plc }))
		made[3] = sum(o.Sheet, cells.MoneyFormat, each(all, func(h commodityBasePlaces) cells.Place { return h.arc }))
		higher := strings.Repeat("+MAX(?,?)", len(all))[1:]
		made[4] = o.Calc(cells.MoneyFormat, higher, slices.Concat(each(all, func(h commodityBasePlaces) []cells.Reference { return []cells.Reference{h.plc, h.arc} })...)...)
		made[5] = o.Calc(cells.AheadFormat, "?-?", cells.At(o.Sheet, 4, row), cells.At(o.Sheet, 3, row))
	}
	o.Add(append(made, cells.Plain(""), cells.Plain(""), cells.Plain(""), cells.Plain(""), cells.Plain(strings.Join(without, ", ")))...)
	for i, name := range []string{"plc_farm", "arc_co_farm", "higher_farm"} {
		o.Name(o.Last(3+i), name, key.farm, key.cropYear)
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
