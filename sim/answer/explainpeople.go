package answer

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
)

// basesPaid is what the bases of one commodity are paid, USD by base.
type basesPaid struct {
	holding *holding
	byPart  []crop.Money
}

// explain gives the steps from payments to what each person is paid, as if these
// bases were all, and the sum paid.
func (p payer) explain(paid ...basesPaid) (steps []Step, sum crop.Money) {
	s := stepList{}
	for _, pot := range []program.Pot{program.General, program.Peanuts} {
		var counted []basesPaid
		for _, one := range paid {
			if p.pot(one.holding.commodity) == pot {
				counted = append(counted, one)
			}
		}
		if len(counted) > 0 {
			sum += p.explainPot(&s, pot, counted)
		}
	}
	return s.steps, sum
}

// explainPot follows what counts against one limit.
func (p payer) explainPot(s *stepList, pot program.Pot, paid []basesPaid) (sum crop.Money) {
	n := len(p.attribution.Recipients)
	own, arrived, ended := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	for j, at := range p.places {
		id := p.producers[j].ID
		for _, one := range paid {
			earned := 0.0
			for k, part := range one.holding.parts {
				earned += p.shareIn(j, one.holding, part) * one.byPart[k]
			}
			if earned > 0 {
				s.shares(one.holding, id, len(paid) > 1)
				own[at] += earned
			}
		}
		if own[at] > 0 {
			s.exact("earned_"+id, own[at], "USD", "share x payment", crop.Computed)
		}
	}
	p.reduce(s, own)
	asPaid := p.rule
	asPaid.Reduced = 0
	attribution := program.NewAttribution(p.producers, asPaid)
	attribution.Trace(pot, own, arrived, ended)
	for _, k := range attribution.Order {
		if arrived[k] != 0 {
			sum += p.explainRecipient(s, pot, attribution, k, arrived[k], ended[k])
		}
	}
	return sum
}

// explainRecipient follows what arrived at one recipient to what it is paid itself of
// what stays with it after limits, and returns that.
func (p payer) explainRecipient(s *stepList, pot program.Pot, a program.Attribution, k int, arrived, stays crop.Money) crop.Money {
	r := a.Recipients[k]
	s.exact("reaches_"+r.ID, arrived, "USD", sourceAttribution, crop.Computed)
	p.within(s, pot, r, arrived)
	for _, o := range r.Owners {
		s.exact("owner_share_"+r.ID+"_"+a.Recipients[o.Recipient].ID, o.Share, "1", sourceAttribution, crop.Assumed)
	}
	if r.Rest == 0 {
		return 0 // all of it is passed on
	}
	if r.Rest < 1 {
		s.exact("own_share_"+r.ID, r.Rest, "1", "owners who are not listed", crop.Assumed)
	}
	if others := r.OthersRoom(pot); !math.IsInf(others, 1) {
		s.add("own_limit_"+r.ID, others, 2, "USD", "7 U.S.C. 1308(e)(3)(B)(ii): owners who are not listed counted as one", p.limit.Status)
	}
	withheld, order := p.sequestration.Value-p.rule.Reduced, "the limit comes after sequestration: "
	if withheld > 0 { // still to come after the limit
		s.exact("sequestration_"+r.ID, withheld, "1", p.sequestration.Source, p.sequestration.Status)
		order = "sequestration comes after the limit: "
	}
	paid := program.AfterSequestration(stays, withheld)
	s.add("paid_"+r.ID, paid, 2, "USD", order+p.order.Citation(), p.order.Status)
	return paid
}

// reduce adds what sequestration takes from what each producer earned, where it
// comes before the limit, and takes it.
func (p payer) reduce(s *stepList, own []crop.Money) {
	if p.rule.Reduced == 0 {
		return
	}
	for j, at := range p.places {
		if own[at] == 0 {
			continue
		}
		own[at] *= 1 - p.rule.Reduced
		s.exact("sequestration_"+p.producers[j].ID, p.rule.Reduced, "1", p.sequestration.Source, p.sequestration.Status)
		s.exact("after_sequestration_"+p.producers[j].ID, own[at], "USD", p.order.Citation(), crop.Computed)
	}
}

// within adds what a recipient's limit leaves. One with a limit for each member has
// none of its own but where it was paid elsewhere.
func (p payer) within(s *stepList, pot program.Pot, r program.Recipient, arrived crop.Money) {
	source := "7 U.S.C. 1308(b),(c)"
	if room := r.Room(pot); math.IsInf(room, 1) {
		source = "7 U.S.C. 1308(e)(3)(B)(ii): each member's own limit holds"
	} else {
		s.add("limit_left_"+r.ID, room, 2, "USD", p.roomSource(r), p.limit.Status)
	}
	s.exact("within_limit_"+r.ID, r.Within(pot, arrived), "USD", source, crop.Computed)
}

// shares adds a producer's share in each base.
func (s *stepList) shares(h *holding, id string, named bool) {
	for _, p := range h.parts {
		suffix := h.suffix(p, "")
		if named {
			suffix = "_" + string(h.commodity) + suffix
		}
		s.exact("share_"+id+suffix, p.shares[id], "1", sourceShare, crop.Assumed)
	}
}

// roomSource says what a recipient's limit comes from.
func (p payer) roomSource(r program.Recipient) string {
	if r.Barred {
		return "7 U.S.C. 1308-3a: average income over the limit"
	}
	return p.limit.Source
}
