package flag

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// Codes returns the flags of the first farm in a crop year.
func codes(c answer.Question, y crop.CropYear) []string {
	var all []string
	people, err := limits.NewRules(c.Operation, y)
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
	b := invented.Book(invented.CornYield(farm.YieldOutlook{}))
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
		quiet  func(c *answer.Question) // makes the plain case quiet where it is not by itself
		raised func(c *answer.Question)
	}{
		{"contract_missed", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Contract.Every = &missed }},
		{"two_counties", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].County = "99003" }},
		{"irrigated_history_missing", 2026, nil, func(c *answer.Question) {
			wet, dry := invented.CornYield(farm.YieldOutlook{}), invented.CornYield(farm.YieldOutlook{})
			wet.Practice, dry.Practice = farm.Irrigated, farm.Nonirrigated
			c.Counties = invented.Book(wet, dry)
		}},
		{"yield_not_known", 2026, nil, func(c *answer.Question) { c.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{})) }}, // after 2026-11-24
		{"yield_source_may_differ", 2026, func(c *answer.Question) { c.Counties = invented.PublishedBook(2016, 2025) }, func(c *answer.Question) { delete(c.Counties[0].Counties["99001"].Yields[0].Harvested, 2021) }},
		{"yield_missing", 2026, nil, func(c *answer.Question) { c.Counties = nil }},
		{"payment_yield_missing", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].PaymentYield = nil }},
		{"no_price_projection", 2026, nil, func(c *answer.Question) { delete(c.Market.Outlook[crop.Corn], 2026) }},
		{"base_exceeds_cropland", 2026, func(c *answer.Question) { c.Operation.Farms[0].Cropland = invented.Number(120) }, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].CRPReduction = 0.01 }},
		{"stax_with_cotton_base", 2026, func(c *answer.Question) {
			c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, invented.Base(crop.SeedCotton, 50, 1500))
		}, func(c *answer.Question) { c.Operation.Farms[0].STAXBought = map[crop.CropYear]bool{2026: true} }},
		{"base_idle_2009_2017", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Idle20092017 = true }},
		{"unassigned_base", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Unassigned = 5 }},
		{"crp_reduction", 2026, nil, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].CRPReduction = 5 }},
		{"ten_acres", 2026, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].BaseAcres = 10.01 }, func(c *answer.Question) { c.Operation.Farms[0].Bases[0].BaseAcres = 10.00 }},
		{"planted_without_base", 2026, func(c *answer.Question) { cases.Plant(c, "corn", 100, 0) }, func(c *answer.Question) { cases.Plant(c, "soybeans", 100, 0) }},
		{"no_planting_arc_ic", 2026, func(c *answer.Question) { cases.Record(c, farm.ARCIC); cases.Plant(c, "corn", 100, 0) }, func(c *answer.Question) { c.Operation.Farms[0].Planted = nil }},
		{"fruit_vegetables", 2026, func(c *answer.Question) { cases.Plant(c, "corn", 100, 0) }, func(c *answer.Question) { cases.Plant(c, "fruit_vegetables", 1, 0) }},
		{"prevented_planting", 2026, func(c *answer.Question) { cases.Plant(c, "corn", 100, 0) }, func(c *answer.Question) { cases.Plant(c, "corn", 0, 20) }},
		{"income_over_limit", 2026, nil, func(c *answer.Question) { c.Operation.Producers[0].IncomeOverLimit = true }},
		{"entity_rule_by_year", 2026, func(c *answer.Question) { ownedByTwo(c, farm.JointOperation) }, func(c *answer.Question) { ownedByTwo(c, farm.PassThrough) }},
		{"sco_by_year", 2026, func(c *answer.Question) { cases.Record(c, farm.PLC) }, func(c *answer.Question) { cases.Record(c, farm.ARCCO) }},
		{"flex_lease", 2026, func(c *answer.Question) { c.Operation.Farms[0].Lease = farm.CashLease }, func(c *answer.Question) { c.Operation.Farms[0].Lease = farm.FlexLease }},
		{"operator_changed", 2026, func(c *answer.Question) { sharesByYear(c, "operator", "operator") }, func(c *answer.Question) { sharesByYear(c, "operator", "newcomer") }},
		{"merge_needs_same_election", 2026, func(c *answer.Question) { mergeTwo(c, farm.PLC, farm.PLC) }, func(c *answer.Question) { mergeTwo(c, farm.PLC, farm.ARCCO) }},
		{"market_stale", 2026, nil, func(c *answer.Question) { c.Today = invented.Date("2026-12-26") }}, // 46 days after 10 November
		{"county_stale", 2026, func(c *answer.Question) { c.Counties = agencyBook() }, func(c *answer.Question) { c.Counties[0].Agency = false }},
		{"new_election_needed", 2027, func(c *answer.Question) { invented.Project(c.Market, crop.Corn, 2027, 4.20, -1) }, nil},
		{"deadline_unknown", 2025, nil, nil},
		{"unverified_figure", 2025, func(c *answer.Question) {
			c.Operation.Settings.PaymentLimit = map[crop.CropYear]float64{2025: 155_000}
		}, func(c *answer.Question) { c.Operation.Settings.PaymentLimit = nil }},
	} {
		t.Run(f.code, func(t *testing.T) {
			c := cases.Corn()
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
			shortSentences(t, c, year)
		})
	}
}

// shortSentences holds the messages of all flags to 25 words a sentence; a file to copy at
// the end is none.
func shortSentences(t *testing.T, c answer.Question, year crop.CropYear) {
	t.Helper()
	people, err := limits.NewRules(c.Operation, year)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
		message, _, _ := strings.Cut(f.Message, "{")
		for _, sentence := range strings.Split(message, ". ") {
			if n := len(strings.Fields(sentence)); n > 25 {
				t.Errorf("%s: %d words: %s", f.Code, n, sentence)
			}
		}
	}
}

func sharesByYear(c *answer.Question, first, second string) {
	c.Operation.Farms[0].Shares = farm.ByCropYear[farm.Shares]{Year: map[crop.CropYear]farm.Shares{2026: {first: 1}, 2027: {second: 1}}}
}

func mergeTwo(c *answer.Question, first, second farm.Program) {
	other := invented.OneFarm("0002", invented.Base(crop.Corn, 50, 100))
	c.Operation.Farms = append(c.Operation.Farms[:1], other)
	c.Operation.Farms[0].MergeWith = "0002"
	cases.Record(c, first)
	c.Operation.Farms[1].Record = map[crop.Commodity]farm.Program{crop.Corn: second}
}

// Every flag says what, what to do, and its source.
func TestFlagsHaveSources(t *testing.T) {
	c := cases.Corn()
	c.Counties, c.Operation.Farms[0].Bases[0].PaymentYield = nil, nil
	people, err := limits.NewRules(c.Operation, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range Raise(c, c.Operation.Farms[0], people) {
		if f.Source == "" || f.Message == "" || !slices.Contains([]answer.Severity{answer.Info, answer.Warning, answer.Error}, f.Severity) {
			t.Errorf("flag %+v lacks message, severity or source", f)
		}
	}
}

// ownedByTwo makes the first producer an entity of two persons.
func ownedByTwo(c *answer.Question, kind farm.ProducerKind) {
	c.Operation.Producers[0].Kind = kind
	c.Operation.Producers[0].Members = []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}
}
