package compare_test

import (
	"math"
	"slices"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// operationOf is that of the first crop year.
func operationOf(t *testing.T, c answer.Question) answer.OperationPart {
	t.Helper()
	return ask(t, c).CropYears[0].Operation
}

// twoFarms is Corn on two farms with two people: 60 and 40 percent of the first, the
// second all the operator's. The first has PLC on record, the second ARC-CO.
func twoFarms() answer.Question {
	c := cases.Corn()
	c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "landowner", Kind: farm.Person}}
	cases.Record(&c, farm.PLC)
	c.Operation.Farms[0].Shares = farm.ByCropYear[farm.Shares]{Every: &farm.Shares{"operator": 0.6, "landowner": 0.4}}
	other := invented.OneFarm("0588", invented.Base(crop.Corn, 80, 170))
	other.Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCCO}
	c.Operation.Farms = append(c.Operation.Farms, other)
	return c
}

// Under PLC the landowner of 120 base acres at 150 bushels is paid, in each scenario,
// 40 percent of (4.42 - price) x 150 x 0.85 x 120 where the price is below the reference
// price of 4.42, less sequestration, to the cent. Worked out here from the drawn prices.
func TestLastElectedIsPaidScenarioByScenario(t *testing.T) {
	c := twoFarms()
	c.Operation.Settings.Sequestration = map[crop.CropYear]crop.Share{2026: 0.25}
	y, err := compare.NewYearRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	price, _ := y.Year.Price(crop.Corn, 2026, 2)
	var paid []float64
	for _, p := range y.Year.Prices(crop.Corn, price) {
		farmPaid := program.Cent(max(0, 4.42-p) * 150 * 0.85 * 120)
		paid = append(paid, invented.HalfUp(0.75*0.4*farmPaid, 2))
	}
	mean := 0.0
	for _, x := range paid {
		mean += x / float64(len(paid))
	}
	slices.Sort(paid)
	under := operationOf(t, c).UnderElections(answer.LastElected)
	owner := under.ByPerson[1]
	if owner.ID != "landowner" || math.Abs(float64(owner.MeanAfterLimit)-mean) > 0.01 {
		t.Errorf("%s averages %v, want %v", owner.ID, owner.MeanAfterLimit, mean)
	}
	for i, percent := range []int{5, 10, 25, 50, 75, 90, 95} {
		at := float64(len(paid)-1) * float64(percent) / 100
		below := paid[int(at)]
		want := below + (at-math.Floor(at))*(paid[min(int(at)+1, len(paid)-1)]-below)
		if math.Abs(owner.Percentiles[i]-want) > 0.02 {
			t.Errorf("%d in 100 are below %v, want %v", percent, owner.Percentiles[i], want)
		}
	}
	if want := (answer.Choice{crop.Corn: farm.ARCCO}); under.Choices["99001-0588"][crop.Corn] != want[crop.Corn] {
		t.Errorf("choices %v", under.Choices)
	}
}

// What people are paid adds up to the operation under both sets, and so do what they
// earn, what sequestration takes and what limits keep.
func TestPeopleAddUpUnderElections(t *testing.T) {
	for _, under := range operationOf(t, twoFarms()).Under {
		var before, after, kept answer.Dollars
		for _, p := range under.ByPerson {
			before, after, kept = before+p.Mean, after+p.MeanAfterLimit, kept+p.WithheldSequestration+p.WithheldLimit
		}
		if math.Abs(float64(before-*under.Mean)) > 0.01 || math.Abs(float64(after-*under.MeanAfterLimit)) > 0.01 || math.Abs(float64(before-after-kept)) > 0.01 {
			t.Errorf("%s: people earn %v, are paid %v, %v is kept; the operation %v and %v", under.Elections, before, after, kept, *under.Mean, *under.MeanAfterLimit)
		}
	}
}

// Where no limit is reached each line alone decides: the programs that lead are the choice
// with the highest average, to the cent.
func TestLeadsAreTheHighestMeanWithoutLimits(t *testing.T) {
	o := operationOf(t, twoFarms())
	leads := o.UnderElections(answer.AsItLeans)
	if invented.AsJSON(t, leads.Choices) != invented.AsJSON(t, o.HighestMean) || *leads.MeanAfterLimit != *o.MeanAfterLimit || *leads.Percentiles != *o.Percentiles || !slices.Equal(leads.ByPerson, o.ByPerson) {
		t.Errorf("leads %s\nhighest %s", invented.AsJSON(t, leads), invented.AsJSON(t, o))
	}
	if last := o.UnderElections(answer.LastElected); *last.MeanAfterLimit >= *leads.MeanAfterLimit {
		t.Errorf("as last elected %v, as it leans %v", *last.MeanAfterLimit, *leads.MeanAfterLimit)
	}
}

// One person with the whole share and no limit in reach is paid the farm's election less
// sequestration in every percentile, and so is everybody together.
func TestPercentilesOfTheSum(t *testing.T) {
	c := cases.Corn()
	cases.Record(&c, farm.PLC)
	c.Operation.Settings.Sequestration = map[crop.CropYear]crop.Share{2026: 0.25}
	y := ask(t, c).CropYears[0]
	for _, e := range y.Farms[0].Elections {
		under := y.Operation.UnderElections(answer.AsItLeans)
		if e.Choice[crop.Corn] == farm.PLC {
			under = y.Operation.UnderElections(answer.LastElected)
		}
		for i, want := range e.Percentiles {
			if got := under.Percentiles[i]; math.Abs(got-0.75*want) > 0.01 || got != under.ByPerson[0].Percentiles[i] {
				t.Errorf("%v, percentile %d: %v (the person %v), want three quarters of %v", e.Choice, i, got, under.ByPerson[0].Percentiles[i], want)
			}
		}
	}
}

// 191,250 earned, 5.7 percent of it 10,901.25; of the 180,348.75 that are left the limit
// pays 155,000 and keeps 25,348.75. Who is barred for income is paid nothing of it.
func TestWithheldInTwoParts(t *testing.T) {
	for _, one := range []struct {
		barred     bool
		byLimit    float64
		paid, rule string
	}{{false, 25_348.75, "155000.00", "limit"}, {true, 180_348.75, "0.00", "income"}} {
		c := cases.SharedOperation(1500, []farm.Producer{{ID: "operator", Kind: farm.Person, IncomeOverLimit: one.barred}}, farm.Shares{"operator": 1})
		cases.Record(&c, farm.PLC)
		p := operationOf(t, c).UnderElections(answer.LastElected).ByPerson[0]
		if o := operationOf(t, c); o.Sequestration != 0.057 || o.SequestrationStatus != crop.Agency {
			t.Errorf("sequestration %v (%s), want 0.057 of the agency", o.Sequestration, o.SequestrationStatus)
		}
		if math.Abs(float64(p.WithheldSequestration)-10_901.25) > 0.005 || math.Abs(float64(p.WithheldLimit)-one.byLimit) > 0.005 || invented.AsJSON(t, p.MeanAfterLimit) != one.paid {
			t.Errorf("%s: sequestration %v, limit %v, paid %v", one.rule, p.WithheldSequestration, p.WithheldLimit, p.MeanAfterLimit)
		}
	}
}

// In 2025 the law pays the higher of both whatever was elected.
func TestUnderTheHigherOfBoth(t *testing.T) {
	for _, record := range []farm.Program{"", farm.PLC, farm.ARCIC} {
		c := cases.HigherOf2025()
		if record != "" {
			cases.Record(&c, record)
		}
		o := operationOf(t, c)
		for _, under := range o.Under {
			if under.Choices["99001-0417"][crop.Corn] != farm.HigherOf || *under.MeanAfterLimit != *o.MeanAfterLimit || len(under.LeftOut) > 0 {
				t.Errorf("record %q: %s", record, invented.AsJSON(t, under))
			}
		}
	}
}

// Nothing on record, and a crop without a benchmark, are left out; the rest is not zero
// but missing.
func TestLeftOutUnderElections(t *testing.T) {
	c := cases.Corn()
	last := operationOf(t, c).UnderElections(answer.LastElected)
	if last.Mean != nil || last.MeanAfterLimit != nil || last.Percentiles != nil || len(last.ByPerson) > 0 || !slices.Equal(last.LeftOut, []string{"99001-0417 corn"}) {
		t.Errorf("nothing on record: %s", invented.AsJSON(t, last))
	}
	cases.Record(&c, farm.PLC)
	c.Counties = nil
	o := operationOf(t, c)
	if last := o.UnderElections(answer.LastElected); last.Mean == nil || len(last.LeftOut) > 0 {
		t.Errorf("PLC needs no county yield: %s", invented.AsJSON(t, last))
	}
	if leads := o.UnderElections(answer.AsItLeans); leads.Mean != nil || len(leads.LeftOut) != 1 {
		t.Errorf("no lead without ARC-CO: %s", invented.AsJSON(t, leads))
	}
	c.Brief = true
	if o := operationOf(t, c); len(o.Under) > 0 || o.Percentiles != nil {
		t.Errorf("a batch has %s", invented.AsJSON(t, o))
	}
}

// Where both average the same the program on record stays, else PLC.
func TestEvenAveragesKeepTheRecord(t *testing.T) {
	for record, want := range map[farm.Program]farm.Program{farm.ARCCO: farm.ARCCO, farm.PLC: farm.PLC, "": farm.PLC} {
		c := cases.Corn()
		invented.Project(c.Market, crop.Corn, 2026, 9, 0) // far above where either pays
		c.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: "final"}))
		if record != "" {
			cases.Record(&c, record)
		}
		if got := operationOf(t, c).UnderElections(answer.AsItLeans).Choices["99001-0417"][crop.Corn]; got != want {
			t.Errorf("record %q: %s, want %s", record, got, want)
		}
	}
}

// ARC-IC on record is inside the last elections, and never in the leads.
func TestARCICIsInsideWhereItIsOnRecord(t *testing.T) {
	c := cases.OwnFarm("local_harvest", 188, invented.Number(120))
	cases.Record(&c, farm.ARCIC)
	o := operationOf(t, c)
	last, leads := o.UnderElections(answer.LastElected), o.UnderElections(answer.AsItLeans)
	if !last.ARCICInside || last.Choices["99001-0417"][crop.Corn] != farm.ARCIC || leads.ARCICInside || leads.Choices["99001-0417"][crop.Corn] == farm.ARCIC {
		t.Errorf("last %s\nleads %s", invented.AsJSON(t, last), invented.AsJSON(t, leads))
	}
	c.LeaveOutARCIC = true
	if last := operationOf(t, c).UnderElections(answer.LastElected); last.ARCICInside || last.Mean != nil || len(last.LeftOut) == 0 {
		t.Errorf("to be left out: %s", invented.AsJSON(t, last))
	}
}

// Fifty cases rise. The average of the middles of fifty equal steps of a rising line is
// within a hundredth of its height of the line's own, and one in fifty pays nothing for
// each two in a hundred outcomes, but for the one at the edge.
func TestFiftyCases(t *testing.T) {
	part := only(t, cases.Corn())
	for _, one := range part.Programs {
		cases, sum, zeros := one.Figures.OfFifty, 0.0, 0
		if len(cases) != 50 || !slices.IsSorted(cases) || cases[0] < 0 || cases[49] > one.Figures.Maximum {
			t.Fatalf("%s: %v", one.Program, cases)
		}
		for _, x := range cases {
			sum += float64(x)
			if x == 0 {
				zeros++
			}
		}
		if off := sum/50 - float64(one.Figures.Mean); math.Abs(off) > float64(one.Figures.Maximum)/100 {
			t.Errorf("%s: fifty cases average %v, all outcomes %v", one.Program, sum/50, one.Figures.Mean)
		}
		if want := 50 * (1 - float64(one.Figures.ChanceOfPayment)); math.Abs(float64(zeros)-want) > 1 {
			t.Errorf("%s: %d of fifty pay nothing, want about %v", one.Program, zeros, want)
		}
	}
	brief := cases.Corn()
	brief.Brief = true
	if got := only(t, brief).Programs.Of(farm.PLC).OfFifty; got != nil {
		t.Errorf("a batch has %v", got)
	}
}

// A normal of mean 180 and standard deviation 18 has 8 of 10 between 180 - 1.28155 x 18 =
// 156.93 and 203.07; a known yield has no such range. What is drawn of other shapes lies
// there too.
func TestYieldTenths(t *testing.T) {
	c := cases.Corn()
	outlook := farm.YieldOutlook{Yield: invented.Number(180), SD: invented.Number(18), Shape: "normal", KnownFrom: "local_harvest"}
	view := func() *answer.YieldView {
		c.Counties = invented.Book(invented.CornYield(outlook))
		return only(t, c).Bases[0].CountyYield
	}
	if v := view(); v.Low == nil || math.Abs(float64(*v.Low)-156.93) > 0.01 || math.Abs(float64(*v.High)-203.07) > 0.01 {
		t.Errorf("normal: %s", invented.AsJSON(t, v))
	}
	outlook.Shape = "weibull"
	v := view()
	y, err := compare.NewYearRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	bases, err := y.Year.CommodityBases(c.Operation.Farms[0], 2026)
	if err != nil {
		t.Fatal(err)
	}
	below, above := 0, 0
	yields := y.Year.Yields(2, bases[0].Bases[0].Practices[0])
	for _, x := range yields {
		if x < float64(*v.Low) {
			below++
		}
		if x > float64(*v.High) {
			above++
		}
	}
	if n := float64(len(yields)); math.Abs(float64(below)/n-0.1) > 0.005 || math.Abs(float64(above)/n-0.1) > 0.005 {
		t.Errorf("weibull: %d below %v and %d above %v of %d", below, *v.Low, above, *v.High, len(yields))
	}
	outlook = farm.YieldOutlook{Yield: invented.Number(180), KnownFrom: "final"}
	if v := view(); v.Low != nil || v.High != nil {
		t.Errorf("known: %s", invented.AsJSON(t, v))
	}
	outlook.KnownFrom, c.Brief = "local_harvest", true
	if v := view(); v.Low != nil {
		t.Errorf("a batch has %s", invented.AsJSON(t, v))
	}
}
