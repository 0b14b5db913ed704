package report

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// countySheet adds one sheet of paper.
func (r *Report) countySheet(h explain.Handout, s explain.CountySheet, common []string) {
	year := h.Comparison.CropYears[0]
	r.heading(2, placeName(s)+": "+cropName(s))
	r.small(fmt.Sprintf("PLC or ARC-CO for crop year %d. %s Dollars are per base acre, if the contract is signed. Your share, the payment limit and sequestration (a federal cut) come off later.", year.CropYear, wording.Made(h.Comparison)))
	r.Blocks = append(r.Blocks, Banner(wording.ToBePaid(year.Standing, year.CropYear)+" "+wording.LastDay(year.Standing, h.Comparison.Today)), Lead(outcomes(s.Part)))
	r.text(wording.Sentences(sheetVerdict(s.Part), neitherSentence(s.Part)) +
		fmt.Sprintf(" PLC is shown at a PLC yield of %s an acre (assumed).", wording.YieldText(s.Commodity, s.PaymentYield)))
	r.Blocks = append(r.Blocks, Beside{Left: []Block{HowOften(s.Part), AtPrices(s.Part)}, Right: []Block{HowMuch(s.Part), paysTable(s.Part)}})
	r.changes(s)
	r.table(pastTable(s))
	r.text(guaranteeText(s))
	r.table(elsewhereTable(s.Part))
	r.doubts(s, common)
	r.small(sheetWords)
	r.caution(h.Comparison.Caution)
}

// sheetVerdict says who leads, by how much, and how far that can move. Why a lead is a
// toss-up is in its range.
func sheetVerdict(c answer.CommodityPart) string {
	if c.Programs.Of(farm.HigherOf) != nil {
		return "For this year FSA pays the higher of the two, whatever was elected."
	}
	if c.Leader == answer.Close {
		return wording.Sentences("A toss-up.", wording.Average(c, nil), wording.Range(c))
	}
	return verdict(c)
}

// sheetWords explains the words of a county sheet, which may be read by itself.
const sheetWords = "PLC (Price Loss Coverage) pays when the national price for the marketing year falls below the effective reference price. " +
	"ARC-CO (Agriculture Risk Coverage by county) pays when the county's yield times that price falls below the guarantee. " +
	"Base acres and PLC yield are on your FSA farm record; what you plant does not change them. " +
	"An outcome is one possible end of the year: a national price together with a county yield."

func (r *Report) small(text string) { r.Blocks = append(r.Blocks, Small(text)) }

// paysTable is how often and how much each program pays.
func paysTable(c answer.CommodityPart) Table {
	t := Table{Columns: []string{"dollars a base acre"}}
	rows := []struct {
		name string
		cell func(*answer.ProgramPart) string
	}{
		{"pays, of 100 outcomes", func(p *answer.ProgramPart) string { return wording.ShortCount(wording.InHundred(p.ChanceOfPayment)) }},
		{"average when it pays", func(p *answer.ProgramPart) string {
			if p.MeanWhenPaying == nil {
				return "-"
			}
			return wording.Money(p.MeanWhenPaying)
		}},
		{"poor case, 1 in 10 is lower", percentile(poor)}, {"middle case, half are lower", percentile(middle)}, {"good case, 1 in 10 is higher", percentile(good)},
	}
	t.Rows = make([][]string, len(rows))
	for i, row := range rows {
		t.Rows[i] = []string{row.name}
	}
	for _, one := range c.Programs {
		if one.Figures == nil {
			continue
		}
		t.Columns = append(t.Columns, string(one.Program))
		for i, row := range rows {
			t.Rows[i] = append(t.Rows[i], row.cell(one.Figures))
		}
	}
	return t
}

// changes adds what would change the lead, and when it becomes known.
func (r *Report) changes(s explain.CountySheet) {
	r.heading(3, "What would change this")
	points := List{{Mark: "Price", Text: wording.PriceLeads(s.Part)}}
	if said := wording.YieldLeads(s.Part); said != "" {
		points = append(points, Point{Mark: "County yield", Text: said})
	}
	points = append(points, Point{Mark: "PLC yield", Text: evenSentence(s)})
	var known []string
	if d, ok := s.Date(explain.HarvestEnds); ok {
		known = append(known, fmt.Sprintf("The harvest has usually ended by %s%s; FSA sets the county yield after it.", wording.Date(d.When), wording.Mark(d.Status)))
	}
	if d, ok := s.Date(explain.MarketingYearEnds); ok {
		known = append(known, fmt.Sprintf("The marketing year, whose average price counts, ends %s.", wording.Date(d.When)))
	}
	if d, ok := s.Date(explain.FirstPayment); ok {
		known = append(known, fmt.Sprintf("Payments come %s or later.", wording.Date(d.When)))
	}
	if len(known) > 0 {
		points = append(points, Point{Mark: "Known when", Text: strings.Join(known, " ")})
	}
	r.list(points)
}

// mostPast is how many past crop years a county sheet has room for.
const mostPast = 7

// pastTable shows, by crop year, the prices and yields behind the benchmark and what both
// programs paid under the rules of the time.
func pastTable(s explain.CountySheet) Table {
	w := s.Working
	paid := map[crop.CropYear]explain.YearReplay{}
	var years []crop.CropYear
	for _, p := range w.History {
		years = append(years, p.CropYear)
	}
	for _, y := range s.Past.Years {
		if y.Rules == explain.OfTheTime {
			paid[y.CropYear] = y
			years = append(years, y.CropYear)
		}
	}
	slices.Sort(years)
	years = slices.Compact(years)
	years = years[max(0, len(years)-mostPast):]
	t := Table{Title: "Past years, and the benchmark made of them", Columns: []string{""}}
	rows := [][]string{{"national price, dollars a " + s.Commodity.Unit().Mass}, {"county yield, trend-adjusted"}, {"PLC paid, dollars a base acre*"}, {"ARC-CO paid, dollars a base acre*"}}
	practice := practiceOf(s)
	for _, y := range years {
		t.Columns = append(t.Columns, fmt.Sprint(y))
		cells := []string{"-", "-", "-", "-"}
		if p, has := paid[y]; has {
			cells[0], cells[2], cells[3] = wording.Decimal(&p.MYA), moneyOrDash(p.PLC), moneyOrDash(p.ARCCO)
		}
		if i := slices.IndexFunc(w.History[:], func(p explain.PastPrice) bool { return p.CropYear == y }); i >= 0 {
			cells[0] = program.Text(w.History[i].Value, w.Terms.PriceDecimals)
			if practice.Adjusted != nil {
				cells[1] = wording.Grouped(practice.Adjusted[i], w.Terms.YieldDecimals)
			}
		}
		for i, cell := range cells {
			rows[i] = append(rows[i], cell)
		}
	}
	t.Columns = append(t.Columns, "benchmark")
	rows[0] = append(rows[0], wording.Decimal(s.Part.BenchmarkPrice)+wording.Mark(s.Part.BenchmarkPriceStatus))
	rows[1] = append(rows[1], wording.Grouped(practice.BenchmarkYield.Value, w.Terms.YieldDecimals)+wording.Mark(practice.BenchmarkYield.Status))
	rows[2], rows[3] = append(rows[2], ""), append(rows[3], "")
	t.Rows = rows
	t.Notes = pastNotes(s, years, paid)
	return t
}

func moneyOrDash(d *answer.Dollars) string {
	if d == nil {
		return "-"
	}
	return wording.Money(d)
}

// pastNotes say how the benchmark is made, and under which rules past years were paid.
func pastNotes(s explain.CountySheet, years []crop.CropYear, paid map[crop.CropYear]explain.YearReplay) []string {
	five := s.Working.History
	said := fmt.Sprintf("Benchmark: the average of %d to %d, highest and lowest dropped.", five[0].CropYear, five[len(five)-1].CropYear)
	if s.Part.EffectiveReferencePrice != nil {
		said += fmt.Sprintf(" Prices count as %s%s or more (the effective reference price).", wording.PriceText(s.Part.EffectiveReferencePrice), wording.Mark(s.Part.ReferencePriceStatus))
	}
	past := "* Under the rules in force then, at the PLC yield above. A dash: not known here."
	for _, y := range years {
		if paid[y].PaysHigher {
			past += fmt.Sprintf(" For %d FSA pays the higher of the two.", y)
		}
	}
	return []string{said, past}
}

// practiceOf is the county yield of a sheet.
func practiceOf(s explain.CountySheet) explain.WorkingPractice {
	all := s.Working.Bases[0].Practices
	return all[slices.IndexFunc(all, func(p explain.WorkingPractice) bool { return p.Practice == s.Practice })]
}

// baseOf is the base of a sheet under its practice.
func baseOf(s explain.CountySheet) answer.BasePart {
	for _, b := range s.Part.Bases {
		if b.Practice == string(s.Practice) {
			return b
		}
	}
	return s.Part.Bases[0]
}

// guaranteeText says how the guarantee is made of the benchmark, and on which county yield
// the odds stand.
func guaranteeText(s explain.CountySheet) string {
	terms, b := s.Working.Terms, baseOf(s)
	share := func(part float64) string { return program.Text(100*part, 0) + " percent" }
	said := fmt.Sprintf("The benchmark revenue is %s an acre, and the guarantee %s of it: %s%s.", wording.Money(b.BenchmarkRevenue), share(terms.GuaranteeShare), wording.Money(b.Guarantee), wording.Mark(b.GuaranteeStatus))
	said += fmt.Sprintf(" ARC-CO pays at most %s of the benchmark revenue. The loan rate is $%s.", share(terms.MaximumShare), program.Text(terms.LoanRate, terms.PriceDecimals))
	return wording.Sentences(said, wording.YieldUsed(s.Part, b), yieldRule(b))
}

// yieldRule says by which rule the county yield used is estimated, "" where people typed it.
func yieldRule(b answer.BasePart) string {
	if b.CountyYield == nil {
		return ""
	}
	rule, _, _ := strings.Cut(b.CountyYield.MeanFrom, ". ")
	switch {
	case strings.HasPrefix(rule, "trend of "):
	case strings.HasPrefix(rule, "average of the five adjusted yields"), strings.HasPrefix(rule, "benchmark yield"):
		rule, _, _ = strings.Cut(rule, ",")
	default:
		return ""
	}
	return "It is the " + rule + "."
}

// doubts adds what is not certain on this sheet and is not common to all.
func (r *Report) doubts(s explain.CountySheet, common []string) {
	said := slices.DeleteFunc(paperFlags(s), func(text string) bool { return slices.Contains(common, text) })
	if len(said) > 0 {
		r.list(List{{Mark: "Not certain yet", Text: strings.Join(said, " ")}})
	}
}
