package flag

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// newElectionNeeded flags farms in a year for which every farm needs a new election.
func newElectionNeeded(c *Case) []answer.Flag {
	y := c.CropYear
	rule, err := law.Find("election_rule", "", y)
	if err != nil || rule.Text != NewElectionRule {
		return nil
	}
	message := fmt.Sprintf("No earlier election carries into %d. To be paid for %d, a farm needs a new election for each crop and a signed contract, even to keep the same program.", y, y)
	if without := withoutElection(y); without != "" {
		message += " " + without
	}
	return []answer.Flag{{Code: answer.NewElectionFlag, Severity: answer.Warning, Message: message, Source: rule.Citation()}}
}

// withoutElection says what follows where no election is made in such a year; "" where
// the law has no row for it.
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
		text += " This comes from a digest and is not confirmed in the words of the law."
	}
	return text
}

// contractMissed flags farms whose contract was not signed before sign-up closed.
func contractMissed(c *Case) []answer.Flag {
	if contract, _ := c.Farm.Contract.In(c.CropYear); contract != farm.Missed {
		return nil
	}
	message := fmt.Sprintf("No contract was signed for %d before sign-up closed. This farm is paid nothing for that year, whatever was elected. Ask the county office whether a late-filing provision is open.", c.CropYear)
	return []answer.Flag{{Code: "contract_missed", Severity: answer.Error, Message: message, Source: CitationOf("payment_without_contract", c.CropYear)}}
}

// deadlineUnknown flags every farm in a year whose last sign-up day is not known.
func deadlineUnknown(c *Case) []answer.Flag {
	day, err := law.Find("last_signup_day", "", c.CropYear)
	if err != nil || day.Text != "unknown" {
		return nil
	}
	message := fmt.Sprintf("The last day to sign up for %d is not known here. Ask the county office.", c.CropYear)
	return []answer.Flag{{Code: "deadline_unknown", Severity: answer.Warning, Message: message, Source: day.Citation()}}
}

// noPriceProjection flags farms with a commodity that has no projected price, or lacks a
// past price that its reference or benchmark price is made of.
func noPriceProjection(c *Case) []answer.Flag {
	var flags []answer.Flag
	for _, base := range c.Bases {
		missing := base.National.Missing
		if _, ok := c.Question.Market.Price(base.Commodity, c.CropYear); !ok {
			missing = fmt.Sprintf("a projected price of %s for %d", base.Commodity.Name(), c.CropYear)
		}
		if missing == "" {
			continue
		}
		message := fmt.Sprintf("There is no %s, so %s has no odds for %d. Enter one in a market file, with its date and source.", strings.TrimPrefix(missing, "a "), base.Commodity.Name(), c.CropYear)
		flags = append(flags, answer.Flag{Code: "no_price_projection", Severity: answer.Error, Message: message, Source: c.Question.Market.Source})
	}
	return flags
}

// paymentYieldMissing flags farms with a base that has no payment yield: PLC is then
// unknown, not zero.
func paymentYieldMissing(c *Case) []answer.Flag {
	return c.eachBase(func(base *position.CommodityBase, b position.Base) (answer.Flag, bool) {
		if b.Record.PaymentYield != nil {
			return answer.Flag{}, false
		}
		message := fmt.Sprintf("The %s base has no PLC yield%s, so PLC is unknown, not zero. Copy it from the farm record, or ask the county office.", base.Commodity.Name(), onTract(b.Record))
		return answer.Flag{Code: "payment_yield_missing", Severity: answer.Error, Message: message, Source: "7 U.S.C. 9013"}, true
	})
}

// yieldMissing flags farms with a base for which no source has a benchmark yield of the
// county.
func yieldMissing(c *Case) []answer.Flag {
	return c.eachBase(func(base *position.CommodityBase, b position.Base) (answer.Flag, bool) {
		without := len(b.Practices) == 0 || b.MissingPractice != "" || slices.ContainsFunc(b.Practices, func(u position.Practice) bool {
			return u.Benchmark.Status == "" && u.Weight > 0
		})
		if !without {
			return answer.Flag{}, false
		}
		which := base.Commodity.Name()
		if b.MissingPractice != "" {
			which = string(b.MissingPractice) + " " + which
		}
		message := fmt.Sprintf("No source has a benchmark yield of %s in %s for %d, so ARC-CO is unknown. Give FSA's county table (--county-table), or a county file with the five adjusted yields.", which, c.county(b.County), c.CropYear)
		return answer.Flag{Code: "yield_missing", Severity: answer.Error, Message: message, Source: "7 U.S.C. 9017(c)(2)"}, true
	})
}

// twoCounties flags farms with base in a county other than the one that administers
// them.
func twoCounties(c *Case) []answer.Flag {
	counties := []string{c.Farm.County}
	for _, b := range c.Farm.Bases {
		if county := b.PhysicalCounty(c.Farm); !slices.Contains(counties, county) {
			counties = append(counties, county)
		}
	}
	if len(counties) == 1 {
		return nil
	}
	rule, err := law.Find("base_county", "", c.CropYear)
	if err != nil {
		return nil
	}
	says := "ARC-CO pays each part by its own county"
	if rule.Text == "administrative_county" {
		says = "ARC-CO of that year paid all of it by the county that keeps the records"
	}
	for i, code := range counties {
		counties[i] = c.county(code)
	}
	message := fmt.Sprintf("This farm's records are kept in %s, but some base is in %s. %s. Check the tracts on your farm record.", counties[0], andList(counties[1:]), says)
	return []answer.Flag{{Code: "two_counties", Severity: answer.Warning, Message: message, Source: rule.Citation()}}
}

// baseExceedsCropland flags farms whose base, CRP reduction and unassigned base come to
// more than their cropland, where that is given.
func baseExceedsCropland(c *Case) []answer.Flag {
	if c.Farm.Cropland == nil {
		return nil
	}
	base := c.Farm.Unassigned
	for _, b := range c.Farm.Bases {
		base += b.BaseAcres + b.CRPReduction
	}
	if base <= *c.Farm.Cropland {
		return nil
	}
	message := fmt.Sprintf("Base acres, CRP reduction and unassigned base add to %.2f acres on %.2f acres of cropland. Only approved double cropping allows that. Check the figures against the farm record.", base, *c.Farm.Cropland)
	return []answer.Flag{{Code: "base_exceeds_cropland", Severity: answer.Warning, Message: message, Source: "7 U.S.C. 9012(b)"}}
}

// reportPage is the folder of WASDE's machine-readable files: that of the report of
// September 2026 (io/read/market/sources.csv).
const reportPage = "https://www.usda.gov/sites/default/files/documents/"

// reportFile is the name of WASDE's file of the newest month whose report is out on a day.
// The report comes by the middle of a month.
func reportFile(today time.Time) string {
	const out = 13
	month := time.Date(today.Year(), today.Month(), 1, 0, 0, 0, 0, time.UTC)
	if today.Day() < out {
		month = month.AddDate(0, -1, 0)
	}
	return "oce-wasde-report-data-" + month.Format("2006-01") + ".csv"
}

// marketStale flags farms with a commodity whose projected price is older than
// StaleDays.
func marketStale(c *Case) []answer.Flag {
	old := map[time.Time][]string{} // crops, by the day of their price
	for _, base := range c.Bases {
		outlook, projected := c.Question.Market.Outlook[base.Commodity][c.CropYear]
		if !projected {
			continue
		}
		if days := int(c.Question.Today.Sub(outlook.AsOf).Hours() / 24); days > StaleDays {
			old[outlook.AsOf] = AppendOnce(old[outlook.AsOf], base.Commodity.Name())
		}
	}
	if len(old) == 0 {
		return nil
	}
	message := ""
	for _, day := range slices.SortedFunc(maps.Keys(old), time.Time.Compare) {
		message += fmt.Sprintf("The projected price of %s is of %s, over %d days old. ", andList(old[day]), answer.Day(day), StaleDays)
	}
	message += fmt.Sprintf("A newer price can change the lead. USDA prints new ones each month. Save %s. Then run: fencerow market import %s. Or enter prices in a market file.",
		reportPage+reportFile(c.Question.Today), reportFile(c.Question.Today))
	return []answer.Flag{{Code: "market_stale", Severity: answer.Warning, Message: message, Source: c.Question.Market.Source}}
}

// correlationRepaired flags farms whose market file states price correlations that no
// joint distribution has; the nearest possible ones are used.
func correlationRepaired(c *Case) []answer.Flag {
	if len(c.Repairs) == 0 {
		return nil
	}
	var repaired []string
	for _, r := range c.Repairs {
		repaired = append(repaired, fmt.Sprintf("%s with %s from %.3f to %.3f", r.A.Name(), r.B.Name(), r.From, r.To))
	}
	message := fmt.Sprintf("The price correlations in the market file cannot hold together with the others. The nearest that can are used: %s. Enter others if these are not meant.", strings.Join(repaired, ", "))
	return []answer.Flag{{Code: "correlation_repaired", Severity: answer.Warning, Message: message, Source: c.Question.Market.Source}}
}

// NewElectionRule is the law's word, in row election_rule, for a year in which every
// farm needs a new election.
const NewElectionRule = "new_election_required"
