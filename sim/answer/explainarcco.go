package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
)

// explainARCCO gives every step of ARC-CO at a given price and county yields.
func explainARCCO(h *holding, payer payer, given Given) ProgramSteps {
	if h.arcMissing != "" {
		return ProgramSteps{Steps: []Step{}, Missing: h.arcMissing}
	}
	s := stepList{h: h}
	s.target()
	if !h.national.Terms.HasEffective { // else the prices stand in the target
		s.pastPrices("")
	}
	var payments []crop.Money
	perAcre, rateAcres := 0.0, 0.0
	for _, p := range h.parts {
		actual, missing := explainRevenue(h, &s, p, given)
		if missing != "" {
			return ProgramSteps{Steps: s.steps, Missing: missing}
		}
		rate := p.coverage.Rate(actual)
		suffix := suffixOf(h, p, "")
		status := crop.ComputedFrom(h.national.BenchmarkPrice.Status)
		s.add(program.StepARCCORate, suffix, rate, 2, "", status)
		s.payable(p, suffix)
		payment := program.ARCCOPayment(rate, p.paymentAcres)
		if suffix != "" {
			s.add(program.StepARCCOPayment, suffix, payment, 2, "", status)
		}
		payments = append(payments, payment)
		perAcre += rate * p.paymentAcres / h.baseAcres
		rateAcres += rate * p.base.BaseAcres
	}
	return finish(h, payer, &s, Price{rateAcres / h.baseAcres, 2}, perAcre, payments, program.StepARCCOPayment)
}

// explainRevenue adds the steps from benchmark yield to actual revenue of one
// base and returns the latter.
func explainRevenue(h *holding, s *stepList, p part, given Given) (actual crop.Revenue, missing string) {
	n := h.national
	yields := make([]crop.Yield, len(p.practices))
	for i, u := range p.practices {
		suffix := suffixOf(h, p, u.unit.practice)
		yield, ok := given.CountyYield.of(u.unit)
		if !ok {
			return 0, fmt.Sprintf("a county yield for %s %s: give it with --county-yield %s:%s=YIELD", p.county, u.unit.practice, p.county, u.unit.practice)
		}
		yields[i] = program.Round(yield, n.Terms.YieldDecimals)
		status := crop.ComputedFrom(u.benchmark.Status, n.BenchmarkPrice.Status)
		s.adjustedYields(u, suffix)
		s.add(program.StepBenchmarkYield, suffix, u.benchmark.Value, n.Terms.YieldDecimals, "; "+u.benchmark.Source, u.benchmark.Status)
		s.add(program.StepBenchmarkPrice, suffix, n.BenchmarkPrice.Value, n.Terms.BenchmarkDecimals, "; "+n.yearsText(), n.BenchmarkPrice.Status)
		s.coverage(program.StepBenchmarkRevenue, u.coverage, suffix, status)
		s.add(program.StepActualYield, suffix, yields[i], n.Terms.YieldDecimals, sourceGiven, crop.Assumed)
		price := s.actualPrice(given.MYA, suffix)
		s.add(program.StepActualRevenue, suffix, program.ActualRevenue(yields[i], price), 2, "", crop.Computed)
	}
	actual = h.actualRevenue(p, given.MYA, yields)
	if len(p.practices) == 2 {
		s.weighted(p, actual)
	}
	return actual, ""
}

// weighted adds the steps of a base in a county with two yields.
func (s *stepList) weighted(p part, actual crop.Revenue) {
	suffix := suffixOf(s.h, p, "") + "_weighted"
	from, status := "; "+farmRecord, crop.Agency
	if p.shareAssumed {
		from, status = "; no share is given, so it is taken as none irrigated", crop.Assumed
	}
	s.exact(program.StepIrrigatedShare, suffix, p.irrigatedShare, from, status)
	status = crop.ComputedFrom(status)
	s.add(program.StepWeightedBenchmark, suffix, p.coverage.BenchmarkRevenue, 2, "", status)
	s.add(program.StepWeightedGuarantee, suffix, p.coverage.Guarantee, 2, "", status)
	s.add(program.StepWeightedMaximum, suffix, p.coverage.Maximum, 2, "", status)
	s.add(program.StepWeightedActual, suffix, actual, 2, "", status)
}

// actualPrice adds the steps to the price of the actual revenue, and returns it.
func (s *stepList) actualPrice(mya crop.Price, suffix string) crop.Price {
	n := s.h.national
	price, fine := program.ActualPrice(mya, n.Terms.LoanRate), n.targetDecimals()
	s.add(program.StepPrice, suffix, mya, fine, sourceGiven, crop.Assumed)
	s.loanRate(suffix)
	s.add(program.StepActualPrice, suffix, price, fine, "", crop.Computed)
	return price
}

// adjustedYields adds the five yields of a benchmark that was computed from them.
func (s *stepList) adjustedYields(u practicePart, suffix string) {
	if u.benchmark.five == nil {
		return
	}
	for i, year := range s.h.national.Terms.BenchmarkYears() {
		s.add(program.StepAdjustedYield, fmt.Sprintf("_%d%s", year, suffix), u.benchmark.five[i], 2, u.benchmark.Source, u.benchmark.Status)
	}
}

// coverage adds benchmark revenue, guarantee and maximum with the law's shares.
func (s *stepList) coverage(revenue program.Step, a program.ARCCO, suffix string, status crop.Status) {
	rows := s.h.national.Terms.Rows
	s.add(revenue, suffix, a.BenchmarkRevenue, 2, "", status)
	s.row(program.StepGuaranteeShare, rows[program.StepGuaranteeShare.Name], suffix)
	s.add(program.StepGuarantee, suffix, a.Guarantee, 2, "", status)
	s.row(program.StepMaximumShare, rows[program.StepMaximumShare.Name], suffix)
	s.add(program.StepMaximum, suffix, a.Maximum, 2, "", status)
}
