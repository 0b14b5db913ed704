package report

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/explain"
)

// OfReplay lays out past crop years under the rules of the time, and beside them under
// those of the operation's crop year.
func OfReplay(a explain.Replayed) Report {
	var r Report
	r.heading(1, fmt.Sprintf("Past crop years under the rules of the time and under those of %d, today %s", a.CropYear, a.Today))
	r.text("USD per base acre, after the payment-acre share, before share, limit and sequestration.")
	for _, f := range a.Farms {
		r.heading(2, "Farm "+f.Farm)
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
		Title:   fmt.Sprintf("Rules of the time, and with * the rules of %d; price %s, yield %s", asked, unit.Price(), unit.Yield()),
		Columns: []string{"crop year", "price", "county yield", "PLC", "ARC-CO", "PLC*", "ARC-CO*"},
	}
	var sources []string
	for i := 0; i+1 < len(c.Years); i += 2 {
		then, now := c.Years[i], c.Years[i+1]
		yield := "unknown"
		if then.CountyYield != nil {
			yield = wording.Plain(then.CountyYield)
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(then.CropYear), wording.Decimal(&then.MYA), yield, wording.Money(then.PLC), wording.Money(then.ARCCO), wording.Money(now.PLC), wording.Money(now.ARCCO)})
		if then.HigherOf != nil {
			t.Notes = append(t.Notes, fmt.Sprintf("For %d the law of the time pays the higher of both, %s.", then.CropYear, wording.Money(then.HigherOf)))
		}
		if then.YieldSource != "" {
			sources = append(sources, fmt.Sprintf("%d %s", then.CropYear, then.YieldSource))
		}
	}
	t.Notes = append(t.Notes, missingNotes(c.Years)...)
	if slices.ContainsFunc(c.Years, func(y explain.YearReplay) bool { return y.ShareAssumed }) {
		t.Notes = append(t.Notes, "No irrigated_share is given: ARC-CO rests on an assumed one, none irrigated where the county has two yields.")
	}
	r.table(t)
	for _, total := range c.Totals {
		r.text(totalSentence(total, asked))
	}
	if len(sources) > 0 {
		r.text("County yields from: " + wording.Joined(sources) + ".")
	}
}

// missingNotes says once what is missing, and in which years; a star marks years under
// the rules of the operation's crop year.
func missingNotes(years []explain.YearReplay) (notes []string) {
	var reasons []string
	of := map[string][]string{}
	for _, y := range years {
		if y.Missing == "" {
			continue
		}
		if of[y.Missing] == nil {
			reasons = append(reasons, y.Missing)
		}
		name := fmt.Sprint(y.CropYear)
		if y.Rules == explain.OfCropYear {
			name += "*"
		}
		of[y.Missing] = append(of[y.Missing], name)
	}
	for _, reason := range reasons {
		notes = append(notes, fmt.Sprintf("Missing in %s: %s.", wording.Joined(of[reason]), reason))
	}
	return notes
}

func kindWords(kind explain.RulesKind, asked crop.CropYear) string {
	if kind == explain.OfTheTime {
		return "of the time"
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
	return fmt.Sprintf("Under the rules %s, over the %d years with both figures from %d to %d: PLC %s, ARC-CO %s.",
		kindWords(t.Rules, asked), n, t.CropYears[0], t.CropYears[n-1], wording.Money(&t.PLC), wording.Money(&t.ARCCO))
}
