package payoff

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// payEach fills in a payoff under which each producer is paid by a rate of the own, USD
// per acre by scenario; who is not in the file is paid by the rate alone. acres are those
// of a base that it pays on, rule turns rate and acres into cents.
func (p *Payoff) payEach(y *Year, producers []farm.Producer, h *position.CommodityBase, rates [][]crop.Revenue, alone []crop.Revenue, acres func(position.Base) crop.Acres, rule func(crop.Revenue, crop.Acres) crop.Money) {
	p.parts = partsOf(h)
	claims := func(rates []crop.Revenue) []*Claim {
		var byBase []*Claim
		for _, b := range h.Bases {
			byBase = append(byBase, acreClaim(rates, acres(b), slices.Max(rates), rule))
		}
		byPart, owned := paidAsOne(y, p.parts, byBase)
		p.owned = append(p.owned, owned...)
		return byPart
	}
	p.ByPart, p.byPartOf, p.BeforeShare = claims(alone), map[string][]*Claim{}, y.Zeros()
	for j, producer := range producers {
		p.byPartOf[producer.ID] = claims(rates[j])
	}
	for k, part := range p.parts {
		rest := 1.0
		for _, producer := range producers {
			share := h.Bases[part[0]].Shares[producer.ID]
			rest -= share
			p.byPartOf[producer.ID][k].Add(p.BeforeShare, share, 0)
		}
		if rest >= crop.Noise {
			p.ByPart[k].Add(p.BeforeShare, rest, 0)
		}
	}
}
