package answer

import (
	"fmt"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// ExplanationFormat names the JSON of an Explanation.
const ExplanationFormat = "fencerow/explanation/1"

// Explanation is every step of each program on given figures.
type Explanation struct {
	Format    string              `json:"format"`
	CropYear  crop.CropYear       `json:"crop_year"`
	Farm      string              `json:"farm"`
	Commodity crop.Commodity      `json:"commodity"`
	Programs  ExplanationPrograms `json:"programs"`
	Flags     []Flag              `json:"flags"`
	Caution   []string            `json:"caution"`
}

// ExplanationPrograms are the programs side by side.
type ExplanationPrograms struct {
	PLC   ProgramSteps `json:"PLC"`
	ARCCO ProgramSteps `json:"ARC-CO"`
}

// ProgramSteps is one program's way from figures to payment. A missing figure
// leaves Payment nil and is named in Missing.
type ProgramSteps struct {
	Steps              []Step   `json:"steps"`
	Rate               *Price   `json:"rate"`                  // USD/unit for PLC, USD/acre for ARC-CO, before the payment-acre share
	PaymentPerBaseAcre *Dollars `json:"payment_per_base_acre"` // after it
	Payment            *Dollars `json:"payment"`               // USD, before share, limit and sequestration
	PaymentAfterLimit  *Dollars `json:"payment_after_limit"`   // after them, all producers of the file
	Missing            string   `json:"missing,omitempty"`
}

// Step is one line of the arithmetic.
type Step struct {
	Name   string      `json:"name"`
	Value  *Price      `json:"value"`
	Unit   string      `json:"unit"`
	Source string      `json:"source"`
	Status crop.Status `json:"status"`
}

// Given are the figures an explanation is asked for.
type Given struct {
	MYA         crop.Price
	CountyYield CountyYields
}

// CountyYields are actual county yields by county and practice.
type CountyYields map[CountyPractice]crop.Yield

// CountyPractice is a county with a practice; an empty county stands for every
// county, an empty practice for every practice.
type CountyPractice struct {
	County   string
	Practice farm.Practice
}

// of returns the yield given for a county and practice, the most exact first.
func (g CountyYields) of(u countyUnit) (crop.Yield, bool) {
	for _, k := range []CountyPractice{{u.county, u.practice}, {u.county, ""}, {"", u.practice}, {"", ""}} {
		if y, ok := g[k]; ok {
			return y, true
		}
	}
	return 0, false
}

// Explain works out both programs for one farm, commodity and crop year at a
// given national price and county yields. An error means that the farm has no
// such base or that the law has no such year.
func Explain(c Case, f farm.Farm, commodity crop.Commodity, y crop.CropYear, given Given) (Explanation, error) {
	explanation := Explanation{Format: ExplanationFormat, CropYear: y, Farm: f.Key(), Commodity: commodity, Caution: Caution()}
	holdings, err := c.holdings(f, y)
	if err != nil {
		return explanation, err
	}
	for _, h := range holdings {
		if h.commodity != commodity {
			continue
		}
		payer, err := c.payer(y)
		if err != nil {
			return explanation, err
		}
		explanation.Programs = ExplanationPrograms{PLC: h.explainPLC(payer, given), ARCCO: h.explainARCCO(payer, given)}
		explanation.Flags = c.flags(f, y)
		return explanation, nil
	}
	return explanation, fmt.Errorf("farm %s has no %s base", f.Key(), commodity.Name())
}

// stepList collects steps in the units of one commodity.
type stepList struct {
	h     *holding
	steps []Step
}

func (s *stepList) add(name string, value float64, decimals int, unit, source string, status crop.Status) {
	s.steps = append(s.steps, Step{Name: name, Value: &Price{value, decimals}, Unit: unit, Source: source, Status: status})
}

// Sources of the steps that have no row of their own.
const (
	sourceEffectivePrice  = "7 U.S.C. 9016(b)"
	sourcePLCRate         = "7 U.S.C. 9016(c)"
	sourcePLCPayment      = "7 U.S.C. 9016(d)"
	sourcePaymentYield    = "7 U.S.C. 9013; the farm record"
	sourceBenchmarkPrice  = "7 U.S.C. 9017(c)(2)(B)"
	sourceBenchmark       = "7 U.S.C. 9017(c)(2)"
	sourceActualRevenue   = "7 U.S.C. 9017(b)"
	sourceARCCORate       = "7 U.S.C. 9017(d)"
	sourceARCCOPayment    = "7 U.S.C. 9017(e)"
	sourceWeighted        = "7 CFR 1412.53"
	sourceGiven           = "as given"
	sourceReferenceTarget = "7 U.S.C. 9011(8)"
)

func (h *holding) explainPLC(payer payer, given Given) ProgramSteps {
	terms, unit := h.national.Terms, h.commodity.Unit().Price()
	s := stepList{h: h}
	s.add("reference_price", terms.ReferencePrice, referenceDecimals(terms), unit, terms.Rows["reference_price"].Citation(), terms.Status("reference_price", "reference_price_step"))
	if h.plcMissing != "" {
		return ProgramSteps{Steps: s.steps, Missing: h.plcMissing}
	}
	contract := h.plc()
	rate := contract.Rate(given.MYA)
	fine := h.national.targetDecimals()
	s.add("effective_reference_price", contract.TargetPrice, fine, unit, sourceReferenceTarget+"; "+h.national.yearsText(), h.national.Target.Status)
	s.add("mya_price", given.MYA, fine, unit, sourceGiven, crop.Assumed)
	s.add("loan_rate", terms.LoanRate, fine, unit, terms.Rows["loan_rate"].Citation(), terms.Status("loan_rate"))
	s.add("effective_price", contract.EffectivePrice(given.MYA), fine, unit, sourceEffectivePrice, crop.Computed)
	s.add("payment_rate", rate, fine, unit, sourcePLCRate, crop.ComputedFrom(h.national.Target.Status, terms.Status("loan_rate")))
	var payments [][]crop.Money
	for _, p := range h.parts {
		suffix := h.suffix(p, "")
		acres := h.paymentAcres(p)
		payment := h.pays(program.PLCPayment(rate, *p.base.PaymentYield, acres))
		s.add("payment_yield"+suffix, *p.base.PaymentYield, 2, h.commodity.Unit().Yield(), sourcePaymentYield, crop.Agency)
		s.add("payment_acres"+suffix, acres, 2, "acres", terms.Rows["payment_acre_share"].Citation(), crop.Computed)
		if suffix != "" {
			s.add("payment"+suffix, payment, 2, "USD", sourcePLCPayment, crop.Computed)
		}
		payments = append(payments, []crop.Money{payment})
	}
	return h.finish(payer, &s, Price{rate, fine}, h.pays(h.plcPerAcre(rate)), payments, sourcePLCPayment)
}

func (h *holding) explainARCCO(payer payer, given Given) ProgramSteps {
	if h.arcMissing != "" {
		return ProgramSteps{Steps: []Step{}, Missing: h.arcMissing}
	}
	s := stepList{h: h}
	var payments [][]crop.Money
	perAcre, rateAcres := 0.0, 0.0
	for _, p := range h.parts {
		actual, missing := h.explainRevenue(&s, p, given)
		if missing != "" {
			return ProgramSteps{Steps: s.steps, Missing: missing}
		}
		rate, acres := p.coverage.Rate(actual), h.paymentAcres(p)
		suffix := h.suffix(p, "")
		status := crop.ComputedFrom(h.national.BenchmarkPrice.Status)
		s.add("payment_rate"+suffix, rate, 2, "USD/acre", sourceARCCORate, status)
		s.add("payment_acres"+suffix, acres, 2, "acres", h.national.Terms.Rows["payment_acre_share"].Citation(), crop.Computed)
		payment := h.pays(program.ARCCOPayment(rate, acres))
		if suffix != "" {
			s.add("payment"+suffix, payment, 2, "USD", sourceARCCOPayment, status)
		}
		payments = append(payments, []crop.Money{payment})
		perAcre += h.pays(rate * acres / h.baseAcres)
		rateAcres += rate * p.base.BaseAcres
	}
	return h.finish(payer, &s, Price{rateAcres / h.baseAcres, 2}, perAcre, payments, sourceARCCOPayment)
}

// explainRevenue adds the steps from benchmark yield to actual revenue of one
// base and returns the latter.
func (h *holding) explainRevenue(s *stepList, p part, given Given) (actual crop.Revenue, missing string) {
	n, unit := h.national, h.commodity.Unit()
	price := program.ActualPrice(given.MYA, n.Terms.LoanRate)
	yields := make([]crop.Yield, len(p.practices))
	for i, u := range p.practices {
		suffix := h.suffix(p, u.unit.practice)
		yield, ok := given.CountyYield.of(u.unit)
		if !ok {
			return 0, fmt.Sprintf("a county yield for %s %s: give it with --county-yield %s:%s=YIELD", p.county, u.unit.practice, p.county, u.unit.practice)
		}
		yields[i] = program.Round(yield, n.Terms.YieldDecimals)
		status := crop.ComputedFrom(u.benchmark.Status, n.BenchmarkPrice.Status)
		s.add("benchmark_yield"+suffix, u.benchmark.Value, 2, unit.Yield(), u.benchmark.Source, u.benchmark.Status)
		s.add("benchmark_price"+suffix, n.BenchmarkPrice.Value, n.Terms.BenchmarkDecimals, unit.Price(), sourceBenchmarkPrice+"; "+n.yearsText(), n.BenchmarkPrice.Status)
		addCoverage(s, u.coverage, suffix, sourceBenchmark, n.Terms, status)
		s.add("actual_yield"+suffix, yields[i], 2, unit.Yield(), sourceGiven, crop.Assumed)
		s.add("actual_price"+suffix, price, n.targetDecimals(), unit.Price(), sourceActualRevenue, crop.Computed)
		s.add("actual_revenue"+suffix, program.ActualRevenue(yields[i], price), 2, "USD/acre", sourceActualRevenue, crop.Computed)
	}
	actual = h.actualRevenue(p, given.MYA, yields)
	if len(p.practices) == 2 {
		suffix := h.suffix(p, "") + "_weighted"
		addCoverage(s, p.coverage, suffix, sourceWeighted, n.Terms, crop.Computed)
		s.add("actual_revenue"+suffix, actual, 2, "USD/acre", sourceWeighted, crop.Computed)
	}
	return actual, ""
}

func addCoverage(s *stepList, a program.ARCCO, suffix, source string, terms program.Terms, status crop.Status) {
	s.add("benchmark_revenue"+suffix, a.BenchmarkRevenue, 2, "USD/acre", source, status)
	s.add("guarantee"+suffix, a.Guarantee, 2, "USD/acre", terms.Rows["guarantee_share"].Citation(), status)
	s.add("maximum_rate"+suffix, a.Maximum, 2, "USD/acre", terms.Rows["maximum_share"].Citation(), status)
}

// pays is what a farm without a contract turns every payment into.
func (h *holding) pays(x float64) float64 {
	if h.missed {
		return 0
	}
	return x
}

// suffix tells the steps of several bases or practices apart: "_99001_irrigated".
func (h *holding) suffix(p part, practice farm.Practice) string {
	var words []string
	if len(h.parts) > 1 {
		words = append(words, p.county)
		if p.base.Tract != "" {
			words = append(words, p.base.Tract)
		}
	}
	if practice != "" && practice != farm.AllPractices && len(p.practices) > 1 {
		words = append(words, string(practice))
	}
	if len(words) == 0 {
		return ""
	}
	return "_" + strings.Join(words, "_")
}

// finish adds the payment and what reaches the producers of the file.
func (h *holding) finish(payer payer, s *stepList, rate Price, perAcre float64, byPart [][]crop.Money, source string) ProgramSteps {
	sum := total(byPart)[0]
	s.add("payment", sum, 2, "USD", source, crop.Computed)
	after := 0.0
	flow := payer.flows(h, byPart)
	for j, producer := range payer.producers {
		general, peanuts := flow[j][0], 0.0
		if payer.apart(h.commodity) {
			general, peanuts = 0, flow[j][0]
		}
		after += payer.paid(producer, general, peanuts)
	}
	return ProgramSteps{Steps: s.steps, Rate: &rate, PaymentPerBaseAcre: dollars(perAcre), Payment: dollars(sum), PaymentAfterLimit: dollars(after)}
}
