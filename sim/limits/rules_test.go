package limits

import (
	"maps"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// Rules are those of the law, or the figures stated for the crop year; a crop year without rows, or an entity without the
// members that the rule needs, is refused by name.
func TestRulesOfACropYear(t *testing.T) {
	ann := farm.Producer{ID: "ann", Kind: farm.Person}
	stated := farm.Settings{PaymentLimit: map[crop.CropYear]float64{2013: 1, 2026: 50_000}, Sequestration: map[crop.CropYear]float64{2013: 0, 2026: 0.05}}
	rules, err := NewRules(farm.Operation{Producers: []farm.Producer{ann}, Settings: stated}, 2026)
	if err != nil || rules.Limit.Value != 50_000 || rules.Limit.Status != crop.Assumed || rules.Sequestration.Value != 0.05 || len(rules.Rows) != 0 {
		t.Errorf("stated: %+v, %+v, %d rows, %v", rules.Limit, rules.Sequestration, len(rules.Rows), err)
	}
	// Of 2024 the limit of the law is 125,000 and 5.7 percent are withheld (docs/law): both rows are shown.
	rules, err = NewRules(farm.Operation{Producers: []farm.Producer{ann}, Settings: stated}, 2024)
	if err != nil || rules.Limit.Value != 125_000 || rules.Sequestration.Value != 0.057 || len(rules.Rows) != 2 {
		t.Errorf("by the law: %+v, %+v, %d rows, %v", rules.Limit, rules.Sequestration, len(rules.Rows), err)
	}
	llc := farm.Producer{ID: "llc", Kind: farm.PassThrough}
	for _, c := range []struct {
		why      string
		settings farm.Settings
		people   []farm.Producer
		y        crop.CropYear
		want     string
	}{
		{"no limit before the 2014 Act", farm.Settings{}, nil, 2013, "program/law: payment_limit, , crop year 2013: no value before crop year 2014"},
		{"no sequestration either", farm.Settings{PaymentLimit: stated.PaymentLimit}, nil, 2013, "program/law: sequestration, , crop year 2013: no value before crop year 2014"},
		{"no order of both", stated, nil, 2013, "program/law: order_of_reductions, , crop year 2013: no value before crop year 2014"},
		{"a pass-through entity of 2026 needs members (P.L. 119-21, sec. 10306)", farm.Settings{}, []farm.Producer{ann, llc}, 2026, llc.CheckMembers(2026).Reason},
	} {
		_, err := NewRules(farm.Operation{Producers: c.people, Settings: c.settings}, c.y)
		if mistakes, are := err.(farm.Mistakes); are && len(mistakes) == 1 && mistakes[0].Reason == c.want && mistakes[0].Value == "llc" {
			continue
		}
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %q", c.why, err, c.want)
		}
	}
	if _, err := NewRules(farm.Operation{Producers: []farm.Producer{ann, llc}}, 2024); err != nil {
		t.Errorf("the same entity in 2024: %v", err)
	}
}

// Peanuts have a limit of their own (7 U.S.C. 1308(c)), all else the general one. Payments of a farm reach who shares in it, and the
// owners of those: not the rest of the operation.
func TestWhoIsReachedFromAFarm(t *testing.T) {
	f := invented.OneFarm("1", invented.Base(crop.Peanuts, 40, 3000))
	f.Shares.Every = &farm.Shares{"inc": 1}
	o := farm.Operation{Farms: []farm.Farm{f}, Producers: []farm.Producer{{ID: "inc", Kind: farm.Corporation, Members: []farm.Member{{ID: "owner", Share: 1}}}, {ID: "other", Kind: farm.Person}}}
	rules, err := NewRules(o, 2026)
	if err != nil {
		t.Fatal(err)
	}
	if got := rules.ReachedFrom(f); !maps.Equal(got, map[string]bool{"inc": true, "owner": true}) {
		t.Errorf("reached: %v", got)
	}
	for _, c := range crop.Commodities() {
		want := program.GeneralPool
		if c == crop.Peanuts {
			want = program.PeanutPool
		}
		if got := rules.Pool(c); got != want {
			t.Errorf("%s counts against limit %d", c, got)
		}
	}
	// Two limits of 155,000: 100,000 of corn and 100,000 of peanuts are cut by neither.
	corn, peanuts := Election{"f", crop.Corn, farm.PLC}, Election{"f", crop.Peanuts, farm.PLC}
	m := surely(155_000, 0, map[Election]float64{corn: 100_000, peanuts: 100_000})
	if got := m.ByRecipient([]Election{corn, peanuts}); got.Total != 200_000 || got.limitExceeded {
		t.Errorf("of both %v is paid", got.Total)
	}
}

// Insurance counts against no limit, so that it is not among the payments; who is barred by ten acres has no share. Payments
// of other farms are merged with them, and copies are the same.
func TestWhatPaymentsTakeIn(t *testing.T) {
	f := invented.OneFarm("1", invented.Base(crop.Corn, 10, 150))
	base := &position.CommodityBase{Farm: f, Commodity: crop.Corn, Bases: []position.Base{{Shares: farm.Shares{"operator": 1}}}}
	for acres, share := range map[float64]float64{0: 0, 5: 1} { // on other farms; ten acres in all are too few
		o := farm.Operation{Farms: []farm.Farm{f}, Producers: []farm.Producer{{ID: "operator", Kind: farm.Person, OtherBaseAcres: acres}}}
		rules, err := NewRules(o, 2026)
		if err != nil {
			t.Fatal(err)
		}
		if got := rules.ShareIn(0, base, base.Bases[0]); got != share {
			t.Errorf("with %v acres elsewhere the share is %v, by hand %v", acres, got, share)
		}
	}
	m := surely(155_000, 0, map[Election]float64{{"f", crop.Corn, farm.PLC}: 1})
	m.Add(base, payoff.Payoffs{{Program: farm.SCO, Apart: true}})
	if len(m.Totals) != 1 {
		t.Errorf("payments are of %v", m.Totals)
	}
	other := surely(155_000, 0, map[Election]float64{{"g", crop.Corn, farm.PLC}: 2})
	m.Merge(other)
	if copied := m; !copied.Same(m) || m.Same(other) || m.MeanAfterLimit([]Election{{"f", crop.Corn, farm.PLC}, {"g", crop.Corn, farm.PLC}}) != 3 {
		t.Error("merged payments of 1 and 2 do not make 3, or are taken for others")
	}
}
