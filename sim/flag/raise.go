package flag

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
)

// flagRules raise all flags of a farm and crop year, in the order in which they are
// shown. Each has a test that raises its flag and one that does not.
var flagRules = []func(*Case) []answer.Flag{
	newElectionNeeded, contractMissed, baseIdle20092017, tenAcres, incomeOverLimit, higherOf2025, deadlineUnknown,
	noPriceProjection, priceCarried, paymentYieldMissing, irrigatedHistoryMissing, yieldMissing, yieldOutOfLine, yieldNotKnown, yieldSourceMayDiffer,
	twoCounties, baseExceedsCropland, recordBeforeNotice, unassignedBase, crpReduction, plantedWithoutBase, fruitVegetablesOnBase, preventedPlanting,
	correlationRepaired, staxWithCottonBase, insured, noPlantingARCIC, scoByYear, entityRuleByYear, flexLease, operatorChanged, mergeNeedsSameElection,
	countyStale, marketStale, unverifiedFigure, unverifiedIndividual,
}

// Raise returns the flags of one farm in one crop year that need no computed payments.
func Raise(c answer.Question, f farm.Farm, people limits.Rules) []answer.Flag {
	y := people.CropYear
	bases, err := c.Sources().CommodityBases(f, y)
	if err != nil {
		return []answer.Flag{noRules(y, err)}
	}
	one, _ := c.Sources().Individual(f, y) // none where the law has no terms for what is planted
	return (&Case{Question: c, Farm: f, CropYear: y, Bases: bases, Rules: people, Individual: one}).Raise()
}

// noRules says that the law has no figures for a crop year.
func noRules(y crop.CropYear, err error) answer.Flag {
	return answer.Flag{Code: "no_rules", Severity: answer.Error, Message: fmt.Sprintf("Crop year %d: %v.", y, err), Source: ""}
}

// Raise returns the flags that all rules raise.
func (c *Case) Raise() []answer.Flag {
	all := []answer.Flag{}
	for _, rule := range flagRules {
		all = append(all, rule(c)...)
	}
	return all
}
