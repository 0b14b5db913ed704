package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// farmsAtLimit are farms of 120 acres of corn with PLC on record, at a price of 4.30 and
// a county yield of 160 that are known, without sequestration, so that each pays
//
//	PLC     (4.42 - 4.30) x 150 x 102 acres                       =  1,836.00
//	ARC-CO  0.12 x 187.30 x 5.03 = 113.05, the most, x 102 acres  = 11,531.10
func farmsAtLimit(limit crop.Money, numbers ...string) answer.Question {
	yield := 160.0
	c := cases.Question(invented.Market("2026-11-10"), invented.Book(invented.CornYield(farm.YieldOutlook{Yield: &yield, KnownFrom: "final"})))
	invented.Project(c.Market, crop.Corn, 2026, 4.30, 0)
	for _, n := range numbers {
		f := invented.OneFarm(n, invented.Base(crop.Corn, 120, 150))
		f.Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
		c.Operation.Farms = append(c.Operation.Farms, f)
	}
	c.Operation.Settings.Sequestration = map[crop.CropYear]float64{2026: 0}
	c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: limit}
	c.Draws = 256
	return c
}

// A margin is shown after limit where a limit is reached, and a gain counts what is
// left of it, never a loss:
//
//	limit 15,000: both in ARC-CO 15,000.00; one in PLC 11,531.10 + 1,836.00 = 13,367.10; 1,632.90 apart
//	limit 10,000: 10,000.00 either way
//	no limit reached: 11,531.10 - 1,836.00 = 9,695.10
func TestMarginAndGainAfterLimit(t *testing.T) {
	for name, one := range map[string]struct {
		limit, want crop.Money
		reached     bool
	}{
		"a part is left": {15_000, 1632.90, true}, "nothing is left": {10_000, 0, true}, "no limit is reached": {155_000, 9695.10, false},
	} {
		y := ask(t, farmsAtLimit(one.limit, "0001", "0002")).CropYears[0]
		for i, l := range y.Standing.Lines {
			if l.Gain == nil || math.Abs(float64(*l.Gain)-one.want) > 0.005 || l.Highest != farm.ARCCO {
				t.Errorf("%s: farm %d gains %v in %s, want %v in ARC-CO", name, i+1, invented.AsJSON(t, l.Gain), l.Highest, one.want)
			}
			if (l.AfterLimit != nil) != one.reached {
				t.Fatalf("%s: after limit %s", name, invented.AsJSON(t, l.AfterLimit))
			}
			if a := l.AfterLimit; a != nil && (math.Abs(float64(a.Total)-one.want) > 0.005 || math.Abs(float64(a.Mean)-one.want/120) > 0.005 || a.ChanceOfLimit != 1) {
				t.Errorf("%s: farm %d has %s after limit, want %v", name, i+1, invented.AsJSON(t, a), one.want)
			}
			if y.Farms[i].Commodities[0].AfterLimit != l.AfterLimit {
				t.Errorf("%s: the commodity says another margin than the list", name)
			}
		}
	}
}

// Nothing on record, or ARC-IC without figures: nothing to compare with. What is on
// record already gains 0.00.
func TestGainOfRecord(t *testing.T) {
	c := farmsAtLimit(155_000, "0001", "0002", "0003")
	c.Operation.Farms[0].Record = nil
	c.Operation.Farms[1].Record[crop.Corn] = farm.ARCIC
	c.Operation.Farms[2].Record[crop.Corn] = farm.ARCCO
	lines := ask(t, c).CropYears[0].Standing.Lines
	if lines[0].Gain != nil || lines[1].Gain != nil || lines[2].Gain == nil || *lines[2].Gain != 0 {
		t.Errorf("gains %s", invented.AsJSON(t, lines))
	}
}

// With ARC-IC among the choices, or on record, the whole farm is compared: it pays
// 7,527.78 before sequestration and the others nothing (TestARCICWithoutVariationEqualsExplain);
// 94.3 percent is 7,098.70. A farm that has it on record gains nothing more by it.
func TestGainAgainstARCIC(t *testing.T) {
	for name, one := range map[string]struct {
		record farm.Program
		own    float64
		want   crop.Money
	}{
		"ARC-IC is chosen and PLC on record": {farm.PLC, 110, 7098.70}, "ARC-IC is chosen and on record": {farm.ARCIC, 110, 0},
	} {
		c := cases.OwnFarm("local_harvest", 195, invented.Number(one.own))
		invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
		c.Operation.Farms[0].Record, c.WithARCIC = map[crop.Commodity]farm.Program{crop.Corn: one.record}, true
		if l := ask(t, c).CropYears[0].Standing.Lines[0]; l.Gain == nil || math.Abs(float64(*l.Gain)-one.want) > 0.005 {
			t.Errorf("%s: the gain is %s, want %v", name, invented.AsJSON(t, l.Gain), one.want)
		}
	}
	// On record it pays nothing at a full own yield, and ARC-CO at a county yield of 160
	// and a price of 4.30 pays 11,531.10; 94.3 percent of it is 10,873.83.
	c := cases.OwnFarm("final", 160, invented.Number(190))
	invented.Project(c.Market, crop.Corn, 2026, 4.30, 0)
	c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCIC}
	if l := ask(t, c).CropYears[0].Standing.Lines[0]; l.Gain == nil || math.Abs(float64(*l.Gain)-10873.83) > 0.005 || l.Highest != farm.ARCCO {
		t.Errorf("the gain over ARC-IC is %s with %s, want 10,873.83 with ARC-CO", invented.AsJSON(t, l.Gain), l.Highest)
	}
}

// A person of two operations has one limit: each pays 11,531.10 by itself, 15,000.00 is
// left of 23,062.20, half of it for each; and what a farm gains is what one limit leaves,
// as if both were one operation.
func TestPersonInSeveralOperations(t *testing.T) {
	both := farmsAtLimit(15_000, "0001", "0002")
	many := compare.NewMany(both)
	totals := limits.AcrossOperations{}
	var operations []farm.Operation
	for i := range both.Operation.Farms {
		o := both.Operation
		o.Farms = both.Operation.Farms[i : i+1]
		operations = append(operations, o)
		c, earned, err := many.CompareEarned(o, func(person string) bool { return person == "operator" })
		if err != nil {
			t.Fatal(err)
		}
		series := earned[2026]["operator"]
		if totals.Earned[0] == nil {
			totals.Earned[0] = make([]crop.Money, len(series[0]))
		}
		for d, money := range series[0] {
			totals.Earned[0][d] += money
		}
		totals.Operations++
		totals.PaidSeparately += crop.Money(c.CropYears[0].Operation.ByPerson[0].MeanAfterLimit)
		if series[1] != nil || len(c.CropYears[0].Operation.ByPerson) != 1 || c.CropYears[0].Operation.ByPerson[0].Across != nil {
			t.Errorf("alone: %s", invented.AsJSON(t, c.CropYears[0].Operation))
		}
	}
	for _, o := range operations {
		c, err := many.CompareAcross(o, func(y crop.CropYear, person string) (limits.AcrossOperations, bool) {
			return totals, y == 2026 && person == "operator"
		})
		if err != nil {
			t.Fatal(err)
		}
		y := c.CropYears[0]
		p := y.Operation.ByPerson[0]
		for what, got := range map[string][2]float64{
			"alone": {float64(p.MeanAfterLimit), 11531.10}, "each alone": {float64(p.Across.Alone), 23062.20}, "with one limit": {float64(p.Across.MeanAfterLimit), 15000},
			"part": {float64(p.Across.Part), 7500}, "chance of the limit": {float64(p.Across.ChanceOfLimit), 1}, "operations": {float64(p.Across.Operations), 2},
			"operation alone": {float64(*y.Operation.MeanAfterLimit), 11531.10}, "operation with one limit": {float64(*y.Operation.MeanAcross), 7500},
			"gain": {float64(*y.Standing.Lines[0].Gain), 1632.90}, "margin": {float64(y.Standing.Lines[0].AfterLimit.Total), 1632.90},
		} {
			if math.Abs(got[0]-got[1]) > 0.005 {
				t.Errorf("%s: %v, want %v", what, got[0], got[1])
			}
		}
		found := false
		for _, flag := range y.Farms[0].Flags {
			if flag.Code == answer.SeveralOperationsFlag {
				found = flag.Severity == answer.Warning && strings.Contains(flag.Message, "2 operations") && strings.Contains(flag.Message, "$23,062") && strings.Contains(flag.Message, "$15,000")
			}
		}
		if !found {
			t.Errorf("no flag: %s", invented.AsJSON(t, y.Farms[0].Flags))
		}
	}
	joined := ask(t, both).CropYears[0]
	if got := float64(joined.Operation.ByPerson[0].MeanAfterLimit); got != 15_000 || math.Abs(float64(*joined.Standing.Lines[0].Gain)-1632.90) > 0.005 {
		t.Errorf("as one operation %v and %s", got, invented.AsJSON(t, joined.Standing.Lines[0].Gain))
	}
	for _, flag := range joined.Farms[0].Flags {
		if flag.Code == answer.SeveralOperationsFlag {
			t.Error("one operation is flagged as several")
		}
	}
}
