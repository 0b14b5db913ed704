package calls_test

import (
	"fmt"
	"os"

	"fencerow/io/batch/calls"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Two people of one farm, one of them in another operation too. The average of a person of
// several operations stands in each of them for all (900.00); the averages as last elected
// add up: 300 + 250 = 550.
func ExampleList() {
	year := func(key string, last answer.Dollars, ids ...string) answer.YearPart {
		y := answer.YearPart{CropYear: 2026}
		line := answer.StandingLine{Farm: key, Commodity: crop.Corn, BaseAcres: 100, Leader: answer.LeadsARCCO}
		under := answer.UnderPart{Elections: answer.LastElected}
		for _, id := range ids {
			line.Signers = append(line.Signers, answer.Signer{ID: id, Share: 0.5})
			p := answer.PersonPart{ID: id, MeanAfterLimit: 500}
			if id == "ann" {
				p.Across = &answer.AcrossPart{Operations: 2, MeanAfterLimit: 900}
			}
			y.Operation.ByPerson = append(y.Operation.ByPerson, p)
			under.ByPerson = append(under.ByPerson, answer.PersonPart{ID: id, MeanAfterLimit: last})
		}
		y.Standing.Lines, y.Operation.Under = []answer.StandingLine{line}, []answer.UnderPart{under}
		y.Farms = []answer.FarmPart{{Farm: key, Commodities: []answer.CommodityPart{{Commodity: crop.Corn, Bases: []answer.BasePart{{County: "99001", CountyName: "Alder"}}}}}}
		return y
	}
	nobody := calls.Owners(farm.Operation{})
	list := calls.NewList(os.TempDir())
	defer list.Close()
	for _, l := range calls.Of("client 1", "north", year("99001-0417", 300, "bo", "ann"), nobody, false) {
		list.Add(l.Record())
	}
	for _, l := range calls.Of("client 1", "south", year("99001-0588", 250, "ann"), nobody, false) {
		list.Add(l.Record())
	}
	list.Each(func(record []string) error {
		fmt.Println(record[1], record[4], record[5], "farms", record[8], record[9])
		fmt.Println(" ", record[11], "-", record[12])
		return nil
	})
	// Output:
	// ann north; south 2 farms 900.00 550.00
	//   north: Alder County (99001): 0417 | south: Alder County (99001): 0588 - north: Farm 0417: must agree with bo. | south: Farm 0588: nobody else has to agree.
	// bo north 1 farms 500.00 300.00
	//   Alder County (99001): 0417 - Farm 0417: must agree with ann.
}
