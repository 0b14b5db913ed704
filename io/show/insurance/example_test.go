package insurance_test

import (
	"fmt"
	"os"
	"testing/fstest"
	"time"

	"fencerow/io/show/insurance"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// files are an invented farm whose prices and county yield are known: corn at $4.20 with 180
// bushels, insured under RP at 75 percent with a projected price of $5.00 and a harvest price of
// $4.50.
var files = fstest.MapFS{
	"operation.yaml": {Data: []byte(`format: fencerow/operation/1
market_file: market.yaml
county_files: [county.yaml]
farms:
  - farm: "0417"
    county: "99001"
    election_on_record: {corn: PLC}
    bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]
    insurance:
      - {crop_year: 2026, commodity: corn, plan: RP, coverage_level: 0.75, approved_yield: 190, acres: 80, projected_price: 5.00, harvest_price: 4.50, expected_area_yield: 200, layers: [{layer: SCO, premium: 12.00}]}
`)},
	"market.yaml": {Data: []byte(`format: fencerow/market/1
as_of: 2026-11-10
source: invented
outlook: {corn: {2026: {price: 4.20, volatility: 0}}}
`)},
	"county.yaml": {Data: []byte(`format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [200, 200, 200, 200, 200]}, outlook: {2026: {yield: 180, sd: 0, known_from: local_harvest}}}
`)},
}

func known() (answer.Comparison, error) {
	found, err := source.Question(source.Request{Operation: "operation.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256, Files: files})
	if err != nil {
		return answer.Comparison{}, err
	}
	return compare.Answer(found.Question)
}

// By hand: revenue is 180 x 4.50 / (200 x 5.00) = 0.81 of expected, 5 of the 11 percent that SCO
// covers below 86. Of 190 x 5.00 x 0.11 = $104.50 an acre it pays 5/11, $47.50; a premium of
// $12.00 and a fee of 30 / 80 = $0.38 leave $35.13. PLC pays 0.85 x 150 x (4.42 - 4.20) = $28.05
// a base acre, $2,805; with SCO on 80 acres $2,805 + $2,810 = $5,615.
func ExampleOf() {
	found, err := known()
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := terminal.Write(os.Stdout, report.Report{Blocks: insurance.Of(found, insurance.Options{})[3:5]}); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Layers, dollars an insured acre; pays: of 100 outcomes.
	//         covers,           pays below                 premium
	// layer   percent     most    yield of  pays  average  and fee     net
	// SCO    86 to 75  $104.50      191.11   100   $47.50   $12.38  $35.13
	//
	// Each program alone and with each layer, dollars. Net of premium and fee.
	//                           poor case  average of
	//                            (1 in 10    worst 10  average an acre
	// program          average  is lower)      of 100  insured     base
	// PLC alone         $2,805     $2,805      $2,805   $35.06   $28.05
	// PLC with SCO      $5,615     $5,615      $5,615   $70.19   $56.15
	// ARC-CO alone     $10,261    $10,261     $10,261  $128.27  $102.61
	// ARC-CO with SCO  $13,071    $13,071     $13,071  $163.39  $130.71
	// SCO alone         $2,810     $2,810      $2,810   $35.13   $28.10
}
