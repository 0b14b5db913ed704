package position

import (
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
// that can have one: projections on the built-in path (WithPath), else the last price,
// carried by the rule with the smallest error in the past (odds.PriceRule). A carried
// price is assumed, and its Carried says how it was made. Prices that the market has
// stay as they are.
func WithEveryPrice(m farm.Market) farm.Market {
	out := WithPath(m)
	for _, c := range crop.Commodities() { // long grain rice before the rice that follows it
		rule, ok := odds.PriceRuleOf(c)
		if !ok {
			continue
		}
		for y := farm.ProgramYears().First; y <= farm.ProgramYears().Last; y++ {
			if _, has := m.Price(c, y); has {
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

// carrier carries the price of one commodity into later crop years.
type carrier struct {
	rule      odds.PriceRule
	stated    farm.Market // prices that are known or projected
	withPaths farm.Market // those, and later years on the built-in path
}

// carry returns the price of a crop year; ok is false where the last price is too far
// back, or a price that the rule needs is missing.
func (k carrier) carry(y crop.CropYear) (o farm.PriceOutlook, ok bool) {
	c := k.rule.Commodity
	decimals, err := PriceDecimals(c, y)
	last, figure, found := k.latest(c, y-1)
	if err != nil || !found || y-last > odds.FarthestCarried {
		return o, false
	}
	from := odds.LastPrice{Price: figure.Value, Years: y - last}
	known, asOf := y-last, k.stated.PriceDate(c, last)
	if leader := k.rule.Leader; leader != "" {
		newest, _, has := k.latest(leader, y)
		from.LeaderThen, from.LeaderNow = k.leaderAt(last), k.leaderAt(y)
		if !has || from.LeaderThen == 0 {
			return o, false
		}
		if known = max(0, newest-last); known > 0 {
			asOf = k.stated.PriceDate(leader, newest)
		}
	}
	if k.rule.Kind.UsesFive() {
		if from.Five, ok = k.meanOfFive(last); !ok {
			return o, false
		}
	}
	const decimalsOfError = 3 // as a market file states it
	sd := program.Round(k.rule.SD(known, y-last-known, k.lastPriceSD(last)), decimalsOfError)
	return farm.PriceOutlook{AsOf: asOf,
		Figure:  farm.Figure{Value: program.Round(k.rule.Price(from), decimals), Status: crop.Assumed, Source: k.source(last, figure, from)},
		Carried: &farm.Carried{From: last, Error: sd, Rule: k.description(), Tested: k.rule.Period},
	}, true
}

// leaderAt returns the price of the leader (odds.PriceRule.Leader) in a crop year, USD
// per unit; the newest before it where that year has none, 0 where there is none at
// all.
func (k carrier) leaderAt(y crop.CropYear) crop.Price {
	if price, has := k.withPaths.Price(k.rule.Leader, y); has {
		return price.Value
	}
	_, price, _ := k.latest(k.rule.Leader, y)
	return price.Value
}

// latest returns the newest price up to crop year y that is known or projected.
func (k carrier) latest(c crop.Commodity, y crop.CropYear) (last crop.CropYear, f farm.Figure, ok bool) {
	years := slices.AppendSeq(slices.Collect(maps.Keys(k.stated.MYA[c])), maps.Keys(k.stated.Outlook[c]))
	for _, year := range years {
		if year <= y && (!ok || year > last) {
			last, ok = year, true
		}
	}
	f, _ = k.stated.Price(c, last)
	return last, f, ok
}

// meanOfFive returns the mean of the five prices before a crop year, USD per unit; ok
// is false where one is missing.
func (k carrier) meanOfFive(y crop.CropYear) (mean crop.Price, ok bool) {
	const years = 5
	for back := 1; back <= years; back++ {
		f, has := k.withPaths.Price(k.rule.Commodity, y-back)
		if !has {
			return 0, false
		}
		mean += f.Value / years
	}
	return mean, true
}

// lastPriceSD returns the standard deviation of the logarithm of the last price: 0
// where it is final, and for rules whose measured error already holds that of USDA's
// projection.
func (k carrier) lastPriceSD(last crop.CropYear) float64 {
	c := k.rule.Commodity
	o, projected := k.stated.Outlook[c][last]
	if _, known := k.stated.MYA[c][last]; known || !projected || k.rule.Kind.UsesFive() {
		return 0
	}
	if p, ok := (Sources{Market: k.stated}).Price(c, last, 0); ok && (o.Volatility != nil || o.InsuranceVolatility != nil || o.Samples != nil) {
		return p.WholeSD
	}
	sigma, _ := odds.Usual.Volatility(c, last, o.AsOf)
	return max(sigma, odds.LateProjectionError())
}

// description says what was done with the last price.
func (k carrier) description() string {
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
		return "moved nearer each year to the average of the five prices before it"
	case odds.HalfWay:
		return "taken half-way to the average of the five prices before it"
	}
	return "held as it is"
}

// source names the figures behind the carried price.
func (k carrier) source(last crop.CropYear, figure farm.Figure, from odds.LastPrice) string {
	text := fmt.Sprintf("carried: the price of %d (%s), %s", last, PlainPrice(figure.Value), k.description())
	if k.rule.Leader != "" {
		text += fmt.Sprintf(" (%s to %s)", PlainPrice(from.LeaderThen), PlainPrice(from.LeaderNow))
	}
	if k.rule.Kind.UsesFive() {
		text += fmt.Sprintf(" (%s)", PlainPrice(from.Five))
	}
	return text
}

// PlainPrice writes a price with two to four decimals, without zeros at the end beyond
// two.
func PlainPrice(p crop.Price) string {
	text := strings.TrimRight(fmt.Sprintf("%.4f", p), "0")
	for len(text)-strings.IndexByte(text, '.') <= 2 {
		text += "0"
	}
	return text
}
