package explain

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// explainARCCO returns every step of ARC-CO on one commodity base at a given price and
// county yields.
func explainARCCO(base *position.CommodityBase, payer limits.Rules, given Given) ProgramSteps {
	if base.ARCMissing != "" {
		return ProgramSteps{Steps: []Step{}, Missing: base.ARCMissing}
	}
	s := stepList{h: base}
	s.target()
	if !base.National.Terms.HasEffective { // else the prices stand in the target
		s.pastPrices("")
	}
	var payments []crop.Money
	perAcre, rateAcres := 0.0, 0.0
	for _, b := range base.Bases {
		actual, missing := explainRevenue(base, &s, b, given)
		if missing != "" {
			return ProgramSteps{Steps: s.steps, Missing: missing}
		}
		rate := b.Coverage.Rate(actual)
		suffix := suffixOf(base, b, "")
		status := crop.ComputedFrom(base.National.BenchmarkPrice.Status)
		s.add(program.StepARCCORate, suffix, rate, 2, "", status)
		s.payable(b, suffix)
		payment := program.ARCCOPayment(rate, b.PaymentAcres)
		if suffix != "" {
			s.add(program.StepARCCOPayment, suffix, payment, 2, "", status)
		}
		payments = append(payments, payment)
		perAcre += rate * b.PaymentAcres / base.Acres
		rateAcres += rate * b.Record.BaseAcres
	}
	return finish(base, payer, &s, answer.Price{Value: rateAcres / base.Acres, Decimals: 2}, perAcre, payments, program.StepARCCOPayment)
}

// explainRevenue adds the steps from benchmark yield to actual revenue of one base and
// returns the latter, USD per acre. missing asks for a county yield that was not given.
func explainRevenue(base *position.CommodityBase, s *stepList, b position.Base, given Given) (actual crop.Revenue, missing string) {
	n := base.National
	yields := make([]crop.Yield, len(b.Practices))
	for i, u := range b.Practices {
		suffix := suffixOf(base, b, u.Unit.Practice)
		yield, ok := given.CountyYield.of(u.Unit)
		if !ok {
			return 0, fmt.Sprintf("a county yield for %s %s: give it with --county-yield %s:%s=YIELD", b.County, u.Unit.Practice, b.County, u.Unit.Practice)
		}
		yields[i] = program.Round(yield, n.Terms.YieldDecimals)
		status := crop.ComputedFrom(u.Benchmark.Status, n.BenchmarkPrice.Status)
		s.adjustedYields(u, suffix)
		s.add(program.StepBenchmarkYield, suffix, u.Benchmark.Value, n.Terms.YieldDecimals, "; "+u.Benchmark.Source, u.Benchmark.Status)
		s.add(program.StepBenchmarkPrice, suffix, n.BenchmarkPrice.Value, n.Terms.BenchmarkDecimals, "; "+n.PriceHistoryText(), n.BenchmarkPrice.Status)
		s.coverage(program.StepBenchmarkRevenue, u.Coverage, suffix, status)
		s.add(program.StepActualYield, suffix, yields[i], n.Terms.YieldDecimals, sourceGiven, crop.Assumed)
		price := s.actualPrice(given.MYA, suffix)
		s.add(program.StepActualRevenue, suffix, program.ActualRevenue(yields[i], price), 2, "", crop.Computed)
	}
	actual = base.ActualRevenue(b, given.MYA, yields)
	if len(b.Practices) == 2 {
		s.weighted(b, actual)
	}
	return actual, ""
}

// weighted adds the steps that combine irrigated and nonirrigated figures of one base.
func (s *stepList) weighted(b position.Base, actual crop.Revenue) {
	suffix := suffixOf(s.h, b, "") + "_weighted"
	from, status := "; "+farmRecord, crop.Agency
	if b.ShareAssumed {
		from, status = "; no share is given, so it is taken as none irrigated", crop.Assumed
	}
	s.exact(program.StepIrrigatedShare, suffix, b.IrrigatedShare, from, status)
	status = crop.ComputedFrom(status)
	s.add(program.StepWeightedBenchmark, suffix, b.Coverage.BenchmarkRevenue, 2, "", status)
	s.add(program.StepWeightedGuarantee, suffix, b.Coverage.Guarantee, 2, "", status)
	s.add(program.StepWeightedMaximum, suffix, b.Coverage.Maximum, 2, "", status)
	s.add(program.StepWeightedActual, suffix, actual, 2, "", status)
}

// actualPrice adds the steps to the price of the actual revenue, and returns it, USD per
// unit.
func (s *stepList) actualPrice(mya crop.Price, suffix string) crop.Price {
	n := s.h.National
	price, fine := program.ActualPrice(mya, n.Terms.LoanRate), n.TargetDecimals()
	s.add(program.StepPrice, suffix, mya, fine, sourceGiven, crop.Assumed)
	s.loanRate(suffix)
	s.add(program.StepActualPrice, suffix, price, fine, "", crop.Computed)
	return price
}

// adjustedYields adds the five yields of a benchmark; none where only the benchmark
// itself is known.
func (s *stepList) adjustedYields(u position.Practice, suffix string) {
	if u.Benchmark.Five == nil {
		return
	}
	for i, year := range s.h.National.Terms.BenchmarkYears() {
		s.add(program.StepAdjustedYield, fmt.Sprintf("_%d%s", year, suffix), u.Benchmark.Five[i], 2, u.Benchmark.Source, u.Benchmark.Status)
	}
}

// coverage adds benchmark revenue, guarantee and maximum with the law's shares.
func (s *stepList) coverage(revenue program.Step, a program.ARCCO, suffix string, status crop.Status) {
	rows := s.h.National.Terms.Rows
	s.add(revenue, suffix, a.BenchmarkRevenue, 2, "", status)
	s.row(program.StepGuaranteeShare, rows[program.StepGuaranteeShare.Name], suffix)
	s.add(program.StepGuarantee, suffix, a.Guarantee, 2, "", status)
	s.row(program.StepMaximumShare, rows[program.StepMaximumShare.Name], suffix)
	s.add(program.StepMaximum, suffix, a.Maximum, 2, "", status)
}
