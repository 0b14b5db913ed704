package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
)

// explainPLC gives every step of PLC at a given price.
func explainPLC(h *holding, payer payer, given Given) ProgramSteps {
	s := stepList{h: h}
	s.target()
	if h.plcMissing != "" {
		return ProgramSteps{Steps: s.steps, Missing: h.plcMissing}
	}
	contract := h.plc()
	rate := contract.Rate(given.MYA)
	fine := h.national.targetDecimals()
	s.add(program.StepPrice, "", given.MYA, fine, sourceGiven, crop.Assumed)
	s.loanRate("")
	s.add(program.StepEffectivePrice, "", contract.EffectivePrice(given.MYA), fine, "", crop.Computed)
	s.add(program.StepPLCRate, "", rate, fine, "", crop.ComputedFrom(h.national.Target.Status, h.national.Terms.Status("loan_rate")))
	var payments []crop.Money
	for _, p := range h.parts {
		suffix := suffixOf(h, p, "")
		payment := program.PLCPayment(rate, *p.base.PaymentYield, p.paymentAcres)
		s.add(program.StepPaymentYield, suffix, *p.base.PaymentYield, 2, "; "+farmRecord, crop.Agency)
		s.payable(p, suffix)
		if suffix != "" {
			s.add(program.StepPLCPayment, suffix, payment, 2, "", crop.Computed)
		}
		payments = append(payments, payment)
	}
	return finish(h, payer, &s, Price{rate, fine}, h.plcPerAcre(rate), payments, program.StepPLCPayment)
}
