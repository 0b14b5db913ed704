package compare

import (
	"maps"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// worstTenth is the share of outcomes whose average is shown: the worst 10 of 100.
const worstTenth = 0.10

// cropTogether fills in each program of a crop alone, with each layer and with all layers
// that go together, and how often both pay.
func (r *YearRun) cropTogether(f farmRun, one *insuredRun, part *answer.InsuredCrop) {
	var programs []*payoff.Payoff
	if one.base >= 0 {
		programs = shownPrograms(f.payoffs[one.base])
	}
	programs = append(programs, nil) // layers alone
	bought := one.bought()
	for _, p := range programs {
		var id farm.Program
		base := r.Year.Zeros()
		if p != nil {
			id = p.Program
			p.Total().Add(base, 0)
			part.Together = append(part.Together, r.insuredRow(f, one, id, nil, base))
		}
		allowed := r.allowed(f.farm, one, id, &part.Apart)
		for _, i := range bought {
			if !slices.Contains(allowed, i) {
				continue
			}
			part.Together = append(part.Together, r.insuredRow(f, one, id, []int{i}, base))
			if p != nil {
				part.Overlap = append(part.Overlap, r.overlap(p, base, one.layers[i]))
			}
		}
		if all := r.stacked(one, allowed, &part.Apart); len(all) > 1 {
			part.Together = append(part.Together, r.insuredRow(f, one, id, all, base))
		}
		r.Year.Release(base)
	}
}

// shownPrograms are those that a crop is elected into: PLC and ARC-CO; where the law pays the
// higher of both, that alone. ARC-IC is a choice of the whole farm.
func shownPrograms(all payoff.Payoffs) []*payoff.Payoff {
	if higher := all.Of(farm.HigherOf); higher != nil {
		return []*payoff.Payoff{higher}
	}
	return payoff.Without(all, farm.ARCIC)
}

// bought are the places of the layers that can be had.
func (one *insuredRun) bought() (places []int) {
	for i, p := range one.layers {
		if p != nil {
			places = append(places, i)
		}
	}
	return places
}

// allowed are the places of the layers that go with a program on the crop; why others do not
// is added to apart.
func (r *YearRun) allowed(f farm.Farm, one *insuredRun, p farm.Program, apart *[]string) (places []int) {
	for _, i := range one.bought() {
		why := flag.NotTogether(f, one.crop.Commodity, r.Year.CropYear, p, one.layers[i].Program)
		*apart = flag.AppendOnce(*apart, why)
		if why == "" {
			places = append(places, i)
		}
	}
	return places
}

// stacked are those of some layers that stand on the same acres: each that goes with all
// before it.
func (r *YearRun) stacked(one *insuredRun, places []int, apart *[]string) (all []int) {
	for _, i := range places {
		fits := true
		for _, j := range all {
			why := flag.LayersApart(one.layers[j].Program, one.layers[i].Program, r.Year.CropYear)
			*apart = flag.AppendOnce(*apart, why)
			fits = fits && why == ""
		}
		if fits {
			all = append(all, i)
		}
	}
	return all
}

// insuredRow describes a program (its dollars by scenario are base) with some layers of a crop.
func (r *YearRun) insuredRow(f farmRun, one *insuredRun, p farm.Program, layers []int, base []float64) answer.InsuranceRow {
	series := r.Year.Acquire()
	defer r.Year.Release(series)
	copy(series, base)
	missing := one.addTo(series, layers)
	row := r.rowOf(series, missing, one.crop.Acres, one.baseAcres(f))
	row.Program = p
	for _, i := range layers {
		row.Layers = append(row.Layers, one.layers[i].Program)
	}
	return row
}

// baseAcres of the crop on the farm.
func (one *insuredRun) baseAcres(f farmRun) crop.Acres {
	if one.base < 0 {
		return 0
	}
	return f.bases[one.base].Acres
}

// addTo adds what some layers pay less their premiums; missing is true where one is not typed.
func (one *insuredRun) addTo(series []float64, layers []int) (missing bool) {
	for _, i := range layers {
		one.layers[i].ByPart[0].Add(series, 1, 0)
		if one.premium[i] == nil {
			missing = true
			continue
		}
		for k := range series {
			series[k] -= *one.premium[i]
		}
	}
	return missing
}

// rowOf describes a series of dollars; without figures where a premium is missing.
func (r *YearRun) rowOf(series []float64, missing bool, insured, base crop.Acres) answer.InsuranceRow {
	row := answer.InsuranceRow{Layers: []farm.Program{}, PremiumMissing: missing}
	if missing {
		return row
	}
	mean := odds.Mean(series)
	row.Average, row.PerInsuredAcre = answer.DollarsOf(mean), answer.DollarsOf(mean/insured)
	if base > 0 {
		row.PerBaseAcre = answer.DollarsOf(mean / base)
	}
	if r.Year.Resolves(lowTenth) {
		low, _ := tenthsOf(series)
		row.Poor, row.Worst = answer.DollarsOf(low), answer.DollarsOf(odds.MeanOfWorst(series, worstTenth))
	}
	return row
}

// overlap counts the outcomes in which a program (dollars by scenario in base) and a layer pay.
func (r *YearRun) overlap(p *payoff.Payoff, base []float64, layer *payoff.Payoff) answer.Overlap {
	out, n := answer.Overlap{Program: p.Program, Layer: layer.Program}, answer.Chance(1/float64(len(base)))
	rates, _, _ := layer.OneRate()
	for i, paid := range base {
		switch program, area := paid > 0, rates[i] > 0; {
		case program && area:
			out.Both += n
		case program:
			out.OnlyProgram += n
		case area:
			out.OnlyLayer += n
		default:
			out.Neither += n
		}
	}
	return out
}

// wholeFarmInsured adds the whole farm under PLC, under ARC-CO, as its crops lean and as last
// elected, without and with all layers that go together.
func (r *YearRun) wholeFarmInsured(f farmRun, runs []insuredRun, out *answer.Insurance) {
	var commodities []crop.Commodity
	for i, base := range f.bases {
		if !f.payoffs[i].Complete() {
			return
		}
		commodities = append(commodities, base.Commodity)
	}
	for _, one := range runs {
		if one.crop.Missing != "" {
			return
		}
	}
	choices := []answer.Choice{r.highest(f)}
	if !position.PaysHigherOf(r.Year.CropYear) { // else nothing is elected
		choices = []answer.Choice{sameChoice(commodities, farm.PLC), sameChoice(commodities, farm.ARCCO), r.highest(f)}
		if f.recorded() && len(f.bases) > 0 {
			choices = append(choices, answer.Choice(f.farm.Record))
		}
	}
	for i, choice := range choices {
		if slices.ContainsFunc(choices[:i], func(o answer.Choice) bool { return maps.Equal(o, choice) }) {
			continue
		}
		for _, insured := range []bool{false, true} {
			out.WholeFarm = append(out.WholeFarm, r.wholeRow(f, runs, choice, insured, out))
		}
	}
}

// wholeRow is the whole farm under a choice, with or without its layers.
func (r *YearRun) wholeRow(f farmRun, runs []insuredRun, choice answer.Choice, insured bool, out *answer.Insurance) answer.InsuranceRow {
	series := r.Year.Zeros()
	defer r.Year.Release(series)
	for i, base := range f.bases {
		f.payoffs[i].Of(choice[base.Commodity]).Total().Add(series, 0)
	}
	missing, held := false, []farm.Program{}
	for k := range runs {
		if !insured {
			break
		}
		var ignored []string
		one := &runs[k]
		places := r.stacked(one, r.allowed(f.farm, one, choice[one.crop.Commodity], &ignored), &ignored)
		missing = one.addTo(series, places) || missing
		for _, i := range places {
			if !slices.Contains(held, one.layers[i].Program) {
				held = append(held, one.layers[i].Program)
			}
		}
	}
	row := r.rowOf(series, missing, float64(out.InsuredAcres), float64(out.BaseAcres))
	row.Choice, row.Layers = choice, held
	return row
}
