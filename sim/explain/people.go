package explain

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// basesPaid is what one commodity base is paid, USD by base.
type basesPaid struct {
	base   *position.CommodityBase
	byBase []crop.Money
}

// explainPeople returns the steps from payments to what each person is paid, as if these
// bases were all, and the sum paid, USD.
func explainPeople(p limits.Rules, paid ...basesPaid) (steps []Step, sum crop.Money) {
	s := stepList{}
	for _, pool := range []program.LimitPool{program.GeneralPool, program.PeanutPool} {
		var counted []basesPaid
		for _, one := range paid {
			if p.Pool(one.base.Commodity) == pool {
				counted = append(counted, one)
			}
		}
		if len(counted) > 0 {
			sum += explainPool(p, &s, pool, counted)
		}
	}
	return s.steps, sum
}

// explainPool adds the steps of what counts against one limit and returns what is paid
// of it, USD.
func explainPool(p limits.Rules, s *stepList, pool program.LimitPool, paid []basesPaid) (sum crop.Money) {
	n := len(p.Attribution.Recipients)
	own, arrived, ended := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	for j, at := range p.Places {
		id := p.Producers[j].ID
		for _, one := range paid {
			earned := 0.0
			for k, b := range one.base.Bases {
				earned += p.ShareIn(j, one.base, b) * one.byBase[k]
			}
			if earned > 0 {
				s.shares(one.base, id, len(paid) > 1)
				own[at] += earned
			}
		}
		if own[at] > 0 {
			s.exact(program.StepEarned, "_"+id, own[at], "share x payment", crop.Computed)
		}
	}
	reduce(p, s, own)
	asPaid := p.Rule
	asPaid.Reduced = 0
	attribution := program.NewAttribution(p.Producers, asPaid)
	attribution.Trace(pool, own, arrived, ended)
	for _, k := range attribution.Order {
		if arrived[k] != 0 {
			sum += explainRecipient(p, s, pool, attribution, k, arrived[k], ended[k])
		}
	}
	return sum
}

// explainRecipient adds the steps of one recipient and returns what it is paid itself,
// USD: arrived is what reaches it, stays what its limit leaves of that and it does not
// pass on.
func explainRecipient(p limits.Rules, s *stepList, pool program.LimitPool, a program.Attribution, k int, arrived, stays crop.Money) crop.Money {
	r := a.Recipients[k]
	s.exact(program.StepReaches, "_"+r.ID, arrived, "", crop.Computed)
	within(p, s, pool, r, arrived)
	for _, o := range r.Owners {
		s.exact(program.StepOwnerShare, "_"+r.ID+"_"+a.Recipients[o.Recipient].ID, o.Share, "", crop.Assumed)
	}
	if r.Rest == 0 {
		return 0 // all of it is passed on
	}
	if r.Rest < 1 {
		s.exact(program.StepOwnShare, "_"+r.ID, r.Rest, "owners who are not listed", crop.Assumed)
	}
	if others := r.OthersRoom(pool); !math.IsInf(others, 1) {
		s.add(program.StepOwnLimit, "_"+r.ID, others, 2, ": owners who are not listed counted as one", p.Limit.Status)
	}
	withheld, order := p.Sequestration.Value-p.Rule.Reduced, "the limit comes after sequestration: "
	if withheld > 0 { // still to come after the limit
		s.exact(program.StepSequestration, "_"+r.ID, withheld, p.Sequestration.Source, p.Sequestration.Status)
		order = "sequestration comes after the limit: "
	}
	paid := program.AfterSequestration(stays, withheld)
	s.add(program.StepPaid, "_"+r.ID, paid, 2, order+p.Order.Citation(), p.Order.Status)
	return paid
}

// reduce adds what sequestration takes from what each producer earned, where it
// comes before the limit, and takes it.
func reduce(p limits.Rules, s *stepList, own []crop.Money) {
	if p.Rule.Reduced == 0 {
		return
	}
	for j, at := range p.Places {
		if own[at] == 0 {
			continue
		}
		own[at] *= 1 - p.Rule.Reduced
		s.exact(program.StepSequestration, "_"+p.Producers[j].ID, p.Rule.Reduced, p.Sequestration.Source, p.Sequestration.Status)
		s.exact(program.StepAfterSequestration, "_"+p.Producers[j].ID, own[at], p.Order.Citation(), crop.Computed)
	}
}

// within adds what a recipient's limit leaves. One with a limit for each member has
// none of its own but where it was paid elsewhere.
func within(p limits.Rules, s *stepList, pool program.LimitPool, r program.Recipient, arrived crop.Money) {
	within, words := program.StepWithinLimit, ""
	room := r.Room(pool)
	switch {
	case math.IsInf(room, 1):
		within, words = program.StepMembersLimits, ": each member's own limit holds"
	case r.Barred:
		s.add(program.StepIncomeOverLimit, "_"+r.ID, room, 2, ": average income over the limit", p.Limit.Status)
	default:
		s.add(program.StepLimitLeft, "_"+r.ID, room, 2, p.Limit.Source, p.Limit.Status)
	}
	s.exact(within, "_"+r.ID, r.Within(pool, arrived), words, crop.Computed)
}

// shares adds a producer's share in each base.
func (s *stepList) shares(base *position.CommodityBase, id string, named bool) {
	for _, b := range base.Bases {
		suffix := suffixOf(base, b, "")
		if named {
			suffix = "_" + string(base.Commodity) + suffix
		}
		s.exact(program.StepShare, "_"+id+suffix, b.Shares[id], "the contract", crop.Assumed)
	}
}
