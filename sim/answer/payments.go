package answer

import (
	"slices"
	"sync"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// payment is what one base is paid in each draw under one program, USD before
// share. It is worked out from the rates where it is needed, some draws at a
// time: keeping it would cost more memory than time.
type payment struct {
	rates []float64                                                 // USD per unit or acre by scenario; money itself without pay
	pay   func(dst []crop.Money, share crop.Share, rates []float64) // adds share times what rates bring; nil: rates are money
	most  crop.Money                                                // that any scenario can bring

	once    sync.Once
	average crop.Money
}

// mean is the average over all draws, worked out once.
func (p *payment) mean(b *buffers) crop.Money {
	p.once.Do(func() {
		series := b.zeros()
		p.add(series, 1, 0)
		p.average = odds.Mean(series)
		b.give(series)
	})
	return p.average
}

// add adds share times the payments of draws from, from+1 ... to dst.
func (p *payment) add(dst []crop.Money, share crop.Share, from int) {
	rates := p.rates[from : from+len(dst)]
	if p.pay != nil {
		p.pay(dst, share, rates)
		return
	}
	for i, money := range rates {
		dst[i] += share * money
	}
}

// payments is a sum of payments, each to a share.
type payments []sharedPayment

type sharedPayment struct {
	*payment
	share crop.Share
}

// add adds the sum to dst.
func (all payments) add(dst []crop.Money, from int) {
	for _, p := range all {
		p.payment.add(dst, p.share, from)
	}
}

// whole is the sum of the payments of all bases.
func whole(byPart []*payment) payments {
	var all payments
	for _, p := range byPart {
		all = append(all, sharedPayment{payment: p, share: 1})
	}
	return all
}

// money is a series of money as payments.
func money(series []crop.Money) payments {
	return payments{{&payment{rates: series, most: slices.Max(series)}, 1}}
}

// flow is what one holding pays each producer under one program, after share.
type flow []payments // by producer

// flows splits the payments of each base among the producers by their shares; a
// producer with too little base gets nothing.
func (p payer) flows(h *holding, of *payoff) flow {
	split := make(flow, len(p.producers))
	for j, producer := range p.producers {
		byBase := of.of(producer.ID)
		for k, part := range h.parts {
			if share := p.shareIn(j, h, part); share != 0 {
				split[j] = append(split[j], sharedPayment{payment: byBase[k], share: share})
			}
		}
	}
	return split
}

// shareIn returns the share of a base that producer j is paid for.
func (p payer) shareIn(j int, h *holding, of part) crop.Share {
	id := p.producers[j].ID
	if p.tenAcres.bars(id, h.farm.Key()) {
		return 0
	}
	return of.shares[id]
}
