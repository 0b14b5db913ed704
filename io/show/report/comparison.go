package report

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfComparison lays out a comparison in full: the answer first, then each farm, the whole
// operation, what the figures come from. With changesOnly its list of elections leaves out
// lines that agree with the last election (OfStanding).
func OfComparison(c answer.Comparison, changesOnly bool) Report {
	var r Report
	var years []string
	for _, y := range c.CropYears {
		years = append(years, fmt.Sprint(y.CropYear))
	}
	r.heading(1, "PLC and ARC-CO side by side, crop year "+wording.Joined(years))
	r.text(wording.PerBaseAcre)
	if c.Model.Note != "" {
		r.text("These odds are " + c.Model.Note + ".")
	}
	for _, y := range c.CropYears {
		r.heading(2, fmt.Sprintf("Crop year %d", y.CropYear))
		r.standing(y, c.Today, changesOnly)
		r.since(c, y)
		r.lookAtARCIC(y)
		said := alreadySaid(y)
		common := slices.DeleteFunc(CommonFlags(y.Farms), said)
		if len(common) > 0 {
			r.text("Check on every farm:")
			r.flags(common)
		}
		for _, f := range y.Farms {
			r.farm(f, y, func(flag answer.Flag) bool { return said(flag) || slices.Contains(common, flag) })
		}
		r.operation(y)
		r.comesFrom(c.Market, y)
	}
	r.together(c)
	r.run(c)
	return r
}

// alreadySaid reports of a flag whether the standing at the top of its year says it.
func alreadySaid(y answer.YearPart) func(answer.Flag) bool {
	return func(flag answer.Flag) bool {
		return y.Standing.NewElection && (flag.Code == answer.NewElectionFlag || flag.Code == deadlineFlag)
	}
}

// deadlineFlag is the code of the flag of a year whose last day is not known.
const deadlineFlag = "deadline_unknown"

func (r *Report) caution(lines []string) {
	r.text("Caution. " + strings.Join(lines, " "))
}

// lookAtARCIC names the farms for which ARC-IC can matter and is not among the choices.
func (r *Report) lookAtARCIC(y answer.YearPart) {
	for _, f := range y.Farms {
		chosen := slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool { return l.Farm == f.Farm && l.Highest == farm.ARCIC })
		if f.ARCIC != nil && f.ARCIC.CanMatter && !chosen {
			r.text(individualAhead(f, y.Farms))
		}
	}
}

// CommonFlags returns the flags that every farm of a year has in the same words: they
// are shown once.
func CommonFlags(farms []answer.FarmPart) []answer.Flag {
	var common []answer.Flag
	for _, flag := range farms[0].Flags {
		everywhere := !slices.ContainsFunc(farms, func(f answer.FarmPart) bool { return !slices.Contains(f.Flags, flag) })
		if everywhere {
			common = append(common, flag)
		}
	}
	return common
}

// farm adds one farm; flags that said has are left out.
func (r *Report) farm(f answer.FarmPart, y answer.YearPart, said func(answer.Flag) bool) {
	r.heading(3, fmt.Sprintf("Farm %s, %s, crop year %d", wording.Farm(f.Farm, y.Farms), wording.HomeCounty(f), y.CropYear))
	for _, c := range f.Commodities {
		r.commodity(c, marginOnAll(y.Standing, f.Farm, c.Commodity))
	}
	r.individual(f.ARCIC)
	r.elections(f)
	r.criteria(f.Criteria)
	r.flags(slices.DeleteFunc(slices.Clone(f.Flags), said))
}

// marginOnAll is the margin of a crop of a farm on all its base, USD; nil where it is not
// known.
func marginOnAll(s answer.Standing, farm string, c crop.Commodity) *answer.Dollars {
	for _, l := range s.Lines {
		if l.Farm == farm && l.Commodity == c {
			return l.MarginTotal
		}
	}
	return nil
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

// cropTitle heads a crop of a farm: its base acres, PLC yield and last election.
func cropTitle(c answer.CommodityPart) string {
	title := fmt.Sprintf("%s: %s base acres", wording.Capital(c.Commodity.Name()), wording.Plain(&c.BaseAcres))
	if c.PaymentYield != nil {
		title += fmt.Sprintf(", PLC yield %s %s", wording.Plain(c.PaymentYield), c.Commodity.Unit().Yield())
	}
	if c.OnRecord != nil {
		title += ", last elected " + string(*c.OnRecord)
	}
	return title
}

// commodity adds the answer for a crop, its short table, what could change it and what was
// used. total is the margin on all its base, USD.
func (r *Report) commodity(c answer.CommodityPart, total *answer.Dollars) {
	r.heading(4, cropTitle(c))
	r.text(wording.Sentences(outcomes(c), verdictOnAll(c, total), afterLimitSentence(c)))
	r.text(shareSentence(c))
	if c.Programs.Any() {
		r.table(programTable(c))
	}
	if c.NotEnrolled != nil {
		r.text(fmt.Sprintf("Not enrolled: %s. STAX is bought, and it does not go with an enrolled base. Ask the insurance agent and the county office before signing.", wording.Money(c.NotEnrolled)))
	}
	r.text(whatCouldChange(c))
	if len(c.Elsewhere) > 0 {
		r.table(elsewhereTable(c))
	}
	r.notes(figuresUsed(c))
}

// figuresUsed names the price and the county yields that the odds of a crop stand on.
func figuresUsed(c answer.CommodityPart) (said []string) {
	if c.MYA != nil {
		said = append(said, wording.PriceUsed(c)+" "+wording.LawPrices(c))
	}
	for _, b := range c.Bases {
		if b.BaseAcres > 0 || len(c.Bases) == 1 {
			said = append(said, baseSentence(c, b))
		}
	}
	return said
}

// programTable is the short table of a commodity.
func programTable(c answer.CommodityPart) Table {
	t := Table{Title: "Dollars per base acre", Columns: []string{""}}
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
	{"average", func(p *answer.ProgramPart) string { return wording.Money(&p.Mean) }},
	{"pays in, of 100 outcomes", func(p *answer.ProgramPart) string { return wording.InHundred(p.ChanceOfPayment) }},
	{"average when it pays", func(p *answer.ProgramPart) string {
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
const costRow = "average given up by being in it"

// percentile returns a function that writes a case of a program, by its place.
func percentile(i int) func(*answer.ProgramPart) string {
	return func(p *answer.ProgramPart) string { d := answer.Dollars(p.Percentiles[i]); return wording.Money(&d) }
}

// poor, middle and good are the places of the cases in answer.Percentiles.
const poor, middle, good = answer.Tenth, answer.Half, answer.Ninetieth

// baseSentence says which county yield the odds of a base stand on, and its guarantee.
func baseSentence(c answer.CommodityPart, b answer.BasePart) string {
	said := wording.YieldUsed(c, b)
	if b.CountyYield == nil {
		return said
	}
	if b.BenchmarkYield == nil {
		return said + " Its benchmark yield is not known."
	}
	return said + fmt.Sprintf(" Benchmark yield %s%s, guarantee %s an acre%s, on %s base acres.",
		wording.Plain(b.BenchmarkYield), wording.Mark(b.BenchmarkStatus), wording.Whole(b.Guarantee), wording.Mark(b.GuaranteeStatus), wording.Plain(&b.BaseAcres))
}

// elections adds the whole farm under each mix of programs.
func (r *Report) elections(f answer.FarmPart) {
	t := Table{
		Title:   "The whole farm under each mix of programs, dollars in all",
		Columns: []string{"", "average", "poor", "middle", "good", "after limit*"},
		Notes:   []string{"* average " + wording.AfterLimit + ", counting this farm only"},
	}
	for _, e := range f.Elections {
		row := []string{wording.Programs(e.Choice), wording.Whole(e.Mean), "unknown", "unknown", "unknown", wording.Whole(e.MeanAfterLimit)}
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

// operation adds the whole operation under the choices with the highest averages after
// limits.
func (r *Report) operation(y answer.YearPart) {
	o := y.Operation
	r.heading(3, fmt.Sprintf("The whole operation, crop year %d", y.CropYear))
	if o.Mean == nil {
		r.text("No farm has figures for both programs.")
		return
	}
	t := Table{Title: "The programs that average most after limits", Columns: []string{"farm", "programs"}}
	for _, f := range y.Farms {
		if choice := o.HighestMean[f.Farm]; len(choice) > 0 {
			t.Rows = append(t.Rows, []string{wording.Farm(f.Farm, y.Farms), wording.Programs(choice)})
		}
	}
	r.table(t)
	r.text(operationAverage(o))
	r.text(limitCost(o))
	if last := o.UnderElections(answer.LastElected); last != nil && last.MeanAfterLimit != nil || o.UnderElections(answer.TypedChoice) != nil {
		r.table(underTable(y))
	}
	people := Table{Title: "By person, dollars on average", Columns: []string{"", "own share", "reaches the limit*", "after limit and sequestration"}, Notes: []string{"* of 100 outcomes"}}
	for _, p := range o.ByPerson {
		people.Rows = append(people.Rows, []string{p.ID, wording.Money(&p.Mean), wording.InHundred(p.ChanceOfLimit), wording.Money(&p.MeanAfterLimit)})
	}
	r.table(people)
	r.people(y)
	if len(o.LeftOut) > 0 {
		r.text("Left out, because a figure is missing: " + wording.Joined(wording.FarmsAndCrops(o.LeftOut, y.Farms)) + ".")
	}
}

// underNames are the sets of elections of an operation in words.
var underNames = map[answer.UnderName]string{answer.LastElected: "as last elected", answer.AsItLeans: "as each crop leans", answer.TypedChoice: "under the choices typed here"}

// underTable is the whole operation as last elected, as each crop leans and as typed.
func underTable(y answer.YearPart) Table {
	t := Table{Title: "All people in this file together, dollars " + wording.AfterLimit, Columns: []string{"", "1 in 10 is lower", "half are lower", "average"}}
	for _, u := range y.Operation.Under {
		if u.MeanAfterLimit == nil {
			continue
		}
		row := []string{underNames[u.Elections], "unknown", "unknown", wording.Whole(u.MeanAfterLimit)}
		if u.Percentiles != nil {
			for i, at := range []int{poor, middle} {
				d := answer.Dollars(u.Percentiles[at])
				row[1+i] = wording.Whole(&d)
			}
		}
		t.Rows = append(t.Rows, row)
		if len(u.LeftOut) > 0 {
			t.Notes = append(t.Notes, underNames[u.Elections]+": without "+wording.Joined(wording.FarmsAndCrops(u.LeftOut, y.Farms)))
		}
		if u.ARCICInside {
			t.Notes = append(t.Notes, underNames[u.Elections]+": with ARC-IC, whose figures are not confirmed")
		}
	}
	return t
}

// operationAverage says what the programs that average most come to for all people of the
// file, with a poor case where it is known.
func operationAverage(o answer.OperationPart) string {
	said := fmt.Sprintf("With these programs the people in this file average %s in all, %s.", wording.Whole(o.MeanAfterLimit), wording.AfterLimit)
	if o.Percentiles != nil {
		low := answer.Dollars(o.Percentiles[poor])
		if low < program.HalfCent {
			said += " In at least 1 of 10 outcomes it is $0."
		} else {
			said += fmt.Sprintf(" In 1 of 10 outcomes it is %s or less.", wording.Whole(&low))
		}
	}
	for _, choice := range o.HighestMean {
		if slices.Contains(slices.Collect(maps.Values(choice)), farm.ARCIC) {
			return said + " This counts an ARC-IC figure that is not confirmed."
		}
	}
	return said
}

// when adds the first days on which payments can come, a line for each.
func (r *Report) when(y answer.YearPart) {
	crops, tax := map[string][]string{}, map[string]int{}
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if name := c.Commodity.Name(); !slices.Contains(crops[c.PaymentNotBefore], name) {
				crops[c.PaymentNotBefore] = append(crops[c.PaymentNotBefore], name)
			}
			tax[c.PaymentNotBefore] = c.TaxYear
		}
	}
	for _, day := range slices.Sorted(maps.Keys(crops)) {
		said := wording.Payday(y.CropYear, day, tax[day])
		if len(crops) > 1 {
			said = wording.Capital(wording.Joined(crops[day])) + ". " + said
		}
		r.text(said + " The average is not money to count on.")
	}
}
