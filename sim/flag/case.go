package flag

import (
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// CitationOf returns the citation of a row of the law in a crop year, "" where there is
// none.
func CitationOf(id string, y crop.CropYear) string {
	row, err := law.Find(id, "", y)
	if err != nil {
		return ""
	}
	return row.Citation()
}

// StaleDays is the age in days beyond which a projected price is called old. A judgement
// of this program.
const StaleDays = 45

// Case is what flags are raised from: one farm in one crop year.
type Case struct {
	Question    answer.Question
	Farm        farm.Farm
	CropYear    crop.CropYear
	Bases       []*position.CommodityBase
	Rules       limits.Rules
	Individual  *position.Individual   // what the farm brings to ARC-IC; nil where nothing about it is asked
	Repairs     []odds.Repair          // of price correlations; nil where nothing is drawn
	Rates       *payoff.Year           // payment rates of the crop year; nil where no payments are computed
	Published   *Published             // shared by all farms of a run; nil: looked up anew
	Commodities []answer.CommodityPart // the answer for each of Bases; nil where no payments are computed
	ARCLeads    bool                   // ARC-CO leads for some base; false where no payments are computed
}

// eachBase returns the flags that raised makes of the farm's bases, without repeating
// one.
func (c *Case) eachBase(raised func(*position.CommodityBase, position.Base) (answer.Flag, bool)) []answer.Flag {
	var flags []answer.Flag
	for _, base := range c.Bases {
		for _, b := range base.Bases {
			if flag, yes := raised(base, b); yes && !slices.Contains(flags, flag) {
				flags = append(flags, flag)
			}
		}
	}
	return flags
}

// onTract names the tract of a base, "" where it has none.
func onTract(b farm.Base) string {
	if b.Tract == "" {
		return ""
	}
	return " on tract " + b.Tract
}

// county names a county in a sentence.
func (c *Case) county(code string) string { return c.Question.Counties.Called(code) }

// andList joins names: "corn", "corn and wheat", "corn, soybeans and wheat".
func andList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// AppendOnce appends a text that is neither empty nor in the list.
func AppendOnce(list []string, text string) []string {
	if text == "" || slices.Contains(list, text) {
		return list
	}
	return append(list, text)
}

// eachPractice returns the flags that raised makes of the county yields that count for a
// base, or would at another irrigated share, and have all that ARC-CO needs; without
// repeating one.
func (c *Case) eachPractice(raised func(*position.CommodityBase, position.Practice) (answer.Flag, bool)) (flags []answer.Flag) {
	for _, base := range c.Bases {
		for _, b := range base.Bases {
			for _, u := range b.Practices {
				if !u.Known || u.Missing != "" || u.Weight == 0 && !b.ShareOpen() {
					continue
				}
				if flag, yes := raised(base, u); yes && !slices.Contains(flags, flag) {
					flags = append(flags, flag)
				}
			}
		}
	}
	return flags
}

// ofPractice names one of two practices before a crop: "irrigated "; "" where the county
// has one yield.
func ofPractice(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return string(p) + " "
}

// stateCrop is a commodity in a State.
type stateCrop struct {
	state     string
	commodity crop.Commodity
}

// Published remembers, for all farms of a run, in which years the agencies have yields: the
// newest by State and commodity, and what gap says of a county.
type Published struct {
	newest parallel.Memo[position.CountyUnit, *crop.CropYear] // of a State in place of a county
	gaps   parallel.Memo[position.CountyUnit, *string]
}
