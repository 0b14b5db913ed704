package explain

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// explainPLC gives every step of PLC at a given price.
func explainPLC(base *position.CommodityBase, payer limits.Rules, given Given) ProgramSteps {
	s := stepList{h: base}
	s.target()
	if base.PLCMissing != "" {
		return ProgramSteps{Steps: s.steps, Missing: base.PLCMissing}
	}
	contract := base.PLC()
	rate := contract.Rate(given.MYA)
	fine := base.National.TargetDecimals()
	s.add(program.StepPrice, "", given.MYA, fine, sourceGiven, crop.Assumed)
	s.loanRate("")
	s.add(program.StepEffectivePrice, "", contract.EffectivePrice(given.MYA), fine, "", crop.Computed)
	s.add(program.StepPLCRate, "", rate, fine, "", crop.ComputedFrom(base.National.Target.Status, base.National.Terms.Status("loan_rate")))
	var payments []crop.Money
	for _, b := range base.Bases {
		suffix := suffixOf(base, b, "")
		payment := program.PLCPayment(rate, *b.Record.PaymentYield, b.PaymentAcres)
		s.add(program.StepPaymentYield, suffix, *b.Record.PaymentYield, 2, "; "+farmRecord, crop.Agency)
		s.payable(b, suffix)
		if suffix != "" {
			s.add(program.StepPLCPayment, suffix, payment, 2, "", crop.Computed)
		}
		payments = append(payments, payment)
	}
	return finish(base, payer, &s, answer.Price{Value: rate, Decimals: fine}, base.PLCPerAcre(rate), payments, program.StepPLCPayment)
}
