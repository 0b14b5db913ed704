package compare_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"sync/atomic"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// manyOperations has invented counties and operations of three farms each.
func manyOperations(counties, operations int) (answer.Question, []farm.Operation) {
	c := cases.Corn()
	invented.Project(c.Market, crop.Soybeans, 2026, 10.40, -1)
	c.Draws, c.Brief = 1024, true
	source := farm.CountySource{Name: "invented", Status: crop.Assumed, Counties: map[string]farm.County{}}
	for k := range counties {
		corn, beans := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(150 + float64(k%50))}), invented.CornYield(farm.YieldOutlook{Yield: invented.Number(150)})
		beans.Commodity = crop.Soybeans
		beans.Adjusted = map[crop.CropYear][5]crop.Yield{2026: {50, 52, 54, 48, 51}}
		beans.BenchmarkYield, beans.Outlook = nil, map[crop.CropYear]farm.YieldOutlook{2026: {Yield: invented.Number(51), KnownFrom: "local_harvest"}}
		code := fmt.Sprintf("99%03d", 2*k+1)
		source.Counties[code] = farm.County{Code: code, Name: "Invented County", Yields: []farm.CountyYield{corn, beans}}
	}
	c.Counties = farm.CountyBook{source}
	var all []farm.Operation
	for o := range operations {
		var farms []farm.Farm
		for i := range 3 {
			f := invented.OneFarm(fmt.Sprint(3*o+i), invented.Base(crop.Corn, 40+float64((7*o+i)%150), 120+float64(o%60)), invented.Base(crop.Soybeans, 30+float64((5*o+i)%90), 35+float64(o%20)))
			f.County = fmt.Sprintf("99%03d", 2*((o+i)%counties)+1)
			farms = append(farms, f)
		}
		all = append(all, farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: farms})
	}
	return c, all
}

// Every operation gets the figures that it gets alone, in any order.
func TestManyAgreeWithOne(t *testing.T) {
	c, operations := manyOperations(4, 6)
	many := compare.NewMany(c)
	for i := range operations {
		o := operations[len(operations)-1-i]
		together, err := many.Compare(o)
		if err != nil {
			t.Fatal(err)
		}
		c.Operation = o
		alone := ask(t, c)
		a, _ := json.Marshal(together)
		b, _ := json.Marshal(alone)
		if string(a) != string(b) {
			t.Errorf("operation %d:\n%s\nalone\n%s", i, a, b)
		}
	}
}

// Brief leaves figures out and changes none.
func TestBriefChangesNoFigure(t *testing.T) {
	c, operations := manyOperations(2, 1)
	c.Operation = operations[0]
	brief := ask(t, c).CropYears[0]
	c.Brief = false
	full := ask(t, c).CropYears[0]
	for i, f := range full.Farms {
		for k, part := range f.Commodities {
			b := brief.Farms[i].Commodities[k]
			if *part.Difference != *b.Difference || part.Programs.Of(farm.PLC).Percentiles != b.Programs.Of(farm.PLC).Percentiles || part.Leader != b.Leader || len(b.Elsewhere) != 0 {
				t.Errorf("farm %s: %+v, brief %+v", f.Farm, *part.Difference, *b.Difference)
			}
		}
	}
	if *full.Operation.MeanAfterLimit != *brief.Operation.MeanAfterLimit {
		t.Error("the operation differs")
	}
}

func BenchmarkMany(b *testing.B) {
	c, operations := manyOperations(300, 1000)
	many := compare.NewMany(c)
	var next atomic.Int64
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			if _, err := many.Compare(operations[int(next.Add(1))%len(operations)]); err != nil {
				b.Error(err)
			}
		}
	})
	b.ReportMetric(3*float64(b.N)/b.Elapsed().Seconds(), "farms/s")
}

// The close margin of the question holds for operations without one of their own.
func TestManyKeepsTheCloseMargin(t *testing.T) {
	c, operations := manyOperations(1, 1)
	wide, none := 1e6, 0.0
	c.Operation.Settings.CloseMargin = &wide
	leaders := func(o farm.Operation) (all []answer.Leader) {
		found, err := compare.NewMany(c).Compare(o)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range found.CropYears[0].Farms {
			for _, part := range f.Commodities {
				all = append(all, part.Leader)
			}
		}
		return all
	}
	for _, l := range leaders(operations[0]) {
		if l == answer.LeadsPLC || l == answer.LeadsARCCO {
			t.Errorf("%s leads within a close margin of a million dollars", l)
		}
	}
	operations[0].Settings.CloseMargin = &none
	if all := leaders(operations[0]); !slices.Contains(all, answer.LeadsPLC) && !slices.Contains(all, answer.LeadsARCCO) {
		t.Errorf("nothing leads by a margin of the operation's own: %v", all)
	}
}
