package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// plantedCorn is a farm with 100 acres of corn base that plants 90 acres, with
// variation of the price and of the county yield: sd of the log price, and as a share of
// the mean yield.
func plantedCorn(sd float64) answer.Question {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, 4.20, sd)
	m.Correlation = map[crop.Commodity]map[string]float64{crop.Corn: {farm.CountyYieldCorrelation: 0}} // so that averages multiply
	yieldSD := sd * 188
	c := cases.Question(m, invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), SD: &yieldSD, Shape: "normal"})), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))
	c.Operation.Farms[0].Planted = []farm.Planting{{CropYear: 2026, Commodity: "corn", Acres: 90}}
	c.Criteria, c.Draws = answer.Criteria(), 16384
	return c
}

func criteriaOf(t *testing.T, c answer.Question) (*answer.CriteriaPart, []answer.Election) {
	t.Helper()
	f := ask(t, c).CropYears[0].Farms[0]
	if f.Criteria == nil {
		t.Fatal("no criteria")
	}
	return f.Criteria, f.Elections
}

// Without aversion the sure amount is the average payment; PLC pays when corn is
// cheap, so that it is worth more the more one shuns risk; the income is 90 acres
// x 188 bushels x USD 4.20 = 71,064.
func TestSureAmounts(t *testing.T) {
	c := plantedCorn(0.10)
	part, elections := criteriaOf(t, c)
	if math.Abs(float64(part.Income.Mean)-71064) > 0.002*71064 {
		t.Errorf("income %v, want 71,064", part.Income.Mean)
	}
	for i, k := range part.Choices {
		if math.Abs(float64(*k.SureAmount[0]-*elections[i].Mean)) > 0.005 || math.Abs(float64(*k.SureSteady[0]-*elections[i].Mean)) > 0.005 {
			t.Errorf("%v: sure amount without aversion %v, average %v", k.Choice, *k.SureAmount[0], *elections[i].Mean)
		}
		for a := 1; a < len(answer.Aversions); a++ {
			if *k.SureAmount[a] <= *k.SureAmount[a-1] || *k.SureSteady[a] <= *k.SureSteady[a-1] {
				t.Errorf("%v at aversion %g: %v after %v", k.Choice, answer.Aversions[a], *k.SureAmount[a], *k.SureAmount[a-1])
			}
		}
		if *k.Correlation >= 0 || k.Worst[0] >= k.Worst[1] {
			t.Errorf("%v: correlation %v, worst %v", k.Choice, *k.Correlation, *k.Worst)
		}
	}
}

// Where nothing varies, a payment of 4.42 - 4.20 = 0.22 x 150 x 85 acres = 2,805
// is worth itself, ARC-CO pays 0.90 x 942.12 - 188 x 4.20 = 58.31 x 85 = 4,956.35
// and leaves no reason to take PLC, which costs the difference where it is elected.
func TestCriteriaWithoutVariation(t *testing.T) {
	part, _ := criteriaOf(t, plantedCorn(0))
	plc, arc := part.Choices[0], part.Choices[1]
	if own := part.YieldFrom[0]; !strings.Contains(own, "the county's") {
		t.Errorf("yield from %q", own)
	}
	if math.Abs(float64(*plc.WrongElection)-2151.35) > 0.01 || *arc.WrongElection != 0 {
		t.Errorf("cost of the wrong pick: PLC %v, ARC-CO %v", *plc.WrongElection, *arc.WrongElection)
	}
	if len(*plc.FirstOrder) != 1 || len(*arc.FirstOrder) != 0 || len(*plc.SecondOrder) != 1 {
		t.Errorf("dominated: %v, %v", *plc.FirstOrder, *arc.FirstOrder)
	}
}

func TestCriteriaAskForPlantedAcres(t *testing.T) {
	c := plantedCorn(0.10)
	c.Operation.Farms[0].Planted = nil
	part, _ := criteriaOf(t, c)
	if !strings.Contains(part.Missing, "planted") || len(part.Choices) != 0 {
		t.Errorf("%+v", part)
	}
	c.Criteria = nil
	if ask(t, c).CropYears[0].Farms[0].Criteria != nil {
		t.Error("criteria that nobody asked for")
	}
}
