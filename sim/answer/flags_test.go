package answer

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// codes returns the flags of the first farm in a crop year.
func codes(c Case, y crop.CropYear) []string {
	var all []string
	for _, f := range c.flags(c.Operation.Farms[0], y) {
		all = append(all, f.Code)
	}
	return all
}

// agencyBook is the county's yield as an agency table of the program year has it.
func agencyBook() farm.CountyBook {
	b := book(cornYield(farm.YieldOutlook{}))
	b[0].Agency, b[0].Status = true, crop.Agency
	return b
}

// TestFlags raises each flag by one change, and shows that without the change
// it is not raised.
func TestFlags(t *testing.T) {
	missed := farm.Missed
	for _, f := range []struct {
		code   string
		year   crop.CropYear
		quiet  func(c *Case) // makes the plain case quiet where it is not by itself
		raised func(c *Case)
	}{
		{"contract_missed", 2026, nil, func(c *Case) { c.Operation.Farms[0].Contract.Every = &missed }},
		{"two_counties", 2026, nil, func(c *Case) { c.Operation.Farms[0].Bases[0].County = "99003" }},
		{"irrigated_history_missing", 2026, nil, func(c *Case) {
			wet, dry := cornYield(farm.YieldOutlook{}), cornYield(farm.YieldOutlook{})
			wet.Practice, dry.Practice = farm.Irrigated, farm.Nonirrigated
			c.Counties = book(wet, dry)
		}},
		{"yield_missing", 2026, nil, func(c *Case) { c.Counties = nil }},
		{"payment_yield_missing", 2026, nil, func(c *Case) { c.Operation.Farms[0].Bases[0].PaymentYield = nil }},
		{"no_price_projection", 2026, nil, func(c *Case) { delete(c.Market.Outlook[crop.Corn], 2026) }},
		{"base_exceeds_cropland", 2026, func(c *Case) { c.Operation.Farms[0].Cropland = number(120) }, func(c *Case) { c.Operation.Farms[0].Bases[0].CRPReduction = 0.01 }},
		{"stax_with_cotton_base", 2026, func(c *Case) {
			c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, base(crop.SeedCotton, 50, 1500))
		}, func(c *Case) { c.Operation.Farms[0].STAXBought = map[crop.CropYear]bool{2026: true} }},
		{"market_stale", 2026, nil, func(c *Case) { c.Today = date("2026-12-26") }}, // 46 days after 10 November
		{"county_stale", 2026, func(c *Case) { c.Counties = agencyBook() }, func(c *Case) { c.Counties[0].Agency = false }},
		{"new_election_needed", 2027, func(c *Case) { project(c.Market, crop.Corn, 2027, 4.20, -1) }, nil},
		{"deadline_unknown", 2025, nil, nil},
		{"unverified_figure", 2025, func(c *Case) {
			c.Operation.Settings.Sequestration = map[crop.CropYear]float64{2025: 0.057}
		}, func(c *Case) { c.Operation.Settings.Sequestration = nil }},
	} {
		t.Run(f.code, func(t *testing.T) {
			c := designCase()
			if f.quiet != nil {
				f.quiet(&c)
			}
			if got := codes(c, f.year); slices.Contains(got, f.code) {
				t.Errorf("raised without cause in crop year %d: %v", f.year, got)
			}
			year := f.year
			if f.raised == nil {
				year = 2026 // the year's own rules raise it
			} else {
				f.raised(&c)
			}
			if got := codes(c, year); !slices.Contains(got, f.code) {
				t.Errorf("not raised in crop year %d: %v", year, got)
			}
		})
	}
}

// Every flag says what, what to do, and its source.
func TestFlagsHaveSources(t *testing.T) {
	c := designCase()
	c.Counties, c.Operation.Farms[0].Bases[0].PaymentYield = nil, nil
	for _, f := range c.flags(c.Operation.Farms[0], 2026) {
		if f.Source == "" || f.Message == "" || !slices.Contains([]Severity{Info, Warning, Error}, f.Severity) {
			t.Errorf("flag %+v lacks message, severity or source", f)
		}
	}
}

// A farm without a contract is paid nothing and has no leader.
func TestMissedContractPaysNothing(t *testing.T) {
	c := designCase()
	missed := farm.Missed
	c.Operation.Farms[0].Contract.Every = &missed
	f := compare(t, c).CropYears[0].Farms[0]
	p := f.Commodities[0]
	if p.Programs.PLC.Mean != 0 || p.Programs.ARCCO.Mean != 0 || *f.Elections[1].Mean != 0 || p.Leader != None {
		t.Errorf("PLC %v, ARC-CO %v, farm %v, leader %v; want 0, 0, 0, none", p.Programs.PLC.Mean, p.Programs.ARCCO.Mean, *f.Elections[1].Mean, p.Leader)
	}
}
