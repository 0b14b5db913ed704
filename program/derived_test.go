package program

import (
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// derivedFile holds cases worked by hand from a paragraph of the law.
type derivedFile struct {
	Rule   string        `json:"rule"`
	Source string        `json:"source"`
	Cases  []derivedCase `json:"cases"`
}

type derivedCase struct {
	Name       string             `json:"name"`
	Function   string             `json:"function"`
	Derivation []string           `json:"derivation"`
	Want       derivedWant        `json:"want"`
	Farms      []derivedFarm      `json:"farms"`
	Producers  []derivedProducer  `json:"producers"`
	Earned     map[string]float64 `json:"earned"`
	Peanuts    map[string]float64 `json:"earned_peanuts"`

	GuaranteeShare   float64 `json:"guarantee_share"`
	MaximumShare     float64 `json:"maximum_share"`
	PaymentAcreShare float64 `json:"payment_acre_share"`
	Limit            float64 `json:"limit"`
	Sequestration    float64 `json:"sequestration"`
	BaseAcres        float64 `json:"base_acres"`
	FarmBaseAcres    float64 `json:"farm_base_acres"`
	Exempt           bool    `json:"exempt"`
	Planted          float64 `json:"planted"`
	Share            float64 `json:"share"`

	CoveredMean     float64        `json:"covered_mean"`
	NoncoveredMean  float64        `json:"noncovered_mean"`
	NoncoveredShare float64        `json:"noncovered_share"`
	TotalAcres      float64        `json:"total_acres"`
	ExistingBase    float64        `json:"existing_base"`
	Factor          float64        `json:"factor"`
	Plantings       []float64      `json:"plantings"`
	Commodity       crop.Commodity `json:"commodity"`
	CropYear        int            `json:"crop_year"`
	Yields          []float64      `json:"yields"`
}

// derivedWant holds named figures; a list holds one for each farm.
type derivedWant map[string]json.RawMessage

func (w derivedWant) floats(t *testing.T, name string) []float64 {
	t.Helper()
	var many []float64
	if json.Unmarshal(w[name], &many) == nil {
		return many
	}
	var one float64
	if err := json.Unmarshal(w[name], &one); err != nil {
		t.Fatalf("want %s: %v", name, err)
	}
	return []float64{one}
}

type derivedFarm struct {
	Share     float64       `json:"share"`
	BaseAcres float64       `json:"base_acres"`
	Crops     []derivedCrop `json:"crops"`
}

type derivedCrop struct {
	Planted   float64    `json:"planted"`
	Prevented float64    `json:"prevented"`
	History   [5]float64 `json:"history"`
	Plug      [5]float64 `json:"plug"`
	MYA       [5]float64 `json:"mya"`
	Floor     float64    `json:"floor"`
	Yield     float64    `json:"yield"`
	Price     float64    `json:"price"`
}

type derivedProducer struct {
	ID              string            `json:"id"`
	Kind            farm.ProducerKind `json:"kind"`
	Used            float64           `json:"used"`
	IncomeOverLimit bool              `json:"income_over_limit"`
	Members         []struct {
		ID    string  `json:"id"`
		Share float64 `json:"share"`
	} `json:"members"`
}

// derived is how each function named in the files is called; it returns the
// figures by name.
var derived = map[string]func(derivedCase) map[string][]float64{
	"arc_ic":      deriveARCIC,
	"attribution": deriveAttribution,
	"ten_acre": func(c derivedCase) map[string][]float64 {
		barred := 0.0
		if TenAcreBars(c.BaseAcres, leastBase, c.Exempt) {
			barred = 1
		}
		return map[string][]float64{"barred": {barred}}
	},
	"fruit_vegetables": func(c derivedCase) map[string][]float64 {
		excess := ExcessFruitVegetables(c.Planted, c.FarmBaseAcres, c.Share)
		acres := CutPaymentAcres(PaymentAcres(c.BaseAcres, c.PaymentAcreShare), c.BaseAcres, c.FarmBaseAcres, excess)
		return map[string][]float64{"excess": {excess}, "payment_acres": {acres}}
	},
}

// Rows of the law that are computed: the arithmetic, and what the row has.
func init() {
	derived["indexed_limit"] = func(c derivedCase) map[string][]float64 {
		row, _ := law.Find("payment_limit", "", c.CropYear)
		return map[string][]float64{"limit": {1000 * Round(c.Limit*c.Yields[1]/c.Yields[0]/1000, 0)}, "row": {row.Number}}
	}
	derived["japonica_reference"] = func(c derivedCase) map[string][]float64 {
		terms, _ := TermsFor(crop.TemperateJaponicaRice, c.CropYear)
		return map[string][]float64{"price": {Cent(c.Yields[0] * c.Yields[1] / c.Yields[2])}, "row": {terms.ReferencePrice}}
	}
}

// The functions of base acres.
func init() {
	derived["new_base"] = func(c derivedCase) map[string][]float64 {
		added := NewBase{c.CoveredMean, c.NoncoveredMean, c.TotalAcres, c.ExistingBase, c.NoncoveredShare}.Added()
		return map[string][]float64{"added": {added}, "parts": SharedBase(Round(added*c.Factor, 2), c.Plantings)}
	}
}

// leastBase is the figure of 7 U.S.C. 9014(d).
const leastBase = 10

func deriveARCIC(c derivedCase) map[string][]float64 {
	var crops []IndividualCrop
	var yields, prices []float64
	for _, f := range c.Farms {
		for _, k := range f.Crops {
			var five [5]float64
			for i := range five {
				five[i] = IndividualYearRevenue(k.History[i], k.Plug[i], k.MYA[i], k.Floor)
			}
			crops = append(crops, IndividualCrop{Share: f.Share, PlantedAcres: k.Planted, PreventedAcres: k.Prevented, BenchmarkRevenue: IndividualBenchmark(five)})
			yields, prices = append(yields, k.Yield), append(prices, k.Price)
		}
	}
	coverage, _ := NewARCIC(crops, c.GuaranteeShare, c.MaximumShare)
	actual := IndividualRevenue(crops, yields, prices)
	out := map[string][]float64{
		"benchmark_revenue": {coverage.BenchmarkRevenue}, "guarantee": {coverage.Guarantee}, "maximum": {coverage.Maximum},
		"actual_revenue": {actual}, "rate": {coverage.Rate(actual)},
	}
	for _, f := range c.Farms {
		out["payment"] = append(out["payment"], ARCICPayment(coverage.Rate(actual), PaymentAcres(f.BaseAcres, c.PaymentAcreShare)))
	}
	return out
}

func deriveAttribution(c derivedCase) map[string][]float64 {
	var producers []farm.Producer
	for _, p := range c.Producers {
		one := farm.Producer{ID: p.ID, Kind: p.Kind, IncomeOverLimit: p.IncomeOverLimit, LimitUsed: map[int]farm.LimitUsed{c.CropYear: {General: p.Used}}}
		for _, m := range p.Members {
			one.Members = append(one.Members, farm.Member{ID: m.ID, Share: m.Share})
		}
		producers = append(producers, one)
	}
	rule, err := LimitRuleFor(c.CropYear, c.Limit, c.Sequestration)
	if err != nil {
		return nil
	}
	a := NewAttribution(producers, rule)
	n := len(a.Recipients)
	arrived, ended, kept := make([]float64, n), make([]float64, n), make([]float64, n)
	for pool, amounts := range []map[string]float64{c.Earned, c.Peanuts} {
		earned := make([]float64, n)
		for id, amount := range amounts {
			earned[a.Find(id)] = amount
		}
		a.Trace(LimitPool(pool), earned, arrived, ended)
		for i, money := range ended {
			kept[i] += money
		}
	}
	out := map[string][]float64{}
	for i, r := range a.Recipients {
		out[r.ID] = []float64{AfterSequestration(kept[i], c.Sequestration)}
	}
	return out
}

// TestDerived holds every case worked by hand in testdata/derived against the
// law functions, to half a cent or half a hundredth of an acre.
func TestDerived(t *testing.T) {
	const half = 0.005
	names, err := filepath.Glob("../testdata/derived/*.json")
	if err != nil || len(names) == 0 {
		t.Fatalf("no derived case found: %v", err)
	}
	checked := 0
	for _, name := range names {
		for _, c := range readDerived(t, name).Cases {
			call, known := derived[c.Function]
			if !known || len(c.Derivation) == 0 || len(c.Want) == 0 {
				t.Fatalf("%s: %s: unknown function %q, or no derivation, or nothing wanted", name, c.Name, c.Function)
			}
			got := call(c)
			for figure := range c.Want {
				want := c.Want.floats(t, figure)
				checked++
				if !slices.EqualFunc(got[figure], want, func(a, b float64) bool { return math.Abs(a-b) < half }) {
					t.Errorf("%s: %s: %s is %v, want %v\n  %v", filepath.Base(name), c.Name, figure, got[figure], want, c.Derivation)
				}
			}
		}
	}
	fmt.Printf("derived cases: checked %d of %d figures in %d files\n", checked, checked, len(names))
}

func readDerived(t *testing.T, name string) derivedFile {
	t.Helper()
	var file derivedFile
	readCases(t, name, &file)
	if file.Rule == "" || file.Source == "" || len(file.Cases) == 0 {
		t.Fatalf("%s: a derived file needs rule, source and cases", name)
	}
	return file
}
