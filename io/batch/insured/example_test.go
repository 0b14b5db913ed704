package insured_test

import (
	"fmt"

	"fencerow/io/batch/insured"
	"fencerow/io/batch/names"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// SCO alone averages 20.00 an acre on 100 acres and costs 6.50 with its fee: net 1,350.00.
func ExampleOf() {
	k := answer.InsuredCrop{Commodity: "corn", InsuredAcres: 100, Layers: []answer.InsuredLayer{{Layer: farm.SCO, Average: answer.DollarsOf(20)}},
		Together: []answer.InsuranceRow{{Layers: []farm.Program{farm.SCO}, Average: answer.DollarsOf((20 - 6.50) * 100)}}}
	c := answer.Comparison{CropYears: []answer.YearPart{{CropYear: 2027, Farms: []answer.FarmPart{{Farm: "99001-0417", Insurance: &answer.Insurance{Crops: []answer.InsuredCrop{k}}}}}}}
	for _, l := range insured.Of("ann", "north", c, nil, names.Labels{}) {
		fmt.Println(l.Farm, l.Commodity, l.CropYear, l.Layers, *l.Mean)
	}
	// Output: 99001-0417 corn 2027 SCO 1350
}
