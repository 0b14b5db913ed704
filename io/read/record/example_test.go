package record_test

import (
	"fmt"

	"fencerow/io/read/record"
	"fencerow/program/farm"
)

// The print has two crops on one tract. Their base is 60.00 + 40.00 = 100.00 acres, and the
// second county is not that of the office.
func ExampleOperation() {
	text := ` OHIO                                     FARM : 7001
 MARSH HOLLOW                             Prepared : 3/3/25  9:00 AM EST
 Form: FSA-156EZ                          Crop Year : 2025
                  Abbreviated 156 Farm Record
 Operator Name                   : KIT FICTION
 ARCPLC G/I/F Eligibility        : Eligible
                 Crop Election Choice
  ARC Individual       ARC County         Price Loss Coverage
  None                 SOYBN              CORN
                 DCP Crop Data
  Crop Name        Base Acres      CCC-505 CRP Reduction Acres      PLC Yield     HIP
  Corn             60.00           0.00                             130           25
  Soybeans         40.00           0.00                             41
  TOTAL            100.00          0.00
 Tract Number                    : 7101
 FSA Physical Location           : OHIO/BRIAR GAP
                 DCP Crop Data
  Crop Name        Base Acres      CCC-505 CRP Reduction Acres      PLC Yield
  Corn             60.00           0.00                             130
  Soybeans         40.00           0.00                             41
  TOTAL            100.00          0.00
`
	records, err := record.Parse("print.txt", []byte(text))
	if err != nil {
		fmt.Println(err)
		return
	}
	invented := map[string]string{"MARSH HOLLOW": "99001", "BRIAR GAP": "99003"}
	operation, asked := record.Operation(records, func(_, county string) (string, *farm.Fault) { return invented[county], nil })
	for _, b := range operation.Farms[0].Bases {
		fmt.Println(b.Commodity, b.BaseAcres, *b.PaymentYield, b.County, operation.Farms[0].Record[b.Commodity])
	}
	fmt.Println(len(records[0].Warnings), len(asked), records[0].Crops[0].Base.Place, records[0].Layout == record.Newer)
	fmt.Println(records[0].Operator.GoString()) // who it is stays inside
	// Output:
	// corn 60 130 99003 PLC
	// soybeans 40 41 99003 ARC-CO
	// 0 0 page 1 line 12 true
	// (1 not shown)
}

// Story County is 19169 in the agencies' tables; a print names it in capitals.
func ExampleFindCounty() {
	code, _ := record.FindCounty("IOWA", "STORY")
	_, fault := record.FindCounty("IOWA", "BRIAR GAP")
	fmt.Println(code, fault.Reason)
	// Output:
	// 19169 county "BRIAR GAP" is not known in Iowa
}
