package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// plcRate is the PLC rate of a commodity, USD/unit: each scenario up to its own
// target price where that differs.
type plcRate struct {
	base  *holding
	price priceOutlook

	ready    bool
	contract program.PLC
	targets  []crop.Price
}

func (r *plcRate) key() key { return key{program: farm.PLC, commodity: r.base.commodity} }

func (r *plcRate) fill(rates, most []float64, t *tile) {
	if !r.ready {
		r.contract, r.targets, r.ready = r.base.plc(), t.year.targets(r.base.national), true
	}
	for i, mya := range t.Prices(r.base.commodity, r.price) {
		if r.targets != nil {
			r.contract.TargetPrice = r.targets[t.from+i]
		}
		rates[i], most[i] = r.contract.Rate(mya), r.contract.MaximumRate()
	}
}

// plc is Price Loss Coverage.
type plc struct{}

// ID is the key of Price Loss Coverage.
func (plc) ID() farm.Program { return farm.PLC }

// Payoff is what PLC pays on the bases of a commodity, nil where a figure is missing.
func (plc) Payoff(y *yearRates, _ farm.Operation, h *holding, price priceOutlook, _ payoffs) *payoff {
	if h.plcMissing != "" {
		return nil
	}
	rate := y.of(&plcRate{base: h, price: price})
	out := &payoff{program: farm.PLC, rates: []*rateDraws{rate}, perAcre: y.zeros(), sum: weightedSum{{rate.rates, h.plcPerAcre(1)}}}
	out.sum.fill(out.perAcre)
	out.mean = odds.Mean(out.perAcre)
	for _, p := range h.parts {
		yield, acres := *p.base.PaymentYield, p.paymentAcres
		out.byBase = append(out.byBase, &payment{rates: rate.rates, most: program.PLCPayment(rate.maximum, yield, acres), pay: func(dst []crop.Money, share crop.Share, rates []float64) {
			for i, rate := range rates {
				dst[i] += share * program.PLCPayment(rate, yield, acres)
			}
		}})
	}
	return out
}
