package flag

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

// recordBeforeNotice flags farms whose record is older than the notice of new base, in a
// year in which new base counts. The answer is on the record's base, the one in hand; the
// dollars on the notice's stand beside it. No acres are guessed: the factor by which all
// new base may be cut is not known.
func recordBeforeNotice(c *Case) []answer.Flag {
	if c.Farm.BeforeNotice == nil || !*c.Farm.BeforeNotice {
		return nil
	}
	first, err := law.Find("new_base_history_first", "", c.CropYear)
	last, lastErr := law.Find("new_base_history_last", "", c.CropYear)
	if err != nil || lastErr != nil {
		return nil
	}
	message := fmt.Sprintf("The farm record is older than the notice of new base, so base acres may have grown from %d. Plantings of %.0f to %.0f can add base. No acres are guessed here. %s",
		first.First, first.Number, last.Number, c.onTheNotice())
	return []answer.Flag{{Code: "record_before_notice", Severity: answer.Warning, Message: message, Source: first.Citation()}}
}

// onTheNotice sets the dollars on the notice's base beside those on the record's, or says
// what to ask for.
func (c *Case) onTheNotice() string {
	if len(c.Farm.Notice) == 0 {
		return "Ask the county office for the base acres and PLC yield of the notice, and enter them under notice. These figures use the record's base."
	}
	var both []string
	for _, commodity := range crop.Commodities() {
		if notice, has := c.Farm.Notice[commodity]; has {
			both = append(both, c.bothBases(commodity, notice))
		}
	}
	return strings.Join(both, " ") + " All figures outside this flag use the record's base. To see the others, put the notice's acres under bases."
}

// bothBases says what the programs average on the record's base of a commodity and on the
// notice's, USD on the farm before share and limit.
func (c *Case) bothBases(commodity crop.Commodity, notice farm.NoticeBase) string {
	for i, base := range c.Bases {
		if base.Commodity != commodity || i >= len(c.Commodities) {
			continue
		}
		plc, arc := c.Commodities[i].Programs.Of(farm.PLC), c.Commodities[i].Programs.Of(farm.ARCCO)
		if plc == nil || arc == nil {
			break
		}
		part := 1.0 // of the PLC payment per acre: it goes with the yield
		if recorded := c.Commodities[i].PaymentYield; notice.PaymentYield != nil && recorded != nil && *recorded > 0 {
			part = *notice.PaymentYield / float64(*recorded)
		}
		dollars := func(perAcre answer.Dollars, acres crop.Acres) string {
			return PlainDollars(float64(perAcre) * acres)
		}
		return fmt.Sprintf("Base of %s: %s acres on the record, %s on the notice. On average PLC pays %s on the record and %s on the notice, ARC-CO %s and %s.",
			commodity.Name(), program.Text(base.Acres, 2), program.Text(notice.BaseAcres, 2),
			dollars(plc.Mean, base.Acres), dollars(plc.Mean, notice.BaseAcres*part), dollars(arc.Mean, base.Acres), dollars(arc.Mean, notice.BaseAcres))
	}
	return fmt.Sprintf("Base of %s: %s acres on the notice, and no base or no average on the record.", commodity.Name(), program.Text(notice.BaseAcres, 2))
}
