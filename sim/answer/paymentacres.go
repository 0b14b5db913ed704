package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// fruitVegetables stands for a commodity in a planting of fruit, vegetables or
// wild rice.
const fruitVegetables = farm.FruitVegetables

// unpaidReason says why a farm is paid nothing in a crop year, whatever is
// elected; "" where it can be paid.
func unpaidReason(f farm.Farm, y crop.CropYear) string {
	if contract, _ := f.Contract.In(y); contract == farm.Missed {
		return "no contract was signed: this farm is paid nothing for the crop year"
	}
	if _, idle := idleBase(f, y); idle {
		return "all cropland was in grass, idle or fallow from 2009 to 2017: this base is paid nothing"
	}
	return ""
}

// idleBase reports whether the law pays nothing on a farm that was all in
// grass, idle or fallow.
func idleBase(f farm.Farm, y crop.CropYear) (law.Figure, bool) {
	rule, err := law.Find("idle_base_unpaid", "", y)
	return rule, err == nil && f.Idle20092017
}

// paysOn returns the payment acres of a base on a share of its acres: none where
// the farm is paid nothing, fewer where more fruit and vegetables were planted on
// base than the row excessRow allows.
func (h *holding) paysOn(base farm.Base, share crop.Share, excessRow string) crop.Acres {
	if h.unpaid != "" {
		return 0
	}
	acres := program.PaymentAcres(base.BaseAcres, share)
	excess := excessOf(h.farm, h.national.Terms.CropYear, excessRow)
	if excess == 0 {
		return acres
	}
	return program.CutPaymentAcres(acres, base.BaseAcres, h.farm.BaseAcres(), excess)
}

// excessOf returns the acres by which a farm's fruit and vegetables planted on base
// acres in a crop year exceed the share of base that the row id allows.
//
// Source: 7 U.S.C. 9014(e).
func excessOf(f farm.Farm, y crop.CropYear, id string) crop.Acres {
	row, err := law.Find(id, "", y)
	if err != nil {
		return 0 // the row covers every crop year that has terms
	}
	planted, _ := f.PlantedOnBase(fruitVegetables, y)
	return program.ExcessFruitVegetables(planted, f.BaseAcres(), row.Number)
}

// baseIdle20092017 speaks where the law pays nothing on the farm's base.
func baseIdle20092017(c flagCase) []Flag {
	rule, idle := idleBase(c.farm, c.cropYear)
	if !idle {
		return nil
	}
	message := fmt.Sprintf("All cropland of this farm was in grass, pasture, idle or fallow from 2009 to 2017: its base and yields stay, but nothing is paid on them for crop year %d, whatever is elected. If that history is wrong, ask the county office to review it.", c.cropYear)
	return []Flag{{"base_idle_2009_2017", Error, message, rule.Citation()}}
}

// unassignedBase speaks of former cotton base that belongs to no commodity.
func unassignedBase(c flagCase) []Flag {
	if c.farm.Unassigned == 0 {
		return nil
	}
	message := fmt.Sprintf("The farm has %.2f acres of unassigned base: they earn nothing under any program. They are not counted as base where new base of 2026 is worked out (fencerow base); ask the county office what became of them.", c.farm.Unassigned)
	return []Flag{{"unassigned_base", Info, message, "7 U.S.C. 9014 (b)(4)"}}
}

// crpReduction speaks of base that is given up while land is in CRP.
func crpReduction(c flagCase) []Flag {
	acres := 0.0
	for _, b := range c.farm.Bases {
		acres += b.CRPReduction
	}
	if acres == 0 {
		return nil
	}
	message := fmt.Sprintf("%.2f acres of base are given up while land is in CRP: they are not in the base acres here and earn nothing now. They may come back when the CRP contract ends; ask the county office before it does.", acres)
	return []Flag{{"crp_reduction", Info, message, "7 U.S.C. 9012 (c)"}}
}

// plantedWithoutBase names covered commodities planted without base.
func plantedWithoutBase(c flagCase) []Flag {
	var flags []Flag
	for _, commodity := range crop.Commodities() {
		acres := c.farm.PlantedAcres(string(commodity), c.cropYear)
		if acres == 0 || len(c.farm.BasesOf(commodity)) > 0 {
			continue
		}
		message := fmt.Sprintf("%.2f acres of %s are planted and the farm has no %s base: PLC and ARC-CO pay nothing for that crop, whatever is elected. They follow base acres, not plantings; only ARC-IC looks at what is planted.", acres, commodity.Name(), commodity.Name())
		flags = append(flags, Flag{"planted_without_base", Info, message, "7 U.S.C. 9014 (a)"})
	}
	return flags
}

// fruitVegetablesOnBase says by how much fruit and vegetables planted on base acres
// cut payment acres.
func fruitVegetablesOnBase(c flagCase) []Flag {
	planted, stated := c.farm.PlantedOnBase(fruitVegetables, c.cropYear)
	row, err := law.Find("fruit_vegetable_share", "", c.cropYear)
	if c.farm.PlantedAcres(fruitVegetables, c.cropYear) == 0 || err != nil {
		return nil
	}
	where := "are planted on base acres"
	if !stated {
		where = "are assumed to be planted on base acres (on_base says how many are)"
	}
	individual := excessOf(c.farm, c.cropYear, "fruit_vegetable_share_individual")
	excess := excessOf(c.farm, c.cropYear, "fruit_vegetable_share")
	message := fmt.Sprintf("%.2f acres of fruit, vegetables or wild rice %s; the farm has %.2f base acres.", planted, where, c.farm.BaseAcres())
	if excess == 0 {
		message += fmt.Sprintf(" Up to %.0f percent of base they cut nothing.", 100*row.Number)
		return []Flag{{"fruit_vegetables", Info, message, row.Citation()}}
	}
	message += fmt.Sprintf(" The %.2f acres above %.0f percent cut the payment acres of PLC and ARC-CO acre for acre, here spread over all base (assumed). ARC-IC is cut by %.2f acres.", excess, 100*row.Number, individual)
	message += " Covers that are not harvested, and double cropping in its regions, do not count: ask the county office."
	return []Flag{{"fruit_vegetables", Warning, message, row.Citation()}}
}

// preventedPlanting says what prevented acres do and do not count for.
func preventedPlanting(c flagCase) []Flag {
	acres := 0.0
	for _, p := range c.farm.Planted {
		if p.CropYear == c.cropYear {
			acres += p.Prevented
		}
	}
	if acres == 0 {
		return nil
	}
	message := fmt.Sprintf("%.2f acres were prevented from being planted in crop year %d. They do not lower the county yield of ARC-CO, which is per planted acre; they count toward new base, and under ARC-IC a farm that was prevented on all its acres is paid the most there is. Make sure that the acreage report (FSA-578) shows them.", acres, c.cropYear)
	return []Flag{{"prevented_planting", Info, message, "7 CFR 1412.3; 7 U.S.C. 9012"}}
}
