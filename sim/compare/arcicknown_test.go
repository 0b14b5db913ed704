package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// A county yield stated without variation is known, whatever the stage says; the farm's own
// typed yield is then known too, and compare pays what explain pays to the cent. By hand,
// with ownFarm's guarantee of 723.84 and maximum of 96.51 on 78 payment acres: 120 x 4.80
// = 576.00 is 147.84 short, the maximum is paid: 7,527.78. 140 x 4.80 = 672.00 is 51.84
// short: 4,043.52. With variation the second would average something else.
func TestOwnYieldIsKnownWhereTheCountysIs(t *testing.T) {
	for _, c := range []struct{ own, payment float64 }{{120, 7527.78}, {140, 4043.52}, {160, 0}} {
		asked := cases.OwnFarm("", 188, invented.Number(c.own))
		asked.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), SD: invented.Number(0)}))
		invented.Project(asked.Market, crop.Corn, 2026, 4.80, 0)
		f := ask(t, asked).CropYears[0].Farms[0]
		last := f.Elections[len(f.Elections)-1]
		if last.Choice[crop.Corn] != farm.ARCIC || math.Abs(float64(*last.Mean)-c.payment) > 0.005 {
			t.Errorf("own yield %v: %v averages %v, want ARC-IC and %v", c.own, last.Choice, *last.Mean, c.payment)
		}
		if v := f.ARCIC.Crops[0].Yield; v.SD != 0 || v.SDFrom != "known" {
			t.Errorf("own yield %v: spread %v from %q, want a known yield", c.own, v.SD, v.SDFrom)
		}
		e, err := explain.Explain(asked, asked.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: 4.80, Prices: map[crop.Commodity]float64{crop.Corn: 4.80}, CountyYield: explain.CountyYields{{}: 188}})
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(*e.Programs.Of(farm.ARCIC).Payment); math.Abs(got-c.payment) > 0.005 {
			t.Errorf("own yield %v: explain pays %v, want %v", c.own, got, c.payment)
		}
		if math.Abs(float64(*e.Programs.Of(farm.ARCIC).PaymentAfterLimit-*last.MeanAfterLimit)) > 0.005 {
			t.Errorf("own yield %v: after limit %v in explain, %v in compare", c.own, *e.Programs.Of(farm.ARCIC).PaymentAfterLimit, *last.MeanAfterLimit)
		}
	}
}
