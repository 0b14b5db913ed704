package flag

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// CitationOf is the citation of a row of the law, "" where there is none in a year.
func CitationOf(id string, y crop.CropYear) string {
	row, err := law.Find(id, "", y)
	if err != nil {
		return ""
	}
	return row.Citation()
}

// StaleDays is the age of a market beyond which its prices are called old. A
// judgement of this program.
const StaleDays = 45

// Case is what a flag looks at: one farm in one crop year.
type Case struct {
	Question    answer.Question
	Farm        farm.Farm
	CropYear    crop.CropYear
	Bases       []*position.CommodityBase
	Rules       limits.Rules
	Individual  *position.Individual   // what the farm brings to ARC-IC; nil where nothing about it is asked
	Repairs     []odds.Repair          // of price correlations; unknown where nothing is drawn
	Rates       *payoff.Year           // nil where no money is computed
	Published   *Published             // what all farms of a run look up once; nil: nothing is kept
	Commodities []answer.CommodityPart // what the programs pay, by holding; nil where no money is computed
	ARCLeads    bool                   // ARC-CO or ARC-IC leads for some base; unknown where no money is computed
}

// eachBase raises a flag for every base of which raised says so, once by text.
func (c Case) eachBase(raised func(*position.CommodityBase, position.Base) (answer.Flag, bool)) []answer.Flag {
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

// onTract names the tract of a base where it has one.
func onTract(b farm.Base) string {
	if b.Tract == "" {
		return ""
	}
	return " on tract " + b.Tract
}

// AppendOnce appends a text that is not there yet.
func AppendOnce(list []string, text string) []string {
	if text == "" || slices.Contains(list, text) {
		return list
	}
	return append(list, text)
}

// eachPractice raises a flag for every county yield that counts for a base, or could,
// and has all that ARC-CO needs; once by text.
func (c Case) eachPractice(raised func(*position.CommodityBase, position.Practice) (answer.Flag, bool)) (flags []answer.Flag) {
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

// ofPractice names a practice of a pair: ", irrigated".
func ofPractice(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return ", " + string(p)
}

// stateCrop is a commodity in a State.
type stateCrop struct {
	state     string
	commodity crop.Commodity
}

// Published holds the newest year of which an agency has a yield, by State and
// commodity.
type Published struct {
	newest scenario.Memo[stateCrop, crop.CropYear]
}
