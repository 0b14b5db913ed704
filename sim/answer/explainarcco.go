package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
)

// explainARCCO gives every step of ARC-CO at a given price and county yields.
func (h *holding) explainARCCO(payer payer, given Given) ProgramSteps {
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
		actual, missing := h.explainRevenue(&s, p, given)
		if missing != "" {
			return ProgramSteps{Steps: s.steps, Missing: missing}
		}
		rate := p.coverage.Rate(actual)
		suffix := h.suffix(p, "")
		status := crop.ComputedFrom(h.national.BenchmarkPrice.Status)
		s.add("payment_rate"+suffix, rate, 2, "USD/acre", sourceARCCORate, status)
		s.acres(p, p.paymentAcres, h.national.Terms.Rows["payment_acre_share"], "fruit_vegetable_share", suffix)
		payment := program.ARCCOPayment(rate, p.paymentAcres)
		if suffix != "" {
			s.add("payment"+suffix, payment, 2, "USD", sourceARCCOPayment, status)
		}
		payments = append(payments, payment)
		perAcre += rate * p.paymentAcres / h.baseAcres
		rateAcres += rate * p.base.BaseAcres
	}
	return h.finish(payer, &s, Price{rateAcres / h.baseAcres, 2}, perAcre, payments, sourceARCCOPayment)
}

// explainRevenue adds the steps from benchmark yield to actual revenue of one
// base and returns the latter.
func (h *holding) explainRevenue(s *stepList, p part, given Given) (actual crop.Revenue, missing string) {
	n, unit := h.national, h.commodity.Unit()
	yields := make([]crop.Yield, len(p.practices))
	for i, u := range p.practices {
		suffix := h.suffix(p, u.unit.practice)
		yield, ok := given.CountyYield.of(u.unit)
		if !ok {
			return 0, fmt.Sprintf("a county yield for %s %s: give it with --county-yield %s:%s=YIELD", p.county, u.unit.practice, p.county, u.unit.practice)
		}
		yields[i] = program.Round(yield, n.Terms.YieldDecimals)
		status := crop.ComputedFrom(u.benchmark.Status, n.BenchmarkPrice.Status)
		s.adjustedYields(u, suffix)
		s.add("benchmark_yield"+suffix, u.benchmark.Value, n.Terms.YieldDecimals, unit.Yield(), u.benchmark.Source, u.benchmark.Status)
		s.add("benchmark_price"+suffix, n.BenchmarkPrice.Value, n.Terms.BenchmarkDecimals, unit.Price(), sourceBenchmarkPrice+"; "+n.yearsText(), n.BenchmarkPrice.Status)
		s.coverage(u.coverage, suffix, sourceBenchmark, status, true)
		s.add("actual_yield"+suffix, yields[i], n.Terms.YieldDecimals, unit.Yield(), sourceGiven, crop.Assumed)
		price := s.actualPrice(given.MYA, suffix)
		s.add("actual_revenue"+suffix, program.ActualRevenue(yields[i], price), 2, "USD/acre", sourceActualRevenue, crop.Computed)
	}
	actual = h.actualRevenue(p, given.MYA, yields)
	if len(p.practices) == 2 {
		suffix := h.suffix(p, "") + "_weighted"
		from, status := sourceWeighted+"; the farm record", crop.Agency
		if p.shareAssumed {
			from, status = sourceWeighted+"; no share is given, so it is taken as none irrigated", crop.Assumed
		}
		s.exact("irrigated_share"+suffix, p.irrigatedShare, "1", from, status)
		s.coverage(p.coverage, suffix, sourceWeighted, crop.ComputedFrom(status), false)
		s.add("actual_revenue"+suffix, actual, 2, "USD/acre", sourceWeighted, crop.ComputedFrom(status))
	}
	return actual, ""
}

// actualPrice adds the steps to the price of the actual revenue, and returns it.
func (s *stepList) actualPrice(mya crop.Price, suffix string) crop.Price {
	n, unit := s.h.national, s.h.commodity.Unit().Price()
	price, fine := program.ActualPrice(mya, n.Terms.LoanRate), n.targetDecimals()
	s.add("mya_price"+suffix, mya, fine, unit, sourceGiven, crop.Assumed)
	s.add("loan_rate"+suffix, n.Terms.LoanRate, fine, unit, n.Terms.Rows["loan_rate"].Citation(), n.Terms.Status("loan_rate"))
	s.add("actual_price"+suffix, price, fine, unit, sourceActualRevenue, crop.Computed)
	return price
}

// adjustedYields adds the five yields of a benchmark that was computed from them.
func (s *stepList) adjustedYields(u practicePart, suffix string) {
	if u.benchmark.five == nil {
		return
	}
	for i, year := range s.h.national.Terms.BenchmarkYears() {
		s.add(fmt.Sprintf("adjusted_yield_%d%s", year, suffix), u.benchmark.five[i], 2, s.h.commodity.Unit().Yield(), u.benchmark.Source, u.benchmark.Status)
	}
}

// coverage adds benchmark revenue, guarantee and maximum, with the law's shares
// where they were taken from the revenue.
func (s *stepList) coverage(a program.ARCCO, suffix, source string, status crop.Status, withShares bool) {
	rows := s.h.national.Terms.Rows
	share := func(row law.Figure) {
		if withShares {
			s.row(row, suffix)
		}
	}
	s.add("benchmark_revenue"+suffix, a.BenchmarkRevenue, 2, "USD/acre", source, status)
	share(rows["guarantee_share"])
	s.add("guarantee"+suffix, a.Guarantee, 2, "USD/acre", "7 U.S.C. 9017(c)(1)", status)
	share(rows["maximum_share"])
	s.add("maximum_rate"+suffix, a.Maximum, 2, "USD/acre", "7 U.S.C. 9017(d)(1)(B)", status)
}
