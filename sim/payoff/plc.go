package payoff

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// PLCRate is the PLC rate of a commodity, USD/unit: each scenario up to its own
// target price where that differs.
type PLCRate struct {
	Base  *position.CommodityBase
	Price position.Price

	of       *scenario.Year // that contract and targets are of
	contract program.PLC
	targets  []crop.Price
}

// Key names the commodity.
func (r *PLCRate) Key() Key { return plcKey(r.Base) }

func plcKey(h *position.CommodityBase) Key {
	return Key{Program: farm.PLC, Commodity: h.Commodity}
}

// Fill sets USD per unit by scenario of a tile.
func (r *PLCRate) Fill(rates, most []float64, t *Tile) {
	if r.of != t.year {
		r.contract, r.targets, r.of = r.Base.PLC(), t.year.Targets(r.Base.National), t.year
	}
	for i, mya := range t.Prices(r.Base.Commodity, r.Price) {
		if r.targets != nil {
			r.contract.TargetPrice = r.targets[t.From+i]
		}
		rates[i], most[i] = r.contract.Rate(mya), r.contract.MaximumRate()
	}
}

// plc is Price Loss Coverage.
type plc struct{}

// ID is the key of Price Loss Coverage.
func (plc) ID() farm.Program { return farm.PLC }

// Payoff is what PLC pays on the bases of a commodity, nil where a figure is missing.
func (plc) Payoff(y *Year, _ farm.Operation, h *position.CommodityBase, price position.Price, _ Payoffs) *Payoff {
	if h.PLCMissing != "" {
		return nil
	}
	rate, known := y.made.Known(plcKey(h))
	if !known {
		rate = y.RatesOf(&PLCRate{Base: h, Price: price})
	}
	out := &Payoff{Program: farm.PLC}
	out.addRate(rate, h.PLCPerAcre(1), 0)
	var byBase []*Claim
	for _, p := range h.Bases {
		yield, acres := *p.Record.PaymentYield, p.PaymentAcres
		byBase = append(byBase, &Claim{Rates: rate.Scenarios, PerRate: yield * acres, Most: program.PLCPayment(rate.maximum, yield, acres), Pay: func(dst []crop.Money, share crop.Share, rates []float64) {
			for i, rate := range rates {
				if rate != 0 {
					dst[i] += share * program.PLCPayment(rate, yield, acres)
				}
			}
		}})
	}
	out.setParts(y, h, byBase)
	return out
}
