package personal

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// doubt is a sentence about figures that are not final, with the crop years it holds for.
type doubt struct {
	said  string // with one %s for the years
	years []string
}

// doubts are in the order in which they were found.
type doubts []doubt

func (all *doubts) add(y crop.CropYear, said string) { all.put(fmt.Sprint(y), said) }

func (all *doubts) put(year, said string) {
	i := slices.IndexFunc(*all, func(d doubt) bool { return d.said == said })
	if i < 0 {
		*all, i = append(*all, doubt{said: said}), len(*all)
	}
	if !slices.Contains((*all)[i].years, year) {
		(*all)[i].years = append((*all)[i].years, year)
	}
}

// uncertain lists what the figures of some readers rest on that is not final or not
// confirmed.
func uncertain(readers []*reader) (said []string) {
	var all doubts
	if crops := pricesOpen(readers); crops != "" {
		said = append(said, "National prices are projected for "+crops+".")
	}
	for _, r := range readers {
		y := r.year.CropYear
		if counties := r.benchmarksTyped(); len(counties) > 0 {
			all.add(y, "The benchmark yields of "+joinedCounties(counties)+" for %s are projected or entered here, not FSA's (Farm Service Agency).")
		}
		if slices.ContainsFunc(r.lines, func(l line) bool { return l.crop.AssumedShare != nil }) {
			all.add(y, "The irrigated share is assumed on some base for %s.")
		}
		o := r.year.Operation
		if o.SequestrationStatus.Marked() {
			all.add(y, "Sequestration for %s, "+percent(o.Sequestration)+", is "+words(o.SequestrationStatus)+".")
		}
	}
	for _, d := range all {
		said = append(said, fmt.Sprintf(d.said, wording.Joined(d.years)))
	}
	return said
}

// limitUncertain says that the person's payment limit is not final or not confirmed, ""
// where it is both, or where nothing reaches the person.
func (r *reader) limitUncertain() string {
	p := r.highest()
	if p == nil || !p.LimitStatus.Marked() || !r.paid() {
		return ""
	}
	return fmt.Sprintf("The payment limit for %d, %s a person, is %s.", r.year.CropYear, wording.Whole(&p.Limit), words(p.LimitStatus))
}

// pricesOpen lists crops whose national price is not final, with their crop years: "corn and
// soybeans in 2026 and 2027, and wheat in 2027"; "" for none.
func pricesOpen(readers []*reader) string {
	var byYears, byCrop doubts
	for _, c := range crop.Commodities() {
		for _, r := range readers {
			if slices.ContainsFunc(r.lines, func(l line) bool { return l.Commodity == c && l.crop.MYA != nil && l.crop.MYA.Status.Marked() }) {
				byCrop.add(r.year.CropYear, c.Name())
			}
		}
	}
	for _, d := range byCrop { // the other way around: years, with the crops that have them
		byYears.put(d.said, wording.Joined(d.years))
	}
	var parts []string
	for _, d := range byYears {
		parts = append(parts, wording.Joined(d.years)+" in "+d.said)
	}
	return strings.Join(parts, ", and ")
}

// words writes a status for people.
func words(s crop.Status) string {
	if s == crop.Unverified {
		return "not confirmed"
	}
	return string(s)
}

// benchmarksTyped names the counties of the person's crops whose benchmark yields are not
// from the agency.
func (r *reader) benchmarksTyped() (counties []string) {
	for _, l := range r.lines {
		for _, b := range l.crop.Bases {
			if name := wording.County(b); b.BenchmarkStatus.Marked() && !slices.Contains(counties, name) {
				counties = append(counties, name)
			}
		}
	}
	slices.Sort(counties)
	return counties
}

// withEnd closes a sheet: more blocks, the caution and what the figures were made of.
func withEnd(r report.Report, c *answer.Comparison, more ...report.Block) report.Report {
	said := "Caution. These are estimates, not a promise of payment, and not advice on what to elect. Only the Farm Service Agency decides who is eligible and what is paid."
	if c.Model.Note != "" {
		said += " " + wording.Capital(c.Model.Note) + "."
	}
	r.Blocks = append(append(r.Blocks, more...), report.Small(said), report.Small(wording.Made(*c)))
	return r
}

// percent writes a share with one decimal where it has one: "5.7 percent".
func percent(share answer.Chance) string {
	return strings.TrimSuffix(program.Text(100*float64(share), 1), ".0") + " percent"
}
