package wording

import (
	"fmt"
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// PriceUsed says which national price the odds of a crop stand on: "Corn price used: $4.55
// a bushel (projected). In 8 of 10 outcomes it ends between $4.13 and $4.98."
func PriceUsed(c answer.CommodityPart) string {
	if c.MYA == nil {
		return ""
	}
	said := fmt.Sprintf("%s price used: %s a %s%s.", Capital(c.Commodity.Name()), PriceText(&c.MYA.Mean), c.Commodity.Unit().Mass, Mark(c.MYA.Status))
	m := c.MYA
	if m.Low == nil || m.High == nil || m.Low.Value == m.High.Value {
		return said
	}
	return said + fmt.Sprintf(" In 8 of 10 outcomes it ends between %s and %s.", PriceText(m.Low), PriceText(m.High))
}

// YieldUsed says which county yield the odds of a base stand on: "Alder County yield used:
// 182 bushels, from local harvest (assumed)."
func YieldUsed(c answer.CommodityPart, b answer.BasePart) string {
	where := Capital(County(b))
	if b.Practice != string(farm.AllPractices) {
		where += ", " + b.Practice
	}
	if b.CountyYield == nil {
		return where + ": the county yield is not known."
	}
	y := b.CountyYield
	return fmt.Sprintf("%s yield used: %s, %s%s.", where, YieldText(c.Commodity, y.Mean), knownFrom(y.KnownFrom), Mark(y.Status))
}

// knownFrom writes a stage of knowledge: "from local harvest", "before harvest".
func knownFrom(stage string) string {
	words := strings.ReplaceAll(stage, "_", " ")
	if strings.HasPrefix(words, "before") {
		return words
	}
	return "from " + words
}
