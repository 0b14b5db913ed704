package flag

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// priceCarried flags farms whose prices are carried from another year: those of the crop
// year and of the five years behind reference and benchmark price. One flag names all
// commodities and offers a market file to replace such prices.
func priceCarried(c *Case) []answer.Flag {
	var sentences, units, prices []string
	tested := ""
	for _, base := range c.Bases {
		five := base.National.Terms.BenchmarkYears()
		years := c.carriedYears(base.Commodity, five[0])
		enters := slices.DeleteFunc(slices.Clone(years), func(y crop.CropYear) bool { return y != c.CropYear && !slices.Contains(five[:], y) })
		if len(enters) == 0 || slices.Contains(units, unitEntry(base.Commodity)) {
			continue
		}
		tested = c.Question.Market.Outlook[base.Commodity][enters[0]].Carried.Tested
		sentences, units, prices = append(sentences, c.carriedPrices(base.Commodity, enters)), append(units, unitEntry(base.Commodity)), append(prices, c.fileEntry(base.Commodity, years))
	}
	if len(sentences) == 0 {
		return nil
	}
	message := fmt.Sprintf("No USDA price is at hand for these crop years, so the last one is carried forward. %s"+answer.OffersFile+
		"{format: %s, as_of: %s, source: \"who says so\", units: {%s}, outlook: {%s}}", strings.Join(sentences, " "), farm.MarketFormat, c.Question.Today.Format(time.DateOnly), strings.Join(units, ", "), strings.Join(prices, ", "))
	return []answer.Flag{{Code: "price_carried", Severity: answer.Warning, Message: message, Source: "docs/method.md, carried prices; error of crop years " + tested}}
}

// unitEntry is the price unit of a commodity in a market file.
func unitEntry(c crop.Commodity) string { return fmt.Sprintf("%s: %s", c, c.Unit().Price()) }

// carriedPrices puts into words how the prices of one commodity were carried to some
// crop years.
func (c *Case) carriedPrices(commodity crop.Commodity, years []crop.CropYear) string {
	how := c.Question.Market.Outlook[commodity][years[len(years)-1]].Carried
	text := fmt.Sprintf("The %s price of %d is %s.", commodity.Name(), how.From, how.Rule)
	for _, y := range years {
		o := c.Question.Market.Outlook[commodity][y]
		text += fmt.Sprintf(" For %d that is %s %s, usually within %.0f percent.", y, position.PlainPrice(o.Value), commodity.Unit().Price(), 100*o.Carried.Error)
	}
	return text
}

// fileEntry is the outlook of one commodity in a market file. It states the price and
// standard deviation (as volatility) used here, so that the file changes nothing until
// somebody edits it.
func (c *Case) fileEntry(commodity crop.Commodity, years []crop.CropYear) string {
	var prices []string
	for _, y := range years {
		o := c.Question.Market.Outlook[commodity][y]
		prices = append(prices, fmt.Sprintf("%d: {price: %s, volatility: %.3f}", y, position.PlainPrice(o.Value), o.Carried.Error))
	}
	return fmt.Sprintf("%s: {%s}", commodity, strings.Join(prices, ", "))
}

// carriedYears returns the crop years with a carried price from first to the year asked
// about: every scenario path runs through them.
func (c *Case) carriedYears(commodity crop.Commodity, first crop.CropYear) (years []crop.CropYear) {
	for y := first; y <= c.CropYear; y++ {
		_, known := c.Question.Market.MYA[commodity][y]
		if o := c.Question.Market.Outlook[commodity][y]; !known && o.Carried != nil {
			years = append(years, y)
		}
	}
	return years
}
