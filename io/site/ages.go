package site

import (
	"fmt"
	"time"

	"fencerow/io/read/builtin"
	"fencerow/io/read/market"
	"fencerow/io/show/wording"
	"fencerow/io/source"
	"fencerow/sim/flag"
)

// ages says how old the law, the prices and the county tables are that the pages hold, and
// warns where newer ones must be out.
func (f *frame) ages(s *Site) {
	prices := market.Builtin()
	if s.Market != nil {
		if own, err := market.Parse(pricesName, s.Market); err == nil {
			prices = own
		}
	}
	first, last := source.LawYears()
	day := prices.AsOf.Format(time.DateOnly)
	if days := int(s.Today.Sub(prices.AsOf).Hours() / 24); days > flag.StaleDays {
		f.put(`<p class="banner">The prices in these pages are of %s, %s days old. Newer ones can turn a lead: you can type them on the third page.</p>`+"\n", wording.Date(day), fmt.Sprint(days))
	}
	newest := builtin.NewestTable()
	if due := flag.TableDue(s.Today); newest < due {
		f.put(`<p class="banner">The newest county table in these pages is of %s. FSA's table of %s is usually out by now.</p>`+"\n", fmt.Sprint(newest), fmt.Sprint(due))
	}
	f.put(`<p class="small">In these pages: the law of crop years %s to %s; prices of %s; FSA's county tables to program year %s.</p>`+"\n",
		fmt.Sprint(first), fmt.Sprint(last), wording.Date(day), fmt.Sprint(newest))
}
