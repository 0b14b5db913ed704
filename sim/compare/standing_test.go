package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/cases"
)

// In 2026 every farm is on the list, also where the record has the highest average;
// in 2027 the record may stand. The signers are those with a share, the rest belongs
// to others.
func TestStanding(t *testing.T) {
	c := cases.Corn()
	plc, arc := farm.PLC, farm.ARCCO
	f := c.Operation.Farms[0]
	for _, k := range []struct {
		record  *farm.Program
		shares  farm.Shares
		differs bool
		others  float64
	}{{nil, farm.Shares{"operator": 1}, true, 0}, {&plc, farm.Shares{"operator": 0.6, "landowner": 0.25}, true, 0.15}, {&arc, farm.Shares{"operator": 1}, false, 0}} {
		c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "landowner", Kind: farm.Person}}
		f.Record = map[crop.Commodity]farm.Program{}
		if k.record != nil {
			f.Record[crop.Corn] = *k.record
		}
		f.Shares = farm.ByCropYear[farm.Shares]{Every: &k.shares}
		c.Operation.Farms = []farm.Farm{f}
		y := ask(t, c).CropYears[0]
		line := y.Standing.Lines[0]
		if !y.Standing.NewElection || y.Standing.Source == "" {
			t.Errorf("2026 asks for a new election: %+v", y.Standing)
		}
		if line.Highest != farm.ARCCO || line.Differs != k.differs || math.Abs(float64(line.Others)-k.others) > 1e-9 || len(line.Signers) != len(k.shares) {
			t.Errorf("record %v, shares %v: %+v", k.record, k.shares, line)
		}
		if want := math.Round(100*float64(*line.Margin)) / 100 * 120; math.Abs(float64(*line.MarginTotal)-want) > 1e-6 || *line.Margin != y.Farms[0].Commodities[0].Difference.Mean {
			t.Errorf("margin %v, in total %v, want %v", *line.Margin, *line.MarginTotal, want)
		}
	}
}

// One person with the whole share and no limit in reach is paid the farm's election
// less sequestration, in every percentile.
func TestPercentilesOfAPerson(t *testing.T) {
	c := cases.Corn()
	c.Operation.Settings.Sequestration = map[crop.CropYear]crop.Share{2026: 0.25}
	y := ask(t, c).CropYears[0]
	person := y.Operation.ByPerson[0]
	for _, e := range y.Farms[0].Elections {
		if e.Choice[crop.Corn] != y.Operation.HighestMean[y.Farms[0].Farm][crop.Corn] {
			continue
		}
		for i, want := range e.Percentiles {
			if got := person.Percentiles[i]; math.Abs(got-0.75*want) > 0.01 {
				t.Errorf("percentile %d: %v, want three quarters of %v", i, got, want)
			}
		}
	}
	if person.PaymentNotBefore != "2027-10-01" || person.TaxYear != 2027 {
		t.Errorf("not before %s, tax year %d; want 2027-10-01, 2027", person.PaymentNotBefore, person.TaxYear)
	}
}

// A limit holds in every scenario: the good case of a person is the whole limit, for
// sequestration comes before it.
func TestPercentilesEndAtTheLimit(t *testing.T) {
	c := cases.Corn()
	c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: 1000}
	c.Operation.Settings.Sequestration = map[crop.CropYear]crop.Share{2026: 0.1}
	person := ask(t, c).CropYears[0].Operation.ByPerson[0]
	if got := person.Percentiles[len(person.Percentiles)-1]; got != 1000 {
		t.Errorf("95th percentile %v, want 1000", got)
	}
}
