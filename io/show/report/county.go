package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// yearsShown is how many years a county's table has, the latest ones.
const yearsShown = 15

// OfCounty lays out what is known of one county.
func OfCounty(v explain.CountyView) Report {
	var r Report
	r.heading(1, fmt.Sprintf("%s, as of %s", countyTitle(v), wording.Date(v.Today)))
	if len(v.Yields) == 0 {
		r.text("No source has a yield of this county. Import the agency's county table: fencerow county import FILE.")
	}
	for _, s := range v.Yields {
		r.countySeries(s)
	}
	r.caution(v.Caution)
	return r
}

// countyTitle names a county with its code, "Alder County (99001)".
func countyTitle(v explain.CountyView) string {
	named := wording.County(answer.BasePart{County: v.Code, CountyName: v.Name})
	if v.Name == "" {
		return wording.Capital(named)
	}
	return named + " (" + v.Code + ")"
}

func (r *Report) countySeries(s explain.CountySeries) {
	unit := s.Commodity.Unit().Yield()
	r.heading(2, fmt.Sprintf("%s, %s", wording.Capital(s.Commodity.Name()), s.Practice))
	t := Table{Title: "Yields, " + unit, Columns: []string{"crop year", "FSA or typed*", "RMA*", "NASS**"}, Notes: []string{"* per planted acre", "** per harvested acre"}}
	years := s.Years[max(0, len(s.Years)-yearsShown):]
	if len(years) < len(s.Years) {
		t.Title += fmt.Sprintf("; the latest %d of %d years", len(years), len(s.Years))
	}
	for _, y := range years {
		t.Rows = append(t.Rows, []string{fmt.Sprint(y.CropYear), orDash(y.Actual), orDash(y.Insured), orDash(y.Harvested)})
	}
	if len(t.Rows) > 0 {
		r.table(t)
	}
	b := Table{Title: "Benchmark yields, " + unit, Columns: []string{"crop year", "yield", "status"}}
	var sources []string
	for _, y := range s.Benchmarks {
		b.Rows = append(b.Rows, []string{fmt.Sprint(y.CropYear), wording.Grouped(float64(y.Yield), 2), string(y.Status)})
		if y.Status.Marked() {
			sources = append(sources, fmt.Sprintf("%d: %s.", y.CropYear, y.Source))
		}
	}
	if len(b.Rows) > 0 {
		r.table(b)
		r.notes(sources)
	}
	text := fmt.Sprintf("Series: %s. Usual error before harvest: %s percent%s. From: %s.", s.SeriesFrom, program.Text(100*float64(s.CV), 1), wording.Mark(s.CVStatus), s.CVFrom)
	if s.TrendYear != nil {
		text += fmt.Sprintf(" Trend: %s %s a year.", wording.Plain(s.TrendYear), unit)
	}
	r.text(text)
	if c := s.Current; c != nil {
		r.text(fmt.Sprintf("Yield used: %s%s, %s. Its usual error: %s. Yield: %s. Range: %s.", wording.Plain(&c.Mean), wording.Mark(c.Status), wording.KnownFrom(c.KnownFrom), wording.Plain(&c.SD), c.MeanFrom, c.SDFrom))
	}
	for _, m := range s.Missing {
		r.text("Missing: " + m + ".")
	}
}

// orDash writes a yield, or a dash where there is none.
func orDash(d *answer.Dollars) string {
	if d == nil {
		return "-"
	}
	return wording.Plain(d)
}
