package compare

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// criteria returns what the criteria asked for say of the elections of a farm; nil where
// none was asked. A figure that is missing is named in the result; an error is the
// law's.
func (r *YearRun) criteria(f farmRun, elections []answer.Election) (*answer.CriteriaPart, error) {
	if len(r.question.Criteria) == 0 {
		return nil, nil
	}
	part := &answer.CriteriaPart{Asked: r.question.Criteria, YieldFrom: []string{}, Choices: []answer.CriteriaChoice{}}
	revenue, missing, err := r.cropRevenue(f, part)
	defer r.Year.Release(revenue)
	if err != nil || missing != "" {
		part.Missing = missing
		return part, err
	}
	income := r.Year.Acquire()
	defer r.Year.Release(income)
	other := 0.0
	for _, p := range r.question.Operation.Producers {
		if position.HasShare(f.farm, p.ID, r.Year.CropYear) {
			other += p.OtherIncome
		}
	}
	for i, x := range revenue {
		income[i] = x + other
	}
	sum := describeSum(r.Year.Buffers, income)
	part.Income = &sum
	payments := r.electionSeries(f, elections, part)
	for i := range part.Choices {
		r.judge(&part.Choices[i], i, payments, income, revenue)
	}
	for _, series := range payments {
		r.Year.Release(series)
	}
	return part, nil
}

// electionSeries returns what each election with a mean pays, USD by scenario before
// share and limit, and lists those elections in part. Release the series.
func (r *YearRun) electionSeries(f farmRun, elections []answer.Election, part *answer.CriteriaPart) [][]float64 {
	var payments [][]float64
	for _, e := range elections {
		if e.Mean == nil {
			continue
		}
		series := r.Year.Zeros()
		for _, k := range electionsUnder(f.farm.Key(), e.Choice) {
			f.payments.Totals[k].Add(series, 0)
		}
		payments = append(payments, series)
		part.Choices = append(part.Choices, answer.CriteriaChoice{Choice: e.Choice, Mean: *e.Mean})
	}
	return payments
}

// cropRevenue returns what the covered crops planted on the farm sell for, USD by
// scenario: acres x own yield x national price. missing names the figure without which
// there is none.
func (r *YearRun) cropRevenue(f farmRun, part *answer.CriteriaPart) (revenue []float64, missing string, err error) {
	revenue = r.Year.Zeros()
	planted := false
	for _, c := range crop.Commodities() {
		acres := f.farm.PlantedAcres(string(c), r.Year.CropYear)
		if acres == 0 {
			continue
		}
		planted = true
		yields, from, missing, err := r.farmYields(f, c)
		if err != nil || missing != "" {
			return revenue, missing, err
		}
		decimals, err := position.PriceDecimals(c, r.Year.CropYear)
		if err != nil {
			return revenue, "", err
		}
		price, ok := r.Year.Price(c, r.Year.CropYear, decimals)
		if !ok {
			return revenue, "a projected price of " + c.Name(), nil
		}
		for i, mya := range r.Year.Prices(c, price) {
			revenue[i] += acres * yields[i] * mya
		}
		part.YieldFrom = append(part.YieldFrom, c.Name()+": "+from)
	}
	if !planted {
		return revenue, fmt.Sprintf("the covered acres planted on the farm in crop year %d (planted)", r.Year.CropYear), nil
	}
	return revenue, "", nil
}

// farmYields returns the farm's own yield by scenario, units per acre: as ARC-IC has it,
// else the county's with the variation of a single farm added (assumed).
func (r *YearRun) farmYields(f farmRun, c crop.Commodity) (yields []crop.Yield, from, missing string, err error) {
	n, err := position.NationalOf(r.question.Market, c, r.Year.CropYear)
	if err != nil {
		return nil, "", "", err
	}
	k := position.IndividualCrop{Commodity: c, National: n, Planted: 1}
	k.Resolve(r.question.Sources(), f.farm, r.Year.CropYear)
	if k.Yield.Mean == 0 {
		if !k.County.Known {
			return nil, "", "a yield of " + c.Name() + " for the farm or its county", nil
		}
		cv := k.County.Outlook.SD / k.County.Outlook.Mean
		k.Yield = position.OwnYield{Mean: k.County.Outlook.Mean, Ratio: 1, SD: k.County.Outlook.Mean * odds.FarmOwnCV(cv), From: "the county's, widened to a single farm (assumed)"}
	}
	return r.Year.OwnYields(f.farm, k), k.Yield.From, "", nil
}

// judge fills in the criteria that were asked for one choice. payments are USD by choice
// and scenario, income and revenue USD by scenario before payments.
func (r *YearRun) judge(c *answer.CriteriaChoice, place int, payments [][]float64, income, revenue []float64) {
	mine := payments[place]
	with := r.Year.Acquire()
	defer r.Year.Release(with)
	for i := range with {
		with[i] = income[i] + mine[i]
	}
	for _, asked := range r.question.Criteria {
		switch asked {
		case answer.SureAmounts:
			c.SureAmount, c.SureSteady = sureAmounts(income, with)
		case answer.WorstShare:
			c.Worst = &[len(odds.Worst)]answer.Dollars{}
			for i, share := range odds.Worst {
				c.Worst[i] = answer.Dollars(odds.MeanOfWorst(with, share))
			}
		case answer.WrongElection:
			highest := slices.Clone(mine)
			for _, other := range payments {
				for i, x := range other {
					highest[i] = max(highest[i], x)
				}
			}
			c.WrongElection = answer.DollarsOf(odds.CostOfWrongPick(mine, highest))
		case answer.Dominance:
			c.FirstOrder, c.SecondOrder = dominators(place, payments, income)
		case answer.WithRevenue:
			if correlation := stat.Correlation(mine, revenue, nil); !math.IsNaN(correlation) { // a steady payment has none
				c.Correlation = answer.ChanceOf(correlation)
			}
		}
	}
}

// sureAmounts returns by how much a payment raises the certainty equivalent of the
// income, USD by risk aversion: at constant relative aversion, and at constant absolute
// aversion (the relative one over mean income). nil where income is not always above
// zero.
func sureAmounts(income, with []float64) (relative, absolute *[len(answer.Aversions)]*answer.Dollars) {
	relative, absolute = &[len(answer.Aversions)]*answer.Dollars{}, &[len(answer.Aversions)]*answer.Dollars{}
	center := odds.Mean(income)
	for i, r := range answer.Aversions {
		if gain := odds.SureAmount(with, 0, r) - odds.SureAmount(income, 0, r); !math.IsNaN(gain) { // not where income is not above zero
			relative[i] = answer.DollarsOf(gain)
		}
		switch {
		case r == 0:
			absolute[i] = relative[i]
		case center > 0:
			absolute[i] = answer.DollarsOf(odds.SureAmountAbsolute(with, r/center) - odds.SureAmountAbsolute(income, r/center))
		}
	}
	return relative, absolute
}

// dominators returns the places of the choices that dominate one, by first and by second
// order, to the cent. Equal choices do not dominate each other.
func dominators(place int, payments [][]float64, income []float64) (first, second *[]int) {
	first, second = &[]int{}, &[]int{}
	withIncome := func(payment []float64) []float64 {
		sum := slices.Clone(income)
		for i := range sum {
			sum[i] += payment[i]
		}
		return sum
	}
	mine := withIncome(payments[place])
	for i, payment := range payments {
		if i == place {
			continue
		}
		other := withIncome(payment)
		if odds.Dominates(other, mine, false, program.OneCent) && !odds.Dominates(mine, other, false, program.OneCent) {
			*first = append(*first, i)
		}
		if odds.Dominates(other, mine, true, program.OneCent) && !odds.Dominates(mine, other, true, program.OneCent) {
			*second = append(*second, i)
		}
	}
	return first, second
}
