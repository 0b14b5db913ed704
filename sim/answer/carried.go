package answer

import (
	"time"

	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// WithEveryPrice returns the market with a price for every commodity and crop year
// that a rule reaches: projections on the built-in path (WithPath), and for the rest
// the last price, carried by the rule that was least wrong in the past
// (odds.PriceRule). A carried price is assumed, and its Carried says how it was
// made. Prices that the market has stay as they are.
func WithEveryPrice(m farm.Market) farm.Market {
	out := WithPath(m)
	for _, c := range crop.Commodities() { // long grain rice before the rice that follows it
		rule, ok := odds.PriceRuleOf(c)
		if !ok {
			continue
		}
		for y := farm.ProgramYears().First; y <= farm.ProgramYears().Last; y++ {
			if _, told := m.Price(c, y); told {
				continue
			}
			if o, reached := (carrier{rule, m, out}).carry(y); reached {
				if out.Outlook[c] == nil {
					out.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
				}
				out.Outlook[c][y] = o
			}
		}
	}
	return out
}

// carrier carries the price of one commodity.
type carrier struct {
	rule odds.PriceRule
	told farm.Market // what somebody says
	all  farm.Market // with the leader's later years
}

// carry returns the price of a crop year; ok is false where the last price is too
// far back, or one that the rule needs is missing.
func (k carrier) carry(y crop.CropYear) (o farm.PriceOutlook, ok bool) {
	c := k.rule.Commodity
	decimals, err := priceDecimals(c, y)
	last, figure, found := k.latest(c, y-1)
	if err != nil || !found || y-last > odds.FarthestCarried {
		return o, false
	}
	from := odds.LastPrice{Price: figure.Value, Years: y - last}
	told, asOf := y-last, k.told.PriceDate(c, last)
	if leader := k.rule.Leader; leader != "" {
		newest, _, has := k.latest(leader, y)
		from.LeaderThen, from.LeaderNow = k.leaderAt(last), k.leaderAt(y)
		if !has || from.LeaderThen == 0 {
			return o, false
		}
		if told = max(0, newest-last); told > 0 {
			asOf = k.told.PriceDate(leader, newest)
		}
	}
	if k.rule.Kind.UsesFive() {
		if from.Five, ok = k.five(last); !ok {
			return o, false
		}
	}
	const decimalsOfError = 3 // as a market file states it
	spread := program.Round(k.rule.Spread(told, y-last-told, k.lastSpread(last)), decimalsOfError)
	return farm.PriceOutlook{AsOf: asOf,
		Figure:  farm.Figure{Value: program.Round(k.rule.Price(from), decimals), Status: crop.Assumed, Source: k.source(last, figure, from)},
		Carried: &farm.Carried{From: last, Error: spread, Rule: k.words(), Tested: k.rule.Period},
	}, true
}

// leaderAt returns the leader's price of a crop year; the newest before it where it
// has none, and 0 where it has none at all.
func (k carrier) leaderAt(y crop.CropYear) crop.Price {
	if price, has := k.all.Price(k.rule.Leader, y); has {
		return price.Value
	}
	_, price, _ := k.latest(k.rule.Leader, y)
	return price.Value
}

// latest returns the newest price up to a crop year that somebody says.
func (k carrier) latest(c crop.Commodity, y crop.CropYear) (last crop.CropYear, f farm.Figure, ok bool) {
	years := slices.AppendSeq(slices.Collect(maps.Keys(k.told.MYA[c])), maps.Keys(k.told.Outlook[c]))
	for _, year := range years {
		if year <= y && (!ok || year > last) {
			last, ok = year, true
		}
	}
	f, _ = k.told.Price(c, last)
	return last, f, ok
}

// five returns the mean of the five prices before a crop year; all must be there.
func (k carrier) five(y crop.CropYear) (mean crop.Price, ok bool) {
	const years = 5
	for back := 1; back <= years; back++ {
		f, has := k.all.Price(k.rule.Commodity, y-back)
		if !has {
			return 0, false
		}
		mean += f.Value / years
	}
	return mean, true
}

// lastSpread is that of the last price itself. A final one has none. The measured
// errors of rules that start from USDA's projection hold its error already.
func (k carrier) lastSpread(last crop.CropYear) float64 {
	c := k.rule.Commodity
	o, projected := k.told.Outlook[c][last]
	if _, known := k.told.MYA[c][last]; known || !projected || k.rule.Kind.UsesFive() {
		return 0
	}
	if p, ok := (sources{Market: k.told}).priceOutlook(c, last, 0); ok && (o.Volatility != nil || o.InsuranceVolatility != nil || o.Samples != nil) {
		return p.sigma
	}
	sigma, _ := odds.Volatility(c, last, o.AsOf)
	return max(sigma, odds.LateProjectionError())
}

// words say what was done with the last price.
func (k carrier) words() string {
	leader := k.rule.Leader.Name()
	switch k.rule.Kind {
	case odds.Moved:
		if k.rule.Share == 1 {
			return "moved with the price of " + leader
		}
		return fmt.Sprintf("moved by %.2f of the percentage of %s", k.rule.Share, leader)
	case odds.ByWeight:
		return fmt.Sprintf("moved by %.3f of what %s moved", k.rule.Share, leader)
	case odds.Reverting:
		return "nearer each year to the mean of the five prices before it"
	case odds.HalfWay:
		return "taken half-way to the mean of the five prices before it"
	}
	return "held as it is"
}

// source names the figures that the carried price was made of.
func (k carrier) source(last crop.CropYear, figure farm.Figure, from odds.LastPrice) string {
	text := fmt.Sprintf("carried: price of crop year %d (%s), %s", last, plainPrice(figure.Value), k.words())
	if k.rule.Leader != "" {
		text += fmt.Sprintf(" (%s to %s)", plainPrice(from.LeaderThen), plainPrice(from.LeaderNow))
	}
	if k.rule.Kind.UsesFive() {
		text += fmt.Sprintf(" (%s)", plainPrice(from.Five))
	}
	return text
}

// plainPrice writes a price with the digits it has, four decimals at most and two at
// least.
func plainPrice(p crop.Price) string {
	text := strings.TrimRight(fmt.Sprintf("%.4f", p), "0")
	for len(text)-strings.IndexByte(text, '.') <= 2 {
		text += "0"
	}
	return text
}

// priceCarried names the commodities whose price of the crop year, or of one of the
// five years behind its reference and benchmark price, is carried, with one market
// file that replaces all such prices.
func priceCarried(c flagCase) []Flag {
	var told, units, prices []string
	tested := ""
	for _, h := range c.holdings {
		five := h.national.Terms.BenchmarkYears()
		years := c.carriedYears(h.commodity, five[0])
		enters := slices.DeleteFunc(slices.Clone(years), func(y crop.CropYear) bool { return y != c.cropYear && !slices.Contains(five[:], y) })
		if len(enters) == 0 || slices.Contains(units, unitEntry(h.commodity)) {
			continue
		}
		tested = c.Market.Outlook[h.commodity][enters[0]].Carried.Tested
		told, units, prices = append(told, c.toldCarried(h.commodity, enters)), append(units, unitEntry(h.commodity)), append(prices, c.fileEntry(h.commodity, years))
	}
	if len(told) == 0 {
		return nil
	}
	message := fmt.Sprintf("No USDA price is at hand for these crop years, so the last one is carried. %s."+offersFile+
		"{format: %s, as_of: %s, source: \"who says so\", units: {%s}, outlook: {%s}}", strings.Join(told, ". "), farm.MarketFormat, c.Today.Format(time.DateOnly), strings.Join(units, ", "), strings.Join(prices, ", "))
	return []Flag{{"price_carried", Warning, message, "docs/method.md, carried prices; error of crop years " + tested}}
}

func unitEntry(c crop.Commodity) string { return fmt.Sprintf("%s: %s", c, c.Unit().Price()) }

// toldCarried says how the prices of one commodity that enter the answer were carried.
func (c flagCase) toldCarried(commodity crop.Commodity, years []crop.CropYear) string {
	name := commodity.Name()
	var each []string
	for _, y := range years {
		o := c.Market.Outlook[commodity][y]
		each = append(each, fmt.Sprintf("%s %s for %d, typical error %.0f percent", plainPrice(o.Value), commodity.Unit().Price(), y, 100*o.Carried.Error))
	}
	how := c.Market.Outlook[commodity][years[len(years)-1]].Carried
	return fmt.Sprintf("%s%s: that of %d, %s: %s", strings.ToUpper(name[:1]), name[1:], how.From, how.Rule, strings.Join(each, "; "))
}

// fileEntry is the outlook of one commodity in a market file, with the spread that is
// taken here, so that the file changes nothing until it is changed.
func (c flagCase) fileEntry(commodity crop.Commodity, years []crop.CropYear) string {
	var prices []string
	for _, y := range years {
		o := c.Market.Outlook[commodity][y]
		prices = append(prices, fmt.Sprintf("%d: {price: %s, volatility: %.3f}", y, plainPrice(o.Value), o.Carried.Error))
	}
	return fmt.Sprintf("%s: {%s}", commodity, strings.Join(prices, ", "))
}

// carriedYears returns the crop years with a carried price from first to the year
// asked about: each course of prices runs through them.
func (c flagCase) carriedYears(commodity crop.Commodity, first crop.CropYear) (years []crop.CropYear) {
	for y := first; y <= c.cropYear; y++ {
		_, known := c.Market.MYA[commodity][y]
		if o := c.Market.Outlook[commodity][y]; !known && o.Carried != nil {
			years = append(years, y)
		}
	}
	return years
}

// offersFile comes before the market file that a flag offers.
const offersFile = " For prices of your own, save and change this market file: "

// OnPaper returns the message without the file that it offers, which nobody copies
// from a sheet of paper.
func (f Flag) OnPaper() string {
	message, _, _ := strings.Cut(f.Message, offersFile)
	return message
}
