package workbook

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// basesTitle is the name of the sheet of every base by itself.
const basesTitle = "By tract"

// bases is the sheet of every base by itself, and where its figures stand.
type bases struct {
	*sheet
	arithmetic *arithmetic
	at         map[cutKey]baseYear
}

// baseYear is one base in one crop year. Only a pair has two practices.
type baseYear struct {
	acres, paymentAcres, paymentYield, plc place
	irrigated                              place          // the share; none without a pair
	counties                               []countyPlaces // irrigated first; the one that counts without a pair
	guarantee, maximum, rate, arc          place
}

// layBaseByBase lays out payment acres, rates and payments of every base.
func layBaseByBase(a *arithmetic) *bases {
	b := &bases{sheet: newSheet(basesTitle, 9, 13, 16, 24, 11, 11, 11, 11, 11, 12, 11, 11, 11, 11, 11, 13, 34), arithmetic: a, at: map[cutKey]baseYear{}}
	b.line(look{title: true}, "By tract: payments before shares, payment limit and sequestration")
	b.heads("crop year", "farm", "crop", "county", "tract", "base acres", "payment acres", "PLC yield", "PLC rate", "PLC payment, $",
		"irrigated share", "guarantee, $/acre", "most paid, $/acre", "actual revenue, $/acre", "ARC-CO rate, $/acre", "ARC-CO payment, $", "note")
	b.frozen = len(b.rows)
	a.inputs.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		for n, base := range w.Bases {
			b.layBase(cutKey{baseKey{w.Farm, w.Commodity, n}, y}, w, base)
		}
	})
	b.gap()
	for _, of := range []program.Step{program.StepPaymentAcres, program.StepPLCPayment, program.StepARCCOPayment, program.StepWeightedActual} {
		b.line(look{}, fmt.Sprintf("%s (%s).", capital(of.Title), of.Citation))
	}
	return b
}

func (b *bases) layBase(key cutKey, w explain.Working, base explain.WorkingBase) {
	inputs, national := b.arithmetic.inputs, b.arithmetic.national[priceKey{w.Commodity, key.cropYear}]
	own := inputs.bases[key.baseKey]
	row := len(b.rows) + 1
	here := func(column int) place { return place{b.sheet, column, row} }
	acres := decimalsFormat(2)
	cells := []cell{yearCell(key.cropYear), plain(inputs.farmName(w.Farm)), plain(w.Commodity.Name()), plain(placeName(base.County, base.CountyName)), plain(base.Tract), b.same(acres, own.acres)}
	paid := b.calc(acres, "MAX(0,?*?-?)", national.paymentAcreShare, here(baseAcresColumn), inputs.cuts[key])
	if w.Unpaid != "" {
		paid = figure(acres, 0)
	}
	paymentYield := b.same(decimalsFormat(2), own.paymentYield)
	plc := b.calc(moneyFormat, rounded(2, "?*?*?"), national.plcRate, own.paymentYield, here(paymentAcresColumn))
	switch {
	case w.Unpaid != "":
		plc = figure(moneyFormat, 0)
	case w.PLCMissing != "":
		plc = plain(unknown)
	}
	cells = append(cells, paid, paymentYield, b.same(decimalsFormat(w.Terms.RateDecimals), national.plcRate), plc)
	at := baseYear{counties: b.countiesOf(key, w, base)}
	if len(at.counties) == 2 {
		at.irrigated = own.irrigated
	}
	b.add(append(cells, b.coverageCells(w, at, here)...)...)
	at.acres, at.paymentAcres, at.paymentYield, at.plc = b.last(baseAcresColumn), b.last(paymentAcresColumn), own.paymentYield, b.last(plcColumn)
	at.guarantee, at.maximum, at.rate, at.arc = b.last(guaranteeColumn), b.last(maximumColumn), b.last(rateColumn), b.last(arcColumn)
	b.at[key] = at
	named := []any{w.Farm, w.Commodity, key.n + 1, key.cropYear}
	b.name(at.plc, append([]any{"plc_payment"}, named...)...)
	b.name(at.arc, append([]any{"arc_co_payment"}, named...)...)
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
func (b *bases) countiesOf(key cutKey, w explain.Working, base explain.WorkingBase) []countyPlaces {
	if w.ARCMissing != "" {
		return nil
	}
	practices := slices.DeleteFunc(slices.Clone(base.Practices), func(p explain.WorkingPractice) bool { return len(base.Practices) == 2 && !usable(p) })
	slices.SortFunc(practices, func(p, q explain.WorkingPractice) int { return orderOf(p.Practice) - orderOf(q.Practice) })
	var all []countyPlaces
	for _, p := range practices {
		all = append(all, b.arithmetic.county[yieldKey{base.County, w.Commodity, p.Practice, key.cropYear}])
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
func (b *bases) coverageCells(w explain.Working, at baseYear, here func(int) place) []cell {
	note := plain(joinedNotes(w))
	none, arc := plain(unknown), plain(unknown)
	if w.Unpaid != "" {
		arc = figure(moneyFormat, 0)
	}
	if len(at.counties) == 0 {
		return []cell{plain("-"), none, none, none, none, arc, note}
	}
	share := plain("-")
	if at.irrigated.known() {
		share = b.same(shareFormat, at.irrigated)
	}
	weigh := func(of func(countyPlaces) place) cell {
		var each []place
		for _, c := range at.counties {
			each = append(each, of(c))
		}
		return b.calc(moneyFormat, weighted("?", len(each)), weightedArgs(at.irrigated, each)...)
	}
	guarantee := weigh(func(c countyPlaces) place { return c.guarantee })
	maximum := weigh(func(c countyPlaces) place { return c.maximum })
	revenue := weigh(func(c countyPlaces) place { return c.revenue })
	rate := none
	if revenue.number() && guarantee.number() {
		rate = b.rate(here(guaranteeColumn), here(maximumColumn), here(revenueColumn))
	}
	if rate.number() && w.Unpaid == "" {
		arc = b.calc(moneyFormat, rounded(2, "?*?"), here(rateColumn), here(paymentAcresColumn))
	}
	return []cell{share, guarantee, maximum, revenue, rate, arc, note}
}

// weighted is the formula of one revenue, or of two weighted by the irrigated
// share; revenue is the formula of each.
func weighted(revenue string, practices int) string {
	if practices == 1 {
		return revenue
	}
	return rounded(2, "(?*"+revenue+"+(1-?)*"+revenue+")")
}

// weightedArgs are the places for weighted, where each revenue takes one.
func weightedArgs(share place, of []place) []reference {
	if len(of) == 1 {
		return []reference{of[0]}
	}
	return []reference{share, of[0], share, of[1]}
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
	return capital(text)
}
