package program

import (
	"fencerow/program/crop"
)

// Steps of ARC-CO.
var (
	StepBenchmarkRevenue = Step{"benchmark_revenue", "benchmark revenue: yield times benchmark price", perAcre, "7 U.S.C. 9017(c)(2)"}
	StepGuaranteeShare   = Step{"guarantee_share", "guarantee, part of the benchmark revenue", "1", ""}
	StepGuarantee        = Step{"guarantee", "guarantee", perAcre, "7 U.S.C. 9017(c)(1)"}
	StepMaximumShare     = Step{"maximum_share", "most paid, part of the benchmark revenue", "1", ""}
	StepMaximum          = Step{"maximum_rate", "most paid", perAcre, "7 U.S.C. 9017(d)(1)(B)"}
	StepActualYield      = Step{"actual_yield", "county yield of the crop year", unitsPerAcre, ""}
	StepActualPrice      = Step{"actual_price", "higher of price and loan rate", perUnit, "7 U.S.C. 9017(b)(3)"}
	StepActualRevenue    = Step{"actual_revenue", "actual revenue: county yield times the higher price", perAcre, "7 U.S.C. 9017(b)(1)"}
	StepARCCORate        = Step{"payment_rate", "ARC-CO rate: guarantee minus that, not below 0, not above the most", perAcre, "7 U.S.C. 9017(d)"}
	StepARCCOPayment     = Step{"payment", "ARC-CO payment: rate x payment acres", "USD", "7 U.S.C. 9017(e)"}
)

// Steps of ARC-CO in a county with two yields, weighted by the irrigated share.
var (
	StepIrrigatedShare    = Step{"irrigated_share", "irrigated share of the base", "1", "7 CFR 1412.53(a),(c)"}
	StepWeightedBenchmark = Step{"benchmark_revenue", "benchmark revenue, weighted by the irrigated share", perAcre, "7 CFR 1412.53(a),(c)"}
	StepWeightedGuarantee = Step{"guarantee", "guarantee, weighted by the irrigated share", perAcre, "7 CFR 1412.53(a),(c)"}
	StepWeightedMaximum   = Step{"maximum_rate", "most paid, weighted by the irrigated share", perAcre, "7 CFR 1412.53(a),(c)"}
	StepWeightedActual    = Step{"actual_revenue", "actual revenue, weighted by the irrigated share", perAcre, "7 CFR 1412.53(a),(c)"}
)

const perAcre = "USD/acre"

// ARCCO is one commodity's county coverage for one county and practice, or
// weighted to a farm: what the actual revenue of the year is held against. USD
// per acre, each rounded to the cent, guarantee and maximum taken from the
// rounded benchmark revenue.
type ARCCO struct {
	BenchmarkRevenue crop.Revenue
	Guarantee        crop.Revenue
	Maximum          crop.Revenue // largest payment rate
}

// NewARCCO returns the coverage for a benchmark yield (units/acre) and benchmark
// price (USD/unit); guaranteeShare and maximumShare are parts of one of the
// benchmark revenue, not of the guarantee.
//
// Source: 7 U.S.C. 9017(c),(d). Example: testdata/published/farm-cpa-2025-rice.json.
func NewARCCO(benchmarkYield crop.Yield, benchmarkPrice crop.Price, guaranteeShare, maximumShare crop.Share) ARCCO {
	revenue := Cent(benchmarkYield * benchmarkPrice) // 7 U.S.C. 9017(c)(2)
	return ARCCO{
		BenchmarkRevenue: revenue,
		Guarantee:        Cent(guaranteeShare * revenue), // 7 U.S.C. 9017(c)(1)
		Maximum:          Cent(maximumShare * revenue),   // 7 U.S.C. 9017(d)(1)(B)
	}
}

// ActualPrice returns the higher of the marketing-year average price and the
// loan rate, USD/unit.
//
// Source: 7 U.S.C. 9017(b)(3).
func ActualPrice(mya, loanRate crop.Price) crop.Price { return max(mya, loanRate) }

// ActualRevenue returns the county's revenue of the year in USD per acre, to the
// cent: county yield (units/planted acre, never plugged) x actual price.
//
// Source: 7 U.S.C. 9017(b)(1).
func ActualRevenue(countyYield crop.Yield, actualPrice crop.Price) crop.Revenue {
	return Cent(countyYield * actualPrice)
}

// Rate returns the payment rate in USD per acre at the county's actual revenue,
// to the cent, never above the maximum.
//
//	rate = min(Maximum, max(0, Guarantee - actual))
//
// Source: 7 U.S.C. 9017(d).
func (a ARCCO) Rate(actual crop.Revenue) crop.Revenue {
	return min(a.Maximum, max(0, Cent(a.Guarantee-actual)))
}

// WeightedRevenue returns the farm's revenue in a county with two yields:
// the irrigated and nonirrigated revenue weighted by the farm's historical
// irrigated percentage as a share, to the cent.
//
// Source: 7 CFR 1412.53(a),(c).
func WeightedRevenue(irrigatedShare crop.Share, irrigated, nonirrigated crop.Revenue) crop.Revenue {
	return Cent(irrigatedShare*irrigated + (1-irrigatedShare)*nonirrigated)
}

// Weighted returns the farm's coverage in a county with two yields. Coverage and
// actual revenue are weighted first and compared afterwards: the rate is not the
// weighted sum of two rates.
//
// Source: 7 CFR 1412.53(a),(c).
func Weighted(irrigatedShare crop.Share, irrigated, nonirrigated ARCCO) ARCCO {
	return ARCCO{
		BenchmarkRevenue: WeightedRevenue(irrigatedShare, irrigated.BenchmarkRevenue, nonirrigated.BenchmarkRevenue),
		Guarantee:        WeightedRevenue(irrigatedShare, irrigated.Guarantee, nonirrigated.Guarantee),
		Maximum:          WeightedRevenue(irrigatedShare, irrigated.Maximum, nonirrigated.Maximum),
	}
}

// ARCCOPayment returns the payment in USD, before share, limit and
// sequestration: rate (USD/acre) x payment acres, to the cent.
//
// Source: 7 U.S.C. 9017(e).
func ARCCOPayment(rate crop.Revenue, paymentAcres crop.Acres) crop.Money {
	return Cent(rate * paymentAcres)
}
