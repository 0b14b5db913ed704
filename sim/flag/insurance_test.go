package flag

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// insure puts layers on 100 acres of corn of a crop year.
func insure(c *answer.Question, y crop.CropYear, closes string, layers ...farm.Layer) {
	c.Operation.Farms[0].Insurance = []farm.Insurance{{CropYear: y, Commodity: crop.Corn, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 180, Acres: 100, Share: 1,
		Projected: 4.62, Harvest: invented.Number(4.25), ExpectedYield: 188, Closes: closes, Layers: layers}}
}

var sco = farm.Layer{Program: farm.SCO}

// Each flag of insurance is raised by its cause, and not by plain insurance.
func TestInsuranceFlags(t *testing.T) {
	plain := func() answer.Question {
		c := cases.Corn()
		insure(&c, 2026, "", sco)
		return c
	}
	for _, f := range []struct {
		code, says string
		year       crop.CropYear
		change     func(c *answer.Question)
	}{
		{"insurance_open", "corn (March 15, 2027)", 2027, func(c *answer.Question) { insure(c, 2027, "2027-03-15", sco) }},
		{"insurance_day_unknown", "corn. Ask your insurance agent", 2027, func(c *answer.Question) { insure(c, 2027, "", sco) }},
		{"layer_not_offered", "it can be 95 percent", 2027, func(c *answer.Question) { insure(c, 2027, "", farm.Layer{Program: farm.ECO, Trigger: 0.90}) }},
		{"sco_barred_with_arc", "does not go with ARC-CO", 2025, func(c *answer.Question) { insure(c, 2025, "", sco); cases.Record(c, farm.ARCCO) }},
		{"harvest_price_not_typed", "harvest price of corn", 2026, func(c *answer.Question) {
			c.Operation.Farms[0].Insurance[0].Harvest, c.Operation.Farms[0].Insurance[0].Volatility = nil, invented.Number(0.2)
		}},
		{"insured_not_planted", "100.00 acres of corn are insured, and 80.00", 2026, func(c *answer.Question) { cases.Plant(c, "corn", 80, 0) }},
		{"layers_not_together", "SCO with STAX", 2026, func(c *answer.Question) { stax(c, sco) }},
		{"stax_test_day", "March 15, 2026", 2026, func(c *answer.Question) { stax(c) }},
		{"stax_with_cotton_base", "STAX is bought for 2026", 2026, func(c *answer.Question) {
			stax(c)
			c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, invented.Base(crop.SeedCotton, 50, 1500))
		}},
	} {
		c := plain()
		if got := message(t, c, f.year, f.code); got != "" {
			t.Errorf("%s is raised without cause: %s", f.code, got)
		}
		f.change(&c)
		if got := message(t, c, f.year, f.code); !strings.Contains(got, f.says) {
			t.Errorf("%s of %d says %q, want %q", f.code, f.year, got, f.says)
		}
		shortSentences(t, c, f.year)
	}
	if got := message(t, plain(), 2026, "insurance_given"); !strings.Contains(got, "counted as it stands") {
		t.Errorf("insurance of 2026 in November 2026: %q", got)
	}
	if got := message(t, cases.Corn(), 2026, "insurance_given"); got != "" {
		t.Errorf("without insurance: %q", got)
	}
}

// stax insures cotton with STAX and some layers before it.
func stax(c *answer.Question, before ...farm.Layer) {
	insure(c, 2026, "", append(before, farm.Layer{Program: farm.STAX, Trigger: 0.90, Range: 0.15})...)
	i := &c.Operation.Farms[0].Insurance[0]
	i.Commodity, i.FinalYield = crop.SeedCotton, invented.Number(800)
}

func message(t *testing.T, c answer.Question, y crop.CropYear, code string) string {
	t.Helper()
	people, err := limits.NewRules(c.Operation, y)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
		if f.Code == code {
			return f.Message
		}
	}
	return ""
}

// SCO was barred with ARC to crop year 2025 and is allowed from 2026; PLC never barred it. STAX
// is barred with an enrolled base of seed cotton from 2019, whatever the program, and not
// where nothing is enrolled. SCO and ECO stand on the same acres.
func TestBarsByCropYear(t *testing.T) {
	f := farm.Farm{Insurance: []farm.Insurance{{CropYear: 2018, Commodity: crop.SeedCotton, Layers: []farm.Layer{{Program: farm.STAX}}}, {CropYear: 2026, Commodity: crop.SeedCotton, Layers: []farm.Layer{{Program: farm.STAX}}}}}
	for _, c := range []struct {
		program, layer farm.Program
		crop           crop.Commodity
		year           crop.CropYear
		barred         bool
	}{
		{farm.ARCCO, farm.SCO, crop.Corn, 2025, true}, {farm.ARCIC, farm.SCO, crop.Corn, 2024, true}, {farm.ARCCO, farm.SCO, crop.Corn, 2026, false}, {farm.PLC, farm.SCO, crop.Corn, 2024, false},
		{farm.ARCCO, farm.ECO, crop.Corn, 2024, false}, {farm.PLC, farm.STAX, crop.SeedCotton, 2026, true}, {farm.ARCCO, farm.STAX, crop.SeedCotton, 2026, true},
		{farm.PLC, farm.STAX, crop.SeedCotton, 2018, false}, {"", farm.STAX, crop.SeedCotton, 2026, false},
	} {
		if why := NotTogether(f, c.crop, c.year, c.program, c.layer); (why != "") != c.barred {
			t.Errorf("%s with %s of %s in %d: %q, want barred %v", c.program, c.layer, c.crop, c.year, why, c.barred)
		}
	}
	for _, c := range []struct {
		a, b  farm.Program
		year  crop.CropYear
		apart string
	}{{farm.SCO, farm.ECO, 2026, ""}, {farm.SCO, farm.STAX, 2026, "not allowed"}, {farm.STAX, farm.ECO, 2026, "not allowed"}, {farm.ECO, farm.STAX, 2027, "not known"}} {
		if why := LayersApart(c.a, c.b, c.year); (why == "") != (c.apart == "") || !strings.Contains(why, c.apart) {
			t.Errorf("%s and %s in %d: %q, want %q", c.a, c.b, c.year, why, c.apart)
		}
	}
}
