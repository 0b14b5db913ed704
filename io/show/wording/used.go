package wording

import (
	"fmt"
	"math"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// PriceUsed says which national price the odds of a crop stand on: "Price used for corn:
// $4.55 a bushel (projected). In 8 of 10 outcomes it ends between $4.13 and $4.98."
func PriceUsed(c answer.CommodityPart) string {
	if c.MYA == nil {
		return ""
	}
	said := fmt.Sprintf("Price used for %s: %s%s.", c.Commodity.Name(), priceAUnit(c.Commodity, &c.MYA.Mean), Mark(c.MYA.Status))
	m := c.MYA
	if m.Low == nil || m.High == nil || m.Low.Value == m.High.Value {
		return said
	}
	return said + fmt.Sprintf(" In 8 of 10 outcomes it ends between %s and %s.", PriceText(m.Low), PriceText(m.High))
}

// priceAUnit writes a price with its unit: "$4.55 a bushel", "$0.1350 a pound ($13.50 a cwt)".
func priceAUnit(c crop.Commodity, p *answer.Price) string {
	said := PriceText(p) + " a " + c.Unit().Mass
	if unit, factor := c.TradeUnit(); factor != 1 {
		said += fmt.Sprintf(" ($%s a %s)", Grouped(p.Value*factor, 2), strings.TrimPrefix(unit, "USD/"))
	}
	return said
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
	said := fmt.Sprintf("%s yield used: %s, %s%s", where, YieldText(c.Commodity, y.Mean), KnownFrom(y.KnownFrom), Mark(y.Status))
	if y.Low != nil && y.High != nil && *y.Low != *y.High {
		said += fmt.Sprintf("; in 8 of 10 outcomes %s to %s", yieldNumber(*y.Low), yieldNumber(*y.High))
	}
	return said + "."
}

// LawPrices gives the two prices that the law makes for a crop and year: "The effective
// reference price is $4.42 a bushel, the benchmark price $5.03." "about" stands before one
// that follows prices to come.
func LawPrices(c answer.CommodityPart) string {
	one := func(p *answer.Price, status crop.Status, follows *answer.PriceRange) string {
		said := PriceText(p)
		if p != nil && follows != nil && follows.SD.Value >= math.Pow10(-follows.SD.Decimals)/2 {
			said = "about " + said
		}
		return said + Mark(status)
	}
	reference := one(c.EffectiveReferencePrice, c.ReferencePriceStatus, c.ReferencePriceDrawn)
	benchmark := one(c.BenchmarkPrice, c.BenchmarkPriceStatus, c.BenchmarkPriceDrawn)
	return fmt.Sprintf("The effective reference price is %s, the benchmark price %s.", reference, benchmark)
}

// PerBaseAcre says what dollars per base acre are: said once in an output.
const PerBaseAcre = "Dollars are per base acre, if the contract is signed. They already count that the law pays on a part of base acres. Your share, the payment limit and sequestration come off later."

// AfterLimit says in a head or note what has been taken off.
const AfterLimit = "after shares, payment limit and sequestration"

// Made says when figures were made and with which prices; with the seed and the number of
// outcomes tried they can be made again.
func Made(c answer.Comparison) string {
	model := ""
	if c.Model.Note != "" {
		model = fmt.Sprintf(", model %s, tail %s", c.Model.Name, c.Model.Tail)
	}
	return fmt.Sprintf("Made %s, with prices of %s (seed %d, %s draws%s).", Date(c.Today), Date(c.Market.AsOf), c.Seed, Grouped(float64(c.Draws), 0), model)
}

// BeforeHarvest is what a county yield is known from while nothing is reported of it.
const BeforeHarvest = "before_harvest"

// KnownFrom writes a stage of knowledge: "from local harvest", "before harvest".
func KnownFrom(stage string) string {
	words := strings.ReplaceAll(stage, "_", " ")
	if strings.HasPrefix(words, "before") || words == "final" {
		return words
	}
	return "from " + words
}
