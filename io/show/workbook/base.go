package workbook

import (
	"fmt"
	"slices"
	"sort"

	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// basesTitle is the name of the sheet of every base by itself.
const basesTitle = "By tract"

// bases is the sheet of every base by itself, and where its figures stand.
type bases struct {
	*cells.Sheet
	inputs *inputs
	at     map[cutKey]baseYear
}

// baseYear is one base in one crop year. Only a pair has two practices.
type baseYear struct {
	acres, paymentAcres, paymentYield, plc cells.Place
	irrigated                              cells.Place          // the share; none without a pair
	counties                               []front.CountyPlaces // irrigated first; the one that counts without a pair
	guarantee, maximum, rate, arc          cells.Place
}

// layBaseByBase lays out payment acres, rates and payments of every base.
func layBaseByBase(t *inputs) *bases {
	b := &bases{Sheet: cells.NewSheet(basesTitle, 9, 13, 16, 24, 11, 11, 11, 11, 11, 12, 11, 11, 11, 11, 11, 13, 34), inputs: t, at: map[cutKey]baseYear{}}
	b.Line(cells.Look{Title: true}, "By tract: payments before shares, payment limit and sequestration")
	b.Heads("crop year", "farm", "crop", "county", "tract", "base acres", "payment acres", "PLC yield", "PLC rate", "PLC payment, $",
		"irrigated share", "guarantee, $/acre", "most paid, $/acre", "actual revenue, $/acre", "ARC-CO rate, $/acre", "ARC-CO payment, $", "note")
	b.Frozen = len(b.Rows)
	t.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		for n, base := range w.Bases {
			b.layBase(cutKey{baseKey{w.Farm, w.Commodity, n}, y}, w, base)
		}
	})
	b.Gap()
	for _, of := range []program.Step{program.StepPaymentAcres, program.StepPLCPayment, program.StepARCCOPayment, program.StepWeightedActual} {
		b.Line(cells.Look{}, fmt.Sprintf("%s (%s).", cells.Capital(of.Title), of.Citation))
	}
	return b
}

func (b *bases) layBase(key cutKey, w explain.Working, base explain.WorkingBase) {
	inputs, national := b.inputs, b.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: key.cropYear}]
	own := inputs.bases[key.baseKey]
	row := len(b.Rows) + 1
	here := func(column int) cells.Place { return cells.At(b.Sheet, column, row) }
	acres := cells.DecimalsFormat(2)
	made := []cells.Cell{yearCell(key.cropYear), cells.Plain(inputs.farmName(w.Farm)), cells.Plain(w.Commodity.Name()), cells.Plain(cells.PlaceName(base.County, base.CountyName)), cells.Plain(base.Tract), b.Same(acres, own.acres)}
	paid := b.Calc(acres, "MAX(0,?*?-?)", national.PaymentAcreShare, here(baseAcresColumn), inputs.cuts[key])
	if w.Unpaid != "" {
		paid = cells.Figure(acres, 0)
	}
	paymentYield := b.Same(cells.DecimalsFormat(2), own.paymentYield)
	plc := b.Calc(cells.MoneyFormat, cells.Rounded(2, "?*?*?"), national.PLCRate, own.paymentYield, here(paymentAcresColumn))
	switch {
	case w.Unpaid != "":
		plc = cells.Figure(cells.MoneyFormat, 0)
	case w.PLCMissing != "":
		plc = cells.Plain(cells.Unknown)
	}
	made = append(made, paid, paymentYield, b.Same(cells.DecimalsFormat(w.Terms.RateDecimals), national.PLCRate), plc)
	at := baseYear{counties: b.countiesOf(key, w, base)}
	if len(at.counties) == 2 {
		at.irrigated = own.irrigated
	}
	b.Add(append(made, b.coverageCells(w, at, here)...)...)
	at.acres, at.paymentAcres, at.paymentYield, at.plc = b.Last(baseAcresColumn), b.Last(paymentAcresColumn), own.paymentYield, b.Last(plcColumn)
	at.guarantee, at.maximum, at.rate, at.arc = b.Last(guaranteeColumn), b.Last(maximumColumn), b.Last(rateColumn), b.Last(arcColumn)
	b.at[key] = at
	named := []any{w.Farm, w.Commodity, key.n + 1, key.cropYear}
	b.Name(at.plc, append([]any{"plc_payment"}, named...)...)
	b.Name(at.arc, append([]any{"arc_co_payment"}, named...)...)
}

// Columns of the sheet.
const (
	baseAcresColumn = iota + 6
	paymentAcresColumn
	_
	_
	plcColumn
	_
	guaranteeColumn
	maximumColumn
	revenueColumn
	rateColumn
	arcColumn
)

// countiesOf returns the county figures a base is held against: of both
// practices, irrigated first, or of the only one that counts.
func (b *bases) countiesOf(key cutKey, w explain.Working, base explain.WorkingBase) []front.CountyPlaces {
	if w.ARCMissing != "" {
		return nil
	}
	practices := slices.DeleteFunc(slices.Clone(base.Practices), func(p explain.WorkingPractice) bool { return len(base.Practices) == 2 && !usable(p) })
	sort.SliceStable(practices, func(i, j int) bool { return orderOf(practices[i].Practice) < orderOf(practices[j].Practice) })
	var all []front.CountyPlaces
	for _, p := range practices {
		all = append(all, b.inputs.book.Yields[front.CountyKey{County: base.County, Commodity: w.Commodity, Practice: p.Practice, CropYear: key.cropYear}])
	}
	return all
}

func orderOf(p farm.Practice) int {
	if p == farm.Nonirrigated {
		return 1
	}
	return 0
}

// coverageCells are the ARC-CO figures of a base, weighted where the county has
// two yields.
func (b *bases) coverageCells(w explain.Working, at baseYear, here func(int) cells.Place) []cells.Cell {
	note := cells.Plain(joinedNotes(w))
	none, arc := cells.Plain(cells.Unknown), cells.Plain(cells.Unknown)
	if w.Unpaid != "" {
		arc = cells.Figure(cells.MoneyFormat, 0)
	}
	if len(at.counties) == 0 {
		return []cells.Cell{cells.Plain("-"), none, none, none, none, arc, note}
	}
	share := cells.Plain("-")
	if at.irrigated.Known() {
		share = b.Same(cells.ShareFormat, at.irrigated)
	}
	weigh := func(of func(front.CountyPlaces) cells.Place) cells.Cell {
		var each []cells.Place
		for _, c := range at.counties {
			each = append(each, of(c))
		}
		return b.Calc(cells.MoneyFormat, weighted("?", len(each)), weightedArgs(at.irrigated, each)...)
	}
	guarantee := weigh(func(c front.CountyPlaces) cells.Place { return c.Guarantee })
	maximum := weigh(func(c front.CountyPlaces) cells.Place { return c.Maximum })
	revenue := weigh(func(c front.CountyPlaces) cells.Place { return c.Revenue })
	paid := none
	if revenue.Number() && guarantee.Number() {
		paid = rate(b.Sheet, here(guaranteeColumn), here(maximumColumn), here(revenueColumn))
	}
	if paid.Number() && w.Unpaid == "" {
		arc = b.Calc(cells.MoneyFormat, cells.Rounded(2, "?*?"), here(rateColumn), here(paymentAcresColumn))
	}
	return []cells.Cell{share, guarantee, maximum, revenue, paid, arc, note}
}

// weighted is the formula of one revenue, or of two weighted by the irrigated
// share; revenue is the formula of each.
func weighted(revenue string, practices int) string {
	if practices == 1 {
		return revenue
	}
	return cells.Rounded(2, "(?*"+revenue+"+(1-?)*"+revenue+")")
}

// weightedArgs are the places for weighted, where each revenue takes one.
func weightedArgs(share cells.Place, of []cells.Place) []cells.Reference {
	if len(of) == 1 {
		return []cells.Reference{of[0]}
	}
	return []cells.Reference{share, of[0], share, of[1]}
}

// assumedShare reports whether a base lies in a county with yields by practice and
// its irrigated share is not given.
func assumedShare(b explain.WorkingBase) bool {
	return !b.ShareKnown && len(b.Practices) > 0 && b.Practices[0].Practice != farm.AllPractices
}

// joinedNotes says why a base is paid nothing and what its figures lack.
func joinedNotes(w explain.Working) string {
	var notes []string
	if w.Unpaid != "" {
		notes = append(notes, w.Unpaid)
	}
	if w.PLCMissing != "" {
		notes = append(notes, "PLC lacks "+w.PLCMissing)
	}
	if w.ARCMissing != "" && w.ARCMissing != w.PLCMissing {
		notes = append(notes, "ARC-CO lacks "+w.ARCMissing)
	}
	if w.Price == nil {
		notes = append(notes, "no price is projected")
	}
	if slices.ContainsFunc(w.Bases, assumedShare) {
		notes = append(notes, "no irrigated share is given: ARC-CO counts none as irrigated (assumed)")
	}
	if len(notes) == 0 {
		return ""
	}
	text := notes[0]
	for _, note := range notes[1:] {
		text += "; " + note
	}
	return cells.Capital(text)
}

// rateText is the formula of the ARC-CO payment rate from the most paid, the
// guarantee and the formula of the actual revenue.
func rateText(revenue string) string {
	return "MIN(?,MAX(0," + cells.Rounded(2, "(?-"+revenue+")") + "))"
}

// rate is the ARC-CO payment rate in USD per acre.
func rate(s *cells.Sheet, guarantee, maximum, revenue cells.Place) cells.Cell {
	return s.Calc(cells.MoneyFormat, rateText("?"), maximum, guarantee, revenue)
}

// practiceWord says the practice where the county has two.
func practiceWord(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return string(p)
}
