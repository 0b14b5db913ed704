package operation

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

func pointer[T any](v T) *T { return &v }

// whole has every key of the format.
const whole = `format: fencerow/operation/1
crop_years: [2026, 2027]
settings: {payment_limit: {2026: 155000}, sequestration: {2026: 0.057}, discount_rate: 0.04, close_margin: 2.00}
county_files: [alder.yaml]
market_file: market.yaml
producers:
  - id: ann
    kind: person
    limit_used: {2026: {general: 1000, peanuts: 20}}
    income_over_limit: yes
    ten_acre_exempt: no
    other_base_acres: 12.5
    other_income: -40000
    papers: {2026: {customer_data: yes, operating_plan: no, income: unknown, bank: Y}}
  - {id: 0042, kind: joint_operation, members: [{id: ann, share: 0.6}, {id: outside, share: 0.4}]}
farms:
  - farm: 0417
    county: 08063
    contract: {2026: signed, 2027: open}
    election_on_record: {CORN: PLC, "SORGHUM, GRAIN": ARC-CO}
    choice: {2026: {CORN: ARC-CO, "SORGHUM, GRAIN": plc}}
    signed: {2026: {ann: 2026-11-20, 0042: no}, 2027: {ann: unknown}}
    shares: {2026: {ann: 0.5, 0042: 0.25}, 2027: {ann: 1}}
    lease: flex
    total_acres: 250.0
    cropland: 231.5
    idle_2009_2017: true
    unassigned_base_acres: 3
    merge_with: 0418
    stax_bought: {2026: false}
    bases:
      - {commodity: corn, base_acres: 120.00, payment_yield: 150, tract: 1e5, county: 99001A, irrigated_share: 0.35, crp_reduction: 20, shares: {ann: 1}}
      - {commodity: corn, base_acres: 10, payment_yield: 140, tract: 0x1F}
      - {commodity: grain_sorghum, base_acres: 40, tract: , payment_yield: ~}
    planted:
      - {crop_year: 2026, commodity: corn, practice: irrigated, acres: 130, prevented: 5, yield: 190}
      - {crop_year: 2026, commodity: fruit_vegetables, acres: 4}
    arc_ic_history: {corn: {2020: 171, 2021: 0}}
`

func TestParseEveryKey(t *testing.T) {
	got, err := Parse("whole.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	want := farm.Operation{
		CropYears:   []crop.CropYear{2026, 2027},
		Settings:    farm.Settings{PaymentLimit: map[int]float64{2026: 155000}, Sequestration: map[int]float64{2026: 0.057}, DiscountRate: 0.04, CloseMargin: pointer(2.0)},
		CountyFiles: []string{"alder.yaml"}, MarketFile: "market.yaml",
		Producers: []farm.Producer{
			{ID: "ann", Kind: farm.Person, LimitUsed: map[int]farm.LimitUsed{2026: {General: 1000, Peanuts: 20}}, IncomeOverLimit: true, TenAcreExempt: farm.NotExempt, OtherBaseAcres: 12.5, OtherIncome: -40000,
				Papers: map[int]map[farm.Paper]farm.Noted{2026: {"customer_data": farm.Yes, "operating_plan": farm.No, "bank": farm.Yes}}},
			{ID: "0042", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.6}, {ID: "outside", Share: 0.4}}, TenAcreExempt: farm.NotExempt},
		},
		Farms: []farm.Farm{{
			Number: "0417", County: "08063",
			Contract: farm.ByCropYear[farm.Contract]{Year: map[int]farm.Contract{2026: farm.Signed, 2027: farm.Open}},
			Record:   map[crop.Commodity]farm.Program{crop.Corn: farm.PLC, crop.GrainSorghum: farm.ARCCO},
			Choice:   map[int]map[crop.Commodity]farm.Program{2026: {crop.Corn: farm.ARCCO, crop.GrainSorghum: farm.PLC}},
			Signed:   map[int]map[string]farm.Signature{2026: {"ann": {Signed: farm.Yes, On: "2026-11-20"}, "0042": {Signed: farm.No}}, 2027: {"ann": {}}},
			Shares:   farm.ByCropYear[farm.Shares]{Year: map[int]farm.Shares{2026: {"ann": 0.5, "0042": 0.25}, 2027: {"ann": 1}}},
			Lease:    farm.FlexLease, TotalAcres: pointer(250.0), Cropland: pointer(231.5), Idle20092017: true, Unassigned: 3, MergeWith: "0418",
			STAXBought: map[int]bool{2026: false},
			Bases: []farm.Base{
				{Commodity: crop.Corn, BaseAcres: 120, PaymentYield: pointer(150.0), Tract: "1e5", County: "99001A", IrrigatedShare: pointer(0.35), CRPReduction: 20, Shares: farm.Shares{"ann": 1}},
				{Commodity: crop.Corn, BaseAcres: 10, PaymentYield: pointer(140.0), Tract: "0x1F"},
				{Commodity: crop.GrainSorghum, BaseAcres: 40},
			},
			Planted: []farm.Planting{
				{CropYear: 2026, Commodity: "corn", Practice: farm.Irrigated, Acres: 130, Prevented: 5, Yield: pointer(190.0)},
				{CropYear: 2026, Commodity: "fruit_vegetables", Practice: farm.AllPractices, Acres: 4},
			},
			History: map[crop.Commodity]map[int]float64{crop.Corn: {2020: 171, 2021: 0}},
		}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// Without producers one person, the operator, has all shares.
func TestDefaultProducer(t *testing.T) {
	got, err := Parse("short.yaml", []byte("format: fencerow/operation/1\nfarms:\n- {farm: 7, county: 99001, bases: [{commodity: oats, base_acres: 5}]}\n"))
	if err != nil {
		t.Fatal(err)
	}
	wantProducers := []farm.Producer{{ID: "operator", Kind: farm.Person, TenAcreExempt: farm.NotExempt}}
	if !reflect.DeepEqual(got.Producers, wantProducers) {
		t.Errorf("producers are %+v, want %+v", got.Producers, wantProducers)
	}
	if shares, ok := got.Farms[0].Shares.In(2026); !ok || !reflect.DeepEqual(shares, farm.Shares{"operator": 1}) {
		t.Errorf("shares are %v, want all to the operator", shares)
	}
}

// Shares such as 0.1 ten times over add to 1 for a person; binary noise is no
// mistake.
func TestSharesThatAddToOne(t *testing.T) {
	text := "format: fencerow/operation/1\nproducers: [{id: a}, {id: b}, {id: c}]\nfarms:\n- {farm: 7, county: 99001, shares: {a: 0.7, b: 0.2, c: 0.1}, bases: [{commodity: oats, base_acres: 5}]}\n"
	if _, err := Parse("shares.yaml", []byte(text)); err != nil {
		t.Error(err)
	}
}

// Read names the file it was given; a missing one is a mistake like others.
func TestRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "alder farm.yaml")
	if err := os.WriteFile(path, []byte("\ufeff"+whole), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Read(path); err != nil {
		t.Error(err)
	}
	_, err := Read(path + "x")
	var mistakes farm.Mistakes
	if !errors.As(err, &mistakes) || len(mistakes) != 1 || mistakes[0].File != path+"x" {
		t.Errorf("missing file: %v", err)
	}
}

// Any text is read or refused with mistakes that have a place, a reason and a
// hint.
func FuzzParse(f *testing.F) {
	starts := []string{whole}
	seeds, err := filepath.Glob("../../../testdata/badfarm/operation-*.yaml")
	if err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, seed := range seeds {
		text, err := os.ReadFile(seed)
		if err != nil {
			f.Fatal(err)
		}
		starts = append(starts, string(text))
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		got, err := Parse("fuzz.yaml", text)
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Fatalf("%v is not farm.Mistakes", err)
		}
		for _, m := range mistakes {
			if m.Line < 1 || m.Column < 1 || m.Reason == "" || m.Hint == "" {
				t.Errorf("incomplete mistake %+v", m)
			}
		}
		if err := sound.Finite(got); err != nil {
			t.Error(err)
		}
	})
}

// The county of a farm and of a base may have its name: codes of FSA's county tables.
func TestCountyByName(t *testing.T) {
	got, err := Parse("named.yaml", []byte("format: fencerow/operation/1\nfarms:\n- {farm: 7, county: \"Story County, IA\", bases: [{commodity: oats, base_acres: 5, county: 1001}]}\n"))
	if err != nil || got.Farms[0].County != "19169" || got.Farms[0].Bases[0].County != "01001" {
		t.Errorf("%+v, %v", got.Farms, err)
	}
}

// An operation file begins with a comment, a document's mark or one of its keys; a table
// begins with a title or headings.
func TestBegins(t *testing.T) {
	for text, want := range map[string]bool{
		"format: fencerow/operation/1\n": true, "\ufeff\n\nformat: x": true, "# my farms\nformat: x": true, "---\nformat: x": true, "farms:\n": true, "crop_years : [2026]": true,
		"farm,county,crop,base\n": false, "farms,county": false, "Farm records: 2026\nfarm,crop": false, "": false, "\n\nFarm Number\tCrop\n": false,
	} {
		if got := Begins([]byte(text)); got != want {
			t.Errorf("%q begins an operation file: %v", text, got)
		}
	}
}
