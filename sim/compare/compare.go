package compare

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
)

// Prepare makes the tables that a comparison needs. Callers run it while files are read.
func Prepare() { odds.Prepare() }

// Answer answers the main question for every crop year asked about. Figures that are
// missing are nil and raise a flag; an error means that the law or the correlations do
// not allow the question at all.
func Answer(c answer.Question) (answer.Comparison, error) {
	r := newRun(c)
	r.alone = true
	return r.answer()
}

func (r *run) answer() (answer.Comparison, error) {
	c := r.question
	out := answer.Comparison{
		Format: answer.ComparisonFormat, Today: c.Today.Format(time.DateOnly), Seed: c.Seed,
		Draws:   odds.NewScenarios(c.Seed, c.Draws).N(),
		Model:   modelOf(c),
		Market:  answer.MarketDate{AsOf: c.Market.AsOf.Format(time.DateOnly), Source: c.Market.Source},
		Caution: answer.Caution(),
	}
	out.CropYears = make([]answer.YearPart, len(c.CropYears))
	together := r.newTogether()
	for i, y := range c.CropYears { // one after the other: each uses the memory that the last one released
		one, err := r.year(y)
		if err == nil {
			var sums [][]perAcre
			if out.CropYears[i], sums, err = one.answer(); err == nil {
				together.add(out.CropYears[i], sums)
			}
		}
		if err != nil {
			return answer.Comparison{}, fmt.Errorf("crop year %d: %w", y, err)
		}
		if r.alone {
			one.Year.Forget()
		}
	}
	out.Together = together.all()
	out.ChangeFrom, out.ChangeSource = changeFrom(c.CropYears)
	return out, nil
}

// modelOf says which odds were asked for.
func modelOf(c answer.Question) answer.Model {
	m := answer.Model{Name: answer.UsualOdds, Tail: answer.NormalTail}
	if c.Tail == answer.StudentTTail {
		m.Tail, m.Note = answer.StudentTTail, "a stress, not the usual odds: extreme prices and yields of one year come together more often than past years show"
	}
	if c.Model == answer.PastHistory {
		years := odds.PastYears()
		m.Name = answer.PastHistory
		m.Note = fmt.Sprintf("a replay of %d past years (%d to %d), not the usual odds. Each outcome takes how far USDA's May price and the county yields were off in one of them. Price and yield stay linked as they were then, also after harvest. Each crop year takes a past year of its own. %d years are few: nothing rarer than 1 in %d is shown", len(years), years[0], years[len(years)-1], len(years), len(years))
	}
	return m
}

// answer answers for the crop year. sums are what PLC and ARC-CO pay per base acre, by
// farm and commodity, for the sum over crop years.
func (r *YearRun) answer() (year answer.YearPart, sums [][]perAcre, err error) {
	farms := make([]farmRun, len(r.question.Operation.Farms))
	parallel.DoUnless(r.question.Brief, len(farms), func(i int) { farms[i] = r.farmOf(r.question.Operation.Farms[i]) })
	for _, f := range farms {
		if f.err != nil {
			return year, nil, f.err
		}
		sums = append(sums, f.perAcre())
	}
	year.CropYear = r.Year.CropYear
	if year.Farms, err = r.farmParts(farms); err != nil {
		return year, nil, err
	}
	var reached []limits.LimitReached
	var after map[limits.FarmCommodity]limits.DifferenceAfterLimit
	year.Operation, reached, after = r.operation(farms)
	for _, f := range year.Farms {
		for k, part := range f.Commodities {
			f.Commodities[k].AfterLimit = afterLimitView(after[limits.FarmCommodity{Farm: f.Farm, Commodity: part.Commodity}], part.BaseAcres)
		}
	}
	year.Standing = r.standing(year, farms, after)
	for i, f := range farms {
		year.Farms[i].Flags = append(year.Farms[i].Flags, r.limitFlags(year.Operation, reached, f.farm)...)
		for _, all := range f.payoffs {
			all.ReleaseOwned(r.Year.Buffers)
		}
	}
	return year, sums, nil
}

// farmOf resolves one farm, pays its bases in every scenario and describes each
// commodity.
func (r *YearRun) farmOf(f farm.Farm) farmRun {
	out := farmRun{farm: f}
	out.bases, out.err = r.Year.CommodityBases(f, r.Year.CropYear)
	out.commodities, out.payoffs = make([]answer.CommodityPart, len(out.bases)), make([]payoff.Payoffs, len(out.bases))
	parallel.DoUnless(r.question.Brief, len(out.bases), func(i int) { out.commodities[i], out.payoffs[i] = r.commodity(out.bases[i]) })
	if out.err == nil {
		out.err = r.addIndividual(&out)
	}
	return out
}

// farmParts adds to each farm what its producers are paid, and returns the farms with
// elections, criteria and the flags that need no operation.
func (r *YearRun) farmParts(farms []farmRun) ([]answer.FarmPart, error) {
	parts, failures := make([]answer.FarmPart, len(farms)), make([]error, len(farms))
	parallel.DoUnless(r.question.Brief, len(farms), func(i int) {
		farms[i].payments = r.farmPayments(farms[i])
		f := farms[i]
		contract, stated := f.farm.Contract.In(r.Year.CropYear)
		if !stated {
			contract = farm.Open
		}
		elections := r.elections(f)
		var criteria *answer.CriteriaPart
		criteria, failures[i] = r.criteria(f, elections)
		insurance, err := r.insurance(f)
		failures[i] = errors.Join(failures[i], err)
		parts[i] = answer.FarmPart{
			Farm: f.farm.Key(), Contract: contract, Lease: f.farm.Lease, Commodities: f.commodities, ARCIC: f.arcIC, Elections: elections, Whole: r.wholeFarm(f), Criteria: criteria, Insurance: insurance, Flags: r.flags(f),
		}
	})
	return parts, errors.Join(failures...)
}

// flags returns the flags of a farm, among them those that depend on who leads.
func (r *YearRun) flags(f farmRun) []answer.Flag {
	if r.onlyEarned() {
		return nil
	}
	c := flag.Case{Question: r.question, Farm: f.farm, CropYear: r.Year.CropYear, Bases: f.bases, Rules: r.rules, Individual: f.individual, Repairs: r.Year.Sampler.Repairs(), Rates: r.Year, Published: r.shared.published, Commodities: f.commodities}
	c.ARCLeads = slices.ContainsFunc(f.commodities, func(p answer.CommodityPart) bool { return p.Leader == answer.LeadsARCCO })
	return c.Raise()
}

// limitFlags returns the flags of a farm about persons of several operations, then about
// limits that are reached.
func (r *YearRun) limitFlags(operation answer.OperationPart, reached []limits.LimitReached, f farm.Farm) []answer.Flag {
	flags := r.acrossFlags(operation, f)
	if len(reached) == 0 {
		return flags
	}
	concerned := r.rules.ReachedFrom(f)
	for _, l := range reached {
		if raised, limited := flag.OfLimit(l, r.rules); limited && concerned[l.Recipient] {
			flags = append(flags, raised)
		}
	}
	return flags
}
