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
	Recipient string
	Limit     crop.Money
	Chance    float64
	Status    crop.Status // of the limit
	Withheld  crop.Money  // kept back on average, USD as it would be paid
	Alone     []aloneAtLimit
}

// aloneAtLimit is one base whose payments fill the limit by themselves.
type aloneAtLimit struct {
	Pick   Election
	Chance float64
	Others crop.Money // the most that all other bases together can still add on average
}

// LimitsReached returns the recipients who reach a limit under the picks.
func (m Payments) LimitsReached(picks []Election, reached Reach) []LimitReached {
	var all []LimitReached
	var alone []Reach // of each pick by itself
	for k, r := range m.Attribution.Recipients {
		if reached.AtLimit[k] < odds.LimitCounts {
			continue
		}
		l := LimitReached{Recipient: r.ID, Limit: r.Limit, Status: m.Limit.Status, Chance: reached.AtLimit[k], Withheld: reached.Withheld[k] * (1 - m.Sequestration.Value)}
		if alone == nil {
			for _, one := range picks {
				alone = append(alone, m.Reached([]Election{one}))
			}
		}
		for i, one := range picks {
			by := alone[i]
			if by.AtLimit[k] >= nearlyEvery && r.Rest == 1 {
				room := r.Room(m.Pool(one.Commodity))
				left := program.AfterSequestration(room-by.within[k], m.Sequestration.Value)
				l.Alone = append(l.Alone, aloneAtLimit{one, by.AtLimit[k], left})
			}
		}
		all = append(all, l)
	}
	return all
}
