package program

import (
	"fmt"
	"sync"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// Terms are the figures of the law for one commodity and crop year, prices in
// the commodity's own unit. They are chosen here and nowhere else; formulas take
// them as arguments.
type Terms struct {
	Commodity crop.Commodity
	CropYear  crop.CropYear

	ReferencePrice   crop.Price
	LoanRate         crop.Price
	HasEffective     bool       // an effective reference price exists (from 2019)
	AverageShare     crop.Share // of the Olympic average of five prices, for it
	EffectiveLimit   crop.Share // of the reference price, for it
	GuaranteeShare   crop.Share
	MaximumShare     crop.Share
	PaymentAcreShare crop.Share
	OldestLag        int  // years back to the first of the five benchmark years
	ByLocation       bool // base counts in the county where it lies, not in the administrative one

	PriceDecimals, BenchmarkDecimals, RateDecimals, YieldDecimals int

	Rows map[string]law.Figure // the row behind each term, by id, for its citation and status
}

// TermsFor returns the terms of commodity c for crop year y. It fails, wrapping
// law.ErrNoValue, where the law has none: before 2014, after 2031, seed cotton
// before 2018.
//
// Terms asked for before are shared: read Rows only.
func TermsFor(c crop.Commodity, y crop.CropYear) (Terms, error) {
	key := termsKey{c, y}
	if known, ok := terms.Load(key); ok {
		return known.(Terms), nil
	}
	t, err := termsFor(c, y)
	if err == nil {
		terms.Store(key, t)
	}
	return t, err
}

// terms keeps those asked for: the law's rows never change.
var terms sync.Map

type termsKey struct {
	commodity crop.Commodity
	cropYear  crop.CropYear
}

func termsFor(c crop.Commodity, y crop.CropYear) (Terms, error) {
	t := Terms{Commodity: c, CropYear: y, Rows: map[string]law.Figure{}}
	r := rowReader{terms: &t}
	t.ReferencePrice = r.price("reference_price")
	t.LoanRate = r.price("loan_rate")
	t.HasEffective = r.word("target_price") == "effective_reference_price"
	if t.HasEffective {
		t.AverageShare = r.number("reference_price_average_share")
		t.EffectiveLimit = r.number("effective_reference_price_limit")
	}
	t.GuaranteeShare = r.number("guarantee_share")
	t.MaximumShare = r.number("maximum_share")
	t.PaymentAcreShare = r.number("payment_acre_share")
	t.OldestLag = int(r.number("oldest_benchmark_lag"))
	t.ByLocation = r.word("base_county") == "physical_location"
	t.PriceDecimals = int(r.number("price_decimals"))
	t.RateDecimals = int(r.number("payment_rate_decimals"))
	t.YieldDecimals = int(r.number("yield_decimals"))
	t.BenchmarkDecimals = t.PriceDecimals
	if f, err := law.Find("benchmark_price_decimals", c, y); err == nil {
		t.BenchmarkDecimals = int(f.Number)
	}
	r.step()
	return t, r.err
}

// BenchmarkYears returns the five crop years of the benchmark, oldest first;
// from 2019 they are also those of the effective reference price.
func (t Terms) BenchmarkYears() [5]crop.CropYear {
	var years [5]crop.CropYear
	for i := range years {
		years[i] = t.CropYear - t.OldestLag + i
	}
	return years
}

// TargetPrice returns what PLC pays up to, and the floor of the benchmark price:
// the effective reference price where there is one, else the reference price.
// mya holds the prices of BenchmarkYears.
func (t Terms) TargetPrice(mya [5]crop.Price) crop.Price {
	if !t.HasEffective { // 2014-2018, 7 U.S.C. 9016(a)(1)
		return t.ReferencePrice
	}
	return EffectiveReferencePrice(t.ReferencePrice, t.AverageShare, t.EffectiveLimit, mya, t.PriceDecimals)
}

// ReferenceDecimals is the number of decimals that show the reference price in full: those
// of its commodity, and more where the law raises it by a share.
func (t Terms) ReferenceDecimals() int {
	const most = 8
	decimals := max(t.PriceDecimals, t.RateDecimals)
	for decimals < most && Round(t.ReferencePrice, decimals) != t.ReferencePrice {
		decimals++
	}
	return decimals
}

// PLC returns the contract at a target price.
func (t Terms) PLC(target crop.Price) PLC {
	return PLC{TargetPrice: target, LoanRate: t.LoanRate, Decimals: t.RateDecimals}
}

// ARCCO returns the coverage of one county and practice.
func (t Terms) ARCCO(benchmarkYield crop.Yield, benchmarkPrice crop.Price) ARCCO {
	return NewARCCO(benchmarkYield, benchmarkPrice, t.GuaranteeShare, t.MaximumShare)
}

// Status returns the most doubtful status among rows by id.
func (t Terms) Status(ids ...string) crop.Status {
	var statuses []crop.Status
	for _, id := range ids {
		statuses = append(statuses, t.Rows[id].Status)
	}
	return crop.Weakest(statuses...)
}

// rowReader fills Terms and keeps the first error.
type rowReader struct {
	terms *Terms
	err   error
}

func (r *rowReader) row(id string) law.Figure {
	f, err := law.Find(id, r.terms.Commodity, r.terms.CropYear)
	if err != nil && r.err == nil {
		r.err = err
	}
	r.terms.Rows[id] = f
	return f
}

func (r *rowReader) number(id string) float64 { return r.row(id).Number }

func (r *rowReader) word(id string) string { return r.row(id).Text }

// price converts a statutory price to the unit of the commodity.
func (r *rowReader) price(id string) crop.Price {
	f := r.row(id)
	factor, fits := r.terms.Commodity.PriceFactor(f.Unit)
	if !fits && r.err == nil {
		r.err = fmt.Errorf("program: %s of %s is in %s, which does not convert to %s", id, f.Commodity, f.Unit, r.terms.Commodity.Unit().Price())
	}
	return Round(f.Number*factor, conversionDecimals)
}

// step raises the reference price where the crop year has a yearly step.
func (r *rowReader) step() {
	step, err := law.Find("reference_price_step", r.terms.Commodity, r.terms.CropYear)
	if err != nil {
		return // no step in this crop year
	}
	r.terms.Rows["reference_price_step"] = step
	limit := r.number("reference_price_step_limit")
	steps := r.terms.CropYear - step.First + 1
	r.terms.ReferencePrice = steppedReferencePrice(r.terms.ReferencePrice, step.Number, limit, steps)
}

// sequestrationFirst reports whether sequestration reduces the payments of crop
// year y before the payment limit is applied to them, or after it.
//
// Source: the rows order_of_reductions: 7 U.S.C. 1308(f)(9) from crop year 2019.
func sequestrationFirst(y crop.CropYear) (bool, error) {
	order, err := law.Find("order_of_reductions", "", y)
	switch {
	case err != nil:
		return false, err
	case order.Text == "sequestration_then_limit":
		return true, nil
	case order.Text == "limit_then_sequestration":
		return false, nil
	}
	return false, fmt.Errorf("program: order_of_reductions is %q in crop year %d", order.Text, y)
}

// LimitRuleFor returns how the payment limit (USD, of a person) holds in crop year
// y, where sequestration withholds a share of every payment.
//
// Source: 7 U.S.C. 1308(e)(3)(B), (f)(9); P.L. 119-21, sec. 10306 for pass-through
// entities.
func LimitRuleFor(y crop.CropYear, limit crop.Money, withheld crop.Share) (LimitRule, error) {
	rule := LimitRule{Limit: limit, CropYear: y, PassThroughPerMember: farm.PassThroughByMember(y)}
	first, err := sequestrationFirst(y)
	if first {
		rule.Reduced = withheld
	}
	return rule, err
}
