package answer

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/sim/odds"
)

// Criterion is one more way to look at the choices of a farm.
type Criterion string

// The criteria.
const (
	SureAmounts   Criterion = "sure_amount" // the sure amount worth the same, by risk aversion
	WorstShare    Criterion = "worst"       // mean of income and payment in the worst scenarios
	WrongElection Criterion = "wrong_pick"  // what the choice gives away against the others
	Dominance     Criterion = "dominance"   // which choices are at least as good at every chance
	WithRevenue   Criterion = "revenue"     // correlation of the payment with crop revenue
)

// Criteria returns all criteria in the order in which they are shown.
func Criteria() []Criterion {
	return []Criterion{SureAmounts, WorstShare, WrongElection, Dominance, WithRevenue}
}

// ParseCriteria reads a list such as "sure_amount,worst", or "all". A word that is no
// criterion is an error.
func ParseCriteria(text string) ([]Criterion, error) {
	if text == "all" {
		return Criteria(), nil
	}
	var asked []Criterion
	for _, word := range strings.Split(text, ",") {
		c := Criterion(strings.TrimSpace(word))
		if !slices.Contains(Criteria(), c) {
			return nil, fmt.Errorf("%q is no criterion", word)
		}
		if !slices.Contains(asked, c) {
			asked = append(asked, c)
		}
	}
	return asked, nil
}

// Aversions are the relative risk aversions for which sure amounts are given: none,
// slight, usual, strong.
var Aversions = [...]float64{0, 1, 2, 4}

// CriteriaPart looks at the choices of one farm beside its crop revenue, USD in total.
// Income is the revenue of the planted acres at national price and own yield by
// scenario, and the producers' other income; costs are left out.
type CriteriaPart struct {
	Asked     []Criterion      `json:"asked"`
	Missing   string           `json:"missing"` // why there are no figures; "" when there are
	Income    *Sum             `json:"income"`  // before payments
	YieldFrom []string         `json:"yield_from"`
	Choices   []CriteriaChoice `json:"choices"`
}

// CriteriaChoice is one election; what was not asked is nil.
type CriteriaChoice struct {
	Choice        Choice                    `json:"choice"`
	Mean          Dollars                   `json:"mean"`
	SureAmount    *[len(Aversions)]*Dollars `json:"sure_amount"`          // certainty equivalent of the payment beside the income, by Aversions; null where income is not above zero
	SureSteady    *[len(Aversions)]*Dollars `json:"sure_amount_absolute"` // the same at constant absolute aversion, Aversions over the average income
	Worst         *[len(odds.Worst)]Dollars `json:"worst_10_20"`          // income and payment
	WrongElection *Dollars                  `json:"cost_of_wrong_pick"`   // mean of what the highest choice of each scenario pays more
	FirstOrder    *[]int                    `json:"dominated_by"`         // places in Choices of those that dominate it by first order; empty: none
	SecondOrder   *[]int                    `json:"dominated_for_averse"` // likewise by second order
	Correlation   *Chance                   `json:"correlation_with_crop_revenue"`
}
