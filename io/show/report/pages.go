package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfPages lays an operation out for paper: a sheet for the operation where it has
// several farms, then one for each farm. The first crop year is shown in full, later
// ones beside it.
func OfPages(c answer.Comparison, changesOnly bool) Report {
	var r Report
	y := c.CropYears[0]
	several := len(y.Farms) > 1
	if several {
		r.cover(c, changesOnly)
	}
	for i, f := range y.Farms {
		if several {
			r.sheet()
		}
		r.farmSheet(c, i)
		if !several {
			r.people(y)
		}
		r.footer(c, f)
	}
	return r
}

// cover is the sheet of the whole operation.
func (r *Report) cover(c answer.Comparison, changesOnly bool) {
	y := c.CropYears[0]
	r.heading(1, fmt.Sprintf("PLC and ARC-CO, crop year %d: the whole operation", y.CropYear))
	r.basis(c)
	r.standing(y, changesOnly)
	if o := y.Operation; o.Mean != nil {
		r.text(fmt.Sprintf("With the choices of the highest average all farms together average %s before share, limit and sequestration, %s after, for the producers of this file.", wording.Whole(o.Mean), wording.Whole(o.MeanAfterLimit)))
		if cost := limitCost(o); cost != "" {
			r.text(cost)
		}
	}
	r.text(sharesSentence(y))
	for _, year := range c.CropYears {
		r.people(year)
	}
	r.lookAtARCIC(y)
	if common := commonFlags(y.Farms); len(common) > 0 {
		r.text("For every farm:")
		r.flagsInWords(common)
	}
	r.run(c)
}

// glossary explains the words of a sheet, which may be read by itself.
func glossary() string {
	return "Words. PLC, Price Loss Coverage: pays on base acres and payment yield when the national price of the marketing year is below the effective reference price. ARC-CO, Agriculture Risk Coverage by county: pays when that price times the county's yield is below the guarantee. Base acres and payment yield stand on the farm record of the Farm Service Agency (FSA); what is planted does not count. A lead is clear on average and throughout its band; else it is a toss-up. " + bandExplained + " Give or take: two of three outcomes are closer than that."
}

// flagsInWords lists flags for a reader on paper, without their codes.
func (r *Report) flagsInWords(flags []answer.Flag) {
	var points List
	for _, flag := range flags {
		points = append(points, Point{Mark: string(flag.Severity), Text: strings.TrimSpace(flag.OnPaper() + " " + sourceWords(flag))})
	}
	r.list(points)
}

func sourceWords(flag answer.Flag) string {
	if flag.Source == "" {
		return ""
	}
	return "Source: " + flag.Source + "."
}

// basis adds what the figures are.
func (r *Report) basis(c answer.Comparison) {
	r.text(fmt.Sprintf("Prices as of %s: %s. Payments are USD per base acre if signed, after the payment-acre share, before share, limit and sequestration, unless a line says otherwise.", c.Market.AsOf, c.Market.Source))
	if c.Model.Note != "" {
		r.text("These odds are " + c.Model.Note + ".")
	}
}

// farmSheet adds the sheet of farm i.
func (r *Report) farmSheet(c answer.Comparison, i int) {
	y := c.CropYears[0]
	f := y.Farms[i]
	level := 1
	if len(y.Farms) > 1 {
		level = 2
	}
	r.heading(level, fmt.Sprintf("Farm %s, crop year %d", f.Farm, y.CropYear))
	if level == 1 {
		r.basis(c)
	}
	var mine []answer.StandingLine
	for _, l := range y.Standing.Lines {
		if l.Farm == f.Farm {
			mine = append(mine, l)
		}
	}
	r.text(electAnew(y.Standing, y.CropYear))
	r.table(farmTable(mine, f.Commodities))
	r.text(strings.Join(slices.Concat(signers(mine, y.CropYear), besides(mine, y.Farms[i:i+1])), " "))
	few := len(f.Commodities) <= mostWithPictures
	for k, part := range f.Commodities {
		r.commoditySheet(c, part, level+1, yearsOf(c, i, k), few)
	}
	for _, part := range f.Commodities {
		if !few && part.Difference != nil {
			picture := squaresOf(part)
			picture.Question = wording.Capital(part.Commodity.Name()) + ", of 100 outcomes"
			r.picture(picture)
		}
	}
	said := slices.ContainsFunc(mine, func(l answer.StandingLine) bool { return l.Highest == farm.ARCIC }) // at the top
	if f.ARCIC != nil && f.ARCIC.CanMatter && f.ARCIC.PerBaseAcre != nil && !said {
		r.text(fmt.Sprintf("ARC-IC (whole farm) is worth a look, for %s: on average %s per base acre of the farm, poor case %s, good case %s. It wants all producers to agree and holds for every commodity of the farm; ask the county office.",
			f.ARCIC.Reason, wording.Money(&f.ARCIC.PerBaseAcre.Mean), percentile(poor)(f.ARCIC.PerBaseAcre), percentile(good)(f.ARCIC.PerBaseAcre)))
	}
}

// farmTable is the table to read out at the county office.
func farmTable(lines []answer.StandingLine, parts []answer.CommodityPart) Table {
	t := Table{Title: "What to sign; margin on average, if signed", Columns: []string{"", "base acres", "lead", "per base acre", "band", "on all base", "on record"}}
	for i, l := range lines {
		cells := signCells(l)
		other := "unknown"
		if parts[i].Difference != nil {
			other = band(parts[i])
		}
		t.Rows = append(t.Rows, []string{wording.Capital(l.Commodity.Name()), wording.Plain(&l.BaseAcres), cells[0], cells[1], other, totalMargin(l), cells[2]})
	}
	if limited(lines) {
		t.Notes = []string{limitedNote()}
	}
	return t
}

// mostWithPictures is the most commodities of a farm that each get pictures of their
// own on its sheet.
const mostWithPictures = 3

// commoditySheet adds one commodity to the sheet of its farm, with pictures where few
// is set; years are the commodity in every crop year.
func (r *Report) commoditySheet(c answer.Comparison, part answer.CommodityPart, level int, years []answer.CommodityPart, few bool) {
	title := fmt.Sprintf("%s: %s base acres", wording.Capital(part.Commodity.Name()), wording.Plain(&part.BaseAcres))
	if part.PaymentYield != nil {
		title += fmt.Sprintf(", payment yield %s %s", wording.Plain(part.PaymentYield), part.Commodity.Unit().Yield())
	}
	r.heading(level, title)
	r.text(wording.Sentences(outcomes(part), verdict(part), afterLimitSentence(part), middleSentences(part), shareSentence(part)))
	if part.Difference == nil {
		return
	}
	if few {
		r.picture(squaresOf(part))
		r.picture(curvesOf(part))
	}
	if few && len(years) > 1 {
		r.picture(spansOf(c, years))
	}
	r.text(wording.Sentences(leadSentence(part), nothingAtMean(part), shortPrice(part), shortYields(part)))
}

// yearsOf returns commodity k of farm i in every crop year.
func yearsOf(c answer.Comparison, i, k int) (all []answer.CommodityPart) {
	for _, y := range c.CropYears {
		all = append(all, y.Farms[i].Commodities[k])
	}
	return all
}

// shortPrice writes the price of the odds, with its standard deviation.
func shortPrice(c answer.CommodityPart) string {
	between := ""
	if words := tenths(c.MYA); words != "" {
		between = " (" + words + ")"
	}
	return fmt.Sprintf("National price %s %s%s, give or take %s%s; effective reference price %s%s.",
		wording.Price(c.Commodity, &c.MYA.Mean), c.Commodity.Unit().Price(), wording.Mark(c.MYA.Status), wording.Decimal(&c.MYA.SD), between, wording.Price(c.Commodity, c.EffectiveReferencePrice), wording.Mark(c.ReferencePriceStatus))
}

// shortYields writes the county yields of the odds, with their standard deviations.
func shortYields(c answer.CommodityPart) string {
	var words []string
	for _, b := range c.Bases {
		if b.CountyYield == nil || b.BaseAcres == 0 {
			continue
		}
		where := strings.TrimSpace(b.County + " " + b.CountyName)
		if b.Practice != "all" {
			where += " " + b.Practice
		}
		words = append(words, fmt.Sprintf("%s (%s base acres) %s%s, give or take %s, guarantee %s", where, wording.Plain(&b.BaseAcres), wording.Plain(&b.CountyYield.Mean), wording.Mark(b.CountyYield.Status), wording.Plain(&b.CountyYield.SD), wording.Money(b.Guarantee)))
	}
	if len(words) == 0 {
		return ""
	}
	return fmt.Sprintf("County yield, %s: %s.", c.Commodity.Unit().Yield(), strings.Join(slices.Compact(words), "; "))
}

// footer ends the sheet of a farm: its own flags, the run and the caution.
func (r *Report) footer(c answer.Comparison, f answer.FarmPart) {
	var common []answer.Flag
	if len(c.CropYears[0].Farms) > 1 {
		common = commonFlags(c.CropYears[0].Farms)
	}
	own := slices.DeleteFunc(slices.Clone(f.Flags), func(flag answer.Flag) bool { return slices.Contains(common, flag) })
	if len(own) > 0 {
		r.text("Mind also:")
		r.flagsInWords(own)
	}
	if first := c.CropYears[0].CropYear; len(c.CropYears) > 1 && c.ChangeFrom != 0 {
		r.text(fmt.Sprintf("Only crop year %d is decided now: from %d the choice can be changed every year (%s).", first, c.ChangeFrom, c.ChangeSource))
	}
	r.text(glossary())
	r.run(c)
}

// nothingAtMean says, where neither program pays at the mean price and yields, that
// averages come from other outcomes; else "".
func nothingAtMean(c answer.CommodityPart) string {
	if m := c.Elsewhere[len(c.Elsewhere)/2]; m.PLC != 0 || m.ARCCO != 0 {
		return ""
	}
	return "At the mean price and yields neither pays: the averages come from lower prices and yields."
}

// squaresOf is the picture of how often which program pays more.
func squaresOf(c answer.CommodityPart) Picture {
	shares := []*answer.Chance{c.ChanceNeitherPays, c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceEqual}
	counts, words := wording.Hundred(shares...), wording.Chances(shares...)
	names := []string{"neither pays", "ARC-CO pays more", "PLC pays more", "both pay the same"}
	var s Squares
	for i, name := range names {
		if *shares[i] > 0 {
			s = append(s, Square{name, counts[i], words[i]})
		} else {
			s = append(s, Square{Kind: name})
		}
	}
	return Picture{Question: "How often does which pay more, of 100 outcomes?", Says: outcomes(c), Drawing: s}
}

// curvesOf is the picture of payments against the national price.
func curvesOf(c answer.CommodityPart) Picture {
	d := Curves{XAxis: "national price, " + c.Commodity.Unit().Price(), YAxis: "USD per base acre"}
	d.Lines = make([]Curve, 1+len(answer.CurveYields))
	d.Lines[0].Name = "PLC"
	for k, part := range answer.CurveYields {
		d.Lines[1+k].Family, d.Lines[1+k].Short = "ARC-CO, by yield", program.Text(100*part, 0)+"%"
		d.Lines[1+k].Name = "ARC-CO, yield " + d.Lines[1+k].Short
	}
	for _, at := range c.ByPrice {
		values := append([]answer.Dollars{at.PLC}, at.ARCCO[:]...)
		for i, v := range values {
			d.Lines[i].X, d.Lines[i].Y = append(d.Lines[i].X, at.Price.Value), append(d.Lines[i].Y, float64(v))
		}
	}
	first, last := c.ByPrice[0].Price, c.ByPrice[len(c.ByPrice)-1].Price
	low, high := first.Value, last.Value
	d.Ends = [2]Change{{low, wording.Decimal(&first)}, {high, wording.Decimal(&last)}}
	for _, lead := range c.LeadByPrice {
		if lead.Below != nil && lead.Below.Value > low && lead.Below.Value < high {
			d.Changes = append(d.Changes, Change{lead.Below.Value, wording.Decimal(lead.Below)})
		}
	}
	d.Band = bandOf(c)
	return Picture{Question: "What is paid at other prices? Vertical lines: where the lead changes at the mean yields", Says: wording.Sentences(leadSentence(c), shortPrice(c)), Drawing: d}
}

// bandOf returns the mean price with the prices between which 8 of 10 outcomes lie.
func bandOf(c answer.CommodityPart) *Band {
	m := c.MYA
	b := &Band{Low: m.Mean.Value, At: m.Mean.Value, High: m.Mean.Value, Text: "price used " + wording.Price(c.Commodity, &m.Mean)}
	if words := tenths(m); words != "" {
		b.Low, b.High = m.Low.Value, m.High.Value
		b.Text += " (" + words + ")"
	}
	return b
}

// tenths writes between which prices 8 of 10 outcomes lie, "" where the answer does
// not have them.
func tenths(m *answer.PriceView) string {
	if m.Low == nil || m.High == nil || m.Low.Value == m.High.Value {
		return ""
	}
	return fmt.Sprintf("8 in 10: %s to %s", wording.Decimal(m.Low), wording.Decimal(m.High))
}

// spansOf is the picture of poor, middle and good case in every crop year; a program
// that a year does not have leaves its place empty.
func spansOf(c answer.Comparison, years []answer.CommodityPart) Picture {
	d := Spans{YAxis: "USD per base acre"}
	for _, program := range programsOf(years) {
		d.Names = append(d.Names, string(program))
	}
	var says []string
	for i, part := range years {
		y := c.CropYears[i].CropYear
		if part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.ARCCO) == nil {
			continue
		}
		group := SpanGroup{Label: fmt.Sprint(y)}
		for _, name := range d.Names {
			p := part.Programs.Of(farm.Program(name))
			group.Members = append(group.Members, spanOf(p))
			if p != nil {
				says = append(says, spanWords(y, name, p))
			}
		}
		d.Group = append(d.Group, group)
	}
	return Picture{Question: "From poor case (1 in 10 lower) to good case (1 in 10 higher); line: middle, circle: average", Says: strings.Join(says, " "), Drawing: d}
}

func spanOf(p *answer.ProgramPart) Span {
	if p == nil {
		unknown := math.NaN()
		return Span{unknown, unknown, unknown, unknown}
	}
	return Span{p.Percentiles[poor], p.Percentiles[middle], p.Percentiles[good], float64(p.Mean)}
}

func spanWords(y crop.CropYear, name string, p *answer.ProgramPart) string {
	return fmt.Sprintf("%d %s: poor %s, middle %s, good %s, on average %s.", y, name, percentile(poor)(p), percentile(middle)(p), percentile(good)(p), wording.Money(&p.Mean))
}
