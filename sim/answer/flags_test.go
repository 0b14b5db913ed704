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
	people, err := newPayer(c.Operation, y)
	if err != nil {
		panic(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
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
		{"yield_not_known", 2026, nil, func(c *Case) { c.Counties = book(cornYield(farm.YieldOutlook{})) }}, // after 2026-11-24
		{"yield_source_may_differ", 2026, func(c *Case) { c.Counties = publishedBook(2016, 2025) }, func(c *Case) { delete(c.Counties[0].Counties["99001"].Yields[0].Harvested, 2021) }},
		{"yield_missing", 2026, nil, func(c *Case) { c.Counties = nil }},
		{"payment_yield_missing", 2026, nil, func(c *Case) { c.Operation.Farms[0].Bases[0].PaymentYield = nil }},
		{"no_price_projection", 2026, nil, func(c *Case) { delete(c.Market.Outlook[crop.Corn], 2026) }},
		{"base_exceeds_cropland", 2026, func(c *Case) { c.Operation.Farms[0].Cropland = number(120) }, func(c *Case) { c.Operation.Farms[0].Bases[0].CRPReduction = 0.01 }},
		{"stax_with_cotton_base", 2026, func(c *Case) {
			c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, base(crop.SeedCotton, 50, 1500))
		}, func(c *Case) { c.Operation.Farms[0].STAXBought = map[crop.CropYear]bool{2026: true} }},
		{"base_idle_2009_2017", 2026, nil, func(c *Case) { c.Operation.Farms[0].Idle20092017 = true }},
		{"unassigned_base", 2026, nil, func(c *Case) { c.Operation.Farms[0].Unassigned = 5 }},
		{"crp_reduction", 2026, nil, func(c *Case) { c.Operation.Farms[0].Bases[0].CRPReduction = 5 }},
		{"ten_acres", 2026, func(c *Case) { c.Operation.Farms[0].Bases[0].BaseAcres = 10.01 }, func(c *Case) { c.Operation.Farms[0].Bases[0].BaseAcres = 10.00 }},
		{"planted_without_base", 2026, func(c *Case) { plant(c, "corn", 100, 0) }, func(c *Case) { plant(c, "soybeans", 100, 0) }},
		{"no_planting_arc_ic", 2026, func(c *Case) { record(c, farm.ARCIC); plant(c, "corn", 100, 0) }, func(c *Case) { c.Operation.Farms[0].Planted = nil }},
		{"fruit_vegetables", 2026, func(c *Case) { plant(c, "corn", 100, 0) }, func(c *Case) { plant(c, "fruit_vegetables", 1, 0) }},
		{"prevented_planting", 2026, func(c *Case) { plant(c, "corn", 100, 0) }, func(c *Case) { plant(c, "corn", 0, 20) }},
		{"income_over_limit", 2026, nil, func(c *Case) { c.Operation.Producers[0].IncomeOverLimit = true }},
		{"entity_rule_by_year", 2026, func(c *Case) { ownedByTwo(c, farm.JointOperation) }, func(c *Case) { ownedByTwo(c, farm.PassThrough) }},
		{"sco_by_year", 2026, func(c *Case) { record(c, farm.PLC) }, func(c *Case) { record(c, farm.ARCCO) }},
		{"flex_lease", 2026, func(c *Case) { c.Operation.Farms[0].Lease = farm.CashLease }, func(c *Case) { c.Operation.Farms[0].Lease = farm.FlexLease }},
		{"operator_changed", 2026, func(c *Case) { sharesByYear(c, "operator", "operator") }, func(c *Case) { sharesByYear(c, "operator", "newcomer") }},
		{"merge_needs_same_election", 2026, func(c *Case) { mergeTwo(c, farm.PLC, farm.PLC) }, func(c *Case) { mergeTwo(c, farm.PLC, farm.ARCCO) }},
		{"market_stale", 2026, nil, func(c *Case) { c.Today = date("2026-12-26") }}, // 46 days after 10 November
		{"county_stale", 2026, func(c *Case) { c.Counties = agencyBook() }, func(c *Case) { c.Counties[0].Agency = false }},
		{"new_election_needed", 2027, func(c *Case) { project(c.Market, crop.Corn, 2027, 4.20, -1) }, nil},
		{"deadline_unknown", 2025, nil, nil},
		{"unverified_figure", 2025, func(c *Case) {
			c.Operation.Settings.PaymentLimit = map[crop.CropYear]float64{2025: 155_000}
		}, func(c *Case) { c.Operation.Settings.PaymentLimit = nil }},
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

// plant adds a planting of crop year 2026 to the first farm.
func plant(c *Case, commodity string, acres, prevented float64) {
	f := &c.Operation.Farms[0]
	f.Planted = append(f.Planted, farm.Planting{CropYear: 2026, Commodity: commodity, Practice: farm.AllPractices, Acres: acres, Prevented: prevented})
}

// record sets the election on record of the first farm's corn.
func record(c *Case, p farm.Program) {
	c.Operation.Farms[0].Record = map[crop.Commodity]farm.Program{crop.Corn: p}
}

func sharesByYear(c *Case, first, second string) {
	c.Operation.Farms[0].Shares = farm.ByCropYear[farm.Shares]{Year: map[crop.CropYear]farm.Shares{2026: {first: 1}, 2027: {second: 1}}}
}

func mergeTwo(c *Case, first, second farm.Program) {
	other := oneFarm("0002", base(crop.Corn, 50, 100))
	c.Operation.Farms = append(c.Operation.Farms[:1], other)
	c.Operation.Farms[0].MergeWith = "0002"
	record(c, first)
	c.Operation.Farms[1].Record = map[crop.Commodity]farm.Program{crop.Corn: second}
}

// Every flag says what, what to do, and its source.
func TestFlagsHaveSources(t *testing.T) {
	c := designCase()
	c.Counties, c.Operation.Farms[0].Bases[0].PaymentYield = nil, nil
	people, err := newPayer(c.Operation, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
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
	if p.Programs.Of(farm.PLC).Mean != 0 || p.Programs.Of(farm.ARCCO).Mean != 0 || *f.Elections[1].Mean != 0 || p.Leader != None {
		t.Errorf("PLC %v, ARC-CO %v, farm %v, leader %v; want 0, 0, 0, none", p.Programs.Of(farm.PLC).Mean, p.Programs.Of(farm.ARCCO).Mean, *f.Elections[1].Mean, p.Leader)
	}
}

// ownedByTwo makes the first producer an entity of two persons.
func ownedByTwo(c *Case, kind farm.ProducerKind) {
	c.Operation.Producers[0].Kind = kind
	c.Operation.Producers[0].Members = []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}
}
