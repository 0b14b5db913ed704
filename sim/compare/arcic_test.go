package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

func arcIC(t *testing.T, c answer.Question) *answer.ARCICPart {
	t.Helper()
	return ask(t, c).CropYears[0].Farms[0].ARCIC
}

// With price and own yield known, compare pays what explain pays: guarantee
// 0.90 x 804.27 = 723.84; 120 x 4.80 = 576.00; 147.84 is above the maximum
// 0.12 x 804.27 = 96.51; 120 acres x 0.65 = 78 acres: 7,527.78.
func TestARCICWithoutVariationEqualsExplain(t *testing.T) {
	c := cases.OwnFarm("local_harvest", 188, invented.Number(120))
	invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
	f := ask(t, c).CropYears[0].Farms[0]
	const want = 7527.78
	last := f.Elections[len(f.Elections)-1]
	if last.Choice[crop.Corn] != farm.ARCIC || math.Abs(float64(*last.Mean)-want) > 0.005 {
		t.Errorf("elections end with %v averaging %v, want ARC-IC and %v", last.Choice, *last.Mean, want)
	}
	e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: 4.80, Prices: map[crop.Commodity]float64{crop.Corn: 4.80}, CountyYield: explain.CountyYields{{}: 188}})
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(*e.Programs.Of(farm.ARCIC).Payment); math.Abs(got-want) > 0.005 {
		t.Errorf("explain pays %v, want %v", got, want)
	}
	if math.Abs(float64(*e.Programs.Of(farm.ARCIC).PaymentAfterLimit-*last.MeanAfterLimit)) > 0.005 {
		t.Errorf("after limit %v in explain, %v in compare", *e.Programs.Of(farm.ARCIC).PaymentAfterLimit, *last.MeanAfterLimit)
	}
}

// ARC-IC is worth a look at an own loss of 20 percent against the own benchmark
// of 160 while the county is within 10 percent of its 187.30, or where the whole
// farm was prevented.
func TestWhereARCICCanMatter(t *testing.T) {
	prevented := cases.OwnFarm("local_harvest", 188, nil)
	prevented.Operation.Farms[0].Planted[0].Acres, prevented.Operation.Farms[0].Planted[0].Prevented = 0, 100
	for name, one := range map[string]struct {
		c    answer.Question
		want bool
		says string
	}{
		"own loss of 20 percent": {cases.OwnFarm("local_harvest", 188, invented.Number(128)), true, "20 percent below"},
		"own loss of 19 percent": {cases.OwnFarm("local_harvest", 188, invented.Number(129.7)), false, "19 percent below"},
		"county lost too":        {cases.OwnFarm("local_harvest", 150, invented.Number(120)), false, "ARC-CO sees that loss"},
		"wholly prevented":       {prevented, true, "prevented"},
	} {
		got := arcIC(t, one.c)
		if got.CanMatter != one.want || !strings.Contains(got.Reason, one.says) {
			t.Errorf("%s: can matter %v because %q, want %v and %q", name, got.CanMatter, got.Reason, one.want, one.says)
		}
	}
	if got := arcIC(t, prevented); !got.AllPrevented || got.PerBaseAcre.ChanceOfMaximum != 1 {
		t.Errorf("a wholly prevented farm is paid the most in %v of outcomes, want all", got.PerBaseAcre.ChanceOfMaximum)
	}
	if got := arcIC(t, cases.Corn()); got != nil {
		t.Errorf("a farm without plantings has %+v, want nothing", got)
	}
	without := cases.OwnFarm("local_harvest", 188, invented.Number(128))
	delete(without.Operation.Farms[0].History[crop.Corn], 2022)
	if got := arcIC(t, without); got.PerBaseAcre != nil || !strings.Contains(got.Missing, "2022") {
		t.Errorf("with 2022 missing there is %v, missing %q", got.PerBaseAcre, got.Missing)
	}
}

// Two farms with ARC-IC on record and one producer are pooled: a loss on one and
// none on the other average out. Benchmark 804.27, guarantee 723.84; revenues
// 120 x 4.80 = 576.00 and 180 x 4.80 = 864.00, on equal acres 720.00: the rate is
// 3.84 on both, 3.84 x 78 = 299.52 each.
func TestFarmsInARCICArePooled(t *testing.T) {
	c := cases.OwnFarm("local_harvest", 188, invented.Number(120))
	invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
	c.Operation.Farms = append(c.Operation.Farms, invented.OwnFarm("0588", invented.Number(180)))
	for i := range c.Operation.Farms {
		c.Operation.Farms[i].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCIC}
	}
	for _, f := range ask(t, c).CropYears[0].Farms {
		last := f.Elections[len(f.Elections)-1]
		if math.Abs(float64(*last.Mean)-299.52) > 0.005 || len(f.ARCIC.PooledWith) != 1 {
			t.Errorf("farm %s averages %v pooled with %v, want 299.52 and the other", f.Farm, *last.Mean, f.ARCIC.PooledWith)
		}
	}
	// In another State, or with another producer, it stands alone.
	for name, change := range map[string]func(f *farm.Farm){
		"another State": func(f *farm.Farm) { f.County = "98001" },
		"another producer": func(f *farm.Farm) {
			other := farm.Shares{"neighbor": 1}
			f.Shares.Every = &other
		},
	} {
		alone := c
		alone.Operation.Farms = []farm.Farm{c.Operation.Farms[0], c.Operation.Farms[1]}
		change(&alone.Operation.Farms[1])
		last := ask(t, alone).CropYears[0].Farms[0].Elections
		if got := float64(*last[len(last)-1].Mean); math.Abs(got-7527.78) > 0.005 {
			t.Errorf("%s: the first farm averages %v, want 7,527.78", name, got)
		}
	}
}

// ARC-IC that can matter and averages more is the operation's choice where it is asked
// for or on record, and reaches no choice, total or person before. An own yield of 110
// is 31 percent below the own benchmark: 78 acres at the most, 96.51, are 7,527.78, and
// 94.3 percent of that is 7,098.70.
func TestARCICEntersChoicesOnlyOnRecordOrAskedFor(t *testing.T) {
	for name, one := range map[string]struct {
		asked bool
		on    farm.Program
		want  bool
	}{
		"neither":           {false, farm.PLC, false},
		"asked for":         {true, farm.PLC, true},
		"on record":         {false, farm.ARCIC, true},
		"both":              {true, farm.ARCIC, true},
		"nothing on record": {false, "", false},
	} {
		c := cases.OwnFarm("local_harvest", 195, invented.Number(110))
		invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
		c.WithARCIC = one.asked
		if one.on != "" {
			c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: one.on}
		}
		year := ask(t, c).CropYears[0]
		got := year.Operation.HighestMean["99001-0417"][crop.Corn] == farm.ARCIC
		if got != one.want || (year.Standing.Lines[0].Highest == farm.ARCIC) != one.want {
			t.Errorf("%s: ARC-IC is the choice: %v, want %v; %s", name, got, one.want, invented.AsJSON(t, year.Farms[0].Elections))
		}
		const paid = 7098.70
		person := float64(year.Operation.ByPerson[0].MeanAfterLimit)
		if (math.Abs(person-paid) < 0.005) != one.want || math.Abs(float64(*year.Operation.MeanAfterLimit)-person) > 0.005 {
			t.Errorf("%s: the operator is paid %v, the operation %v; under ARC-IC %v", name, person, *year.Operation.MeanAfterLimit, paid)
		}
		if !year.Farms[0].ARCIC.CanMatter {
			t.Errorf("%s: no word that ARC-IC can matter", name)
		}
	}
}

// On record it is compared also where it would not be worth a look: an own yield of
// 135 is 16 percent below the own benchmark, 723.84 - 135 x 4.80 = 75.84 on 78 acres.
func TestARCICOnRecordIsCompared(t *testing.T) {
	c := cases.OwnFarm("local_harvest", 195, invented.Number(135))
	invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
	c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCIC}
	year := ask(t, c).CropYears[0]
	if got := year.Operation.HighestMean["99001-0417"][crop.Corn]; got != farm.ARCIC || year.Standing.Lines[0].Differs || year.Farms[0].ARCIC.CanMatter {
		t.Errorf("the choice is %v, differs %v, can matter %v; want ARC-IC, as on record", got, year.Standing.Lines[0].Differs, year.Farms[0].ARCIC.CanMatter)
	}
}

// For 2025 ARC-IC is not in the higher-of rule.
func TestNoARCICIn2025(t *testing.T) {
	c := cases.HigherOf2025()
	c.Operation.Farms[0].Planted = []farm.Planting{{CropYear: 2025, Commodity: "corn", Acres: 100, Yield: invented.Number(100)}}
	f := ask(t, c).CropYears[0].Farms[0]
	if f.ARCIC == nil || f.ARCIC.Missing == "" || len(f.Elections) != 1 {
		t.Errorf("2025 has ARC-IC %+v and %d elections", f.ARCIC, len(f.Elections))
	}
}
