package report

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/explain"
)

// OfReplay lays out past crop years under the rules in force then, and beside them under
// those of the operation's crop year.
func OfReplay(a explain.Replayed) Report {
	var r Report
	r.heading(1, fmt.Sprintf("Past crop years under the rules in force then, and under the %d rules", a.CropYear))
	r.text(fmt.Sprintf("Made %s. %s", wording.Date(a.Today), "Dollars are per base acre, and count that the law pays on a part of base acres. Shares, payment limit and sequestration are not taken off."))
	var keys []string
	for _, f := range a.Farms {
		keys = append(keys, f.Farm)
	}
	for _, f := range a.Farms {
		r.heading(2, "Farm "+wording.Number(f.Farm, keys))
		for _, c := range f.Commodities {
			r.replay(c, a.CropYear)
		}
	}
	r.notes(a.Notes)
	r.caution(a.Caution)
	return r
}

func (r *Report) replay(c explain.CommodityReplay, asked crop.CropYear) {
	r.heading(3, wording.Capital(c.Commodity.Name()))
	if len(c.Years) == 0 {
		r.text("No past crop year has a known national price.")
		return
	}
	unit := c.Commodity.Unit()
	t := Table{
		Title:   fmt.Sprintf("Under the rules in force then, and (*) under the %d rules; price a %s, yield an acre", asked, unit.Mass),
		Columns: []string{"crop year", "price", "county yield", "PLC", "ARC-CO", "PLC*", "ARC-CO*"},
	}
	sources := map[string][]crop.CropYear{}
	for i := 0; i+1 < len(c.Years); i += 2 {
		then, now := c.Years[i], c.Years[i+1]
		yield := "unknown"
		if then.CountyYield != nil {
			yield = wording.Plain(then.CountyYield)
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(then.CropYear), wording.Decimal(&then.MYA), yield, wording.Money(then.PLC), wording.Money(then.ARCCO), wording.Money(now.PLC), wording.Money(now.ARCCO)})
		if then.HigherOf != nil {
			t.Notes = append(t.Notes, fmt.Sprintf("For %d the law in force then pays the higher of both, %s.", then.CropYear, wording.Money(then.HigherOf)))
		}
		if then.YieldSource != "" {
			sources[then.YieldSource] = append(sources[then.YieldSource], then.CropYear)
		}
	}
	t.Notes = append(t.Notes, missingNotes(c.Years)...)
	if slices.ContainsFunc(c.Years, func(y explain.YearReplay) bool { return y.ShareAssumed }) {
		t.Notes = append(t.Notes, "No irrigated share is given. Where the county has two yields, ARC-CO counts no base as irrigated (assumed).")
	}
	r.table(t)
	for _, total := range c.Totals {
		r.text(totalSentence(total, asked))
	}
	for _, source := range slices.Sorted(maps.Keys(sources)) {
		r.text(fmt.Sprintf("County yields of %s: %s.", spansOfYears(sources[source], ""), source))
	}
}

// missingNotes says once what is missing, and in which years; a star marks years under
// the rules of the operation's crop year.
func missingNotes(years []explain.YearReplay) (notes []string) {
	var reasons []string
	of := map[string]map[explain.RulesKind][]crop.CropYear{}
	for _, y := range years {
		if y.Missing == "" {
			continue
		}
		if of[y.Missing] == nil {
			reasons = append(reasons, y.Missing)
			of[y.Missing] = map[explain.RulesKind][]crop.CropYear{}
		}
		of[y.Missing][y.Rules] = append(of[y.Missing][y.Rules], y.CropYear)
	}
	for _, reason := range reasons {
		var when []string
		for _, kind := range []explain.RulesKind{explain.OfTheTime, explain.OfCropYear} {
			if in := of[reason][kind]; len(in) > 0 {
				when = append(when, spansOfYears(in, map[explain.RulesKind]string{explain.OfCropYear: "*"}[kind]))
			}
		}
		notes = append(notes, fmt.Sprintf("Missing in %s: %s.", wording.Joined(when), reason))
	}
	return notes
}

// spansOfYears writes rising crop years, each with a mark, those in a row as one span:
// "2014, 2016 to 2019".
func spansOfYears(years []crop.CropYear, mark string) string {
	var said []string
	for first := 0; first < len(years); {
		last := first
		for last+1 < len(years) && years[last+1] == years[last]+1 {
			last++
		}
		one := fmt.Sprint(years[first], mark)
		if last > first {
			one += " to " + fmt.Sprint(years[last], mark)
		}
		said, first = append(said, one), last+1
	}
	return strings.Join(said, ", ")
}

func kindWords(kind explain.RulesKind, asked crop.CropYear) string {
	if kind == explain.OfTheTime {
		return "in force then"
	}
	return fmt.Sprintf("of %d", asked)
}

// totalSentence gives the totals under one set of rules; those of the two sets are
// never added.
func totalSentence(t explain.TotalReplay, asked crop.CropYear) string {
	n := len(t.CropYears)
	if n == 0 {
		return fmt.Sprintf("Under the rules %s no year has both figures.", kindWords(t.Rules, asked))
	}
	return fmt.Sprintf("Under the rules %s, over the %d years with both figures (%d to %d): PLC %s, ARC-CO %s.",
		kindWords(t.Rules, asked), n, t.CropYears[0], t.CropYears[n-1], wording.Money(&t.PLC), wording.Money(&t.ARCCO))
}
