package compare

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// areaSteps works out one acre of a layer at a harvest price and the final area yield given.
func areaSteps(k *position.Insured, l position.InsuredLayer, harvest crop.Price, final crop.Yield) []answer.AreaStep {
	var steps []answer.AreaStep
	add := func(of program.Step, value float64) {
		steps = append(steps, answer.AreaStep{Name: of.Name, Words: of.Title, Value: answer.Chance(value), Unit: of.UnitFor(k.Commodity), Source: of.Citation})
	}
	add(program.StepProjectedPrice, k.Projected)
	if k.Plan != farm.YieldProtection {
		add(program.StepHarvestPrice, harvest)
	}
	add(program.StepExpectedAreaYield, k.ExpectedYield)
	add(program.StepFinalAreaYield, final)
	ratio := program.AreaRatio(k.Plan, k.ExpectedYield, final, k.Projected, harvest)
	add(program.StepAreaRatio, ratio)
	add(program.StepAreaTrigger, l.Band.Trigger)
	add(program.StepCoverageRange, l.Band.Range)
	factor := l.Band.Factor(ratio)
	add(program.StepAreaFactor, factor)
	value := insuredValue(k, l, program.InsuredPrice(k.Plan, k.Projected, harvest))
	protection := l.Band.Protection(value, program.Percentage(l.Layer))
	add(program.StepCropValue, value)
	add(program.StepProtection, protection)
	add(program.StepIndemnity, program.Indemnity(protection, factor))
	if l.Total != nil {
		add(program.StepPremium, *l.Total)
		add(program.StepPremiumSubsidy, program.Cent(*l.Total-*l.Premium))
	}
	if l.Premium != nil {
		add(program.StepProducerPremium, *l.Premium)
	}
	return steps
}

// insuredValue is the expected crop value of an acre, USD, at a price: of the farm's approved
// yield, under STAX of the area's.
func insuredValue(k *position.Insured, l position.InsuredLayer, price crop.Price) crop.Money {
	if l.Program == farm.STAX {
		return program.STAXValue(k.ExpectedYield, price, 1, 1)
	}
	return program.CropValue(1, k.ApprovedYield, price, 1)
}
