package flag

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// baseIdle20092017 flags farms on whose base the law pays nothing.
func baseIdle20092017(c *Case) []answer.Flag {
	rule, idle := position.IdleBase(c.Farm, c.CropYear)
	if !idle {
		return nil
	}
	message := fmt.Sprintf("All cropland of this farm was in grass, pasture, idle or fallow from 2009 to 2017. Its base and yields stay, but nothing is paid on them for %d, whatever is elected. If that history is wrong, ask the county office to review it.", c.CropYear)
	return []answer.Flag{{Code: "base_idle_2009_2017", Severity: answer.Error, Message: message, Source: rule.Citation()}}
}

// unassignedBase flags farms with former cotton base that belongs to no commodity.
func unassignedBase(c *Case) []answer.Flag {
	if c.Farm.Unassigned == 0 {
		return nil
	}
	message := fmt.Sprintf("The farm has %.2f acres of unassigned base. They earn nothing under any program. They do not count as base where new base is worked out (fencerow base). Ask the county office what became of them.", c.Farm.Unassigned)
	return []answer.Flag{{Code: "unassigned_base", Severity: answer.Info, Message: message, Source: "7 U.S.C. 9014 (b)(4)"}}
}

// crpReduction flags farms whose base is reduced while land is in CRP.
func crpReduction(c *Case) []answer.Flag {
	acres := 0.0
	for _, b := range c.Farm.Bases {
		acres += b.CRPReduction
	}
	if acres == 0 {
		return nil
	}
	message := fmt.Sprintf("%.2f acres of base are given up while land is in CRP. They are not in the base acres here and earn nothing now. They may come back when the CRP contract ends. Ask the county office before it does.", acres)
	return []answer.Flag{{Code: "crp_reduction", Severity: answer.Info, Message: message, Source: "7 U.S.C. 9012 (c)"}}
}

// plantedWithoutBase flags farms that plant covered commodities without base of them.
func plantedWithoutBase(c *Case) []answer.Flag {
	if len(c.Farm.Planted) == 0 {
		return nil
	}
	var flags []answer.Flag
	for _, commodity := range crop.Commodities() {
		acres := c.Farm.PlantedAcres(string(commodity), c.CropYear)
		if acres == 0 || len(c.Farm.BasesOf(commodity)) > 0 {
			continue
		}
		message := fmt.Sprintf("%.2f acres of %s are planted, and the farm has no %s base. PLC and ARC-CO pay nothing for that crop, whatever is elected. They follow base acres, not plantings. Only ARC-IC looks at what is planted.", acres, commodity.Name(), commodity.Name())
		flags = append(flags, answer.Flag{Code: "planted_without_base", Severity: answer.Info, Message: message, Source: "7 U.S.C. 9014 (a)"})
	}
	return flags
}

// fruitVegetablesOnBase flags farms with fruit and vegetables on base acres, and says by
// how much they cut payment acres.
func fruitVegetablesOnBase(c *Case) []answer.Flag {
	planted, stated := c.Farm.PlantedOnBase(position.FruitVegetables, c.CropYear)
	row, err := law.Find("fruit_vegetable_share", "", c.CropYear)
	if c.Farm.PlantedAcres(position.FruitVegetables, c.CropYear) == 0 || err != nil {
		return nil
	}
	where := "are planted on base acres"
	if !stated {
		where = "are assumed to be planted on base acres (on_base says how many are)"
	}
	individual := position.ExcessFruitVegetables(c.Farm, c.CropYear, "fruit_vegetable_share_individual")
	excess := position.ExcessFruitVegetables(c.Farm, c.CropYear, "fruit_vegetable_share")
	message := fmt.Sprintf("%.2f acres of fruit, vegetables or wild rice %s. The farm has %.2f base acres.", planted, where, c.Farm.BaseAcres())
	if excess == 0 {
		message += fmt.Sprintf(" Up to %.0f percent of base they cut nothing.", 100*row.Number)
		return []answer.Flag{{Code: "fruit_vegetables", Severity: answer.Info, Message: message, Source: row.Citation()}}
	}
	message += fmt.Sprintf(" The %.2f acres above %.0f percent cut the payment acres of PLC and ARC-CO acre for acre. Here the cut falls on all base alike (assumed). ARC-IC is cut by %.2f acres.", excess, 100*row.Number, individual)
	message += " Covers that are not harvested, and double cropping in its regions, do not count. Ask the county office."
	return []answer.Flag{{Code: "fruit_vegetables", Severity: answer.Warning, Message: message, Source: row.Citation()}}
}

// preventedPlanting flags farms with prevented acres, and says what those count for.
func preventedPlanting(c *Case) []answer.Flag {
	acres := 0.0
	for _, p := range c.Farm.Planted {
		if p.CropYear == c.CropYear {
			acres += p.Prevented
		}
	}
	if acres == 0 {
		return nil
	}
	message := fmt.Sprintf("%.2f acres were prevented from being planted in %d. They do not lower the county yield of ARC-CO, which is per planted acre. They count toward new base. Under ARC-IC, a farm prevented on all its acres is paid the most there is. Check that the acreage report (FSA-578) shows them.", acres, c.CropYear)
	return []answer.Flag{{Code: "prevented_planting", Severity: answer.Info, Message: message, Source: "7 CFR 1412.3; 7 U.S.C. 9012"}}
}
