package report

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfComparison lays out a comparison. With changesOnly its list of elections leaves
// out lines that agree with the record (OfStanding).
func OfComparison(c answer.Comparison, changesOnly bool) Report {
	var r Report
	var years []string
	for _, y := range c.CropYears {
		years = append(years, fmt.Sprint(y.CropYear))
	}
	r.heading(1, "PLC and ARC-CO side by side, crop year "+wording.Joined(years))
	r.text(fmt.Sprintf("Prices as of %s: %s. Payments are USD per base acre if signed, after the payment-acre share, before share, limit and sequestration, unless a line says otherwise.", c.Market.AsOf, c.Market.Source))
	if c.Model.Note != "" {
		r.text("These odds are " + c.Model.Note + ".")
	}
	for _, y := range c.CropYears {
		r.heading(2, fmt.Sprintf("Crop year %d", y.CropYear))
		r.standing(y, changesOnly)
		r.lookAtARCIC(y)
		common := commonFlags(y.Farms)
		if len(common) > 0 {
			r.text("For every farm of this file:")
			r.flags(common)
		}
		for _, f := range y.Farms {
			r.farm(f, y.CropYear, common)
		}
		r.operation(y)
	}
	r.together(c)
	r.run(c)
	return r
}

func (r *Report) caution(lines []string) {
	r.text("Caution. " + strings.Join(lines, " "))
}

// lookAtARCIC names the farms for which ARC-IC can matter.
func (r *Report) lookAtARCIC(y answer.YearPart) {
	for _, f := range y.Farms {
		if f.ARCIC != nil && f.ARCIC.CanMatter {
			r.text(fmt.Sprintf("Farm %s: look at ARC-IC too, for %s.", f.Farm, f.ARCIC.Reason))
		}
	}
}

// leadWords are the verdicts in words.
var leadWords = map[answer.Leader]string{
	answer.LeadsPLC: "leans PLC", answer.LeadsARCCO: "leans ARC-CO", answer.Close: "toss-up",
	answer.LittleChance: "little at stake", answer.None: "unknown",
}

// commonFlags returns the flags that every farm of a year has in the same words: they
// are shown once.
func commonFlags(farms []answer.FarmPart) []answer.Flag {
	var common []answer.Flag
	for _, flag := range farms[0].Flags {
		everywhere := !slices.ContainsFunc(farms, func(f answer.FarmPart) bool { return !slices.Contains(f.Flags, flag) })
		if everywhere {
			common = append(common, flag)
		}
	}
	return common
}

func (r *Report) farm(f answer.FarmPart, y crop.CropYear, common []answer.Flag) {
	r.heading(3, fmt.Sprintf("Farm %s, crop year %d, contract %s", f.Farm, y, f.Contract))
	for _, c := range f.Commodities {
		r.commodity(c)
	}
	r.individual(f.ARCIC)
	r.elections(f)
	r.criteria(f.Criteria)
	r.flags(slices.DeleteFunc(slices.Clone(f.Flags), func(flag answer.Flag) bool { return slices.Contains(common, flag) }))
}

func (r *Report) flags(flags []answer.Flag) {
	var points []Point
	for _, flag := range flags {
		text := fmt.Sprintf("[%s] %s", flag.Code, flag.Message)
		if flag.Source != "" {
			text += " Source: " + flag.Source + "."
		}
		points = append(points, Point{Mark: string(flag.Severity), Text: text})
	}
	r.list(points)
}

// commodity adds the short table, the sentence over all outcomes and what the figures
// rest on.
func (r *Report) commodity(c answer.CommodityPart) {
	title := fmt.Sprintf("%s: %s base acres", wording.Capital(c.Commodity.Name()), wording.Plain(&c.BaseAcres))
	if c.PaymentYield != nil {
		title += fmt.Sprintf(", payment yield %s %s", wording.Plain(c.PaymentYield), c.Commodity.Unit().Yield())
	}
	if c.OnRecord != nil {
		title += ", on record " + string(*c.OnRecord)
	}
	r.heading(4, title)
	if c.Programs.Any() {
		r.table(programTable(c))
	}
	r.text(shareSentence(c))
	if c.NotEnrolled != nil {
		r.text(fmt.Sprintf("Not enrolled: %s. STAX is bought: it does not go with an enrolled base. Ask the insurance agent and the county office before signing.", strings.TrimPrefix(wording.Money(c.NotEnrolled), "$")))
	}
	r.text(wording.Sentences(outcomes(c), verdict(c), afterLimitSentence(c)))
	r.text(priceSentence(c))
	for _, b := range c.Bases {
		r.text(baseSentence(c, b))
	}
	lead := leadSentence(c)
	if even := c.EvenPaymentYield; even != nil && *even < mostEven*(*c.PaymentYield) {
		lead += fmt.Sprintf(" With a payment yield of %s both would average the same.", wording.Plain(c.EvenPaymentYield))
	}
	r.text(strings.TrimSpace(lead))
	r.text(startSentence(c))
	if len(c.Elsewhere) > 0 {
		r.table(elsewhereTable(c))
	}
}

// mostEven is how many times the own payment yield an even payment yield may be and
// still get a sentence.
const mostEven = 2

// programTable is the short table of a commodity.
func programTable(c answer.CommodityPart) Table {
	t := Table{Title: "USD per base acre", Columns: []string{""}}
	for _, one := range c.Programs {
		t.Columns = append(t.Columns, programName(c, one.Program))
	}
	for _, row := range programRows {
		cells := []string{row.name}
		for _, one := range c.Programs {
			if one.Figures == nil {
				cells = append(cells, "unknown")
				continue
			}
			cells = append(cells, row.figure(one.Figures))
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

// programName returns the name of a program, marked where its figures rest on an
// assumed irrigated share.
func programName(c answer.CommodityPart, p farm.Program) string {
	if p == farm.ARCCO {
		return string(p) + shareMark(c)
	}
	return string(p)
}

// programRows are the lines by which every program is described.
var programRows = []struct {
	name   string
	figure func(*answer.ProgramPart) string
}{
	{"on average", func(p *answer.ProgramPart) string { return wording.Money(&p.Mean) }},
	{"pays in, of 100 outcomes", func(p *answer.ProgramPart) string { return wording.InHundred(p.ChanceOfPayment) }},
	{"when it pays, on average", func(p *answer.ProgramPart) string {
		if p.MeanWhenPaying == nil {
			return "-"
		}
		return wording.Money(p.MeanWhenPaying)
	}},
	{"poor case (1 in 10 is lower)", percentile(poor)},
	{"middle case", percentile(middle)},
	{"good case (1 in 10 is higher)", percentile(good)},
	{"the most it can pay", func(p *answer.ProgramPart) string { return wording.Money(&p.Maximum) }},
	{costRow, func(p *answer.ProgramPart) string {
		if p.CostOfWrongElection == nil {
			return "-"
		}
		return wording.Money(p.CostOfWrongElection)
	}},
}

// costRow compares two programs: it is left out where there is one alone.
const costRow = "cost of the wrong pick, on average"

// percentile returns a function that writes the i-th percentile of a program.
func percentile(i int) func(*answer.ProgramPart) string {
	return func(p *answer.ProgramPart) string { d := answer.Dollars(p.Percentiles[i]); return wording.Money(&d) }
}

// Places of the 10th, 50th and 90th percentile in odds.Percents.
const poor, middle, good = 1, 3, 5

func priceSentence(c answer.CommodityPart) string {
	if c.MYA == nil {
		return ""
	}
	unit := c.Commodity.Unit().Price()
	spread := fmt.Sprintf("give or take %s (%s)", wording.Decimal(&c.MYA.SD), c.MYA.SDFrom)
	if c.MYA.SD.Value == 0 {
		spread = "taken as known"
	}
	return fmt.Sprintf("National price, %s: %s%s, %s; from %s. Effective reference price %s%s%s, benchmark price %s%s%s.",
		unit, wording.Price(c.Commodity, &c.MYA.Mean), wording.Mark(c.MYA.Status), spread, c.MYA.Source,
		wording.Price(c.Commodity, c.EffectiveReferencePrice), wording.Mark(c.ReferencePriceStatus), drawnRange(c.ReferencePriceDrawn),
		wording.Price(c.Commodity, c.BenchmarkPrice), wording.Mark(c.BenchmarkPriceStatus), drawnRange(c.BenchmarkPriceDrawn))
}

// drawnRange says how a price of the law differs between outcomes, "" where it does
// not.
func drawnRange(p *answer.PriceRange) string {
	if p == nil || p.SD.Value < math.Pow10(-p.SD.Decimals)/2 {
		return ""
	}
	return fmt.Sprintf(" at these prices, over all outcomes %s give or take %s", wording.Decimal(&p.Mean), wording.Decimal(&p.SD))
}

// baseSentence says in which county a base lies, what is known of the yield there, and
// where each figure comes from.
func baseSentence(c answer.CommodityPart, b answer.BasePart) string {
	where := fmt.Sprintf("County %s", b.County)
	if b.CountyName != "" {
		where += " " + b.CountyName
	}
	if b.Tract != "" {
		where += ", tract " + b.Tract
	}
	if b.Practice != string(farm.AllPractices) {
		where += ", " + b.Practice
	}
	where += fmt.Sprintf(", %s base acres", wording.Plain(&b.BaseAcres))
	if b.CountyYield == nil {
		return where + ": county yield unknown."
	}
	y, unit := b.CountyYield, c.Commodity.Unit().Yield()
	knowledge := fmt.Sprintf("give or take %s, known from %s", wording.Plain(&y.SD), strings.ReplaceAll(y.KnownFrom, "_", " "))
	if y.SD == 0 {
		knowledge = "taken as known"
	}
	sentence := fmt.Sprintf("%s: county yield %s %s%s, %s", where, wording.Plain(&y.Mean), unit, wording.Mark(y.Status), knowledge)
	if b.BenchmarkYield == nil {
		return sentence + fmt.Sprintf("; benchmark yield unknown. Yield: %s; spread: %s.", y.MeanFrom, y.SDFrom)
	}
	sentence += fmt.Sprintf("; benchmark yield %s%s, guarantee %s per acre%s.", wording.Plain(b.BenchmarkYield), wording.Mark(b.BenchmarkStatus), wording.Money(b.Guarantee), wording.Mark(b.GuaranteeStatus))
	return sentence + fmt.Sprintf(" Yield: %s; spread: %s; benchmark: %s.", y.MeanFrom, y.SDFrom, b.BenchmarkFrom) + otherMeans(y.OtherMeans)
}

// otherMeans lists the mean county yields of the band beside the one used.
func otherMeans(means []answer.OtherMean) string {
	if len(means) == 0 {
		return ""
	}
	var parts []string
	for _, m := range means {
		parts = append(parts, wording.Plain(&m.Mean)+" from "+m.From)
	}
	return " Other means in the band: " + strings.Join(parts, ", ") + "."
}

// elections adds the whole farm under each combination of programs.
func (r *Report) elections(f answer.FarmPart) {
	t := Table{
		Title:   "The whole farm under each combination, USD in total",
		Columns: []string{"", "on average", "poor", "middle", "good", "after limit*"},
		Notes:   []string{"* after shares, payment limit and sequestration, for the producers of this file, as if the farm stood alone"},
	}
	for _, e := range f.Elections {
		row := []string{choiceText(e.Choice), wording.Whole(e.Mean), "unknown", "unknown", "unknown", wording.Whole(e.MeanAfterLimit)}
		if e.Percentiles != nil {
			for i, at := range []int{poor, middle, good} {
				d := answer.Dollars(e.Percentiles[at])
				row[2+i] = wording.Whole(&d)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) > 0 {
		r.table(t)
	}
}

// choiceText writes a choice: "corn PLC, soybeans ARC-CO".
func choiceText(choice answer.Choice) string {
	var words []string
	for _, c := range choice.Commodities() {
		if choice[c] == farm.ARCIC { // it is elected for all commodities
			return "ARC-IC, the whole farm"
		}
		words = append(words, c.Name()+" "+string(choice[c]))
	}
	return strings.Join(words, ", ")
}

// operation adds the whole operation under the choices with the highest averages after
// limits.
func (r *Report) operation(y answer.YearPart) {
	o := y.Operation
	r.heading(3, fmt.Sprintf("The whole operation, crop year %d", y.CropYear))
	if o.Mean == nil {
		r.text("No farm has figures for both programs.")
		return
	}
	t := Table{Title: "The choices with the highest average after limits", Columns: []string{"farm", "choice"}}
	for _, f := range y.Farms {
		if choice := o.HighestMean[f.Farm]; len(choice) > 0 {
			t.Rows = append(t.Rows, []string{f.Farm, choiceText(choice)})
		}
	}
	r.table(t)
	r.text(sharesSentence(y))
	r.when(y)
	r.text(fmt.Sprintf("Together they average %s before share, limit and sequestration, %s after.", wording.Money(o.Mean), wording.Money(o.MeanAfterLimit)))
	if cost := limitCost(o); cost != "" {
		r.text(cost)
	}
	people := Table{Title: "By person, USD; what an entity is paid stands with its owners", Columns: []string{"", "after share", "limit reached*", "after limit and sequestration"},
		Notes: []string{"* in so many of 100 outcomes"}}
	for _, p := range o.ByPerson {
		people.Rows = append(people.Rows, []string{p.ID, wording.Money(&p.Mean), wording.InHundred(p.ChanceOfLimit), wording.Money(&p.MeanAfterLimit)})
	}
	r.table(people)
	r.people(y)
	if len(o.LeftOut) > 0 {
		r.text("Left out, because a figure is missing: " + wording.Joined(o.LeftOut) + ".")
	}
}

// when adds the first days on which payments can come, a line for each.
func (r *Report) when(y answer.YearPart) {
	commodities := map[string][]string{}
	tax := map[string]int{}
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if name := c.Commodity.Name(); !slices.Contains(commodities[c.PaymentNotBefore], name) {
				commodities[c.PaymentNotBefore] = append(commodities[c.PaymentNotBefore], name)
			}
			tax[c.PaymentNotBefore] = c.TaxYear
		}
	}
	for _, day := range slices.Sorted(maps.Keys(commodities)) {
		r.text(fmt.Sprintf("Payments for crop year %d: not before %s (%s); income of tax year %d when paid in that year. Do not plan with the money earlier.", y.CropYear, day, wording.Joined(commodities[day]), tax[day]))
	}
}
