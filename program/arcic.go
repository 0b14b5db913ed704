package program

import (
	"fencerow/program/crop"
)

// Steps of ARC-IC. Its coverage and rate are taken as those of ARC-CO are.
var (
	StepIndividualFloor     = Step{"effective_reference_price", "effective reference price, the least that a year's price counts", perUnit, "7 U.S.C. 9017(c)(6)"}
	StepOwnYield            = Step{"own_yield", "own yield of crop year", unitsPerAcre, ""}
	StepIndividualPlug      = Step{"plug", "least yield counted, crop year", unitsPerAcre, "7 U.S.C. 9017(c)(4)"}
	StepIndividualYear      = Step{"revenue", "revenue of crop year", perAcre, "7 U.S.C. 9017(c)(3)(A)"}
	StepIndividualBenchmark = Step{"benchmark_revenue", "benchmark revenue of one crop: average of the middle three", perAcre, "7 U.S.C. 9017(c)(3)(A)"}
	StepPlantedAcres        = Step{"planted_acres", "acres planted", "acres", ""}
	StepPreventedAcres      = Step{"prevented_acres", "acres prevented from being planted", "acres", ""}
	StepOwnYieldNow         = Step{"own_yield", "own yield of the crop year", unitsPerAcre, ""}
	StepIndividualRevenue   = Step{"benchmark_revenue", "benchmark revenue of the farm, by acres planted", perAcre, "7 U.S.C. 9017(c)(3)(B)"}
	StepIndividualActual    = Step{"actual_revenue", "actual revenue of the farm, by acres planted", perAcre, "7 U.S.C. 9017(b)(2); 7 CFR 1412.3"}
	StepPreventedRate       = Step{"payment_rate", "rate where all acres were prevented: the most paid", perAcre, "farmdoc daily, Strategies for using ARC-IC, February 2020"}
	StepARCICPayment        = Step{"payment", "ARC-IC payment: rate x payment acres", "USD", "7 U.S.C. 9017(e), 9014(a)(2)"}
)

// ARCIC is individual coverage: one producer's share of all farms of one State
// that are in ARC-IC, taken together, or one farm alone. USD per planted acre of
// covered commodities, to the cent; that ARC-IC is rounded as ARC-CO is, is
// assumed.
type ARCIC struct {
	ARCCO             // benchmark revenue, guarantee and maximum, by the same shares
	AllPrevented bool // no covered acre was planted, some were prevented
}

// IndividualCrop is what one farm adds to the individual coverage for one
// covered commodity.
type IndividualCrop struct {
	Share            crop.Share // the producer's in the farm
	PlantedAcres     crop.Acres
	PreventedAcres   crop.Acres
	BenchmarkRevenue crop.Revenue // the farm's own for the commodity (IndividualBenchmark)
}

// IndividualYearRevenue returns a farm's revenue of one benchmark year for one
// commodity in USD per acre, to the cent: its own yield (units/planted acre),
// raised to plug where lower, x the national price, raised to floor where lower.
// plug is a share of the transitional yield, 0 where not known; floor is the
// reference price (2014-2018) or the program year's effective reference price.
//
// Source: 7 U.S.C. 9017(c)(3)(A); for plug 7 U.S.C. 9017(c)(4), for floor 7 U.S.C. 9017(c)(6).
func IndividualYearRevenue(ownYield, plug crop.Yield, mya, floor crop.Price) crop.Revenue {
	return Cent(max(ownYield, plug) * max(mya, floor))
}

// IndividualBenchmark returns a farm's benchmark revenue for one commodity: the
// Olympic average of five yearly revenues, not of yields and prices apart.
//
// Source: 7 U.S.C. 9017(c)(3)(A).
func IndividualBenchmark(five [5]crop.Revenue) crop.Revenue { return Cent(OlympicAverage(five)) }

// NewARCIC returns the coverage of the crops of all farms that are pooled: their
// benchmark revenues weighted by the producer's share of the acres planted this
// year. Where nothing was planted and some was prevented, prevented acres are
// the weights (assumed) and AllPrevented is set. ok is false where nothing was
// planted or prevented.
//
// Source: 7 U.S.C. 9017(c)(3)(B),(C), (b)(2); 7 CFR 1412.3 (actual crop revenue).
func NewARCIC(crops []IndividualCrop, guaranteeShare, maximumShare crop.Share) (coverage ARCIC, ok bool) {
	weights := plantedWeights(crops)
	if weights == nil {
		if weights = preventedWeights(crops); weights == nil {
			return ARCIC{}, false
		}
		coverage.AllPrevented = true
	}
	var sum crop.Revenue
	for i, c := range crops {
		sum += weights[i] * c.BenchmarkRevenue
	}
	coverage.ARCCO = NewARCCO(Cent(sum), 1, guaranteeShare, maximumShare)
	return coverage, true
}

// IndividualRevenue returns the actual revenue of the year in USD per planted
// acre, to the cent: own yields (units/planted acre) x the higher of national
// price and loan rate, weighted as the benchmark is; 0 where nothing was planted.
//
// Source: 7 U.S.C. 9017(b)(2); 7 CFR 1412.3 (actual crop revenue).
func IndividualRevenue(crops []IndividualCrop, yields []crop.Yield, actualPrices []crop.Price) crop.Revenue {
	var sum crop.Revenue
	for i, w := range plantedWeights(crops) {
		sum += w * yields[i] * actualPrices[i]
	}
	return Cent(sum)
}

// Rate returns the payment rate in USD per acre at an actual revenue, never
// above the maximum, which a producer is paid who was prevented on all acres.
//
// Source: 7 U.S.C. 9017(d); for prevented planting farmdoc daily, Strategies for
// using ARC-IC, February 2020.
func (a ARCIC) Rate(actual crop.Revenue) crop.Revenue {
	if a.AllPrevented {
		return a.Maximum
	}
	return a.ARCCO.Rate(actual)
}

// ARCICPayment returns the payment on one farm's base in USD, before share,
// limit and sequestration: rate (USD/acre) x payment acres (0.65 of all base of
// the farm), to the cent.
//
// Source: 7 U.S.C. 9017(e), 9014(a)(2).
func ARCICPayment(rate crop.Revenue, paymentAcres crop.Acres) crop.Money {
	return Cent(rate * paymentAcres)
}

// plantedWeights returns each crop's part of the producer's planted acres, nil
// where there are none.
func plantedWeights(crops []IndividualCrop) []float64 {
	return weightsOf(crops, func(c IndividualCrop) crop.Acres { return c.PlantedAcres })
}

func preventedWeights(crops []IndividualCrop) []float64 {
	return weightsOf(crops, func(c IndividualCrop) crop.Acres { return c.PreventedAcres })
}

func weightsOf(crops []IndividualCrop, acres func(IndividualCrop) crop.Acres) []float64 {
	var total crop.Acres
	for _, c := range crops {
		total += c.Share * acres(c)
	}
	if total == 0 {
		return nil
	}
	weights := make([]float64, len(crops))
	for i, c := range crops {
		weights[i] = c.Share * acres(c) / total
	}
	return weights
}
