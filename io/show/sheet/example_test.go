package sheet_test

import (
	"fmt"
	"os"
	"testing/fstest"
	"time"

	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// files are an invented farm whose price and county yield are known: corn at $4.20 with 180
// bushels.
var files = fstest.MapFS{
	"operation.yaml": {Data: []byte(`format: fencerow/operation/1
market_file: market.yaml
county_files: [county.yaml]
farms:
  - {farm: "0417", county: "99001", election_on_record: {corn: PLC}, bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]}
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
	found, err := source.Question(source.Request{Operation: "operation.yaml", CropYears: nil, Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256, Files: files})
	if err != nil {
		return answer.Comparison{}, err
	}
	return compare.Answer(found.Question)
}

// A farm's sheet begins with the answer. By hand: PLC pays 0.85 x 150 x (4.42 - 4.20) = $28.05
// a base acre. Benchmark revenue is 200 x $5.03 = $1,006, guarantee $905.40, revenue 180 x
// $4.20 = $756; ARC-CO pays at most 12 percent of benchmark revenue, $120.72, x 0.85 =
// $102.61, which is $74.56 more, and $7,456 on 100 acres.
func ExampleOf() {
	c, err := known()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return
	}
	for _, b := range sheet.Of(c, false).Blocks[3:6] {
		switch b := b.(type) {
		case report.Heading:
			fmt.Println("#", b.Text)
		case report.Lead, report.Text:
			fmt.Println(b)
		}
	}
	// Output:
	// # Corn, 100 base acres: leans ARC-CO. Last elected: PLC
	// ARC-CO pays more in 100 of 100 outcomes, and PLC in none.
	// Averaged over all 100, zeros included, ARC-CO is $75 a base acre ahead, or $7,456 in all.
}
