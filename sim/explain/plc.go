package explain

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// explainPLC gives every step of PLC at a given price.
func explainPLC(h *position.CommodityBase, payer limits.Rules, given Given) ProgramSteps {
	s := stepList{h: h}
	s.target()
	if h.PLCMissing != "" {
		return ProgramSteps{Steps: s.steps, Missing: h.PLCMissing}
	}
	contract := h.PLC()
	rate := contract.Rate(given.MYA)
	fine := h.National.TargetDecimals()
	s.add(program.StepPrice, "", given.MYA, fine, sourceGiven, crop.Assumed)
	s.loanRate("")
	s.add(program.StepEffectivePrice, "", contract.EffectivePrice(given.MYA), fine, "", crop.Computed)
	s.add(program.StepPLCRate, "", rate, fine, "", crop.ComputedFrom(h.National.Target.Status, h.National.Terms.Status("loan_rate")))
	var payments []crop.Money
	for _, p := range h.Bases {
		suffix := suffixOf(h, p, "")
		payment := program.PLCPayment(rate, *p.Record.PaymentYield, p.PaymentAcres)
		s.add(program.StepPaymentYield, suffix, *p.Record.PaymentYield, 2, "; "+farmRecord, crop.Agency)
		s.payable(p, suffix)
		if suffix != "" {
			s.add(program.StepPLCPayment, suffix, payment, 2, "", crop.Computed)
		}
		payments = append(payments, payment)
	}
	return finish(h, payer, &s, answer.Price{Value: rate, Decimals: fine}, h.PLCPerAcre(rate), payments, program.StepPLCPayment)
}
