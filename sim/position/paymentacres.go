package position

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// FruitVegetables stands for a commodity in a planting of fruit, vegetables or
// wild rice.
const FruitVegetables = farm.FruitVegetables

// UnpaidReason says why a farm is paid nothing in a crop year, whatever is
// elected; "" where it can be paid.
func UnpaidReason(f farm.Farm, y crop.CropYear) string {
	if contract, _ := f.Contract.In(y); contract == farm.Missed {
		return "no contract was signed: this farm is paid nothing for the crop year"
	}
	if _, idle := IdleBase(f, y); idle {
		return "all cropland was in grass, idle or fallow from 2009 to 2017: this base is paid nothing"
	}
	return ""
}

// IdleBase reports whether the law of a crop year pays nothing on a farm because all
// of it was in grass, idle or fallow, with the row of law that says so.
func IdleBase(f farm.Farm, y crop.CropYear) (law.Figure, bool) {
	rule, err := law.Find("idle_base_unpaid", "", y)
	return rule, err == nil && f.Idle20092017
}

// paymentAcres returns the payment acres of a base: share of its acres, less what was
// planted to fruit and vegetables beyond the share of base that the row of law
// excessRow allows; 0 where the farm is paid nothing.
func (c *CommodityBase) paymentAcres(base farm.Base, share crop.Share, excessRow string) crop.Acres {
	if c.Unpaid != "" {
		return 0
	}
	acres := program.PaymentAcres(base.BaseAcres, share)
	excess := ExcessFruitVegetables(c.Farm, c.National.Terms.CropYear, excessRow)
	if excess == 0 {
		return acres
	}
	return program.CutPaymentAcres(acres, base.BaseAcres, c.Farm.BaseAcres(), excess)
}

// ExcessFruitVegetables returns the acres by which a farm's fruit and vegetables planted on base
// acres in a crop year exceed the share of base that the row id allows.
//
// Source: 7 U.S.C. 9014(e).
func ExcessFruitVegetables(f farm.Farm, y crop.CropYear, id string) crop.Acres {
	row, err := law.Find(id, "", y)
	if err != nil {
		return 0 // the row covers every crop year that has terms
	}
	planted, _ := f.PlantedOnBase(FruitVegetables, y)
	if planted == 0 {
		return 0 // whatever the base: it need not be added up
	}
	return program.ExcessFruitVegetables(planted, f.BaseAcres(), row.Number)
}
