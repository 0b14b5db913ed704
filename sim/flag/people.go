package flag

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// incomeOverLimit flags farms with a producer, or an owner of one, who is paid nothing
// because of average income.
func incomeOverLimit(c *Case) []answer.Flag {
	rule, err := law.Find("income_limit", "", c.CropYear)
	if err != nil {
		return nil
	}
	var flags []answer.Flag
	reached := c.Rules.ReachedFrom(c.Farm)
	for _, p := range c.Question.Operation.Producers {
		if !p.IncomeOverLimit || !reached[p.ID] {
			continue
		}
		message := fmt.Sprintf("Producer %s has an average adjusted gross income over %s. ARC and PLC pay that producer nothing for %d. An entity is paid less by that producer's part. "+
			"The average covers the three tax years before the last complete one (for crop year 2026: 2022 to 2024). Talk to a tax adviser before form CCC-941 is filed.", p.ID, PlainDollars(rule.Number), c.CropYear)
		flags = append(flags, answer.Flag{Code: "income_over_limit", Severity: answer.Error, Message: message, Source: rule.Citation()})
	}
	return flags
}

// entityRuleByYear flags farms in which an entity has a share, and says which limit the
// crop year's law gives it.
func entityRuleByYear(c *Case) []answer.Flag {
	var flags []answer.Flag
	reached := c.Rules.ReachedFrom(c.Farm)
	for _, p := range c.Question.Operation.Producers {
		if p.Kind != farm.PassThrough && p.Kind != farm.Corporation || !reached[p.ID] {
			continue
		}
		limit := c.Rules.Attribution.Recipients[c.Rules.Attribution.Find(p.ID)].Limit
		rule, why, source := "one payment limit", "A corporation has one in every crop year.", "7 U.S.C. 1308(e)(3)"
		if p.Kind == farm.PassThrough {
			why = "Pass-through entities had one through 2025."
			if row, err := law.Find("pass_through_limit_per_member", "", c.CropYear); err == nil {
				rule, source = fmt.Sprintf("a payment limit for each of its members (%d listed)", len(p.Members)), row.Citation()
				why = "From 2026 that holds for partnerships, S corporations and LLCs not taxed as corporations. Each member must be actively engaged in farming."
			}
		}
		message := fmt.Sprintf("For %d, entity %s has %s: %s in all. %s What it is paid also counts toward each owner's own limit, by share. Ask the county office how FSA classes the entity and its members (forms CCC-901, CCC-902).", c.CropYear, p.ID, rule, marked(PlainDollars(limit), c.Rules.Limit.Status), why)
		flags = append(flags, answer.Flag{Code: "entity_rule_by_year", Severity: answer.Warning, Message: message, Source: source})
	}
	return flags
}

// ProducerSource is where the law says who is a producer, and that producers elect: a landowner
// on cash rent shares in no crop, so is none.
const ProducerSource = "7 U.S.C. 9011(17)(A) (a producer shares in the risk and in the crop) and 9015(a) (all producers on a farm elect)"

// flexLease flags farms whose rent moves with price, yield or payments.
func flexLease(c *Case) []answer.Flag {
	if c.Farm.Lease != farm.FlexLease {
		return nil
	}
	message := "The lease is flexible. FSA may take it for a cash lease or a share lease. That decides who is a producer, who must sign and who is paid. Published readings of the rule differ, and a wrong split can lead to repaying. Show the lease to the county office before signing."
	return []answer.Flag{{Code: "flex_lease", Severity: answer.Warning, Message: message, Source: ProducerSource + "; that a flexible lease may count either way is practice, no rule on it was read"}}
}

// operatorChanged flags farms whose producers differ by crop year, and says who signs
// for which.
func operatorChanged(c *Case) []answer.Flag {
	var producers, said []string
	for _, y := range slices.Sorted(maps.Keys(c.Farm.Shares.Year)) {
		names := strings.Join(slices.Sorted(maps.Keys(withShare(c.Farm.Shares.Year[y]))), " and ")
		producers, said = append(producers, names), append(said, fmt.Sprintf("%s for %d", names, y))
	}
	if len(slices.Compact(producers)) < 2 {
		return nil
	}
	message := fmt.Sprintf("The producers of this farm differ by crop year: %s. The producers of a year sign its election and contract. Whoever leaves cannot sign for the next year. Whoever comes takes over the last election until the next sign-up.", strings.Join(said, ", "))
	return []answer.Flag{{Code: "operator_changed", Severity: answer.Warning, Message: message, Source: "7 U.S.C. 9015"}}
}

// withShare returns the shares without those of zero.
func withShare(shares farm.Shares) farm.Shares {
	left := maps.Clone(shares)
	maps.DeleteFunc(left, func(_ string, share crop.Share) bool { return share == 0 })
	return left
}

// scoByYear flags farms on which ARC was last elected or leads, and says what that means for
// the SCO insurance endorsement.
func scoByYear(c *Case) []answer.Flag {
	if !position.OnRecord(c.Farm, farm.ARCCO, farm.ARCIC) && !c.ARCLeads {
		return nil
	}
	rule, err := law.Find("sco_with_arc", "", c.CropYear)
	if err != nil {
		return nil
	}
	message := fmt.Sprintf("For %d, acres of a crop in ARC-CO or ARC-IC on this farm could not be insured under SCO. If SCO was bought on them, talk to your insurance agent.", c.CropYear)
	if rule.Text == "allowed" {
		message = fmt.Sprintf("From %d, SCO crop insurance can be bought with PLC or with ARC. Ask your insurance agent what it would cost and cover on your farm.", rule.First)
	}
	return []answer.Flag{{Code: "sco_by_year", Severity: answer.Info, Message: message, Source: rule.Citation()}}
}

// tenAcres flags farms with a producer who is paid nothing by the rule on ten or fewer
// base acres.
func tenAcres(c *Case) []answer.Flag {
	rule := c.Rules.TenAcres
	var flags []answer.Flag
	for _, p := range c.Question.Operation.Producers {
		if !rule.Bars(p.ID, c.Farm.Key()) {
			continue
		}
		where := fmt.Sprintf("%.2f base acres on all farms here and elsewhere (other_base_acres)", rule.BaseAcres[p.ID])
		if rule.EachFarm {
			where = fmt.Sprintf("%.2f base acres on this farm", c.Farm.BaseAcres())
		}
		message := fmt.Sprintf("Producer %s has %s. With %.0f or fewer, ARC and PLC pay nothing for %d. If there is base on farms outside this file, enter other_base_acres. Beginning, limited resource, socially disadvantaged and veteran farmers are exempt (ten_acre_exempt). They certify it at the county office.", p.ID, where, rule.Row.Number, c.CropYear)
		flags = append(flags, answer.Flag{Code: "ten_acres", Severity: answer.Error, Message: message, Source: rule.Row.Citation()})
	}
	return flags
}
