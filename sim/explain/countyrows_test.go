package explain

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
	"fencerow/sim/odds"
)

// The odds of a row are those that compare gives a farm of that county, crop, practice and
// PLC yield at as many outcomes; what it pays at its figures is what compare has at its
// mean price and yield.
func TestCountyRowsAreTheEngines(t *testing.T) {
	q := cases.SixCrops()
	rows, err := CountyRowsOf(q, 2026)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range rows.Rows {
		f := countyFarm(row.County, row.Commodity, row.Practice.Practice, *row.PaymentYield)
		one := q
		one.Operation.Farms, one.CropYears, one.Draws = []farm.Farm{f}, q.CropYears[:1], rows.Outcomes
		c, err := compare.Answer(one)
		if err != nil {
			t.Fatal(err)
		}
		part := c.CropYears[0].Farms[0].Commodities[0]
		middle := part.Elsewhere[len(part.Elsewhere)/2]
		at := func(p *answer.ProgramPart, percent int) float64 {
			return program.Cent(p.Percentiles[slices.Index(odds.Percents[:], percent)])
		}
		plc, arc := part.Programs.Of(farm.PLC), part.Programs.Of(farm.ARCCO)
		for _, k := range []struct {
			what      string
			got, want float64
		}{
			{"PLC at its figures", row.Paid.PLC.AtFigures, program.Cent(float64(middle.PLC))}, {"ARC-CO at its figures", row.Paid.ARCCO.AtFigures, program.Cent(float64(middle.ARCCO))},
			{"PLC on average", row.Paid.PLC.Average, program.Cent(float64(plc.Mean))}, {"ARC-CO on average", row.Paid.ARCCO.Average, program.Cent(float64(arc.Mean))},
			{"PLC, low", row.Paid.PLC.Low, at(plc, 10)}, {"PLC, high", row.Paid.PLC.High, at(plc, 90)}, {"ARC-CO, low", row.Paid.ARCCO.Low, at(arc, 10)}, {"ARC-CO, high", row.Paid.ARCCO.High, at(arc, 90)},
			{"ARC-CO pays more", row.Paid.ARCCOMore, float64(*part.ChanceARCCOMore)}, {"PLC pays more", row.Paid.PLCMore, float64(*part.ChancePLCMore)}, {"neither pays", row.Paid.Neither, float64(*part.ChanceNeitherPays)},
		} {
			if math.Abs(k.got-k.want) > 1e-9 {
				t.Errorf("%s %s %s: %s is %v, compare has %v", row.County, row.Commodity, row.Practice.Practice, k.what, k.got, k.want)
			}
			checked++
		}
	}
	const figures = 11
	if checked != figures*len(rows.Rows) || len(rows.Rows) != 10 || rows.Outcomes != 1024 {
		t.Errorf("checked %d figures of %d rows at %d outcomes", checked, len(rows.Rows), rows.Outcomes)
	}
	fmt.Printf("checked %d of %d figures of county rows against compare\n", checked, figures*len(rows.Rows))
}

// A price that is known, and a yield that is, is the same in every outcome: no parts.
func TestKnownFiguresHaveNoParts(t *testing.T) {
	if parts := partsOf([]float64{4.55, 4.55}, 4.55); parts != nil {
		t.Errorf("parts of a known price: %v", parts)
	}
	if parts := partsOf(nil, 4.55); parts != nil {
		t.Errorf("parts of no series: %v", parts)
	}
	if parts := partsOf([]float64{4.55, 9.10}, 4.55); !slices.Equal(parts, []float64{1, 2}) {
		t.Errorf("parts are %v", parts)
	}
}
