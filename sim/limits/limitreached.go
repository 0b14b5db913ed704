package limits

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// nearlyEvery is the share of outcomes from which on a limit is called reached in nearly
// every outcome; from odds.LimitCounts on it is flagged. Judgements of this program.
const nearlyEvery = 0.95

// LimitReached is one recipient whose payments fill its limit often enough to
// be told.
type LimitReached struct {
	Recipient    string
	Limit        crop.Money
	Chance       float64
	Status       crop.Status // of the limit
	Withheld     crop.Money  // kept back on average, USD as it would be paid
	BasesAtLimit []baseAtLimit
}

// baseAtLimit is one base whose payments fill the limit by themselves.
type baseAtLimit struct {
	Election     Election
	Chance       float64
	OthersAtMost crop.Money // the most that all other bases together can still add on average
}

// LimitsReached returns the recipients who reach a limit under the picks.
func (m Payments) LimitsReached(picks []Election, reached RecipientMeans) []LimitReached {
	var all []LimitReached
	var alone []RecipientMeans // of each pick by itself
	for k, r := range m.Attribution.Recipients {
		if reached.AtLimit[k] < odds.LimitCounts {
			continue
		}
		l := LimitReached{Recipient: r.ID, Limit: r.Limit, Status: m.Limit.Status, Chance: reached.AtLimit[k], Withheld: reached.Withheld[k] * (1 - m.Sequestration.Value)}
		if alone == nil {
			for _, one := range picks {
				alone = append(alone, m.ByRecipient([]Election{one}))
			}
		}
		for i, one := range picks {
			by := alone[i]
			if by.AtLimit[k] >= nearlyEvery && r.Rest == 1 {
				room := r.Room(m.Pool(one.Commodity))
				left := program.AfterSequestration(room-by.withinLimit[k], m.Sequestration.Value)
				l.BasesAtLimit = append(l.BasesAtLimit, baseAtLimit{one, by.AtLimit[k], left})
			}
		}
		all = append(all, l)
	}
	return all
}
