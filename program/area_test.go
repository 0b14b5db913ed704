package program

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"fencerow/program/farm"
)

// areaInputs are the inputs of cases on area insurance.
type areaInputs struct {
	Plan          farm.Plan `json:"plan"`
	Projected     float64   `json:"projected_price"`
	Harvest       float64   `json:"harvest_price"`
	Expected      float64   `json:"expected_area_yield"`
	Final         float64   `json:"final_area_yield"`
	Trigger       float64   `json:"trigger"`
	LowerEnd      float64   `json:"lower_end"`
	ChosenRange   float64   `json:"chosen_range"`
	Level         float64   `json:"coverage_level"`
	Percentage    float64   `json:"percentage"`
	Liability     float64   `json:"underlying_liability"`
	Acres         float64   `json:"acres"`
	ApprovedYield float64   `json:"approved_yield"`
	Share         float64   `json:"share"`
	Price         float64   `json:"price"`
	Ratio         float64   `json:"ratio"`
	PremiumRate   float64   `json:"premium_rate"`
	Subsidy       float64   `json:"subsidy"`
	ExpectedCost  float64   `json:"expected_cost"`
	HarvestCost   float64   `json:"harvest_cost"`
	STAX          bool      `json:"stax"`
}

// or1 lets what a case leaves out be one acre, a whole share, the whole percentage.
func or1(x float64) float64 {
	if x == 0 {
		return 1
	}
	return x
}

const staxFloor, staxStep = 0.70, 0.05

func (in areaInputs) band() Band {
	if in.ChosenRange > 0 {
		b, _ := STAXBand(in.Trigger, in.ChosenRange, in.Level, staxFloor, staxStep)
		return b
	}
	return SCOBand(in.Trigger, in.LowerEnd)
}

func (in areaInputs) ratio() float64 {
	if in.Ratio > 0 {
		return in.Ratio
	}
	return AreaRatio(in.Plan, in.Expected, in.Final, in.Projected, in.Harvest)
}

// value is the expected crop value at a harvest price; under YP none is given.
func (in areaInputs) value(harvest float64) float64 {
	price := InsuredPrice(in.Plan, in.Projected, harvest)
	switch {
	case in.Liability > 0:
		return in.Liability / in.Level
	case in.STAX:
		return STAXValue(in.Expected, price, or1(in.Acres), or1(in.Share))
	case in.Price > 0:
		price = in.Price
	}
	return CropValue(or1(in.Acres), in.ApprovedYield, price, or1(in.Share))
}

func (in areaInputs) protection(harvest float64) float64 {
	return in.band().Protection(in.value(harvest), or1(in.Percentage))
}

func (in areaInputs) premium() float64 { return Cent(in.protection(0) * in.PremiumRate) }

// area returns expected or final revenue; under YP it is the yield.
func (in areaInputs) area(yield, price float64) float64 {
	if in.Plan == farm.YieldProtection {
		return yield
	}
	return yield * price
}

// marginFactor is the payment factor of a margin: loss of margin over range times expected
// revenue. The same band measures it at the trigger less the loss as a share.
func (in areaInputs) marginFactor() float64 {
	revenue := in.area(in.Expected, InsuredPrice(in.Plan, in.Projected, in.Harvest))
	trigger := revenue - in.ExpectedCost - (1-in.Trigger)*revenue
	loss := trigger - (in.Final*in.Harvest - in.HarvestCost)
	return in.band().Factor(in.Trigger - loss/revenue)
}

const factorDecimals = 3 // to which the agency may round a payment factor: open

var areaFunctions = map[string]func(areaInputs) float64{
	"expected_area": func(in areaInputs) float64 {
		return in.area(in.Expected, InsuredPrice(in.Plan, in.Projected, in.Harvest))
	},
	"final_area":           func(in areaInputs) float64 { return in.area(in.Final, in.Harvest) },
	"sco_range":            func(in areaInputs) float64 { return SCOBand(in.Trigger, in.LowerEnd).Range },
	"eco_range":            func(in areaInputs) float64 { return ECOBand(in.Trigger, in.LowerEnd).Range },
	"stax_range":           func(in areaInputs) float64 { return in.band().Range },
	"band_begins":          func(in areaInputs) float64 { return in.band().Trigger },
	"band_full":            func(in areaInputs) float64 { return in.band().Trigger - in.band().Range },
	"area_ratio":           areaInputs.ratio,
	"area_factor":          func(in areaInputs) float64 { return in.band().Factor(in.ratio()) },
	"area_factor_3":        func(in areaInputs) float64 { return Round(in.band().Factor(in.ratio()), factorDecimals) },
	"crop_value":           func(in areaInputs) float64 { return in.value(in.Harvest) },
	"crop_value_projected": func(in areaInputs) float64 { return in.value(0) },
	"underlying_guarantee": func(in areaInputs) float64 { return in.value(0) * in.Level },
	"protection":           func(in areaInputs) float64 { return in.protection(in.Harvest) },
	"premium_liability":    func(in areaInputs) float64 { return in.protection(0) },
	"indemnity":            func(in areaInputs) float64 { return Indemnity(in.protection(in.Harvest), in.band().Factor(in.ratio())) },
	"indemnity_3": func(in areaInputs) float64 {
		return Indemnity(in.protection(in.Harvest), Round(in.band().Factor(in.ratio()), factorDecimals))
	},
	"total_premium":    areaInputs.premium,
	"subsidy_amount":   func(in areaInputs) float64 { return in.premium() - ProducerPremium(in.premium(), in.Subsidy) },
	"producer_premium": func(in areaInputs) float64 { return ProducerPremium(in.premium(), in.Subsidy) },
	"net_of_premium": func(in areaInputs) float64 {
		return Indemnity(in.protection(in.Harvest), in.band().Factor(in.ratio())) - ProducerPremium(in.premium(), in.Subsidy)
	},
	"break_even_ratio": func(in areaInputs) float64 { return in.band().BreakEvenYield(in.Plan, 1, in.Projected, in.Harvest) },
	"margin_factor":    areaInputs.marginFactor,
	"margin_indemnity": func(in areaInputs) float64 { return Indemnity(in.protection(in.Harvest), in.marginFactor()) },
}

// The published examples of area insurance.
func init() {
	for name, of := range areaFunctions {
		published[name] = func(_ *testing.T, in publishedInputs) float64 {
			in.areaInputs.Price = in.Price
			return of(in.areaInputs)
		}
	}
}

// areaCases are the figures of area insurance that a file holds.
type areaCases struct {
	Rule   string   `json:"rule"`
	Source string   `json:"source"`
	Open   []string `json:"open"`
	Cases  []struct {
		Name, Function  string
		Inputs          areaInputs
		Want, Tolerance float64
	} `json:"cases"`
}

// Every figure worked out apart from this program, to its last digit.
func TestAreaInsuranceByHand(t *testing.T) {
	const name = "../testdata/derived/insurance/area-insurance.json"
	var file areaCases
	readCases(t, name, &file)
	if len(file.Cases) == 0 || file.Source == "" {
		t.Fatal("no case, or no source")
	}
	for _, c := range file.Cases {
		of, known := areaFunctions[c.Function]
		if !known {
			t.Fatalf("unknown function %q", c.Function)
		}
		if got := of(c.Inputs); math.Abs(got-c.Want) > c.Tolerance*(1+1e-9) {
			t.Errorf("%s\n  inputs %+v\n  want %v, got %v, difference %.9f, tolerance %v", c.Name, c.Inputs, c.Want, got, got-c.Want, c.Tolerance)
		}
	}
	fmt.Printf("area insurance by hand: checked %d of %d figures of %s\n", len(file.Cases), len(file.Cases), filepath.Base(name))
}
