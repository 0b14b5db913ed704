package flag

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented/cases"
)

// By hand: 120 base acres on the record at a payment yield of 150, 150 on the notice at 160.
// PLC averages 10.00 an acre on the record, so 1,200; on the notice 150 x 10.00 x 160/150 =
// 1,600. ARC-CO averages 20.00: 2,400 and 3,000.
func TestRecordBeforeNotice(t *testing.T) {
	c := cases.Corn()
	if has := codes(c, 2026); strings.Contains(strings.Join(has, " "), "record_before_notice") {
		t.Error("raised without cause")
	}
	yes, no, yield := true, false, 160.0
	f := &c.Operation.Farms[0]
	f.BeforeNotice = &no
	if has := codes(c, 2026); strings.Contains(strings.Join(has, " "), "record_before_notice") {
		t.Error("raised where the record is newer than the notice")
	}
	f.BeforeNotice = &yes
	if has := codes(c, 2025); strings.Contains(strings.Join(has, " "), "record_before_notice") {
		t.Error("raised for a crop year without new base")
	}
	says(t, c, 2026, "record_before_notice", "may have grown from 2026", "Plantings of 2019 to 2023", "No acres are guessed", "Ask the county office", "P.L. 119-21")
	f.Notice = map[crop.Commodity]farm.NoticeBase{crop.Corn: {BaseAcres: 150, PaymentYield: &yield}, crop.Wheat: {BaseAcres: 20}}
	bases, err := c.Sources().CommodityBases(*f, 2026)
	if err != nil {
		t.Fatal(err)
	}
	recorded := answer.Dollars(150)
	part := answer.CommodityPart{PaymentYield: &recorded, Programs: answer.Programs{
		{Program: farm.PLC, Figures: &answer.ProgramPart{Mean: 10}}, {Program: farm.ARCCO, Figures: &answer.ProgramPart{Mean: 20}}}}
	message := recordBeforeNotice(&Case{Question: c, Farm: *f, CropYear: 2026, Bases: bases, Commodities: []answer.CommodityPart{part}})[0].Message
	for _, words := range []string{"120.00 acres on the record, 150.00 on the notice", "PLC pays $1,200 on the record and $1,600 on the notice", "ARC-CO $2,400 and $3,000", "Base of wheat: 20.00 acres on the notice, and no base", "use the record's base"} {
		if !strings.Contains(message, words) {
			t.Errorf("%q is not in %q", words, message)
		}
	}
}
