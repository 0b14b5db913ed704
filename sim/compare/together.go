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

// together sets the crop years of each farm and commodity side by side and adds them up;
// series are by crop year, farm and commodity. It is empty for one crop year.
func (r *run) together(years []answer.YearPart, series [][][]perAcre) []answer.Together {
	all := []answer.Together{}
	if len(years) < 2 || r.question.Brief {
		return all
	}
	var sums [][]perAcre
	for f, first := range years[0].Farms {
		for k, part := range first.Commodities {
			t := answer.Together{Farm: first.Farm, Commodity: part.Commodity}
			var byYear []perAcre
			for i, y := range years {
				t.Years = append(t.Years, yearLine(r.question, y.CropYear, y.Farms[f].Commodities[k]))
				byYear = append(byYear, series[i][f][k])
			}
			all, sums = append(all, t), append(sums, byYear)
		}
	}
	parallel.Do(len(all), func(i int) {
		all[i].Total = r.total(all[i].Years, sums[i])
		for k := 1; k < len(years); k++ {
			line := &all[i].Years[k]
			line.ChoosingAgain = r.choosingAgain(all[i].Commodity, line.CropYear, sums[i][k])
		}
	})
	return all
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

// total adds up the crop years scenario by scenario: a scenario is one path through all
// of them. It is nil where a year lacks a figure.
func (r *run) total(lines []answer.YearLine, byYear []perAcre) *answer.Total {
	b := r.paths.Buffers
	plc, arc, lead, difference := b.Zeros(), b.Zeros(), b.Zeros(), b.Zeros()
	defer b.Release(plc, arc, lead, difference)
	for i, y := range byYear {
		if y.plc == nil || y.arc == nil {
			return nil
		}
		leading := y.plc
		if lines[i].Leans == answer.LeadsARCCO {
			leading = y.arc
		}
		discount := float64(lines[i].Discount)
		y.plc.Times(discount).Fill(plc)
		y.arc.Times(discount).Fill(arc)
		leading.Times(discount).Fill(lead)
	}
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
