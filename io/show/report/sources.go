package report

import (
	"fmt"
	"strings"

	"fencerow/program/law"
	"fencerow/sim/explain"
)

// OfSources lists the sources of the law's figures behind an answer, and those of its
// prices and county yields.
func OfSources(workings []explain.Workings) Report {
	var r Report
	r.heading(1, "Sources")
	cited, listed := map[string]bool{}, map[string]bool{}
	var figures, prices List
	mention := func(text string) {
		if text != "" && !listed[text] {
			listed[text] = true
			prices = append(prices, Point{Text: text})
		}
	}
	for _, year := range workings {
		for _, w := range year.Commodities {
			for _, row := range w.Terms.Rows {
				cited[row.Source] = true
			}
			if w.Price != nil {
				mention(w.Price.Source)
			}
			for _, p := range w.History {
				mention(p.Source)
			}
			for _, b := range w.Bases {
				for _, p := range b.Practices {
					mention(p.BenchmarkYield.Source)
					mention(p.CountyYield.Source)
				}
			}
		}
	}
	for _, s := range law.Sources() {
		if cited[s.Key] {
			figures = append(figures, Point{Text: fmt.Sprintf("%s: %s. %s, %s. %s (opened %s)", s.Key, strings.TrimPrefix(s.Title, s.Key+", "), s.Publisher, s.Date, s.Address, s.Accessed)})
		}
	}
	r.heading(2, "Figures of the law")
	r.list(figures)
	r.heading(2, "Prices and county yields")
	r.list(prices)
	return r
}
