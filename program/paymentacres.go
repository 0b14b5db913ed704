package program

import (
	"fencerow/program/crop"
)

// Steps from base acres to payment acres.
var (
	StepBaseAcres            = Step{"base_acres", "base acres", "acres", "7 U.S.C. 9012"}
	StepPaymentAcreShare     = Step{"payment_acre_share", "part of base acres paid on", "1", ""}
	StepIndividualAcreShare  = Step{"payment_acre_share_individual", "part of base acres paid on under ARC-IC", "1", ""}
	StepFarmBaseAcres        = Step{"farm_base_acres", "base acres of the farm", "acres", "7 U.S.C. 9012"}
	StepFruitVegetableExcess = Step{"fruit_vegetable_excess", "acres of fruit and vegetables that cut payment acres", "acres", "7 U.S.C. 9014(e)"}
	StepPaymentAcres         = Step{"payment_acres", "payment acres: that part of base acres, minus what is cut", "acres", "7 U.S.C. 9014(a)"}
	StepUnpaidAcres          = Step{"payment_acres", "payment acres of base that is paid nothing", "acres", ""}
)

// PaymentAcres returns the acres on which a program pays: share (0.85 under PLC
// and ARC-CO) of the base acres of the commodity. CRP reduction is not base.
//
// Source: 7 U.S.C. 9014(a); base acres 7 U.S.C. 9012.
func PaymentAcres(baseAcres crop.Acres, share crop.Share) crop.Acres { return share * baseAcres }

// ExcessFruitVegetables returns the acres by which fruit, vegetables and wild
// rice planted on a farm cut its payment acres: those above a share of its base
// acres (0.15 under PLC and ARC-CO, 0.35 under ARC-IC).
//
// Source: 7 U.S.C. 9014(e).
func ExcessFruitVegetables(planted, baseAcres crop.Acres, share crop.Share) crop.Acres {
	return max(0, planted-share*baseAcres)
}

// CutPaymentAcres returns the payment acres of one base after the farm's excess
// of fruit and vegetables: the excess is spread over the bases of the farm by
// their acres. How it is spread is assumed; the statute names the farm's total.
//
// Source: 7 U.S.C. 9014(e).
func CutPaymentAcres(paymentAcres, baseAcres, farmBaseAcres, excess crop.Acres) crop.Acres {
	return max(0, paymentAcres-excess*baseAcres/farmBaseAcres)
}
