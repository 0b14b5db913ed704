package compare_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// person finds one line of by_person.
func person(t *testing.T, c answer.Question, id string) answer.PersonPart {
	t.Helper()
	people := ask(t, c).CropYears[0].Operation.ByPerson
	i := slices.IndexFunc(people, func(p answer.PersonPart) bool { return p.ID == id })
	if i < 0 {
		t.Fatalf("no %s among %v", id, people)
	}
	return people[i]
}

// what PLC pays on 1,500 acres: 127.50 x 1,500 = 191,250.
const paysOn1500 = 191_250.00

func TestPeoplePaidByKindAndYear(t *testing.T) {
	const net = 1 - 0.057
	halves := []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}
	for name, one := range map[string]struct {
		year      crop.CropYear
		producers []farm.Producer
		id        string
		want      float64
	}{
		"a person is cut to the limit, after sequestration":     {2026, []farm.Producer{{ID: "firm", Kind: farm.Person}}, "firm", 155_000},
		"a corporation is cut as one, halves to its owners":     {2026, []farm.Producer{{ID: "firm", Kind: farm.Corporation, Members: halves}}, "ann", 77_500},
		"a pass-through entity of two is not cut from 2026":     {2026, []farm.Producer{{ID: "firm", Kind: farm.PassThrough, Members: halves}}, "ann", paysOn1500 / 2 * net},
		"a joint operation of two is not cut":                   {2026, []farm.Producer{{ID: "firm", Kind: farm.JointOperation, Members: halves}}, "ben", paysOn1500 / 2 * net},
		"income over the limit is paid nothing":                 {2026, []farm.Producer{{ID: "firm", Kind: farm.Person, IncomeOverLimit: true}}, "firm", 0},
		"limit used elsewhere leaves less":                      {2026, []farm.Producer{{ID: "firm", Kind: farm.Person, LimitUsed: map[crop.CropYear]farm.LimitUsed{2026: {General: 100_000}}}}, "firm", 55_000},
		"the limit used for peanuts leaves other crops as much": {2026, []farm.Producer{{ID: "firm", Kind: farm.Person, LimitUsed: map[crop.CropYear]farm.LimitUsed{2026: {Peanuts: 100_000}}}}, "firm", 155_000},
	} {
		c := cases.SharedOperation(1500, one.producers, farm.Shares{"firm": 1})
		c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
		if got := float64(person(t, c, one.id).MeanAfterLimit); math.Abs(got-one.want) > 0.01 {
			t.Errorf("%s: %s is paid %v, want %v", name, one.id, got, one.want)
		}
	}
}

// What is paid to all persons adds up to the operation's figure, before and
// after limits, whatever stands between payment and person.
func TestPeopleAddUp(t *testing.T) {
	c := cases.SharedOperation(2500, []farm.Producer{
		{ID: "firm", Kind: farm.PassThrough, Members: []farm.Member{{ID: "holding", Share: 0.5}, {ID: "ann", Share: 0.3}}},
		{ID: "holding", Kind: farm.Corporation, Members: []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}},
		{ID: "landlord", Kind: farm.Person},
	}, farm.Shares{"firm": 0.7, "landlord": 0.3})
	o := ask(t, c).CropYears[0].Operation
	before, after := 0.0, 0.0
	for _, p := range o.ByPerson {
		before, after = before+float64(p.Mean), after+float64(p.MeanAfterLimit)
	}
	if math.Abs(before-float64(*o.Mean)) > 0.01 || math.Abs(after-float64(*o.MeanAfterLimit)) > 0.01 {
		t.Errorf("persons add to %v and %v, the operation to %v and %v", before, after, *o.Mean, *o.MeanAfterLimit)
	}
}

// The limit is applied in each scenario: an average under the limit can still
// lose by it.
func TestLimitIsAppliedToEachOutcome(t *testing.T) {
	c := cases.SharedOperation(2000, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	invented.Project(c.Market, crop.Corn, 2026, 4.10, 0.25)
	p := person(t, c, "operator")
	if p.Mean > 155_000 {
		t.Fatalf("the average of %v should be under the limit", p.Mean)
	}
	if net := float64(p.Mean) * (1 - 0.057); float64(p.MeanAfterLimit) > net-1000 {
		t.Errorf("after limit %v, without any cut it would be %v", p.MeanAfterLimit, net)
	}
	if got := float64(p.Mean)*(1-0.057) - float64(p.MeanOverLimit); math.Abs(got-float64(p.MeanAfterLimit)) > 0.05 {
		t.Errorf("mean %v less sequestration, less %v kept back, is %v, not %v", p.Mean, p.MeanOverLimit, got, p.MeanAfterLimit)
	}
}

// The limit is flagged where it is reached, with the base that reaches it alone;
// where it is not, nothing is said.
func TestLimitReached(t *testing.T) {
	c := cases.SharedOperation(3000, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	flags := ask(t, c).CropYears[0].Farms[0].Flags
	i := slices.IndexFunc(flags, func(f answer.Flag) bool { return f.Code == "limit_reached" })
	if i < 0 || !strings.Contains(flags[i].Message, "in 100 of 100 outcomes") || !strings.Contains(flags[i].Message, "alone") || !strings.Contains(flags[i].Message, "at most $0 on average") {
		t.Errorf("flags %s: want limit_reached in 100 of 100, by the corn base alone, other choices changing $0", invented.AsJSON(t, flags))
	}
	small := cases.SharedOperation(100, c.Operation.Producers, farm.Shares{"operator": 1})
	if got := ask(t, small).CropYears[0].Farms[0].Flags; slices.ContainsFunc(got, func(f answer.Flag) bool { return f.Code == "limit_reached" }) {
		t.Errorf("a small farm raises limit_reached: %s", invented.AsJSON(t, got))
	}
}

// The ten-acre rule looks at all farms of a producer, in the file and outside.
func TestTenAcreRuleCountsAllFarms(t *testing.T) {
	twoFarms := func(first, second, outside float64, exempt farm.Exemption) float64 {
		c := cases.SharedOperation(first, []farm.Producer{{ID: "operator", Kind: farm.Person, OtherBaseAcres: outside, TenAcreExempt: exempt}}, farm.Shares{"operator": 1})
		other := invented.OneFarm("0588", invented.Base(crop.Corn, second, 150))
		c.Operation.Farms = append(c.Operation.Farms, other)
		return float64(person(t, c, "operator").MeanAfterLimit)
	}
	const perAcre = 127.50 * (1 - 0.057)
	for name, one := range map[string]struct {
		first, second, outside float64
		exempt                 farm.Exemption
		paid                   bool
	}{
		"10.00 in all":                    {4, 6, 0, farm.NotExempt, false},
		"10.01 in all":                    {4, 6.01, 0, farm.NotExempt, true},
		"more outside the file":           {4, 5, 1.01, farm.NotExempt, true},
		"10.00 with what is outside":      {4, 5, 1.00, farm.NotExempt, false},
		"10.00 of a beginning farmer":     {4, 6, 0, farm.Beginning, true},
		"10.00 of a limited resource one": {4, 6, 0, farm.LimitedResource, true},
	} {
		want := 0.0
		if one.paid {
			want = perAcre * (one.first + one.second)
		}
		if got := twoFarms(one.first, one.second, one.outside, one.exempt); math.Abs(got-want) > 0.02 {
			t.Errorf("%s: paid %v, want %v", name, got, want)
		}
	}
}

// The order of producers in the file changes no figure.
func TestOrderOfProducersChangesNoFigure(t *testing.T) {
	producers := []farm.Producer{
		{ID: "zed", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.6}, {ID: "ben", Share: 0.4}}},
		{ID: "ann", Kind: farm.Person}, {ID: "mid", Kind: farm.Person},
	}
	c := cases.SharedOperation(2500, producers, farm.Shares{"zed": 0.6, "ann": 0.1, "mid": 0.3})
	invented.Project(c.Market, crop.Corn, 2026, 4.10, 0.2)
	switched := c
	switched.Operation.Producers = []farm.Producer{producers[2], producers[0], producers[1]}
	a, b := ask(t, c).CropYears[0], ask(t, switched).CropYears[0]
	if invented.AsJSON(t, a.Farms) != invented.AsJSON(t, b.Farms) || *a.Operation.MeanAfterLimit != *b.Operation.MeanAfterLimit {
		t.Error("figures differ when the producers are listed in another order")
	}
	for _, p := range a.Operation.ByPerson {
		if !slices.Contains(b.Operation.ByPerson, p) {
			t.Errorf("%+v is not among %+v", p, b.Operation.ByPerson)
		}
	}
}
