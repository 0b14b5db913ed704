package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// comesFrom lists where the prices, county yields and rules of a year come from, each
// price and county once.
func (r *Report) comesFrom(m answer.MarketDate, y answer.YearPart) {
	r.text(fmt.Sprintf("Where the figures of %d come from:", y.CropYear))
	points := List{{Text: fmt.Sprintf("Prices of %s: %s.", wording.Date(m.AsOf), m.Source)}}
	seen := map[string]bool{}
	add := func(text string) {
		if text != "" && !seen[text] {
			seen[text] = true
			points = append(points, Point{Text: text})
		}
	}
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			add(priceFrom(c))
			for _, b := range c.Bases {
				add(yieldFrom(c, b))
			}
		}
	}
	if s := y.Standing; s.NewElection && s.Source != "" {
		add("Rule on new elections: " + s.Source + ".")
	}
	if s := y.Standing; s.LastDayFrom != "" {
		add("Last day to elect and sign: " + s.LastDayFrom + ".")
	}
	r.list(points)
}

// priceFrom says where the price of a crop and its range come from.
func priceFrom(c answer.CommodityPart) string {
	if c.MYA == nil {
		return ""
	}
	said := fmt.Sprintf("Price of %s: %s.", c.Commodity.Name(), c.MYA.Source)
	if c.MYA.SD.Value > 0 {
		said += " Its range: " + c.MYA.SDFrom + "."
	}
	return said
}

// yieldFrom says where the county yield of a base, its range and its benchmark come from.
func yieldFrom(c answer.CommodityPart, b answer.BasePart) string {
	if b.CountyYield == nil {
		return ""
	}
	where := fmt.Sprintf("%s, %s", wording.Capital(wording.County(b)), c.Commodity.Name())
	if b.Practice != string(farm.AllPractices) {
		where += " " + b.Practice
	}
	said := fmt.Sprintf("%s. Yield: %s.", where, b.CountyYield.MeanFrom)
	if b.CountyYield.SD > 0 {
		said += " Its range: " + b.CountyYield.SDFrom + "."
	}
	if b.BenchmarkYield != nil {
		said += " Benchmark: " + b.BenchmarkFrom + "."
	}
	return said + otherMeans(b.CountyYield.OtherMeans)
}

// otherMeans lists the other estimates of the county yield that the range of the lead takes.
func otherMeans(means []answer.OtherMean) string {
	if len(means) == 0 {
		return ""
	}
	said := " The range of the lead also takes other estimates."
	for _, m := range means {
		said += fmt.Sprintf(" %s from %s.", wording.Plain(&m.Mean), m.From)
	}
	return said
}
