package compare

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
)

// Prepare makes the tables that a comparison needs, while files are read.
func Prepare() { odds.Prepare() }

// Answer answers the main question for every crop year of the case. Missing
// figures leave nils and raise flags; an error means that the law or the
// correlations do not allow the question at all.
func Answer(c answer.Question) (answer.Comparison, error) { return newQuestion(c).compare() }

func (p *question) compare() (answer.Comparison, error) {
	c := p.Question
	out := answer.Comparison{
		Format: answer.ComparisonFormat, Today: c.Today.Format(time.DateOnly), Seed: c.Seed,
		Draws:   odds.NewScenarios(c.Seed, c.Draws).N(),
		Model:   modelOf(c),
		Market:  answer.MarketDate{AsOf: c.Market.AsOf.Format(time.DateOnly), Source: c.Market.Source},
		Caution: answer.Caution(),
	}
	out.CropYears = make([]answer.YearPart, len(c.CropYears))
	sums := make([][][]acreSums, len(c.CropYears))
	for i, y := range c.CropYears { // one after the other: a year gives its memory to the next
		var err error
		if out.CropYears[i], sums[i], err = p.compareYear(y); err != nil {
			return answer.Comparison{}, fmt.Errorf("crop year %d: %w", y, err)
		}
	}
	out.Together = p.together(out.CropYears, sums)
	out.ChangeFrom, out.ChangeSource = changeFrom(c.CropYears)
	return out, nil
}

// modelOf says which odds were asked for.
func modelOf(c answer.Question) answer.Model {
	m := answer.Model{Name: answer.UsualOdds, Tail: answer.NormalTail}
	if c.Tail == answer.StudentTTail {
		m.Tail, m.Note = answer.StudentTTail, "a stress, not the usual odds: extreme prices and yields of one year come together more often than they are known to"
	}
	if c.Model == answer.PastHistory {
		years := odds.PastYears()
		m.Name = answer.PastHistory
		m.Note = fmt.Sprintf("past crop years drawn again, not the usual odds: each outcome has the errors that USDA's May prices had in one of the %d years from %d to %d, and the county yields as far off their trend as in that year, both centered and at the spread of today; price and yield stay linked as in those years also after harvest, where the usual odds take them as no longer linked. Percentiles further out than 1 in %d are left out and errors are those of so few years. Each crop year takes a past year of its own, and a price that follows one not yet final carries on what is left of that year's: then outcomes are pairs of past years, and chances no whole number of them", len(years), years[0], years[len(years)-1], len(years))
	}
	return m
}

// compareYear answers for one crop year; sums are what the programs pay per base
// acre, farm by farm.
func (p *question) compareYear(y crop.CropYear) (year answer.YearPart, sums [][]acreSums, err error) {
	r, err := p.run(y)
	if err != nil {
		return year, nil, err
	}
	farms := make([]farmRun, len(r.Operation.Farms))
	parallel.DoUnless(r.Brief, len(farms), func(i int) { farms[i] = r.farm(r.Operation.Farms[i]) })
	year.CropYear = y
	for _, f := range farms {
		if f.err != nil {
			return year, nil, f.err
		}
		sums = append(sums, f.acreSums())
	}
	elections, criteria, failures := make([][]answer.Election, len(farms)), make([]*answer.CriteriaPart, len(farms)), make([]error, len(farms))
	whole := make([]*answer.WholeFarm, len(farms))
	parallel.DoUnless(r.Brief, len(farms), func(i int) {
		farms[i].money = r.money(farms[i])
		elections[i] = r.elections(farms[i])
		criteria[i], failures[i] = r.criteria(farms[i], elections[i])
		whole[i] = r.wholeFarm(farms[i])
	})
	if err := errors.Join(failures...); err != nil {
		return year, nil, err
	}
	for i, f := range farms {
		contract, stated := f.farm.Contract.In(y)
		if !stated {
			contract = farm.Open
		}
		year.Farms = append(year.Farms, answer.FarmPart{
			Farm: f.farm.Key(), Contract: contract, Commodities: f.parts, ARCIC: f.arcIC, Elections: elections[i], Whole: whole[i], Criteria: criteria[i], Flags: f.flags(r),
		})
	}
	var filled []limits.LimitReached
	var after map[limits.FarmCommodity]limits.DifferenceAfterLimit
	year.Operation, filled, after = r.operation(farms)
	for _, f := range year.Farms {
		for k := range f.Commodities {
			f.Commodities[k].AfterLimit = afterLimitView(after[limits.FarmCommodity{Farm: f.Farm, Commodity: f.Commodities[k].Commodity}], f.Commodities[k].BaseAcres)
		}
	}
	year.Standing = r.standing(year, farms, after)
	for _, f := range farms {
		for _, all := range f.payoffs {
			all.ReleaseOwned(r.Buffers)
		}
	}
	for i, f := range farms {
		year.Farms[i].Flags = append(year.Farms[i].Flags, r.severalFlags(year.Operation, f.farm)...)
		for _, l := range filled {
			if flag, concerns := flag.FlagOfLimit(l, r.people, f.farm); concerns {
				year.Farms[i].Flags = append(year.Farms[i].Flags, flag)
			}
		}
	}
	return year, sums, nil
}

// flags returns the farm's flags, those too that need to know who leads.
func (f farmRun) flags(r *Run) []answer.Flag {
	c := flag.Case{Question: r.Question, Farm: f.farm, CropYear: r.CropYear, Holdings: f.holdings, People: r.people, Individual: f.individual, Repairs: r.Sampler.Repairs(), Rates: r.Year, Seen: &r.published, Parts: f.parts}
	c.ARCLeads = slices.ContainsFunc(f.parts, func(p answer.CommodityPart) bool { return p.Leader == answer.LeadsARCCO })
	return c.Raise()
}

// Farm draws the outcomes of one farm and describes each commodity.
func (r *Run) farm(f farm.Farm) farmRun {
	out := farmRun{farm: f}
	out.holdings, out.err = r.CommodityBases(f, r.CropYear)
	out.parts, out.payoffs = make([]answer.CommodityPart, len(out.holdings)), make([]payoff.Payoffs, len(out.holdings))
	parallel.DoUnless(r.Brief, len(out.holdings), func(i int) { out.parts[i], out.payoffs[i] = r.commodity(out.holdings[i]) })
	if out.err == nil {
		out.err = r.addIndividual(&out)
	}
	return out
}
