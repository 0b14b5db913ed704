package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// OfHandout lays out county sheets for a meeting: one table for the area, then a
// sheet of paper for each county, commodity and practice.
func OfHandout(h explain.Handout) Report {
	var r Report
	y := h.Comparison.CropYears[0].CropYear
	r.heading(1, fmt.Sprintf("PLC and ARC-CO, crop year %d: counties side by side", y))
	r.handoutBasis(h)
	r.table(areaTable(h.Sheets))
	if len(h.Missing) > 0 {
		r.text("No sheet: " + strings.Join(h.Missing, "; ") + ".")
	}
	r.run(h.Comparison)
	for _, s := range h.Sheets {
		r.sheet()
		r.countySheet(h, s)
		r.text(glossary())
		r.run(h.Comparison)
	}
	return r
}

// handoutBasis says what the figures of a handout are.
func (r *Report) handoutBasis(h explain.Handout) {
	m := h.Comparison.Market
	r.text(fmt.Sprintf("All sheets on one price date: %s (%s). USD per base acre if signed, after the payment-acre share, before share, limit and sequestration. PLC figures are for a payment yield of %s (assumed); your own stands on the farm record. No farm's data are in it.", m.AsOf, m.Source, answer.YieldAssumed()))
}

// areaTable has one line for each sheet.
func areaTable(sheets []explain.CountySheet) Table {
	t := Table{Title: "The area: who leads, USD per base acre on average; of 100 outcomes", Columns: []string{"county and commodity", "lead", "margin", "even PLC yield", "neither pays", "ARC-CO more", "PLC more"}}
	for _, s := range sheets {
		row := []string{sheetName(s), leadWords[s.Part.Leader], "unknown", "-", "-", "-", "-"}
		if d := s.Part.Difference; d != nil {
			words := wording.Chances(s.Part.ChanceNeitherPays, s.Part.ChanceARCCOMore, s.Part.ChancePLCMore, s.Part.ChanceEqual)
			row = []string{row[0], row[1], ahead(float64(d.Mean)), evenYield(s), words[0], words[1], words[2]}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func sheetName(s explain.CountySheet) string {
	return fmt.Sprintf("%s, %s", placeName(s), commodityName(s))
}

func placeName(s explain.CountySheet) string {
	if s.CountyName == "" {
		return "County " + s.County
	}
	return s.CountyName
}

func commodityName(s explain.CountySheet) string {
	if s.Practice == farm.AllPractices {
		return s.Commodity.Name()
	}
	return s.Commodity.Name() + " " + string(s.Practice)
}

// evenYield writes the PLC yield at which both programs average the same.
func evenYield(s explain.CountySheet) string {
	if s.Part.EvenPaymentYield == nil {
		return "none"
	}
	return wording.Grouped(float64(*s.Part.EvenPaymentYield), 0)
}

// countySheet adds one sheet of paper.
func (r *Report) countySheet(h explain.Handout, s explain.CountySheet) {
	y := h.Comparison.CropYears[0].CropYear
	r.heading(2, fmt.Sprintf("%s, %s, crop year %d", placeName(s), commodityName(s), y))
	if s.Part.Difference == nil {
		r.text("No figures: " + s.Part.LeaderReason + ".")
		return
	}
	r.text(evenSentence(s))
	r.text(fmt.Sprintf("At a PLC yield of %s %s (assumed): ", wording.Grouped(float64(s.PaymentYield), 0), s.Commodity.Unit().Yield()) + wording.Sentences(lowered(outcomes(s.Part)), verdict(s.Part), middleSentences(s.Part)))
	r.picture(squaresOf(s.Part))
	r.picture(curvesOf(s.Part))
	if past, has := pastOf(s); has {
		r.picture(past)
	}
	r.text(wording.Sentences(leadSentence(s.Part), nothingAtMean(s.Part)))
	r.benchmark(s)
	r.table(elsewhereTable(s.Part))
	r.changes(h, s)
}

// evenSentence says for which PLC yields which program averages more.
func evenSentence(s explain.CountySheet) string {
	unit, benchmark := s.Commodity.Unit().Yield(), float64(s.PaymentYield)/answer.AssumedPaymentYield
	const usualLow, usualHigh = 0.4, 1.4 // of the benchmark yield; a judgement
	if s.Part.EvenPaymentYield == nil {
		return "PLC pays in none of these outcomes, whatever the PLC yield."
	}
	switch even := float64(*s.Part.EvenPaymentYield); {
	case even > usualHigh*benchmark:
		return fmt.Sprintf("At any usual PLC yield the average leans ARC-CO: only above %s %s it would lean PLC.", evenYield(s), unit)
	case even < usualLow*benchmark:
		return fmt.Sprintf("At any usual PLC yield the average leans PLC: only below %s %s it would lean ARC-CO.", evenYield(s), unit)
	}
	return fmt.Sprintf("Farms with a PLC yield above %s %s lean PLC, below lean ARC-CO.", evenYield(s), unit)
}

// lowered puts the first letter in lower case.
func lowered(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// benchmark adds how the guarantee and the reference price are computed.
func (r *Report) benchmark(s explain.CountySheet) {
	w := s.Working
	unit := s.Commodity.Unit()
	t := Table{Title: fmt.Sprintf("Where the guarantee comes from: the middle three of five; price %s, yield %s", unit.Price(), unit.Yield()), Columns: []string{""}}
	prices, yields := []string{"national price"}, []string{"adjusted county yield"}
	practice := w.Bases[0].Practices[slices.IndexFunc(w.Bases[0].Practices, func(p explain.WorkingPractice) bool { return p.Practice == s.Practice })]
	for i, past := range w.History {
		t.Columns = append(t.Columns, fmt.Sprint(past.CropYear))
		prices = append(prices, program.Text(past.Value, w.Terms.PriceDecimals))
		cell := "-"
		if practice.Adjusted != nil {
			cell = wording.Grouped(practice.Adjusted[i], w.Terms.YieldDecimals)
		}
		yields = append(yields, cell)
	}
	t.Columns = append(t.Columns, "benchmark")
	prices = append(prices, wording.Decimal(s.Part.BenchmarkPrice)+wording.Mark(s.Part.BenchmarkPriceStatus))
	yields = append(yields, wording.Grouped(practice.BenchmarkYield.Value, w.Terms.YieldDecimals)+wording.Mark(practice.BenchmarkYield.Status))
	t.Rows = [][]string{prices, yields}
	t.Notes = []string{"a price below the effective reference price counts as that; yields as the agency adjusted them, five crop years of their own"}
	r.table(t)
	b := s.Part.Bases[0]
	for _, other := range s.Part.Bases {
		if other.Practice == string(s.Practice) {
			b = other
		}
	}
	r.text(fmt.Sprintf("Benchmark revenue %s an acre, guarantee %s percent of it: %s%s, at most %s percent paid. Loan rate %s. %s %s",
		wording.Money(b.BenchmarkRevenue), program.Text(100*w.Terms.GuaranteeShare, 0), wording.Money(b.Guarantee), wording.Mark(b.GuaranteeStatus), program.Text(100*w.Terms.MaximumShare, 0),
		program.Text(w.Terms.LoanRate, w.Terms.PriceDecimals), shortPrice(s.Part), shortYields(s.Part)))
}

// pastOf is the picture of what both programs paid under the rules of the time; false
// where nothing is known.
func pastOf(s explain.CountySheet) (Picture, bool) {
	d := Columns{YAxis: "USD per base acre", Names: []string{"PLC", "ARC-CO"}, Values: make([][]float64, 2)}
	var says []string
	known := func(v *answer.Dollars) float64 {
		if v == nil {
			return math.NaN()
		}
		return float64(*v)
	}
	for _, y := range s.Past.Years {
		if y.Rules != explain.OfTheTime || y.PLC == nil && y.ARCCO == nil {
			continue
		}
		d.Labels = append(d.Labels, fmt.Sprintf("'%02d", y.CropYear%100))
		d.Values[0], d.Values[1] = append(d.Values[0], known(y.PLC)), append(d.Values[1], known(y.ARCCO))
		says = append(says, fmt.Sprintf("%d: PLC %s, ARC-CO %s.", y.CropYear, wording.Money(y.PLC), wording.Money(y.ARCCO)))
	}
	if len(d.Labels) == 0 {
		return Picture{}, false
	}
	return Picture{Question: "What did each pay in the past, under the rules of the time? (?: not known)", Says: strings.Join(says, " "), Drawing: d}, true
}

// changes adds dates, and what could change these figures.
func (r *Report) changes(h explain.Handout, s explain.CountySheet) {
	var points List
	for _, d := range s.Dates {
		points = append(points, Point{Mark: d.What, Text: fmt.Sprintf("%s (%s)", d.When, d.Source)})
	}
	if m := s.Part.MYA; m.SD.Value > 0 {
		points = append(points, Point{Mark: "could change", Text: fmt.Sprintf("the national price (%s), until its marketing year is over; the margin is from %s %s", m.Source, band(s.Part), s.Part.Difference.BandInWords())})
	}
	for _, b := range s.Part.Bases {
		if y := b.CountyYield; b.Practice == string(s.Practice) && y != nil && y.SD > 0 {
			points = append(points, Point{Mark: "could change", Text: fmt.Sprintf("the county yield (%s), until FSA publishes its own", y.MeanFrom)})
		}
	}
	for _, flag := range s.Flags {
		if flag.Severity != answer.Info && flag.Code != "deadline_unknown" {
			points = append(points, Point{Mark: string(flag.Severity), Text: fmt.Sprintf("%s Source: %s.", flag.OnPaper(), flag.Source)})
		}
	}
	if h.Comparison.ChangeFrom != 0 {
		points = append(points, Point{Text: fmt.Sprintf("From %d the choice can be changed every year (%s).", h.Comparison.ChangeFrom, h.Comparison.ChangeSource)})
	}
	r.list(points)
}
