package position

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// PaysHigherOf reports whether the law of a crop year pays the higher of PLC and
// ARC-CO for each commodity, whatever was elected.
func PaysHigherOf(y crop.CropYear) bool {
	rule, err := law.Find("election_rule", "", y)
	return err == nil && rule.Text == "higher_of_plc_and_arc_co"
}

// National holds what is the same for a commodity and crop year on every farm: the
// law's terms, and the prices computed from the national price history.
type National struct {
	Terms          program.Terms
	History        [5]farm.Figure // prices of Terms.BenchmarkYears, oldest first
	Target         farm.Figure    // what PLC pays up to, USD per unit: the reference price, from 2019 the effective one
	BenchmarkPrice farm.Figure    // of ARC, USD per unit
	Missing        string         // which price is missing; "" when none is
}

// NationalOf returns the figures of a commodity in a crop year on its own terms of
// law; a year without terms is an error.
func NationalOf(market farm.Market, c crop.Commodity, y crop.CropYear) (National, error) {
	terms, err := program.TermsFor(c, y)
	if err != nil {
		return National{}, err
	}
	return resolveNational(market, terms, y), nil
}

// resolveNational looks up the five prices before crop year y on given terms, which
// may be those of another crop year. Where a price is missing, Missing names it,
// BenchmarkPrice is empty, and so is Target unless the terms need no price for it.
func resolveNational(market farm.Market, terms program.Terms, y crop.CropYear) National {
	terms.CropYear = y
	n, c := National{Terms: terms}, terms.Commodity
	var prices [5]crop.Price
	statuses := []crop.Status{terms.Status("reference_price", "reference_price_step")}
	for i, year := range terms.BenchmarkYears() {
		figure, known := market.Price(c, year)
		if !known {
			n.Missing = fmt.Sprintf("the national price of %s for crop year %d", c.Name(), year)
			break
		}
		n.History[i], prices[i] = figure, figure.Value
		statuses = append(statuses, figure.Status)
	}
	reference := farm.Figure{Value: terms.ReferencePrice, Status: statuses[0], Source: terms.Rows["reference_price"].Citation()}
	switch {
	case n.Missing != "" && terms.HasEffective:
		return n
	case n.Missing != "":
		n.Target = reference
		return n
	case terms.HasEffective:
		n.Target = farm.Figure{Value: terms.TargetPrice(prices), Status: crop.ComputedFrom(statuses...), Source: program.StepEffectiveReferencePrice.Citation}
	default:
		n.Target = reference
	}
	n.BenchmarkPrice = farm.Figure{
		Value:  program.BenchmarkPrice(prices, n.Target.Value, terms.BenchmarkDecimals),
		Status: crop.ComputedFrom(statuses...), Source: program.StepBenchmarkPrice.Citation,
	}
	return n
}

// TargetDecimals returns the decimals of a reference price. They can be more than
// those of a market price: flaxseed is USD 11.284.
func (n National) TargetDecimals() int { return max(n.Terms.RateDecimals, n.Terms.PriceDecimals) }

// PriceHistoryText lists the benchmark years with their prices, for people.
func (n National) PriceHistoryText() string {
	var parts []string
	for i, year := range n.Terms.BenchmarkYears() {
		if n.History[i].Status == "" {
			continue
		}
		mark := ""
		if n.History[i].Status.Marked() {
			mark = " (" + string(n.History[i].Status) + ")"
		}
		parts = append(parts, fmt.Sprintf("%d %s%s", year, formatPrice(n.History[i].Value, n.Terms.PriceDecimals), mark))
	}
	return strings.Join(parts, ", ")
}

// formatPrice writes a price with a commodity's decimals.
func formatPrice(p crop.Price, decimals int) string { return program.Text(p, decimals) }
