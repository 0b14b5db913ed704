package flag

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// newElectionNeeded flags farms in a year whose rules ask every farm to elect anew.
func newElectionNeeded(c Case) []answer.Flag {
	rule, err := law.Find("election_rule", "", c.CropYear)
	if err != nil || rule.Text != NewElectionRule {
		return nil
	}
	message := fmt.Sprintf("No earlier election carries into crop year %d. To be paid for %d, all producers on the farm need an election for each crop and a signed contract, even to keep the same program.", c.CropYear, c.CropYear)
	if without := withoutElection(c.CropYear); without != "" {
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
		text += " This comes from a digest and is not confirmed in the words of the law: ask the county office."
	}
	return text
}

// contractMissed flags farms whose contract was not signed before sign-up closed.
func contractMissed(c Case) []answer.Flag {
	if contract, _ := c.Farm.Contract.In(c.CropYear); contract != farm.Missed {
		return nil
	}
	message := fmt.Sprintf("No contract was signed for crop year %d before sign-up closed: this farm is paid nothing for it, whatever was elected. Ask the county office whether a late-filing provision is open.", c.CropYear)
	return []answer.Flag{{Code: "contract_missed", Severity: answer.Error, Message: message, Source: CitationOf("payment_without_contract", c.CropYear)}}
}

// deadlineUnknown flags every farm in a year whose last sign-up day is not known.
func deadlineUnknown(c Case) []answer.Flag {
	day, err := law.Find("last_signup_day", "", c.CropYear)
	if err != nil || day.Text != "unknown" {
		return nil
	}
	message := fmt.Sprintf("The sign-up dates of crop year %d are not known here. Ask the county office for the last day.", c.CropYear)
	return []answer.Flag{{Code: "deadline_unknown", Severity: answer.Warning, Message: message, Source: day.Citation()}}
}

// noPriceProjection flags farms with a commodity that has no projected price, or lacks a
// past price that its reference or benchmark price is made of.
func noPriceProjection(c Case) []answer.Flag {
	var flags []answer.Flag
	for _, base := range c.Bases {
		missing := base.National.Missing
		if _, ok := c.Question.Sources().Price(base.Commodity, c.CropYear, base.National.Terms.PriceDecimals); !ok {
			missing = fmt.Sprintf("a projected price of %s for crop year %d", base.Commodity.Name(), c.CropYear)
		}
		if missing == "" {
			continue
		}
		message := fmt.Sprintf("There is no %s, so %s has no odds for crop year %d. Enter one in a market file, with its date and source.", strings.TrimPrefix(missing, "a "), base.Commodity.Name(), c.CropYear)
		flags = append(flags, answer.Flag{Code: "no_price_projection", Severity: answer.Error, Message: message, Source: c.Question.Market.Source})
	}
	return flags
}

// paymentYieldMissing flags farms with a base that has no payment yield: PLC is then
// unknown, not zero.
func paymentYieldMissing(c Case) []answer.Flag {
	return c.eachBase(func(base *position.CommodityBase, b position.Base) (answer.Flag, bool) {
		message := fmt.Sprintf("The %s base has no payment yield%s, so PLC is unknown, not zero. Copy it from the farm record, or ask the county office which yield the base carries.", base.Commodity.Name(), onTract(b.Record))
		return answer.Flag{Code: "payment_yield_missing", Severity: answer.Error, Message: message, Source: "7 U.S.C. 9013"}, b.Record.PaymentYield == nil
	})
}

// yieldMissing flags farms with a base for which no source has a benchmark yield of the
// county.
func yieldMissing(c Case) []answer.Flag {
	return c.eachBase(func(base *position.CommodityBase, b position.Base) (answer.Flag, bool) {
		without := len(b.Practices) == 0 || b.MissingPractice != "" || slices.ContainsFunc(b.Practices, func(u position.Practice) bool {
			return u.Benchmark.Status == "" && u.Weight > 0
		})
		which := base.Commodity.Name()
		if b.MissingPractice != "" {
			which = string(b.MissingPractice) + " " + which
		}
		message := fmt.Sprintf("No source has a benchmark yield of %s in county %s for crop year %d: ARC-CO is unknown. Give the agency's county table (--county-table) or a county file with the five adjusted yields.", which, b.County, c.CropYear)
		return answer.Flag{Code: "yield_missing", Severity: answer.Error, Message: message, Source: "7 U.S.C. 9017(c)(2)"}, without
	})
}

// twoCounties flags farms with base in a county other than the one that administers
// them.
func twoCounties(c Case) []answer.Flag {
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
	says := "ARC-CO pays by the county where the base lies"
	if rule.Text == "administrative_county" {
		says = "ARC-CO of that year paid by the county that administers the farm"
	}
	message := fmt.Sprintf("The farm is administered in county %s and has base in %s: %s. Check the tracts and their counties on the farm record.", c.Farm.County, strings.Join(counties[1:], ", "), says)
	return []answer.Flag{{Code: "two_counties", Severity: answer.Warning, Message: message, Source: rule.Citation()}}
}

// baseExceedsCropland flags farms whose base, CRP reduction and unassigned base come to
// more than their cropland, where that is given.
func baseExceedsCropland(c Case) []answer.Flag {
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
	message := fmt.Sprintf("Base acres, CRP reduction and unassigned base come to %.2f acres on %.2f acres of cropland. Only approved double cropping allows that: check the figures against the farm record.", base, *c.Farm.Cropland)
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
func marketStale(c Case) []answer.Flag {
	var old []string
	for _, base := range c.Bases {
		outlook, projected := c.Question.Market.Outlook[base.Commodity][c.CropYear]
		if !projected {
			continue
		}
		if days := int(c.Question.Today.Sub(outlook.AsOf).Hours() / 24); days > StaleDays {
			old = append(old, fmt.Sprintf("%s (%s, %d days)", base.Commodity.Name(), outlook.AsOf.Format(time.DateOnly), days))
		}
	}
	if len(old) == 0 {
		return nil
	}
	message := fmt.Sprintf("Projected prices are over %d days old on %s: %s. The lead can turn with the price. USDA prints newer ones each month: save %s. Then: fencerow market import %s, or enter prices in a market file.",
		StaleDays, c.Question.Today.Format(time.DateOnly), strings.Join(old, ", "), reportPage+reportFile(c.Question.Today), reportFile(c.Question.Today))
	return []answer.Flag{{Code: "market_stale", Severity: answer.Warning, Message: message, Source: c.Question.Market.Source}}
}

// correlationRepaired flags farms whose market file states price correlations that no
// joint distribution has; the nearest possible ones are used.
func correlationRepaired(c Case) []answer.Flag {
	if len(c.Repairs) == 0 {
		return nil
	}
	var repaired []string
	for _, r := range c.Repairs {
		repaired = append(repaired, fmt.Sprintf("%s with %s from %.3f to %.3f", r.A.Name(), r.B.Name(), r.From, r.To))
	}
	message := fmt.Sprintf("The price correlations of the market file cannot hold together with the others; the nearest that can are used: %s. State others if these are not meant.", strings.Join(repaired, ", "))
	return []answer.Flag{{Code: "correlation_repaired", Severity: answer.Warning, Message: message, Source: c.Question.Market.Source}}
}

// NewElectionRule is the law's word, in row election_rule, for a year in which every
// farm must elect anew.
const NewElectionRule = "new_election_required"
