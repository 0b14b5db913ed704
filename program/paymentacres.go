package program

import "fencerow/program/crop"

// PaymentAcres returns the acres on which a program pays: share (0.85 under PLC
// and ARC-CO) of the base acres of the commodity. CRP reduction is not base.
//
// Source: 7 U.S.C. 9014(a).
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
