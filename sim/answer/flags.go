package answer

import (
	"time"

	"fmt"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// staleDays is the age of a market beyond which its prices are called old. A
// judgement of this program.
const staleDays = 45

// flagRules are all flags that a farm and crop year can raise, in the order in
// which they are shown. Each has a test that raises it and one that does not.
var flagRules = []func(flagCase) []Flag{
	newElectionNeeded, contractMissed, baseIdle20092017, tenAcres, incomeOverLimit, higherOf2025, deadlineUnknown,
	noPriceProjection, priceCarried, paymentYieldMissing, irrigatedHistoryMissing, yieldMissing, yieldOutOfLine, yieldNotKnown, yieldSourceMayDiffer,
	twoCounties, baseExceedsCropland, unassignedBase, crpReduction, plantedWithoutBase, fruitVegetablesOnBase, preventedPlanting,
	correlationRepaired, staxWithCottonBase, noPlantingARCIC, scoByYear, entityRuleByYear, flexLease, operatorChanged, mergeNeedsSameElection,
	countyStale, marketStale, unverifiedFigure, unverifiedIndividual,
}

// flagCase is what a flag looks at: one farm in one crop year.
type flagCase struct {
	Case
	farm       farm.Farm
	cropYear   crop.CropYear
	holdings   []*holding
	people     payer
	individual *individual     // what the farm brings to ARC-IC; nil where nothing about it is asked
	repairs    []odds.Repair   // of price correlations; unknown where nothing is drawn
	rates      *yearRates      // nil where no money is computed
	seen       *published      // what all farms of a run look up once; nil: nothing is kept
	parts      []CommodityPart // what the programs pay, by holding; nil where no money is computed
	arcLeads   bool            // ARC-CO or ARC-IC leads for some base; unknown where no money is computed
}

// Raise returns the flags of one farm in one crop year that need no money.
func Raise(c Case, f farm.Farm, people payer) []Flag {
	y := people.cropYear
	holdings, err := c.sources().holdings(f, y)
	if err != nil {
		return []Flag{noRules(y, err)}
	}
	one, _ := c.sources().individual(f, y) // none where the law has no terms for what is planted
	return flagCase{Case: c, farm: f, cropYear: y, holdings: holdings, people: people, individual: one}.raise()
}

// noRules says that the law has no figures for a crop year.
func noRules(y crop.CropYear, err error) Flag {
	return Flag{"no_rules", Error, fmt.Sprintf("Crop year %d: %v.", y, err), ""}
}

// raise applies every rule.
func (c flagCase) raise() []Flag {
	all := []Flag{}
	for _, rule := range flagRules {
		all = append(all, rule(c)...)
	}
	return all
}

// newElectionNeeded speaks in a year whose rules ask every farm to elect anew.
func newElectionNeeded(c flagCase) []Flag {
	rule, err := law.Find("election_rule", "", c.cropYear)
	if err != nil || rule.Text != newElectionRule {
		return nil
	}
	message := fmt.Sprintf("No earlier election carries into crop year %d. To be paid for %d, all producers on the farm need an election for each crop and a signed contract, even to keep the same program.", c.cropYear, c.cropYear)
	if without := withoutElection(c.cropYear); without != "" {
		message += " " + without
	}
	return []Flag{{NewElectionFlag, Warning, message, rule.Citation()}}
}

// withoutElection says what follows where no election is made in a crop year that
// needs a new one, "" where the law has no row for it.
func withoutElection(y crop.CropYear) string {
	now, err := law.Find("without_election", "", y)
	later, laterErr := law.Find("without_election", "", y+1)
	if err != nil || laterErr != nil || now.Text != "no_payment" {
		return ""
	}
	text := fmt.Sprintf("Without an election that all producers agree on, nothing is paid for %d. Later years then start from the coverage of %s, until it is changed.", y, strings.TrimPrefix(later.Text, "coverage_of_"))
	if contract, err := law.Find("payment_without_contract", "", y); err == nil && contract.Text == "none" {
		text += " An election without a signed contract pays nothing."
	}
	if crop.Weakest(now.Status, later.Status) == crop.Unverified {
		text += " This comes from a digest and is not confirmed in the words of the law: ask the county office."
	}
	return text
}

// contractMissed speaks where sign-up closed unsigned.
func contractMissed(c flagCase) []Flag {
	if contract, _ := c.farm.Contract.In(c.cropYear); contract != farm.Missed {
		return nil
	}
	message := fmt.Sprintf("No contract was signed for crop year %d before sign-up closed: this farm is paid nothing for it, whatever was elected. Ask the county office whether a late-filing provision is open.", c.cropYear)
	return []Flag{{"contract_missed", Error, message, citationOf("payment_without_contract", c.cropYear)}}
}

// deadlineUnknown speaks where the year's last sign-up day is not known.
func deadlineUnknown(c flagCase) []Flag {
	day, err := law.Find("last_signup_day", "", c.cropYear)
	if err != nil || day.Text != "unknown" {
		return nil
	}
	message := fmt.Sprintf("The sign-up dates of crop year %d are not known here. Ask the county office for the last day.", c.cropYear)
	return []Flag{{"deadline_unknown", Warning, message, day.Citation()}}
}

// noPriceProjection names each commodity without a projected price, or without
// a past price that its reference or benchmark price is built on.
func noPriceProjection(c flagCase) []Flag {
	var flags []Flag
	for _, h := range c.holdings {
		missing := h.national.Missing
		if _, ok := c.sources().priceOutlook(h.commodity, c.cropYear, h.national.Terms.PriceDecimals); !ok {
			missing = fmt.Sprintf("a projected price of %s for crop year %d", h.commodity.Name(), c.cropYear)
		}
		if missing == "" {
			continue
		}
		message := fmt.Sprintf("There is no %s, so %s has no odds for crop year %d. Enter one in a market file, with its date and source.", strings.TrimPrefix(missing, "a "), h.commodity.Name(), c.cropYear)
		flags = append(flags, Flag{"no_price_projection", Error, message, c.Market.Source})
	}
	return flags
}

// paymentYieldMissing names each base without a payment yield: PLC is unknown.
func paymentYieldMissing(c flagCase) []Flag {
	return c.eachPart(func(h *holding, p part) (Flag, bool) {
		message := fmt.Sprintf("The %s base has no payment yield%s, so PLC is unknown, not zero. Copy it from the farm record, or ask the county office which yield the base carries.", h.commodity.Name(), onTract(p.base))
		return Flag{"payment_yield_missing", Error, message, "7 U.S.C. 9013"}, p.base.PaymentYield == nil
	})
}

// yieldMissing speaks where no source has a benchmark yield of the county.
func yieldMissing(c flagCase) []Flag {
	return c.eachPart(func(h *holding, p part) (Flag, bool) {
		without := len(p.practices) == 0 || p.lacking != "" || slices.ContainsFunc(p.practices, func(u practicePart) bool {
			return u.benchmark.Status == "" && u.weight > 0
		})
		which := h.commodity.Name()
		if p.lacking != "" {
			which = string(p.lacking) + " " + which
		}
		message := fmt.Sprintf("No source has a benchmark yield of %s in county %s for crop year %d: ARC-CO is unknown. Give the agency's county table (--county-table) or a county file with the five adjusted yields.", which, p.county, c.cropYear)
		return Flag{"yield_missing", Error, message, "7 U.S.C. 9017(c)(2)"}, without
	})
}

// twoCounties speaks where base lies in more than one county, or in another
// than the one that administers the farm.
func twoCounties(c flagCase) []Flag {
	counties := []string{c.farm.County}
	for _, b := range c.farm.Bases {
		if county := b.PhysicalCounty(c.farm); !slices.Contains(counties, county) {
			counties = append(counties, county)
		}
	}
	if len(counties) == 1 {
		return nil
	}
	rule, err := law.Find("base_county", "", c.cropYear)
	if err != nil {
		return nil
	}
	says := "ARC-CO pays by the county where the base lies"
	if rule.Text == "administrative_county" {
		says = "ARC-CO of that year paid by the county that administers the farm"
	}
	message := fmt.Sprintf("The farm is administered in county %s and has base in %s: %s. Check the tracts and their counties on the farm record.", c.farm.County, strings.Join(counties[1:], ", "), says)
	return []Flag{{"two_counties", Warning, message, rule.Citation()}}
}

// baseExceedsCropland compares base, CRP reduction and unassigned base with the
// cropland, where the file gives it.
func baseExceedsCropland(c flagCase) []Flag {
	if c.farm.Cropland == nil {
		return nil
	}
	base := c.farm.Unassigned
	for _, b := range c.farm.Bases {
		base += b.BaseAcres + b.CRPReduction
	}
	if base <= *c.farm.Cropland {
		return nil
	}
	message := fmt.Sprintf("Base acres, CRP reduction and unassigned base come to %.2f acres on %.2f acres of cropland. Only approved double cropping allows that: check the figures against the farm record.", base, *c.farm.Cropland)
	return []Flag{{"base_exceeds_cropland", Warning, message, "7 U.S.C. 9012(b)"}}
}

// countyStale speaks where a benchmark does not come from an agency table of
// that program year.
func countyStale(c flagCase) []Flag {
	var typed []string
	for _, h := range c.holdings {
		for _, p := range h.parts {
			for _, u := range p.practices {
				name := h.commodity.Name() + " in county " + p.county
				if u.benchmark.Status != "" && !u.benchmark.agency && !slices.Contains(typed, name) {
					typed = append(typed, name)
				}
			}
		}
	}
	if len(typed) == 0 {
		return nil
	}
	message := fmt.Sprintf("The crop year %d benchmark yield of %s is typed or projected, not from the agency's table of that year. Compare it with the table when it is published.", c.cropYear, strings.Join(typed, ", "))
	return []Flag{{"county_stale", Warning, message, "FSA ARC-CO county table"}}
}

// marketStale speaks where a projected price is older than staleDays.
func marketStale(c flagCase) []Flag {
	var old []string
	for _, h := range c.holdings {
		outlook, projected := c.Market.Outlook[h.commodity][c.cropYear]
		if !projected {
			continue
		}
		if days := int(c.Today.Sub(outlook.AsOf).Hours() / 24); days > staleDays {
			old = append(old, fmt.Sprintf("%s (%s, %d days)", h.commodity.Name(), outlook.AsOf.Format(time.DateOnly), days))
		}
	}
	if len(old) == 0 {
		return nil
	}
	message := fmt.Sprintf("Projected prices are over %d days old on %s: %s. Enter newer ones in a market file: the lead can turn with the price.", staleDays, c.Today.Format(time.DateOnly), strings.Join(old, ", "))
	return []Flag{{"market_stale", Warning, message, c.Market.Source}}
}

// correlationRepaired tells which correlations of the market file were moved.
func correlationRepaired(c flagCase) []Flag {
	if len(c.repairs) == 0 {
		return nil
	}
	var moved []string
	for _, r := range c.repairs {
		moved = append(moved, fmt.Sprintf("%s with %s from %.3f to %.3f", r.A.Name(), r.B.Name(), r.From, r.To))
	}
	message := fmt.Sprintf("The price correlations of the market file cannot hold together with the others; the nearest that can are used: %s. State others if these are not meant.", strings.Join(moved, ", "))
	return []Flag{{"correlation_repaired", Warning, message, c.Market.Source}}
}

// eachPart raises a flag for every base of which raised says so, once by text.
func (c flagCase) eachPart(raised func(*holding, part) (Flag, bool)) []Flag {
	var flags []Flag
	for _, h := range c.holdings {
		for _, p := range h.parts {
			if flag, yes := raised(h, p); yes && !slices.Contains(flags, flag) {
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
