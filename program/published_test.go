package program

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fencerow/program/farm"
	"fencerow/program/law"
)

// publishedFile is one worked example that somebody else printed.
type publishedFile struct {
	Source struct {
		Title, Publisher, Date, URL, Page, Accessed string
	} `json:"source"`
	Reason         string          `json:"reason"`
	Verdict        string          `json:"verdict"` // "agrees" or "source wrong"
	FromMemory     []string        `json:"from_memory"`
	InferredInputs []string        `json:"inferred_inputs"`
	Cases          []publishedCase `json:"cases"`
}

type publishedCase struct {
	Name      string          `json:"name"`
	Function  string          `json:"function"`
	Inputs    publishedInputs `json:"inputs"`
	Want      float64         `json:"want"`
	Tolerance float64         `json:"tolerance"` // half a unit of the last printed digit, or what the source's "about" allows
}

type publishedInputs struct {
	MYA              json.RawMessage `json:"mya"` // one price or five
	Floor            float64         `json:"floor"`
	Decimals         int             `json:"decimals"`
	ReferencePrice   float64         `json:"reference_price"`
	AverageShare     float64         `json:"average_share"`
	Limit            float64         `json:"limit"`
	TargetPrice      float64         `json:"target_price"`
	LoanRate         float64         `json:"loan_rate"`
	BenchmarkYield   float64         `json:"benchmark_yield"`
	BenchmarkPrice   float64         `json:"benchmark_price"`
	GuaranteeShare   float64         `json:"guarantee_share"`
	MaximumShare     float64         `json:"maximum_share"`
	ActualYield      float64         `json:"actual_yield"`
	CountyYield      float64         `json:"county_yield"`
	Price            float64         `json:"price"`
	PaymentYield     float64         `json:"payment_yield"`
	BaseAcres        float64         `json:"base_acres"`
	PaymentAcreShare float64         `json:"payment_acre_share"`
	Sequestration    float64         `json:"sequestration"`
	Persons          float64         `json:"persons"`
	Rate             float64         `json:"rate"`
	Planted          []float64       `json:"planted"`

	areaInputs // of area insurance; price stands above
}

func (in publishedInputs) prices(t *testing.T) (five [5]float64) {
	t.Helper()
	if err := json.Unmarshal(in.MYA, &five); err != nil {
		t.Fatalf("mya: %v", err)
	}
	return five
}

func (in publishedInputs) price(t *testing.T) (one float64) {
	t.Helper()
	if err := json.Unmarshal(in.MYA, &one); err != nil {
		t.Fatalf("mya: %v", err)
	}
	return one
}

func (in publishedInputs) coverage() ARCCO {
	return NewARCCO(in.BenchmarkYield, in.BenchmarkPrice, in.GuaranteeShare, in.MaximumShare)
}

// start is where ARC-CO begins to pay: the yield at a price, or the price at a yield,
// whose revenue is the guarantee; a cent of revenue below it the rate is not 0.
func (in publishedInputs) start(t *testing.T, given float64, revenue func(float64) float64) float64 {
	t.Helper()
	a := in.coverage()
	start, cent := a.Guarantee/given, 0.01/given
	if at, below := a.Rate(revenue(start)), a.Rate(revenue(start-cent)); at != 0 || Cent(below) != 0.01 {
		t.Errorf("at the start %v the rate is %v, a cent below %v; want 0 and 0.01", start, at, below)
	}
	return start
}

// manyAcres spreads the cent of a payment over so many acres that a figure per
// acre keeps three decimals.
const manyAcres = 1000

// published is how each function named in the files is called.
var published = map[string]func(*testing.T, publishedInputs) float64{
	"effective_reference_price": func(t *testing.T, in publishedInputs) float64 {
		return EffectiveReferencePrice(in.ReferencePrice, in.AverageShare, in.Limit, in.prices(t), in.Decimals)
	},
	"benchmark_price": func(t *testing.T, in publishedInputs) float64 {
		return BenchmarkPrice(in.prices(t), in.Floor, in.Decimals)
	},
	"benchmark_price_over_effective": func(t *testing.T, in publishedInputs) float64 {
		floor := EffectiveReferencePrice(in.ReferencePrice, in.AverageShare, in.Limit, in.prices(t), in.Decimals)
		return BenchmarkPrice(in.prices(t), floor, in.Decimals)
	},
	"plc_rate": func(t *testing.T, in publishedInputs) float64 {
		return PLC{in.TargetPrice, in.LoanRate, in.Decimals}.Rate(in.price(t))
	},
	"plc_payment": func(t *testing.T, in publishedInputs) float64 {
		rate := PLC{in.TargetPrice, in.LoanRate, in.Decimals}.Rate(in.price(t))
		return PLCPayment(rate, in.PaymentYield, PaymentAcres(in.BaseAcres, in.PaymentAcreShare))
	},
	"plc_payment_per_base_acre": func(t *testing.T, in publishedInputs) float64 {
		rate := PLC{in.TargetPrice, in.LoanRate, in.Decimals}.Rate(in.price(t))
		payment := PLCPayment(rate, in.PaymentYield, PaymentAcres(manyAcres, in.PaymentAcreShare))
		return AfterSequestration(payment, in.Sequestration) / manyAcres
	},
	"arc_co_benchmark_revenue": func(t *testing.T, in publishedInputs) float64 { return in.coverage().BenchmarkRevenue },
	"arc_co_guarantee":         func(t *testing.T, in publishedInputs) float64 { return in.coverage().Guarantee },
	"arc_co_maximum":           func(t *testing.T, in publishedInputs) float64 { return in.coverage().Maximum },
	"arc_co_start_yield": func(t *testing.T, in publishedInputs) float64 {
		return in.start(t, in.Price, func(yield float64) float64 { return ActualRevenue(yield, in.Price) })
	},
	"arc_co_start_price": func(t *testing.T, in publishedInputs) float64 {
		return in.start(t, in.CountyYield, func(price float64) float64 { return ActualRevenue(in.CountyYield, price) })
	},
	"actual_revenue": func(t *testing.T, in publishedInputs) float64 {
		return ActualRevenue(in.ActualYield, ActualPrice(in.price(t), in.LoanRate))
	},
	"arc_co_rate": func(t *testing.T, in publishedInputs) float64 {
		return in.coverage().Rate(ActualRevenue(in.ActualYield, ActualPrice(in.price(t), in.LoanRate)))
	},
	"arc_co_payment_per_base_acre": func(t *testing.T, in publishedInputs) float64 {
		rate := in.coverage().Rate(ActualRevenue(in.ActualYield, ActualPrice(in.price(t), in.LoanRate)))
		payment := ARCCOPayment(rate, PaymentAcres(manyAcres, in.PaymentAcreShare))
		return AfterSequestration(payment, in.Sequestration) / manyAcres
	},
	"rate_that_fills_limits": func(t *testing.T, in publishedInputs) float64 {
		acres := PaymentAcres(in.BaseAcres, in.PaymentAcreShare)
		person := NewAttribution([]farm.Producer{{ID: "one", Kind: farm.Person}}, LimitRule{Limit: in.Limit}).Recipients[0]
		rate := in.Persons * in.Limit / acres
		if each := ARCCOPayment(rate+1, acres) / in.Persons; person.Within(GeneralPool, each) != in.Limit {
			t.Errorf("a dollar above the rate pays %v each, which the limit of %v does not cut", each, in.Limit)
		}
		if each := ARCCOPayment(rate-1, acres) / in.Persons; person.Within(GeneralPool, each) != each {
			t.Errorf("a dollar below the rate pays %v each, which the limit of %v cuts", each, in.Limit)
		}
		return rate
	},
	"shared_base_first": func(_ *testing.T, in publishedInputs) float64 { return SharedBase(in.BaseAcres, in.Planted)[0] },
	"percent_of_national_limit": func(t *testing.T, in publishedInputs) float64 {
		limit, err := law.Find("new_base_national_limit", "", 2026)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, acres := range in.Planted {
			sum += acres
		}
		return 100 * sum / limit.Number
	},
	"rate_after_sequestration": func(_ *testing.T, in publishedInputs) float64 {
		return AfterSequestration(in.Rate*manyAcres, in.Sequestration) / manyAcres
	},
}

// TestPublished holds every worked example of testdata/published against the
// law functions. A case without source or reason fails, unknown keys fail, and
// so does finding no case.
func TestPublished(t *testing.T) {
	names, err := filepath.Glob("../testdata/published/*.json")
	if err != nil || len(names) == 0 {
		t.Fatalf("no published case found: %v", err)
	}
	checked := 0
	for _, name := range names {
		file := readPublished(t, name)
		for _, c := range file.Cases {
			call, known := published[c.Function]
			if !known {
				t.Fatalf("%s: unknown function %q", name, c.Function)
			}
			checked++
			got := call(t, c.Inputs)
			if agrees := math.Abs(got-c.Want) <= c.Tolerance*(1+1e-9); agrees != (file.Verdict == "agrees") {
				t.Errorf("%s: %s\n  inputs %+v\n  want %v, got %v, difference %.6f, tolerance %v\n  source: %s, %s, %s",
					filepath.Base(name), c.Name, c.Inputs, c.Want, got, got-c.Want, c.Tolerance, file.Source.Title, file.Source.Publisher, file.Source.Date)
			}
		}
	}
	fmt.Printf("published examples: checked %d of %d figures in %d files\n", checked, checked, len(names))
}

// readCases reads a file of cases; unknown keys fail.
func readCases(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func readPublished(t *testing.T, name string) publishedFile {
	t.Helper()
	var file publishedFile
	readCases(t, name, &file)
	s := file.Source
	if s.Title == "" || s.Publisher == "" || s.Date == "" || file.Reason == "" || len(file.Cases) == 0 {
		t.Fatalf("%s: a published case needs title, publisher, date, reason and cases", name)
	}
	if file.Verdict != "agrees" && file.Verdict != "source wrong" {
		t.Fatalf("%s: verdict %q", name, file.Verdict)
	}
	return file
}
