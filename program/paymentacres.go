package program

import "fencerow/program/crop"

// PaymentAcres returns the acres on which a program pays: share (0.85 under PLC
// and ARC-CO) of the base acres of the commodity. CRP reduction is not base.
//
// Source: 7 U.S.C. 9014(a).
func PaymentAcres(baseAcres crop.Acres, share crop.Share) crop.Acres { return share * baseAcres }
