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
	ratio := program.AreaRatio(k.Plan, k.ExpectedYield, final, k.Projected, harvest)
	factor, value := l.Band.Factor(ratio), insuredValue(k, l, program.InsuredPrice(k.Plan, k.Projected, harvest))
	protection := l.Band.Protection(value, program.Percentage(l.Layer))
	figures := []areaFigure{
		{&program.StepProjectedPrice, &k.Projected}, {&program.StepHarvestPrice, &harvest}, {&program.StepExpectedAreaYield, &k.ExpectedYield}, {&program.StepFinalAreaYield, &final},
		{&program.StepAreaRatio, &ratio}, {&program.StepAreaTrigger, &l.Band.Trigger}, {&program.StepCoverageRange, &l.Band.Range}, {&program.StepAreaFactor, &factor}, {&program.StepCropValue, &value},
		{&program.StepProtection, &protection}, {&program.StepIndemnity, dollars(program.Indemnity(protection, factor))}, {&program.StepPremium, l.Total}, {&program.StepPremiumSubsidy, nil}, {&program.StepProducerPremium, l.Premium},
	}
	if l.Total != nil {
		figures[len(figures)-2].value = dollars(program.Cent(*l.Total - *l.Premium))
	}
	steps := []answer.AreaStep{}
	for _, f := range figures {
		if f.value == nil || k.Plan == farm.YieldProtection && f.step == &program.StepHarvestPrice {
			continue
		}
		steps = append(steps, answer.AreaStep{Name: f.step.Name, Words: f.step.Title, Value: answer.Chance(*f.value), Unit: f.step.UnitFor(k.Commodity), Source: f.step.Citation})
	}
	return steps
}

// areaFigure is a step with its value; nil: it is left out.
type areaFigure struct {
	step  *program.Step
	value *float64
}

func dollars(x float64) *float64 { return &x }

// insuredValue is the expected crop value of an acre, USD, at a price: of the farm's approved
// yield, under STAX of the area's.
func insuredValue(k *position.Insured, l position.InsuredLayer, price crop.Price) crop.Money {
	if l.Program == farm.STAX {
		return program.STAXValue(k.ExpectedYield, price, 1, 1)
	}
	return program.CropValue(1, k.ApprovedYield, price, 1)
}
