package flag

import (
	"fmt"
	"math"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// yieldOutOfLine flags farms in whose county the trend of past yields was too far from
// the benchmark to be used.
func yieldOutOfLine(c *Case) []answer.Flag {
	return c.eachPractice(func(base *position.CommodityBase, u position.Practice) (answer.Flag, bool) {
		no := u.Outlook.Rejected
		if no == nil {
			return answer.Flag{}, false
		}
		message := fmt.Sprintf("The past yields of %s%s in %s point to %.1f %s for %d, but the benchmark yield is %.1f. They are too far apart, so %.1f is used. If you know better, enter a yield under outlook in a county file.",
			ofPractice(u.Unit.Practice), base.Commodity.Name(), c.county(u.Unit.County), no.Mean, base.Commodity.Unit().Yield(), c.CropYear, no.Benchmark, no.UsedInstead.Value)
		return answer.Flag{Code: "yield_out_of_line", Severity: answer.Warning, Message: message, Source: no.UsedInstead.Source}, true
	})
}

// yieldNotKnown flags farms after the usual end of harvest where nothing is known of the
// county's yield.
func yieldNotKnown(c *Case) []answer.Flag {
	return c.eachPractice(func(base *position.CommodityBase, u position.Practice) (answer.Flag, bool) {
		end := odds.HarvestEnd(base.Commodity, c.CropYear)
		if u.Outlook.Stage != odds.BeforeHarvest || u.Outlook.SD == 0 || !c.Question.Today.After(end.Day) {
			return answer.Flag{}, false
		}
		about := ""
		if end.Status.Marked() {
			about = " (" + string(end.Status) + ")"
		}
		line := fmt.Sprintf("- {commodity: %s, practice: %s, outlook: {%d: {yield: YIELD, known_from: %s}}}", base.Commodity, u.Unit.Practice, c.CropYear, odds.StateReport)
		message := fmt.Sprintf("The %s harvest of %d has usually ended by %s%s. Nothing is known here of the %syield of %s. The odds are still those before harvest. "+
			"Enter the State's yield as USDA reports it (known_from: %s). Or enter what your own crop and four other growers, or an elevator of the county, show (%s). "+
			"Under yields of the county file, with the figure where it says YIELD: %s",
			base.Commodity.Name(), c.CropYear, answer.Day(end.Day), about, ofPractice(u.Unit.Practice), c.county(u.Unit.County), odds.StateReport, odds.LocalHarvest, line)
		return answer.Flag{Code: "yield_not_known", Severity: answer.Warning, Message: message, Source: end.Source}, true
	})
}

// yearsLookedAt is the number of last years in which agencies' yields are counted.
const yearsLookedAt = 10

// yieldSourceMayDiffer flags farms in whose county some of the last years have no yield
// of NASS or RMA: the yield that pays may come from another source.
func yieldSourceMayDiffer(c *Case) []answer.Flag {
	var flags []answer.Flag
	for i, base := range c.Bases {
		var gaps []string
		for _, b := range base.Bases {
			for _, u := range b.Practices {
				if u.Weight > 0 || b.ShareOpen() {
					gaps = AppendOnce(gaps, c.gap(u))
				}
			}
		}
		if len(gaps) == 0 {
			continue
		}
		message := strings.Join(gaps, " ") + " The county yield that FSA pays on may then come from another source: other yields of the State, or of nearby farms. "
		flags = append(flags, answer.Flag{Code: "yield_source_may_differ", Severity: answer.Info, Message: message + c.atOtherYields(i), Source: "7 U.S.C. 9017(g)(4)-(5); 7 CFR 1412.3"})
	}
	return flags
}

// gap says in how many of the last yearsLookedAt years neither agency has a yield of a
// county; "" where none is missing, the yield is final, or the agencies have no series.
func (c *Case) gap(u position.Practice) string {
	switch {
	case u.Outlook.Stage == odds.Final:
		return ""
	case c.Published == nil:
		return c.gapOf(u.Unit)
	}
	if text, known := c.Published.gaps.Known(u.Unit); known {
		return *text
	}
	return c.keptGap(u.Unit)
}

// keptGap is gapOf, worked out once for all farms of a run.
func (c *Case) keptGap(u position.CountyUnit) string {
	return *c.Published.gaps.Of(u, func() *string { text := c.gapOf(u); return &text })
}

// gapOf is gap of a yield that is not final.
func (c *Case) gapOf(u position.CountyUnit) string {
	has := publishedYears(c.Question.Counties, u)
	last := min(c.newestPublished(position.StateOf(u.County), u.Commodity), u.CropYear-1)
	if len(has) == 0 || last == 0 {
		return ""
	}
	lacking := 0
	for y := last - yearsLookedAt + 1; y <= last; y++ {
		if !has[y] {
			lacking++
		}
	}
	if lacking == 0 {
		return ""
	}
	return fmt.Sprintf("No NASS or RMA yield of %s%s in %s is at hand for %d of the %d years to %d.", ofPractice(u.Practice), u.Commodity.Name(), c.county(u.County), lacking, yearsLookedAt, last)
}

// publishedYears returns the years in which NASS or RMA has a yield of a county, or of a
// unit that stands in for it.
func publishedYears(book farm.CountyBook, u position.CountyUnit) map[crop.CropYear]bool {
	years := map[crop.CropYear]bool{}
	for _, e := range position.EntriesWithSubstitutes(book, u) {
		for _, series := range []map[crop.CropYear]crop.Yield{e.Harvested, e.Insured} {
			for y := range series {
				years[y] = true
			}
		}
	}
	return years
}

// newestPublished returns the newest year of which NASS or RMA has a yield of any
// county of a State, 0 for none.
func newestPublished(book farm.CountyBook, s stateCrop) (newest crop.CropYear) {
	for _, code := range book.Codes(s.state) {
		for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
			for y := range publishedYears(book, position.CountyUnit{County: code, Commodity: s.commodity, Practice: practice}) {
				newest = max(newest, y)
			}
		}
	}
	return newest
}

// newestPublished is that function, looked up once for all farms of a run.
func (c *Case) newestPublished(state string, commodity crop.Commodity) crop.CropYear {
	s := stateCrop{state, commodity}
	if c.Published == nil {
		return newestPublished(c.Question.Counties, s)
	}
	return *c.Published.newest.Of(position.CountyUnit{County: state, Commodity: commodity}, func() *crop.CropYear {
		newest := newestPublished(c.Question.Counties, s)
		return &newest
	})
}

// yieldSensitivities are how far off the county yield is where yieldSourceMayDiffer
// gives ARC-CO.
var yieldSensitivities = []payoff.Sensitivity{{YieldOff: -0.10}, {YieldOff: -0.05}, {YieldOff: 0.05}, {YieldOff: 0.10}}

// atOtherYields says what ARC-CO of commodity base i averages at other county yields; ""
// in a brief run and where no payments are.
func (c *Case) atOtherYields(i int) string {
	if c.Rates == nil || c.Question.Brief || c.Commodities[i].Programs.Of(farm.ARCCO) == nil {
		return ""
	}
	base := c.Bases[i]
	price, ok := c.Rates.Price(base.Commodity, c.CropYear, base.National.Terms.PriceDecimals)
	if !ok {
		return ""
	}
	means := make([]float64, len(yieldSensitivities))
	var ofRate []float64
	for at, b := range base.Bases {
		if at == 0 || !base.SameRate(at, at-1) {
			ofRate = c.Rates.MeansUnder(&payoff.ARCCORate{Of: base, Base: b, Price: price}, yieldSensitivities)
		}
		for k, mean := range ofRate {
			means[k] += mean * b.PaymentAcres / base.Acres
		}
	}
	usd := func(x float64) string { return "$" + program.Text(x, 2) }
	off := func(k int) string { return odds.Percent(math.Abs(yieldSensitivities[k].YieldOff)) }
	return fmt.Sprintf("ARC-CO averages %s a base acre as shown. With county yields %s lower it averages %s, and %s lower %s. With yields %s higher it averages %s, and %s higher %s.",
		usd(float64(c.Commodities[i].Programs.Of(farm.ARCCO).Mean)), off(1), usd(means[1]), off(0), usd(means[0]), off(2), usd(means[2]), off(3), usd(means[3]))
}
