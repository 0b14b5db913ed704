package limits

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// nearlyEvery is the share of scenarios from which on one base is said to fill a limit in
// nearly every case: a judgement of this program, as is odds.LimitCounts.
const nearlyEvery = 0.95

// LimitReached is one recipient who fills a payment limit often enough to be flagged
// (odds.LimitCounts).
type LimitReached struct {
	Recipient    string
	Limit        crop.Money  // USD
	Chance       float64     // share of scenarios in which it is filled, 0 to 1
	Status       crop.Status // of the limit
	Withheld     crop.Money  // cut by the limit on average, USD after sequestration
	BasesAtLimit []baseAtLimit
}

// baseAtLimit is one commodity base whose payments fill the limit by themselves in nearly
// every scenario.
type baseAtLimit struct {
	Election     Election
	Chance       float64    // share of scenarios, 0 to 1
	OthersAtMost crop.Money // limit less the mean of this base, USD after sequestration: most that all other bases can add
}

// LimitsReached returns the recipients who often reach a limit under some elections;
// means are those of the elections (ByRecipient).
func (m Payments) LimitsReached(elections []Election, means RecipientMeans) []LimitReached {
	var all []LimitReached
	var alone []RecipientMeans // if each election were the only one
	for k, r := range m.Attribution.Recipients {
		if means.AtLimit[k] < odds.LimitCounts {
			continue
		}
		l := LimitReached{Recipient: r.ID, Limit: r.Limit, Status: m.Limit.Status, Chance: means.AtLimit[k], Withheld: means.Withheld[k] * (1 - m.Sequestration.Value)}
		if alone == nil {
			for _, e := range elections {
				alone = append(alone, m.ByRecipient([]Election{e}))
			}
		}
		for i, e := range elections {
			by := alone[i]
			if by.AtLimit[k] >= nearlyEvery && r.Rest == 1 { // it has no owners to pass a part on to
				limit := r.Room(m.Pool(e.Commodity))
				left := program.AfterSequestration(limit-by.withinLimit[k], m.Sequestration.Value)
				l.BasesAtLimit = append(l.BasesAtLimit, baseAtLimit{e, by.AtLimit[k], left})
			}
		}
		all = append(all, l)
	}
	return all
}
