package program

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Steps of area insurance.
var (
	StepProjectedPrice    = Step{"projected_price", "projected price", perUnit, ""}
	StepHarvestPrice      = Step{"harvest_price", "harvest price", perUnit, ""}
	StepExpectedAreaYield = Step{"expected_area_yield", "expected area yield", unitsPerAcre, ""}
	StepFinalAreaYield    = Step{"final_area_yield", "final area yield", unitsPerAcre, ""}
	StepAreaRatio         = Step{"final_over_expected", "final over expected area yield or revenue", "1", "20-SCO, sec. 9(a)"}
	StepAreaTrigger       = Step{"area_loss_trigger", "area loss trigger", "1", ""}
	StepCoverageRange     = Step{"coverage_range", "coverage range: trigger minus the lower end of the band", "1", "20-SCO, sec. 1"}
	StepAreaFactor        = Step{"payment_factor", "payment factor: trigger minus that ratio, over the range, 0 to 1", "1", "20-SCO, sec. 9(a)"}
	StepCropValue         = Step{"expected_crop_value", "expected crop value", "USD", "20-SCO, sec. 1"}
	StepProtection        = Step{"protection", "protection: expected crop value x range x coverage percentage", "USD", "20-SCO, sec. 1"}
	StepIndemnity         = Step{"indemnity", "indemnity: protection x payment factor", "USD", "20-SCO, sec. 9(a)"}
)

// Band is the part of an area's expected yield or revenue that a layer covers.
type Band struct {
	Trigger crop.Share // area loss trigger, where it begins
	Range   crop.Share // coverage range, down to its lower end
}

// bandDecimals are those of a trigger and a coverage range, whole percents.
const bandDecimals = 2

// bandOf returns the band from a trigger down to its lower end; the range is a whole percent.
func bandOf(trigger, lower crop.Share) Band {
	return Band{Trigger: trigger, Range: Round(max(0, trigger-lower), bandDecimals)}
}

// InsuredPrice returns the price at which a plan values the crop, USD/unit: the projected
// price, under RP the harvest price where that is higher.
//
// Source: 20-SCO, sec. 9(a); quoted by others.
func InsuredPrice(plan farm.Plan, projected, harvest crop.Price) crop.Price {
	if plan == farm.RevenueProtection {
		return max(projected, harvest)
	}
	return projected
}

// AreaRatio returns the area's final yield or revenue as a share of the expected one. Yields
// are in units/acre, prices in USD/unit; under YP no price enters.
//
//	YP      final yield / expected yield
//	RP      final yield x harvest price / (expected yield x the higher of both prices)
//	RP-HPE  final yield x harvest price / (expected yield x projected price)
//
// Source: 20-SCO, sec. 9(a); quoted by others. Example: testdata/published/dakota-2026-sco.json.
func AreaRatio(plan farm.Plan, expected, final crop.Yield, projected, harvest crop.Price) crop.Share {
	if plan == farm.YieldProtection {
		return final / expected
	}
	return final * harvest / (expected * InsuredPrice(plan, projected, harvest))
}

// Factor returns the payment factor at a ratio of final to expected, from 0 to 1.
//
//	factor = min(1, max(0, (Trigger - ratio) / Range))
//
// It is not rounded: to how many decimals the agency rounds it is open. A band without a
// range pays nothing.
//
// Source: 20-SCO, sec. 9(a); quoted by others.
func (b Band) Factor(ratio crop.Share) crop.Share {
	lost := b.Trigger - ratio
	if lost <= crop.Noise || b.Range <= 0 {
		return 0
	}
	return min(1, lost/b.Range)
}

// CropValue returns the expected crop value, USD, of insured acres at the approved yield
// (units/acre) and InsuredPrice, to a share of the crop. It is the liability of the
// underlying policy over its coverage level.
//
// Source: 20-SCO, sec. 1; quoted by others.
func CropValue(acres crop.Acres, approvedYield crop.Yield, price crop.Price, share crop.Share) crop.Money {
	return acres * approvedYield * price * share
}

// Protection returns the most that a layer pays, USD, not rounded: value is the expected
// crop value, percentage the coverage percentage (under STAX the protection factor).
//
// Source: 20-SCO, sec. 1; quoted by others. Example: testdata/published/proag-rma-sco.json.
func (b Band) Protection(value crop.Money, percentage float64) crop.Money {
	return value * b.Range * percentage
}

// Indemnity returns what a layer pays, USD, to the cent.
//
// Source: 20-SCO, sec. 9(a); quoted by others.
func Indemnity(protection crop.Money, factor crop.Share) crop.Money {
	return Cent(protection * factor)
}

// AreaIndemnity is Indemnity of so many insured units at a rate per unit, USD/unit: the
// price that insures them x the coverage range x the payment factor.
func AreaIndemnity(rate crop.Price, units float64) crop.Money { return Indemnity(units, rate) }

// BreakEvenYield returns the area yield, units/acre, below which a layer pays at a harvest
// price: where the ratio is the trigger.
func (b Band) BreakEvenYield(plan farm.Plan, expected crop.Yield, projected, harvest crop.Price) crop.Yield {
	return b.Trigger * expected / AreaRatio(plan, 1, 1, projected, harvest)
}
