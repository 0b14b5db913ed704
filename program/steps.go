package program

// StepGroup is what one part of the arithmetic takes, in the order it is worked out.
type StepGroup struct {
	Title string
	Steps []Step
}

// Steps returns every step of the program.
func Steps() []StepGroup {
	return []StepGroup{
		{"Effective reference price: what PLC pays up to", []Step{
			StepReferencePrice, StepPastPrice, StepAverageShare, StepEffectiveLimit, StepPriceAverage, StepMostEffective, StepAveragePart,
			StepEffectiveReferencePrice, StepTargetIsReference}},
		{"PLC", []Step{StepPrice, StepLoanRate, StepEffectivePrice, StepPLCRate, StepPLCMaximum, StepPaymentYield, StepPLCPayment}},
		{"ARC-CO", []Step{
			StepAdjustedYield, StepBenchmarkYield, StepRaisedPrice, StepBenchmarkPrice, StepBenchmarkRevenue, StepGuaranteeShare, StepGuarantee,
			StepMaximumShare, StepMaximum, StepActualYield, StepPrice, StepLoanRate, StepActualPrice, StepActualRevenue, StepARCCORate, StepARCCOPayment}},
		{"ARC-CO in a county with two yields", []Step{
			StepIrrigatedShare, StepWeightedBenchmark, StepWeightedGuarantee, StepWeightedMaximum, StepWeightedActual}},
		{"ARC-IC", []Step{
			StepIndividualFloor, StepOwnYield, StepIndividualPlug, StepPastPrice, StepIndividualYear, StepIndividualBenchmark, StepPlantedAcres,
			StepPreventedAcres, StepOwnYieldNow, StepPrice, StepLoanRate, StepActualPrice, StepIndividualRevenue, StepGuaranteeShare, StepGuarantee,
			StepMaximumShare, StepMaximum, StepIndividualActual, StepARCCORate, StepPreventedRate, StepARCICPayment}},
		{"Area insurance: SCO, ECO and STAX", []Step{
			StepProjectedPrice, StepHarvestPrice, StepExpectedAreaYield, StepFinalAreaYield, StepAreaRatio, StepAreaTrigger, StepCoverageRange,
			StepAreaFactor, StepCropValue, StepProtection, StepIndemnity, StepPremium, StepPremiumSubsidy, StepProducerPremium}},
		{"Payment acres", []Step{
			StepBaseAcres, StepPaymentAcreShare, StepIndividualAcreShare, StepFarmBaseAcres, StepFruitVegetableExcess, StepPaymentAcres, StepUnpaidAcres}},
		{"From a payment to what people are paid", []Step{
			StepShare, StepEarned, StepSequestration, StepAfterSequestration, StepReaches, StepLimitLeft, StepIncomeOverLimit, StepWithinLimit,
			StepMembersLimits, StepOwnerShare, StepOwnShare, StepOwnLimit, StepPaid}},
		{"New base acres of crop year 2026", []Step{
			StepPlanted, StepMeanPlanted, StepCoveredMean, StepNoncoveredMean, StepTotalAcres, StepNoncoveredShare, StepNoncoveredCounted,
			StepFiveYearSum, StepWithinTotalAcres, StepExistingBase, StepAddedBeforeFactor, StepNationalFactor, StepAdded}},
	}
}
