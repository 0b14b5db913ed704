package payoff

import (
	"slices"
	"sync"

	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/scenario"
)

// acreClaim is what a rate per acre brings on some acres, by a rule of the law.
func acreClaim(rates []crop.Revenue, acres crop.Acres, most crop.Revenue, rule func(crop.Revenue, crop.Acres) crop.Money) *Claim {
	return &Claim{Rates: rates, PerRate: acres, Most: rule(most, acres), Pay: func(dst []crop.Money, share crop.Share, rates []float64) {
		for i, rate := range rates {
			dst[i] += share * rule(rate, acres)
		}
	}}
}

// Claim turns a rate into what one base is paid under one program, USD before share, to
// the cent. Payments are worked out where they are needed, some scenarios at a time:
// keeping them would cost more memory than time.
type Claim struct {
	Rates []float64                                                 // USD per unit or acre by scenario; USD in all where Pay is nil
	Pay   func(dst []crop.Money, share crop.Share, rates []float64) // adds share times what the rates bring
	Most  crop.Money                                                // that any scenario can bring

	// PerRate is what a rate of one brings before it is rounded to the cent, where Pay is
	// not nil: the units or acres that are paid on.
	PerRate float64

	once    sync.Once
	average crop.Money
}

// Mean is the average over all scenarios, USD, worked out once.
func (p *Claim) Mean(b *scenario.Buffers) crop.Money {
	p.once.Do(func() {
		series := b.Zeros()
		p.Add(series, 1, 0)
		p.average = odds.Mean(series)
		b.Release(series)
	})
	return p.average
}

// Add adds share times the payments of scenarios from, from+1 ... to dst.
func (p *Claim) Add(dst []crop.Money, share crop.Share, from int) {
	p.add(dst, share, p.Rates[from:from+len(dst)])
}

// add adds share times what some rates bring to dst.
func (p *Claim) add(dst []crop.Money, share crop.Share, rates []float64) {
	if p.Pay != nil {
		p.Pay(dst, share, rates)
		return
	}
	for i, money := range rates {
		dst[i] += share * money
	}
}

// Claims is a sum of claims, each to a share.
type Claims []SharedClaim

// SharedClaim is a claim that counts to a share.
type SharedClaim struct {
	*Claim
	Share crop.Share
}

// Add adds the sum to dst.
func (all Claims) Add(dst []crop.Money, from int) {
	for _, p := range all {
		p.Claim.Add(dst, p.Share, from)
	}
}

// Most is what any scenario can bring at most, USD.
func (all Claims) Most() (most crop.Money) {
	for _, p := range all {
		most += p.Share * p.Claim.Most
	}
	return most
}

// allOf is the sum of the claims of all bases.
func allOf(byBase []*Claim) Claims {
	var all Claims
	for _, p := range byBase {
		all = append(all, SharedClaim{Claim: p, Share: 1})
	}
	return all
}

// ClaimsOf is a series of money, USD by scenario, as claims.
func ClaimsOf(series []crop.Money) Claims {
	return Claims{{&Claim{Rates: series, Most: slices.Max(series)}, 1}}
}
