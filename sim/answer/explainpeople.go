package answer

import (
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
	p.attribution.Trace(pot, own, arrived, ended)
	for _, k := range p.attribution.Order {
		r := p.attribution.Recipients[k]
		if arrived[k] == 0 {
			continue
		}
		within := r.Within(pot, arrived[k])
		s.exact("reaches_"+r.ID, arrived[k], "USD", sourceAttribution, crop.Computed)
		s.add("limit_left_"+r.ID, r.Room(pot), 2, "USD", p.roomSource(r), p.limit.Status)
		s.exact("within_limit_"+r.ID, within, "USD", "7 U.S.C. 1308(b),(c)", crop.Computed)
		for _, o := range r.Owners {
			s.exact("owner_share_"+r.ID+"_"+p.attribution.Recipients[o.Recipient].ID, o.Share, "1", sourceAttribution, crop.Assumed)
		}
		paid := program.AfterSequestration(ended[k], p.sequestration.Value)
		sum += paid
		if r.Rest == 0 {
			continue // all of it is passed on
		}
		if r.Rest < 1 {
			s.exact("own_share_"+r.ID, r.Rest, "1", "owners who are not listed", crop.Assumed)
		}
		s.exact("sequestration_"+r.ID, p.sequestration.Value, "1", p.sequestration.Source, p.sequestration.Status)
		s.add("paid_"+r.ID, paid, 2, "USD", "limit first, then sequestration", crop.Computed)
	}
	return sum
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
