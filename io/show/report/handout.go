package report

import (
	"fmt"
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
	r.text(wording.WithoutElection(h.Comparison.CropYears[0].Standing, y))
	r.flags(onAllSheets(h))
	r.run(h.Comparison)
	for _, s := range h.Sheets {
		r.sheet()
		r.countySheet(h, s)
		r.text(handoutWords)
		r.run(h.Comparison)
	}
	return r
}

// handoutWords explains the words of a county sheet, which may be read by itself.
const handoutWords = "Words. PLC (Price Loss Coverage) pays when the national price for the marketing year falls below the effective reference price. " +
	"ARC-CO (Agriculture Risk Coverage by county) pays when the county's yield times that price falls below the guarantee. " +
	"Base acres and PLC yield are on your FSA farm record; what you plant does not change them. " +
	"Leans: pays more on average, also over the range of the lead. Toss-up: too close to call. " +
	"Poor case: 1 outcome in 10 is lower. Good case: 1 in 10 is higher."

// handoutBasis says what the figures of a handout are.
func (r *Report) handoutBasis(h explain.Handout) {
	m := h.Comparison.Market
	r.text(fmt.Sprintf("All sheets use the prices of %s (%s). %s", wording.Date(m.AsOf), m.Source, wording.PerBaseAcre))
	r.text(fmt.Sprintf("PLC figures are for a PLC yield of %s (assumed). Yours is on your farm record. No farm's data are in these sheets.", answer.YieldAssumed()))
}

// onAllSheets are the flags that all of several sheets have in the same words: they stand
// once, under the table of the area.
func onAllSheets(h explain.Handout) (all []answer.Flag) {
	for _, flag := range h.Sheets[0].Flags {
		if len(h.Sheets) > 1 && !slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return !slices.Contains(s.Flags, flag) }) {
			all = append(all, flag)
		}
	}
	return all
}

// areaTable has one line for each sheet.
func areaTable(sheets []explain.CountySheet) Table {
	t := Table{Title: "The area: of 100 outcomes, then dollars per base acre on average",
		Columns: []string{"county and crop", "leans", "ARC-CO more", "PLC more", "neither pays", "ahead by", "PLC yield at break-even"}}
	for _, s := range sheets {
		row := []string{sheetName(s), wording.Leads(s.Part.Leader), "-", "-", "-", "unknown", "-"}
		if d := s.Part.Difference; d != nil {
			n := wording.Chances(s.Part.ChanceNeitherPays, s.Part.ChanceARCCOMore, s.Part.ChancePLCMore, s.Part.ChanceEqual)
			row = []string{row[0], row[1], n[1], n[2], n[0], ahead(float64(d.Mean)), breakEven(s)}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func sheetName(s explain.CountySheet) string {
	return fmt.Sprintf("%s, %s", placeName(s), commodityName(s))
}

func placeName(s explain.CountySheet) string {
	return wording.Capital(wording.County(answer.BasePart{County: s.County, CountyName: s.CountyName}))
}

func commodityName(s explain.CountySheet) string {
	if s.Practice == farm.AllPractices {
		return s.Commodity.Name()
	}
	return s.Commodity.Name() + " " + string(s.Practice)
}

// usualLow and usualHigh are the PLC yields between which a break-even one is shown, as
// parts of the benchmark yield; a judgement.
const usualLow, usualHigh = 0.4, 1.4

// breakEven writes the PLC yield at which both programs average the same, "none in use"
// where no farm has such a yield.
func breakEven(s explain.CountySheet) string {
	even := s.Part.EvenPaymentYield
	if even == nil || unusual(s) != answer.None {
		return "none in use"
	}
	return wording.Grouped(float64(*even), 0)
}

// unusual returns the program that averages more at every usual PLC yield; None where a
// usual one parts them, or PLC never pays.
func unusual(s explain.CountySheet) answer.Leader {
	even := s.Part.EvenPaymentYield
	if even == nil {
		return answer.None
	}
	switch part := float64(*even) / (float64(s.PaymentYield) / answer.AssumedPaymentYield); {
	case part > usualHigh:
		return answer.LeadsARCCO
	case part < usualLow:
		return answer.LeadsPLC
	}
	return answer.None
}

// countySheet adds one sheet of paper.
func (r *Report) countySheet(h explain.Handout, s explain.CountySheet) {
	y := h.Comparison.CropYears[0].CropYear
	r.heading(2, fmt.Sprintf("%s, %s, crop year %d", placeName(s), commodityName(s), y))
	if s.Part.Difference == nil {
		r.text("No figures: " + s.Part.LeaderReason + ".")
		return
	}
	standing := h.Comparison.CropYears[0].Standing
	r.Blocks = append(r.Blocks, Banner(wording.ToBePaid(standing, y)+" "+wording.LastDay(standing, h.Comparison.Today)), Lead(outcomes(s.Part)))
	r.text(wording.Sentences(evenSentence(s), verdict(s.Part), middleSentences(s.Part), neitherSentence(s.Part)) +
		fmt.Sprintf(" PLC is shown at a PLC yield of %s an acre (assumed).", wording.YieldText(s.Commodity, s.PaymentYield)))
	pictures := Beside{Left: []Block{HowOften(s.Part), AtPrices(s.Part)}, Right: []Block{HowMuch(s.Part)}}
	if past := pastOf(s); len(past.Rows) > 0 {
		pictures.Right = append(pictures.Right, past)
	}
	r.Blocks = append(r.Blocks, pictures)
	r.benchmark(s)
	r.table(elsewhereTable(s.Part))
	r.changes(h, s)
}

// evenSentence says for which PLC yields which program averages more.
func evenSentence(s explain.CountySheet) string {
	if s.Part.EvenPaymentYield == nil {
		return "PLC pays in none of these outcomes, whatever the PLC yield."
	}
	if leader := unusual(s); leader != answer.None {
		return fmt.Sprintf("At any usual PLC yield, %s pays more on average.", leader)
	}
	return fmt.Sprintf("With a PLC yield above %s, PLC pays more on average. Below it ARC-CO does.", wording.YieldText(s.Commodity, *s.Part.EvenPaymentYield))
}

// benchmark adds how the guarantee and the reference price are computed.
func (r *Report) benchmark(s explain.CountySheet) {
	w := s.Working
	unit := s.Commodity.Unit()
	t := Table{Title: fmt.Sprintf("Where the guarantee comes from: the middle three of five years, in dollars and %ss", unit.Mass), Columns: []string{""}}
	prices, yields := []string{"national price"}, []string{"county yield"}
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
	t.Notes = []string{"A price below the effective reference price is raised to it. Yields are trend-adjusted by FSA and come from their own five crop years."}
	r.table(t)
	b := s.Part.Bases[0]
	for _, other := range s.Part.Bases {
		if other.Practice == string(s.Practice) {
			b = other
		}
	}
	share := func(part float64) string { return program.Text(100*part, 0) + " percent" }
	said := fmt.Sprintf("The benchmark revenue is %s an acre, and the guarantee %s of it: %s%s.", wording.Money(b.BenchmarkRevenue), share(w.Terms.GuaranteeShare), wording.Money(b.Guarantee), wording.Mark(b.GuaranteeStatus))
	said += fmt.Sprintf(" ARC-CO pays at most %s of the benchmark revenue. The loan rate is $%s.", share(w.Terms.MaximumShare), program.Text(w.Terms.LoanRate, w.Terms.PriceDecimals))
	r.text(wording.Sentences(said, wording.LawPrices(s.Part), wording.YieldUsed(s.Part, b)))
}

// mostPast is how many past crop years a county sheet has room for.
const mostPast = 4

// pastOf lists what both programs paid in the last crop years under the rules of the time,
// without rows where nothing is known.
func pastOf(s explain.CountySheet) Table {
	t := Table{Columns: []string{"paid in the past*", "PLC", "ARC-CO"}, Notes: []string{"* dollars per base acre, under the rules in force then"}}
	for _, y := range s.Past.Years {
		if y.Rules == explain.OfTheTime && (y.PLC != nil || y.ARCCO != nil) {
			t.Rows = append(t.Rows, []string{fmt.Sprint(y.CropYear), wording.Money(y.PLC), wording.Money(y.ARCCO)})
		}
	}
	t.Rows = t.Rows[max(0, len(t.Rows)-mostPast):]
	return t
}

// sameStart is how many letters of two sources must agree for one to be left out.
const sameStart = 30

// changes adds dates, what could change these figures, and where they come from.
func (r *Report) changes(h explain.Handout, s explain.CountySheet) {
	var points List
	for _, d := range s.Dates {
		if day := wording.Date(d.When); day != d.When { // else not known, as the banner says
			points = append(points, Point{Mark: d.What, Text: fmt.Sprintf("%s (%s)", day, d.Source)})
		}
	}
	var moving []string
	if s.Part.MYA.SD.Value > 0 {
		moving = append(moving, "the national price, until its marketing year is over")
	}
	from := wording.FirstSentences(priceFrom(s.Part), 1)
	for _, b := range s.Part.Bases {
		if y := b.CountyYield; b.Practice == string(s.Practice) && y != nil && y.SD > 0 {
			moving = append(moving, "the county yield, until FSA publishes its own")
			from += " Yield: " + wording.FirstSentences(y.MeanFrom+".", 1)
			if !strings.Contains(y.MeanFrom, b.BenchmarkFrom[:min(len(b.BenchmarkFrom), sameStart)]) {
				from += " Benchmark: " + wording.FirstSentences(b.BenchmarkFrom+".", 1)
			}
		}
	}
	if len(moving) > 0 {
		points = append(points, Point{Mark: "could change", Text: strings.Join(moving, "; ") + "."})
	}
	points = append(points, Point{Mark: "from", Text: from})
	for _, flag := range s.Flags {
		if flag.Severity != answer.Info && flag.Code != deadlineFlag && flag.Code != answer.NewElectionFlag && !slices.Contains(onAllSheets(h), flag) {
			points = append(points, Point{Mark: string(flag.Severity), Text: wording.FirstSentences(flag.OnPaper(), 2)})
		}
	}
	if h.Comparison.ChangeFrom != 0 {
		points = append(points, Point{Text: fmt.Sprintf("From %d the choice can be changed every year (%s).", h.Comparison.ChangeFrom, h.Comparison.ChangeSource)})
	}
	r.list(points)
}
