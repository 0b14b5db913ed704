package program

import "fencerow/program/crop"

// Step is one line of the arithmetic as every output prints it: explain by its Name, the
// workbook by its Title, docs/law/steps.md by both. It is declared in the file of the rule
// that computes it and gives what it means, not what it comes to.
type Step struct {
	Name  string // "benchmark_yield"; where a step stands for each year, commodity, base or person, the output adds which
	Title string // in words; where it ends in "crop year", the year follows
	Unit  string // "USD", "USD/acre", "acres", "1" for a share; USD/unit and units/acre stand for those of the commodity

	// Citation is the paragraph of law that makes the figure. "" where it is entered, or
	// stands in a row of program/law, which has a citation of its own.
	Citation string
}

// Units of a step that differ by commodity: prices and yields.
const (
	perUnit      = "USD/unit"
	unitsPerAcre = "units/acre"
)

// UnitFor returns the unit of a step for commodity c: "USD/bu" for a price of corn.
func (s Step) UnitFor(c crop.Commodity) string {
	switch s.Unit {
	case perUnit:
		return c.Unit().Price()
	case unitsPerAcre:
		return c.Unit().Yield()
	}
	return s.Unit
}

// StepGroup is what one part of the arithmetic takes, in the order it is worked out.
type StepGroup struct {
	Title string
	Steps []Step
}

// Steps returns every step of the program.
func Steps() []StepGroup {
	return []StepGroup{
		{"Target price: what PLC pays up to", []Step{
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
