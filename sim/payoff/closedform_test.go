package payoff

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// closedForm is one case of testdata/closedforms.
type closedForm struct {
	ID          string             `json:"id"`
	Description string             `json:"description"`
	Inputs      map[string]float64 `json:"inputs"`
	Expected    map[string]float64 `json:"expected"`
}

func closedForms(t *testing.T) []closedForm {
	t.Helper()
	data, err := os.ReadFile("../../testdata/closedforms/plc-and-arc-co.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []closedForm }
	if err := json.Unmarshal(data, &file); err != nil || len(file.Cases) == 0 {
		t.Fatalf("%d cases, %v", len(file.Cases), err)
	}
	return file.Cases
}

// How near the draws must come: the larger of so many standard errors and a
// fixed amount for what agency rounding adds.
const (
	nearErrors  = 4
	nearMean    = 0.006  // USD per acre
	nearSD      = 0.02   // USD per acre
	nearChance  = 0.0003 // share of outcomes
	priceStep   = 0.01   // USD, the last digit of a price
	testSeed    = 20261125
	centDigits  = 2
	testCounty  = "99001"
	allPractice = "all"
)

func cents(x float64) float64 { return program.Round(x, centDigits) }

// closedDraws are prices, and payments before and after the 85 percent.
type closedDraws struct {
	draws  odds.Scenarios
	prices []float64
	yields []float64
}

// draw makes prices and, where the case has them, lognormal county yields with
// the correlation of the case.
func (c closedForm) draw(t *testing.T) closedDraws {
	t.Helper()
	d := closedDraws{draws: odds.NewScenarios(testSeed, 65536)}
	sampler, err := odds.NewSampler(d.draws, 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	sigma := c.Inputs["sigma_log"]
	if sigma == 0 {
		sigma = c.Inputs["sigma_p"]
	}
	d.prices = make([]float64, d.draws.N())
	odds.Price{RestMean: c.Inputs["mean_price"], Sigma: sigma, Decimals: centDigits}.Draw(d.prices, sampler.PriceShock(crop.Corn), cents)
	if s, has := c.Inputs["sigma_y"]; has {
		d.yields = make([]float64, d.draws.N())
		mean := c.Inputs["mean_yield"]
		sd := mean * math.Sqrt(math.Expm1(s*s)) // sd in units of a lognormal with log sd s
		rho := c.Inputs["rho"]                  // a county that stands alone: no national shock beside the price
		shock := sampler.YieldShock(odds.YieldKey{County: testCounty, Practice: allPractice, Commodity: crop.Corn}, odds.YieldDependence{Price: rho, Counties: rho * rho})
		odds.Yield{Mean: mean, SD: sd, Shape: odds.ShapeLognormal}.Draw(d.yields, shock.All(), cents)
	}
	return d
}

// TestClosedForms holds the simulated odds of PLC and ARC-CO against exact
// figures: mean, standard deviation, chance of payment and of the maximum, and
// percentiles.
func TestClosedForms(t *testing.T) {
	checked := 0
	for _, c := range closedForms(t) {
		t.Run(c.ID, func(t *testing.T) {
			d := c.draw(t)
			_, plc := c.Inputs["erp"]
			switch {
			case plc && d.yields != nil:
				checked += c.checkJoint(t, d)
			case plc:
				checked += c.checkPLC(t, d)
			default:
				checked += c.checkARCCO(t, d)
			}
		})
	}
	fmt.Printf("closed forms: checked %d of %d figures\n", checked, checked)
}

// near compares a figure with the exact one and counts it.
func near(t *testing.T, name string, got, want, standardError, least float64) int {
	t.Helper()
	tolerance := max(nearErrors*standardError, least)
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: got %.6f, want %.6f, difference %.6f, tolerance %.6f", name, got, want, got-want, tolerance)
	}
	return 1
}

func (c closedForm) checkPLC(t *testing.T, d closedDraws) (checked int) {
	in := c.Inputs
	contract := program.PLC{TargetPrice: in["erp"], LoanRate: in["loan_rate"], Decimals: centDigits}
	pay, paying := make([]float64, len(d.prices)), make([]float64, len(d.prices))
	for i, price := range d.prices {
		pay[i] = contract.Rate(price) * in["plc_yield"] * in["pay_frac"]
		if pay[i] > 0 {
			paying[i] = 1
		}
	}
	s, p := odds.Summarize(pay, d.draws), odds.Summarize(paying, d.draws)
	checked += near(t, "mean per base acre", s.Mean, c.Expected["E_pay_per_base_acre"], s.StandardError, nearMean)
	checked += near(t, "standard deviation per base acre", s.SD, c.Expected["sd_pay_per_base_acre"], 0, nearSD)
	// A rounded price pays where the exact one is under the target less half a cent.
	exact := normal(math.Log((in["erp"]-priceStep/2)/in["mean_price"])/in["sigma_log"] + in["sigma_log"]/2)
	checked += near(t, "chance of payment", p.Mean, exact, p.StandardError, nearChance)
	got := odds.PercentilesOf(pay)
	for i, percent := range odds.Percents {
		price := lognormalQuantile(in["mean_price"], in["sigma_log"], 1-float64(percent)/100)
		want := max(0, in["erp"]-max(price, in["loan_rate"])) * in["plc_yield"] * in["pay_frac"]
		checked += near(t, fmt.Sprintf("percentile %d", percent), got[i], want, 0, priceStep*in["plc_yield"]*in["pay_frac"])
	}
	return checked
}

func (c closedForm) checkARCCO(t *testing.T, d closedDraws) (checked int) {
	in := c.Inputs
	coverage := program.NewARCCO(in["bench_yield"], in["bench_price"], in["coverage"], in["cap"])
	n := len(d.prices)
	pay, paying, most := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, price := range d.prices {
		pay[i] = coverage.Rate(program.ActualRevenue(d.yields[i], program.ActualPrice(price, in["loan_rate"])))
		if pay[i] > 0 {
			paying[i] = 1
		}
		if pay[i] == coverage.Maximum {
			most[i] = 1
		}
	}
	s, p, m := odds.Summarize(pay, d.draws), odds.Summarize(paying, d.draws), odds.Summarize(most, d.draws)
	checked += near(t, "mean per acre", s.Mean, c.Expected["E_formula_per_acre"], s.StandardError, nearMean)
	checked += near(t, "mean per base acre", s.Mean*in["pay_frac"], c.Expected["E_pay_per_base_acre"], s.StandardError, nearMean)
	if want, given := c.Expected["sd_formula_per_acre"]; given {
		checked += near(t, "standard deviation per acre", s.SD, want, 0, nearSD)
	}
	if want, given := c.Expected["P_pay"]; given {
		checked += near(t, "chance of payment", p.Mean, want, p.StandardError, nearChance)
	}
	if want, given := c.Expected["P_cap"]; given {
		checked += near(t, "chance of the maximum", m.Mean, want, m.StandardError, nearChance)
	}
	if mean, given := c.Expected["mean_rev"]; given {
		got := odds.PercentilesOf(pay)
		for i, percent := range odds.Percents {
			revenue := lognormalQuantile(mean, c.Expected["sigma_rev"], 1-float64(percent)/100)
			want := min(coverage.Maximum, max(0, coverage.Guarantee-revenue))
			checked += near(t, fmt.Sprintf("percentile %d", percent), got[i], want, 0, priceStep*in["mean_yield"])
		}
	}
	return checked
}

// checkJoint holds both programs together on one base acre: the higher of both
// (the law of crop year 2025) and who pays more. Chances are compared within
// nearJoint: a price rounded to the cent moves each of the two triggers.
func (c closedForm) checkJoint(t *testing.T, d closedDraws) (checked int) {
	const nearJoint = 0.006
	in := c.Inputs
	contract := program.PLC{TargetPrice: in["erp"], LoanRate: in["loan_rate"], Decimals: centDigits}
	coverage := program.NewARCCO(in["bench_yield"], in["bench_price"], in["coverage"], in["cap"])
	n := len(d.prices)
	higher, arcMore, neither := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, price := range d.prices {
		plc := contract.Rate(price) * in["plc_yield"] * in["pay_frac"]
		arc := coverage.Rate(program.ActualRevenue(d.yields[i], program.ActualPrice(price, in["loan_rate"]))) * in["pay_frac"]
		higher[i] = program.HigherOf(plc, arc)
		if arc > plc {
			arcMore[i] = 1
		}
		if arc == 0 && plc == 0 {
			neither[i] = 1
		}
	}
	s, a, z := odds.Summarize(higher, d.draws), odds.Summarize(arcMore, d.draws), odds.Summarize(neither, d.draws)
	checked += near(t, "mean of the higher of both", s.Mean, c.Expected["E_max_2025_rule"], s.StandardError, nearMean)
	checked += near(t, "chance that ARC-CO pays more", a.Mean, c.Expected["P_arc_gt_plc"], a.StandardError, nearJoint)
	checked += near(t, "chance that neither pays", z.Mean, c.Expected["P_neither"], z.StandardError, nearJoint)
	return checked
}

// normal is the standard normal distribution function.
func normal(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }

// lognormalQuantile of a price with a mean and a log standard deviation.
func lognormalQuantile(mean, sigma, p float64) float64 {
	return mean * math.Exp(sigma*math.Sqrt2*math.Erfinv(2*p-1)-sigma*sigma/2)
}
