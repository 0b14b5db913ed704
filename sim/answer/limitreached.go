package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// nearlyEvery is the share of outcomes from which on a limit is called reached in nearly
// every outcome; from odds.LimitCounts on it is flagged. Judgements of this program.
const nearlyEvery = 0.95

// limitReached is one recipient whose payments fill its limit often enough to
// be told.
type limitReached struct {
	recipient string
	limit     crop.Money
	chance    float64
	status    crop.Status // of the limit
	withheld  crop.Money  // kept back on average, USD as it would be paid
	alone     []aloneAtLimit
}

// aloneAtLimit is one base whose payments fill the limit by themselves.
type aloneAtLimit struct {
	pick   pick
	chance float64
	others crop.Money // the most that all other bases together can still add on average
}

// limitsReached returns the recipients who reach a limit under the picks.
func (m purse) limitsReached(picks []pick, reached reach) []limitReached {
	var all []limitReached
	var alone []reach // of each pick by itself
	for k, r := range m.attribution.Recipients {
		if reached.atLimit[k] < odds.LimitCounts {
			continue
		}
		l := limitReached{recipient: r.ID, limit: r.Limit, status: m.limit.Status, chance: reached.atLimit[k], withheld: reached.withheld[k] * (1 - m.sequestration.Value)}
		if alone == nil {
			for _, one := range picks {
				alone = append(alone, m.reached([]pick{one}))
			}
		}
		for i, one := range picks {
			by := alone[i]
			if by.atLimit[k] >= nearlyEvery && r.Rest == 1 {
				room := r.Room(m.pot(one.commodity))
				left := program.AfterSequestration(room-by.within[k], m.sequestration.Value)
				l.alone = append(l.alone, aloneAtLimit{one, by.atLimit[k], left})
			}
		}
		all = append(all, l)
	}
	return all
}

// flagOfLimit tells it on every farm that the recipient is paid for.
func flagOfLimit(l limitReached, people payer, f farm.Farm) (Flag, bool) {
	if !people.concerns(f, l.recipient) {
		return Flag{}, false
	}
	row, err := law.Find("payment_limit", "", people.cropYear)
	if err != nil {
		return Flag{}, false
	}
	message := fmt.Sprintf("%s reaches the payment limit of %s in %s of 100 outcomes; it keeps back %s on average, after sequestration.", l.recipient, marked(plainDollars(l.limit), l.status), inHundred(l.chance), plainDollars(l.withheld))
	for _, a := range l.alone {
		message += fmt.Sprintf(" The %s base of farm %s under %s reaches it alone in %s of 100: the choices for all other bases that count toward this limit change what %s is paid by at most %s on average.", a.pick.commodity.Name(), a.pick.farm, a.pick.program, inHundred(a.chance), l.recipient, plainDollars(a.others))
	}
	used := "after sequestration"
	if people.rule.Reduced == 0 {
		used = "before sequestration"
	}
	message += " Payments from farms outside this file count too (limit_used, in dollars " + used + "). Ask the county office about shares and entities before signing, not after."
	return Flag{"limit_reached", Warning, message, row.Citation()}, true
}

// inHundred writes a chance in 100 outcomes: "less than 1" for what can happen.
func inHundred(chance float64) string {
	switch n := program.Round(100*chance, 0); {
	case n == 0:
		return "less than 1"
	case n == 100 && chance < 1:
		return "more than 99"
	default:
		return fmt.Sprintf("%.0f", n)
	}
}
