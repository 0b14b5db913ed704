package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
)

// explainPLC gives every step of PLC at a given price.
func (h *holding) explainPLC(payer payer, given Given) ProgramSteps {
	terms, unit := h.national.Terms, h.commodity.Unit().Price()
	s := stepList{h: h}
	s.target()
	if h.plcMissing != "" {
		return ProgramSteps{Steps: s.steps, Missing: h.plcMissing}
	}
	contract := h.plc()
	rate := contract.Rate(given.MYA)
	fine := h.national.targetDecimals()
	s.add("mya_price", given.MYA, fine, unit, sourceGiven, crop.Assumed)
	s.add("loan_rate", terms.LoanRate, fine, unit, terms.Rows["loan_rate"].Citation(), terms.Status("loan_rate"))
	s.add("effective_price", contract.EffectivePrice(given.MYA), fine, unit, sourceEffectivePrice, crop.Computed)
	s.add("payment_rate", rate, fine, unit, sourcePLCRate, crop.ComputedFrom(h.national.Target.Status, terms.Status("loan_rate")))
	var payments []crop.Money
	for _, p := range h.parts {
		suffix := h.suffix(p, "")
		payment := program.PLCPayment(rate, *p.base.PaymentYield, p.paymentAcres)
		s.add("payment_yield"+suffix, *p.base.PaymentYield, 2, h.commodity.Unit().Yield(), sourcePaymentYield, crop.Agency)
		s.acres(p, p.paymentAcres, h.national.Terms.Rows["payment_acre_share"], "fruit_vegetable_share", suffix)
		if suffix != "" {
			s.add("payment"+suffix, payment, 2, "USD", sourcePLCPayment, crop.Computed)
		}
		payments = append(payments, payment)
	}
	return h.finish(payer, &s, Price{rate, fine}, h.plcPerAcre(rate), payments, sourcePLCPayment)
}
