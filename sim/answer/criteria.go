package answer

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Criterion is one more way to look at the choices of a farm.
type Criterion string

// The criteria.
const (
	SureAmounts Criterion = "sure_amount" // the sure amount worth the same, by risk aversion
	WorstShare  Criterion = "worst"       // average of the worst outcomes of income and payment
	WrongPick   Criterion = "wrong_pick"  // what the choice gives away against the others
	Dominance   Criterion = "dominance"   // which choices nobody would take instead
	WithRevenue Criterion = "revenue"     // correlation of the payment with crop revenue
)

// Criteria returns all in the order in which they are shown.
func Criteria() []Criterion {
	return []Criterion{SureAmounts, WorstShare, WrongPick, Dominance, WithRevenue}
}

// ParseCriteria reads "sure_amount,worst" or "all".
func ParseCriteria(text string) ([]Criterion, error) {
	if text == "all" {
		return Criteria(), nil
	}
	var asked []Criterion
	for _, word := range strings.Split(text, ",") {
		c := Criterion(strings.TrimSpace(word))
		if !slices.Contains(Criteria(), c) {
			return nil, fmt.Errorf("%q is not one of %v", word, Criteria())
		}
		if !slices.Contains(asked, c) {
			asked = append(asked, c)
		}
	}
	return asked, nil
}

// Aversions are the relative risk aversions that sure amounts are given for: none,
// slight, usual, strong.
var Aversions = [...]float64{0, 1, 2, 4}

// CriteriaPart looks at the choices of one farm beside its crop revenue. Income is
// the crop revenue of the planted acres at the drawn national price and own yield,
// and the producers' other income; costs are left out. Figures are USD in total.
type CriteriaPart struct {
	Asked     []Criterion      `json:"asked"`
	Missing   string           `json:"missing"` // why there are no figures; "" when there are
	Income    *Sum             `json:"income"`  // before payments
	YieldFrom []string         `json:"yield_from"`
	Choices   []CriteriaChoice `json:"choices"`
}

// CriteriaChoice is one election; what was not asked is nil.
type CriteriaChoice struct {
	Choice      Choice                    `json:"choice"`
	Mean        Dollars                   `json:"mean"`
	SureAmount  *[len(Aversions)]*Dollars `json:"sure_amount"`          // of the payment beside the income, by Aversions; null where income is not above zero
	SureSteady  *[len(Aversions)]*Dollars `json:"sure_amount_absolute"` // the same at constant absolute aversion, Aversions over the average income
	Worst       *[len(odds.Worst)]Dollars `json:"worst_10_20"`          // income and payment
	WrongPick   *Dollars                  `json:"cost_of_wrong_pick"`   // against the highest of all choices in each outcome
	FirstOrder  *[]int                    `json:"dominated_by"`         // places of choices that pay with income no less at any chance
	SecondOrder *[]int                    `json:"dominated_for_averse"`
	Correlation *Chance                   `json:"correlation_with_crop_revenue"`
}

// criteria looks at the elections of a farm; nil where nothing was asked.
func (r *run) criteria(f farmRun, elections []Election) (*CriteriaPart, error) {
	if len(r.Criteria) == 0 {
		return nil, nil
	}
	part := &CriteriaPart{Asked: r.Criteria, YieldFrom: []string{}, Choices: []CriteriaChoice{}}
	revenue, missing, err := r.cropRevenue(f, part)
	if err != nil || missing != "" {
		part.Missing = missing
		return part, err
	}
	defer r.give(revenue)
	income := r.take()
	defer r.give(income)
	other := 0.0
	for _, p := range r.Operation.Producers {
		if hasShare(f.farm, p.ID, r.cropYear) {
			other += p.OtherIncome
		}
	}
	for i, x := range revenue {
		income[i] = x + other
	}
	sum := describeSum(r.yearRates.drawnYear.paths.buffers, income)
	part.Income = &sum
	payments := r.paymentsOf(f, elections, part)
	for i := range part.Choices {
		r.judge(&part.Choices[i], i, payments, income, revenue)
	}
	for _, series := range payments {
		r.give(series)
	}
	return part, nil
}

// paymentsOf lays out the elections that have figures, a series for each.
func (r *run) paymentsOf(f farmRun, elections []Election, part *CriteriaPart) [][]float64 {
	var payments [][]float64
	for _, e := range elections {
		if e.Mean == nil {
			continue
		}
		series := r.zeros()
		for _, k := range picksOf(f.farm.Key(), e.Choice) {
			f.money.totals[k].add(series, 0)
		}
		payments = append(payments, series)
		part.Choices = append(part.Choices, CriteriaChoice{Choice: e.Choice, Mean: *e.Mean})
	}
	return payments
}

// cropRevenue returns what the planted covered acres bring in each draw, USD.
func (r *run) cropRevenue(f farmRun, part *CriteriaPart) (revenue []float64, missing string, err error) {
	revenue = r.zeros()
	planted := false
	for _, c := range crop.Commodities() {
		acres := f.farm.PlantedAcres(string(c), r.cropYear)
		if acres == 0 {
			continue
		}
		planted = true
		yields, from, missing, err := r.farmYields(f, c)
		if err != nil || missing != "" {
			return revenue, missing, err
		}
		decimals, err := priceDecimals(c, r.cropYear)
		if err != nil {
			return revenue, "", err
		}
		price, ok := r.priceOutlook(c, r.cropYear, decimals)
		if !ok {
			return revenue, "a projected price of " + c.Name(), nil
		}
		for i, mya := range r.prices(c, price) {
			revenue[i] += acres * yields[i] * mya
		}
		part.YieldFrom = append(part.YieldFrom, c.Name()+": "+from)
	}
	if !planted {
		return revenue, fmt.Sprintf("the covered acres planted on the farm in crop year %d (planted)", r.cropYear), nil
	}
	return revenue, "", nil
}

// farmYields returns the farm's own yield in each draw: as ARC-IC has it, else the
// county's with the spread of one farm.
func (r *run) farmYields(f farmRun, c crop.Commodity) (yields []crop.Yield, from, missing string, err error) {
	n, err := nationalOf(r.Market, c, r.cropYear)
	if err != nil {
		return nil, "", "", err
	}
	k := individualCrop{commodity: c, national: n, planted: 1}
	k.fill(r.Case.sources(), f.farm, r.cropYear)
	if k.yield.mean == 0 {
		if !k.county.known {
			return nil, "", "a yield of " + c.Name() + " for the farm or its county", nil
		}
		cv := k.county.outlook.SD / k.county.outlook.Mean
		k.yield = ownYield{mean: k.county.outlook.Mean, ratio: 1, sd: k.county.outlook.Mean * odds.FarmSpread(cv), from: "the county's, with the spread of a single farm (assumed)"}
	}
	return r.ownYields(f.farm, k), k.yield.from, "", nil
}

// judge fills in what was asked of one choice.
func (r *run) judge(c *CriteriaChoice, place int, payments [][]float64, income, revenue []float64) {
	mine := payments[place]
	with := r.take()
	defer r.give(with)
	for i := range with {
		with[i] = income[i] + mine[i]
	}
	for _, asked := range r.Criteria {
		switch asked {
		case SureAmounts:
			c.SureAmount, c.SureSteady = sureAmounts(income, with)
		case WorstShare:
			c.Worst = &[len(odds.Worst)]Dollars{}
			for i, share := range odds.Worst {
				c.Worst[i] = Dollars(odds.MeanOfWorst(with, share))
			}
		case WrongPick:
			highest := slices.Clone(mine)
			for _, other := range payments {
				for i, x := range other {
					highest[i] = max(highest[i], x)
				}
			}
			c.WrongPick = dollars(odds.CostOfWrongPick(mine, highest))
		case Dominance:
			c.FirstOrder, c.SecondOrder = dominators(place, payments, income)
		case WithRevenue:
			if correlation := stat.Correlation(mine, revenue, nil); !math.IsNaN(correlation) { // a steady payment has none
				c.Correlation = chance(correlation)
			}
		}
	}
}

// sureAmounts returns by how much the payment raises the sure amount that the
// income is worth, at constant relative and at constant absolute aversion.
func sureAmounts(income, with []float64) (relative, absolute *[len(Aversions)]*Dollars) {
	relative, absolute = &[len(Aversions)]*Dollars{}, &[len(Aversions)]*Dollars{}
	center := odds.Mean(income)
	for i, r := range Aversions {
		if gain := odds.SureAmount(with, 0, r) - odds.SureAmount(income, 0, r); !math.IsNaN(gain) { // not where income is not above zero
			relative[i] = dollars(gain)
		}
		switch {
		case r == 0:
			absolute[i] = relative[i]
		case center > 0:
			absolute[i] = dollars(odds.SureAmountAbsolute(with, r/center) - odds.SureAmountAbsolute(income, r/center))
		}
	}
	return relative, absolute
}

// dominators returns the places of the choices that dominate one, to the cent; of
// equal ones neither dominates.
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
