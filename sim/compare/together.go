package compare

import (
	"math"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/scenario"
)

// perAcre is what PLC and ARC-CO pay per base acre by scenario for one farm,
// commodity and crop year; nil where a figure is missing.
type perAcre struct{ plc, arc payoff.WeightedSum }

// perAcre returns that of each commodity base of a farm.
func (f farmRun) perAcre() []perAcre {
	var all []perAcre
	for _, o := range f.payoffs {
		all = append(all, perAcre{o.SumOf(farm.PLC), o.SumOf(farm.ARCCO)})
	}
	return all
}

// together sets the crop years of each farm and commodity side by side and adds them up,
// one crop year after the other: what a year pays need not be kept.
type together struct {
	run   *run
	begun bool
	lines []answer.Together
	sums  []pathSums // by line
}

// pathSums are the crop years so far, added up scenario by scenario: a scenario is one path
// through all of them. nil where a year lacks a figure.
type pathSums struct{ plc, arc, lead []float64 }

// newTogether begins with no crop year; it is nil where there is nothing to add up.
func (r *run) newTogether() *together {
	if len(r.question.CropYears) < 2 || r.question.Brief {
		return nil
	}
	return &together{run: r, lines: []answer.Together{}}
}

// add adds a crop year; series are by farm and commodity.
func (t *together) add(year answer.YearPart, series [][]perAcre) {
	if t == nil {
		return
	}
	begin := !t.begun
	t.begun = true
	var byLine []perAcre
	k := 0
	for f, one := range year.Farms {
		for c, part := range one.Commodities {
			if begin {
				b := t.run.paths.Buffers
				t.lines = append(t.lines, answer.Together{Farm: one.Farm, Commodity: part.Commodity})
				t.sums = append(t.sums, pathSums{b.Zeros(), b.Zeros(), b.Zeros()})
			}
			t.lines[k].Years = append(t.lines[k].Years, yearLine(t.run.question, year.CropYear, part))
			byLine = append(byLine, series[f][c])
			k++
		}
	}
	parallel.Do(len(byLine), func(i int) {
		line := &t.lines[i].Years[len(t.lines[i].Years)-1]
		t.sums[i].add(t.run.paths.Buffers, *line, byLine[i])
		if !begin {
			line.ChoosingAgain = t.run.choosingAgain(t.lines[i].Commodity, line.CropYear, byLine[i])
		}
	})
}

// add adds a crop year.
func (s *pathSums) add(b *scenario.Buffers, line answer.YearLine, y perAcre) {
	if y.plc == nil || y.arc == nil {
		b.Release(s.plc, s.arc, s.lead)
		*s = pathSums{}
	}
	if s.plc == nil {
		return
	}
	leading := y.plc
	if line.Leans == answer.LeadsARCCO {
		leading = y.arc
	}
	discount := float64(line.Discount)
	y.plc.Times(discount).Fill(s.plc)
	y.arc.Times(discount).Fill(s.arc)
	leading.Times(discount).Fill(s.lead)
}

// all returns the lines with their totals; empty for one crop year.
func (t *together) all() []answer.Together {
	if t == nil {
		return []answer.Together{}
	}
	parallel.Do(len(t.lines), func(i int) { t.lines[i].Total = t.run.total(t.sums[i]) })
	return t.lines
}

func yearLine(c answer.Question, y crop.CropYear, part answer.CommodityPart) answer.YearLine {
	line := answer.YearLine{CropYear: y, Difference: part.Difference, Leader: part.Leader, Leans: part.Leans, Discount: answer.Chance(discount(c, part.Commodity, y)), ShareAssumed: part.AssumedShare != nil}
	if p := part.Programs.Of(farm.PLC); p != nil {
		line.PLC = &p.Mean
	}
	if p := part.Programs.Of(farm.ARCCO); p != nil {
		line.ARCCO = &p.Mean
	}
	return line
}

// discount returns the factor by which a payment of a crop year counts today, at the
// user's yearly rate from its first possible day on; 1 where that day is past or not
// known.
func discount(c answer.Question, commodity crop.Commodity, y crop.CropYear) float64 {
	const daysOfYear = 365.25
	day, known := FirstPaymentDay(commodity, y)
	if !known || !day.After(c.Today) {
		return 1
	}
	years := day.Sub(c.Today).Hours() / 24 / daysOfYear
	return math.Pow(1+c.Operation.Settings.DiscountRate, -years)
}

// total describes the sums of all crop years. It is nil where a year lacks a figure.
func (r *run) total(s pathSums) *answer.Total {
	if s.plc == nil {
		return nil
	}
	b := r.paths.Buffers
	plc, arc, lead, difference := s.plc, s.arc, s.lead, b.Acquire()
	defer b.Release(plc, arc, lead, difference)
	neither := 0
	for i := range plc {
		difference[i] = arc[i] - plc[i]
		if plc[i] == 0 && arc[i] == 0 {
			neither++
		}
	}
	more := func(sign float64) answer.Chance {
		return answer.Chance(odds.Share(difference, func(x float64) bool { return sign*x > 0 }))
	}
	return &answer.Total{
		DiscountRate: answer.Chance(r.question.Operation.Settings.DiscountRate),
		PLC:          describeSum(b, plc), ARCCO: describeSum(b, arc), EachYearsLead: meanOf(b, lead), Difference: meanOf(b, difference),
		ARCCOMore: more(1), PLCMore: more(-1), NeitherPays: answer.Chance(float64(neither) / float64(len(plc))),
	}
}

func meanOf(b *scenario.Buffers, values []float64) answer.Mean {
	s := b.Summarize(values)
	return answer.Mean{Mean: answer.Dollars(s.Mean), StandardError: answer.Dollars(s.StandardError)}
}

func describeSum(b *scenario.Buffers, values []float64) answer.Sum {
	s := b.Summarize(values)
	return answer.Sum{Mean: answer.Dollars(s.Mean), StandardError: answer.Dollars(s.StandardError), Percentiles: answer.Percentiles(b.PercentilesAlone(values))}
}

// changeFrom returns the first of some crop years in which the law lets the election be
// changed every year, 0 for none, with its citation.
func changeFrom(years []crop.CropYear) (first crop.CropYear, source string) {
	for _, y := range years {
		if rule, yearly := yearlyChange(y); yearly && (first == 0 || y < first) {
			first, source = y, rule.Citation()
		}
	}
	return first, source
}

// yearlyChange reports whether the law lets the election be changed for a crop year, with
// the row that says so.
func yearlyChange(y crop.CropYear) (rule law.Figure, yearly bool) {
	rule, err := law.Find("election_rule", "", y)
	return rule, err == nil && rule.Text == "yearly_change_allowed"
}
