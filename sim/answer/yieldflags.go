package answer

import (
	"time"

	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// yieldNotKnown speaks where the crop is in by today's date and nothing is known of
// the county's yield.
func yieldNotKnown(c flagCase) []Flag {
	return c.eachPractice(func(h *holding, u practicePart) (Flag, bool) {
		end := odds.HarvestEnd(h.commodity, c.cropYear)
		about := ""
		if end.Status.Marked() {
			about = " (" + string(end.Status) + ")"
		}
		line := fmt.Sprintf("- {commodity: %s, practice: %s, outlook: {%d: {yield: YIELD, known_from: %s}}}", h.commodity, u.unit.practice, c.cropYear, odds.StateReport)
		message := fmt.Sprintf("The %s harvest of %d has usually ended by %s%s, and nothing is known of the yield of county %s%s. The odds are still those before harvest. "+
			"Type the State's yield as USDA reports it (known_from: %s). Or type what your own crop and four other growers, or an elevator of the county, show (%s). "+
			"Under yields of the county file, with the figure in place of YIELD: %s",
			h.commodity.Name(), c.cropYear, end.Day.Format(time.DateOnly), about, u.unit.county, ofPractice(u.unit.practice), odds.StateReport, odds.LocalHarvest, line)
		return Flag{"yield_not_known", Warning, message, end.Source}, u.outlook.stage == odds.BeforeHarvest && u.outlook.SD > 0 && c.Today.After(end.Day)
	})
}

// eachPractice raises a flag for every county yield that counts for a base, or could,
// and has all that ARC-CO needs; once by text.
func (c flagCase) eachPractice(raised func(*holding, practicePart) (Flag, bool)) (flags []Flag) {
	for _, h := range c.holdings {
		for _, p := range h.parts {
			for _, u := range p.practices {
				if !u.known || u.lacks != "" || u.weight == 0 && !p.open() {
					continue
				}
				if flag, yes := raised(h, u); yes && !slices.Contains(flags, flag) {
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

// yearsLookedAt is over how many of the last years agencies' yields are counted.
const yearsLookedAt = 10

// yieldSourceMayDiffer speaks where some of the last years have no yield of NASS or
// RMA: the yield that pays may come from another source.
func yieldSourceMayDiffer(c flagCase) []Flag {
	var flags []Flag
	for i, h := range c.holdings {
		var gaps []string
		for _, p := range h.parts {
			for _, u := range p.practices {
				if u.weight > 0 || p.open() {
					gaps = once(gaps, c.gap(u))
				}
			}
		}
		if len(gaps) == 0 {
			continue
		}
		message := fmt.Sprintf("No yield of NASS or RMA is at hand for %s. The county yield that FSA pays on may then come from another source: other yields of the State, or of nearby farms. ", strings.Join(gaps, ", and for "))
		flags = append(flags, Flag{"yield_source_may_differ", Info, message + c.yieldMoves(i), "7 U.S.C. 9017(g)(4)-(5); 7 CFR 1412.3"})
	}
	return flags
}

// gap says in how many of the last ten years neither agency has a yield of a county;
// "" where none is lacking, the yield is known, or the county has no series of theirs.
func (c flagCase) gap(u practicePart) string {
	if u.outlook.stage == odds.Final {
		return ""
	}
	has := publishedYears(c.Counties, u.unit)
	last := min(c.newestPublished(stateOf(u.unit.county), u.unit.commodity), u.unit.cropYear-1)
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
	return fmt.Sprintf("%s in county %s%s in %d of the %d years %d to %d", u.unit.commodity.Name(), u.unit.county, ofPractice(u.unit.practice), lacking, yearsLookedAt, last-yearsLookedAt+1, last)
}

// publishedYears returns the years in which NASS or RMA has a yield of a county.
func publishedYears(book farm.CountyBook, u countyUnit) map[crop.CropYear]bool {
	years := map[crop.CropYear]bool{}
	for _, e := range related(book, u) {
		for _, series := range []map[crop.CropYear]crop.Yield{e.Harvested, e.Insured} {
			for y := range series {
				years[y] = true
			}
		}
	}
	return years
}

// stateCrop is a commodity in a State.
type stateCrop struct {
	state     string
	commodity crop.Commodity
}

// newestPublished returns the newest year of which NASS or RMA has a yield of any
// county of a State, 0 for none.
func newestPublished(book farm.CountyBook, s stateCrop) (newest crop.CropYear) {
	for _, code := range book.Codes(s.state) {
		for _, practice := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
			for y := range publishedYears(book, countyUnit{county: code, commodity: s.commodity, practice: practice}) {
				newest = max(newest, y)
			}
		}
	}
	return newest
}

// published holds the newest year of which an agency has a yield, by State and
// commodity.
type published struct {
	newest kept[stateCrop, crop.CropYear]
}

// newestPublished is found once for all farms of a run.
func (c flagCase) newestPublished(state string, commodity crop.Commodity) crop.CropYear {
	s := stateCrop{state, commodity}
	if c.seen == nil {
		return newestPublished(c.Counties, s)
	}
	return c.seen.newest.always(s, func() crop.CropYear { return newestPublished(c.Counties, s) })
}

// yieldMoves are the factors on the county yield that a flag tells ARC-CO at.
var yieldMoves = []sensitivity{{price: 1, yield: 0.90}, {price: 1, yield: 0.95}, {price: 1, yield: 1.05}, {price: 1, yield: 1.10}}

// yieldMoves says what ARC-CO of a holding averages at other county yields; "" where
// no money is computed, or for many farms.
func (c flagCase) yieldMoves(i int) string {
	if c.rates == nil || c.Brief || c.parts[i].Programs.Of(farm.ARCCO) == nil {
		return ""
	}
	h := c.holdings[i]
	price, ok := c.rates.priceOutlook(h.commodity, c.cropYear, h.national.Terms.PriceDecimals)
	if !ok {
		return ""
	}
	means := make([]float64, len(yieldMoves))
	for _, p := range h.parts {
		for k, mean := range c.rates.meansUnder(&arccoRate{of: h, base: p, price: price}, yieldMoves) {
			means[k] += mean * p.paymentAcres / h.baseAcres
		}
	}
	usd := func(x float64) string { return "$" + program.Text(x, 2) }
	off := func(k int) string { return odds.Percent(math.Abs(yieldMoves[k].yield - 1)) }
	return fmt.Sprintf("ARC-CO averages %s per base acre as shown. With county yields %s lower it averages %s, %s lower %s, %s higher %s, %s higher %s.",
		usd(float64(c.parts[i].Programs.Of(farm.ARCCO).Mean)), off(1), usd(means[1]), off(0), usd(means[0]), off(2), usd(means[2]), off(3), usd(means[3]))
}
