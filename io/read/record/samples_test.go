package record

import (
	"fmt"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// The prints of testdata are invented; the figures were chosen, and their sums and means
// worked out, before they were written (the mean of corn on three tracts:
// (110.20 x 131 + 1020.40 x 140 + 44.00 x 127) / 1174.60 = 138.67).
var samples = []struct {
	name                      string
	layout                    Layout
	farm, state, county, year string
	prepared                  string
	crops                     []string
	total, cropland           string
	lists                     []string
	tracts                    map[string][]string // rows by tract
	owners                    int
	bases                     []string
	unassigned                float64
	idle                      bool
	warnings, asked           []string
}{
	{
		name: "one-tract", layout: Newer, farm: "6101", state: "NEBRASKA", county: "HEATHER RIDGE", year: "2026", prepared: "2025-09-05",
		crops: []string{"Corn 91.40 0.00 141 60", "Soybeans 33.25 0.00 44 35"}, total: "124.65", cropland: "130.10",
		lists:  []string{"ARC-CO corn", "PLC soybeans"},
		tracts: map[string][]string{"8101": {"Corn 91.40 0.00 141 -", "Soybeans 33.25 0.00 44 -"}}, owners: 1,
		bases: []string{"corn 91.4 @141 tract 8101 irrigated 0.6", "soybeans 33.25 @44 tract 8101 irrigated 0.35"},
	},
	{
		name: "one-cell-a-line", layout: Newer, farm: "6101", state: "NEBRASKA", county: "HEATHER RIDGE", year: "2026", prepared: "2025-09-05",
		crops: []string{"Corn 91.40 0.00 141 60", "Soybeans 33.25 0.00 44 35"}, total: "124.65", cropland: "130.10",
		lists:  []string{"ARC-CO corn", "PLC soybeans"},
		tracts: map[string][]string{"8101": {"Corn 91.40 0.00 141 -", "Soybeans 33.25 0.00 44 -"}}, owners: 1,
		bases: []string{"corn 91.4 @141 tract 8101 irrigated 0.6", "soybeans 33.25 @44 tract 8101 irrigated 0.35"},
	},
	{
		name: "three-tracts", layout: Newer, farm: "6102", state: "MISSOURI", county: "HEATHER RIDGE", year: "2026", prepared: "2025-10-14",
		crops: []string{"Wheat 55.10 4.00 55 0", "Corn 1,174.60 6.50 139 8", "Grain Sorghum 7.50 0.00 70 -", "Soybeans 123.50 0.00 40 8"}, total: "1,360.70", cropland: "1,395.00",
		lists: []string{"ARC-CO soybeans", "PLC wheat", "PLC corn", "PLC grain_sorghum"},
		tracts: map[string][]string{
			"8201": {"Wheat 25.10 4.00 52 -", "Corn 110.20 6.50 131 -", "Soybeans 70.30 0.00 40 -"},
			"8202": {"Corn 1,020.40 0.00 140 -", "Soybeans 12.00 0.00 38 -"},
			"8203": {"Wheat 30.00 0.00 58 -", "Corn 44.00 0.00 127 -", "Grain Sorghum 7.50 0.00 70 -", "Soybeans 41.20 0.00 41 -"},
		}, owners: 4,
		bases: []string{
			"wheat 25.1 @52 tract 8201 irrigated 0 reduction 4", "wheat 30 @58 tract 8203 county 99013 irrigated 0",
			"corn 110.2 @131 tract 8201 irrigated 0.08 reduction 6.5", "corn 1020.4 @140 tract 8202 irrigated 0.08", "corn 44 @127 tract 8203 county 99013 irrigated 0.08",
			"grain_sorghum 7.5 @70 tract 8203 county 99013",
			"soybeans 70.3 @40 tract 8201 irrigated 0.08", "soybeans 12 @38 tract 8202 irrigated 0.08", "soybeans 41.2 @41 tract 8203 county 99013 irrigated 0.08",
		},
		warnings: []string{"base lies in 2 counties: 1238 acres in HEATHER RIDGE, 122.7 acres in COPPER FORD"},
	},
	{
		name: "unassigned", layout: Newer, farm: "6103", state: "TEXAS", county: "LARKSPUR", year: "2021", prepared: "2021-04-02",
		crops: []string{"Peanuts 41.00 0.00 3,310 0", "Seed Cotton 70.00 0.00 1,914 0", "Unassigned Generic Base 12.50 0.00 0 -"}, total: "123.50", cropland: "140.00",
		lists: []string{"PLC peanuts", "PLC seed_cotton"},
		tracts: map[string][]string{
			"8301": {"Peanuts 41.00 0.00 3,310 -", "Seed Cotton 50.00 0.00 1,900 -"},
			"8302": {"Seed Cotton 20.00 0.00 1,950 -", "Unassigned Generic Base 12.50 0.00 0 -"},
		}, owners: 2,
		bases:      []string{"peanuts 41 @3310 tract 8301 irrigated 0", "seed_cotton 50 @1900 tract 8301 irrigated 0", "seed_cotton 20 @1950 tract 8302 irrigated 0"},
		unassigned: 12.5, idle: true,
		warnings: []string{`the print has "Ineligible" for G/I/F eligibility: base stays, but nothing is paid on it for 2019 to 2031`},
	},
	{
		name: "older", layout: Older, farm: "6104", state: "South Dakota", county: "Willow Bench", year: "2017", prepared: "2017-05-09",
		crops: []string{"OATS 22.5 0.0 50 -", "WHEAT 140.1 0.0 37 -", "SUNFLOWER SEED 18.4 0.0 1,105 -"}, total: "181.0", cropland: "188.0",
		lists:  []string{"ARC-CO sunflower_seed", "PLC wheat", "PLC oats"},
		tracts: map[string][]string{"8401": {"OATS 22.5 0.0 50 -", "WHEAT 140.1 0.0 37 -", "SUNFLOWER SEED 18.4 0.0 1,105 -"}}, owners: 1,
		bases: []string{"oats 22.5 @50 tract 8401", "wheat 140.1 @37 tract 8401", "sunflower_seed 18.4 @1105 tract 8401"},
		asked: []string{"the county of tract 8401 is not on the print, so that of the office is taken. Give another if it lies there"},
	},
}

// TestSamples: every figure of five invented prints is read, and makes the farm.
func TestSamples(t *testing.T) {
	for _, s := range samples {
		t.Run(s.name, func(t *testing.T) {
			records := parsed(t, sample(t, s.name))
			if len(records) != 1 {
				t.Fatalf("%d records, want 1", len(records))
			}
			r := records[0]
			got := []string{string(r.Layout), r.Farm.Text, r.State.Text, r.County.Text, r.CropYear.Text, r.PreparedOn.Format(time.DateOnly), r.Total.Base.Text, r.Landed("cropland").Text}
			same(t, "head", got, []string{string(s.layout), s.farm, s.state, s.county, s.year, s.prepared, s.total, s.cropland})
			same(t, "farm's table", table(r.Crops), s.crops)
			same(t, "elections", lists(r), s.lists)
			owners := 0
			for _, p := range r.Parts {
				same(t, "tract "+p.Number.Text, table(p.Crops), s.tracts[p.Number.Text])
				owners += len(p.Owners)
			}
			if len(r.Parts) != len(s.tracts) || owners != s.owners {
				t.Errorf("%d tracts with %d owners, want %d with %d", len(r.Parts), owners, len(s.tracts), s.owners)
			}
			made, asked := r.madeFarm(findInvented)
			same(t, "bases", bases(made), s.bases)
			same(t, "warnings", messages(r.Warnings), s.warnings)
			same(t, "asked", messages(asked), s.asked)
			if made.Unassigned != s.unassigned || made.Idle20092017 != s.idle || made.County != invented[fold(s.county)] {
				t.Errorf("unassigned %v, idle %v, county %s", made.Unassigned, made.Idle20092017, made.County)
			}
		})
	}
	fmt.Printf("%d prints of testdata read\n", len(samples))
}

// TestPlaces: every figure has its page and line. Lines were counted in the file.
func TestPlaces(t *testing.T) {
	r := parsed(t, sample(t, "three-tracts"))[0]
	for _, c := range []struct {
		what string
		got  Place
		want Place
	}{
		{"farm", r.Farm.Place, Place{1, 1}}, {"corn base", r.Crops[1].Base.Place, Place{1, 27}}, {"total", r.Total.Base.Place, Place{1, 31}},
		{"sorghum's election", r.Elections[3].Place, Place{1, 22}},
		{"corn on 8201", r.Parts[0].Crops[1].Yield.Place, Place{2, 65}}, {"county of 8203", r.Parts[2].County.Place, Place{3, 103}},
	} {
		if c.got != c.want {
			t.Errorf("%s is on %v, want %v", c.what, c.got, c.want)
		}
	}
	plain := parsed(t, sample(t, "one-cell-a-line"))[0]
	if got := plain.Crops[0].Yield.Place; got != (Place{1, 85}) {
		t.Errorf("the yield of corn in a text of one cell a line is on %v, want line 85", got)
	}
}

// TestPrivate: nothing that is printed, as text or as JSON, tells who somebody is.
func TestPrivate(t *testing.T) {
	r := parsed(t, sample(t, "three-tracts"))[0]
	if len(r.Operator) != 1 || r.Operator[0] != "DREW NOBODY" || len(r.Contracts) != 2 || r.Contracts[1] != "77013" || r.Parts[0].Owners[1] != "NOBODY AND COUSINS PARTNERSHIP" {
		t.Errorf("people are not read")
	}
	made, asked := r.madeFarm(findInvented)
	for _, text := range []string{fmt.Sprint(r), fmt.Sprintf("%+v", r), fmt.Sprintf("%#v", r), asJSON(t, r), fmt.Sprint(made), fmt.Sprint(asked)} {
		for _, name := range []string{"NOBODY", "PRETEND", "77013", "77012A"} {
			if contains(text, name) {
				t.Errorf("%s is told in %.60s...", name, text)
			}
		}
	}
}

// TestShared: the same for the prints that the notes on the form made up, with the
// figures of its section 9.
func TestShared(t *testing.T) {
	read := 0
	for _, s := range []struct {
		file       string
		base       map[crop.Commodity]string // acres @ PLC yield of the farm
		counties   map[string]string         // acres by county; "" is the farm's
		total      string
		unassigned float64
	}{
		{"01-two-crops-one-tract.txt", map[crop.Commodity]string{"corn": "80.2 @158", "soybeans": "70.1 @48"}, map[string]string{"": "150.3"}, "150.3", 0},
		{"01b-plain-extraction.txt", map[crop.Commodity]string{"corn": "80.2 @158", "soybeans": "70.1 @48"}, map[string]string{"": "150.3"}, "150.3", 0},
		{"02-four-crops-three-tracts.txt", map[crop.Commodity]string{"wheat": "50 @61", "corn": "180.35 @152", "grain_sorghum": "6 @78", "soybeans": "163.25 @46"},
			map[string]string{"": "278.35", "99003": "121.25"}, "399.6", 0},
		{"03-seed-cotton-unassigned.txt", nil, map[string]string{"": "126"}, "150", 24},
		{"04-older-layout.txt", nil, map[string]string{"": "280.7"}, "280.7", 0},
	} {
		text, ok := shared(s.file)
		if !ok {
			t.Log("NOT CHECKED: ../shared is absent")
			fmt.Println("NOT CHECKED: the made-up prints of ../shared are absent")
			t.SkipNow()
		}
		r := parsed(t, text)[0]
		if got := show(r.Total.Base.Number); got != s.total {
			t.Errorf("%s: total %s, want %s", s.file, got, s.total)
		}
		for _, c := range r.Crops {
			if want := s.base[c.Commodity]; s.base != nil && show(c.Base.Number)+" @"+show(c.Yield.Number) != want {
				t.Errorf("%s: %s %s @%s, want %s", s.file, c.Name, show(c.Base.Number), show(c.Yield.Number), want)
			}
		}
		made, _ := r.madeFarm(findInvented)
		byCounty := map[string]float64{}
		for _, b := range made.Bases {
			byCounty[b.County] += b.BaseAcres
		}
		for county, want := range s.counties {
			if got := show(byCounty[county]); got != want || len(byCounty) != len(s.counties) {
				t.Errorf("%s: %s acres in county %q, want %s", s.file, got, county, want)
			}
		}
		if made.Unassigned != s.unassigned || len(made.Record) != len(made.Commodities()) {
			t.Errorf("%s: unassigned %v, elections %v", s.file, made.Unassigned, made.Record)
		}
		for _, u := range r.Unread {
			if s.file != "04-older-layout.txt" || u.First.Line != 6 { // its disclaimer
				t.Errorf("%s: not understood: %v", s.file, u)
			}
		}
		read++
	}
	fmt.Printf("%d made-up prints of ../shared read\n", read)
}

// TestOperationNewest: of a farm with two prints the newer counts, by crop year, then by
// day; other farms stay.
func TestOperationNewest(t *testing.T) {
	text := sample(t, "one-tract")
	older := replaced(t, text, "Crop Year : 2026", "Crop Year : 2024", "141             60", "139             60", "  141", "  139")
	later := replaced(t, text, "Prepared : 9/5/25", "Prepared : 11/5/25", "91.40", "91.50", "124.65", "124.75")
	records := parsed(t, older+"\f"+text+"\f"+later+"\f"+sample(t, "older"))
	if len(records) != 4 {
		t.Fatalf("%d records, want 4", len(records))
	}
	o, asked := Operation(records, findInvented)
	if len(o.Farms) != 2 || show(o.Farms[0].BaseAcres()) != "124.75" || o.Farms[1].Number != "6104" {
		t.Errorf("farms %v", o.Farms)
	}
	if !said(asked, "farm 6101 stands twice", "2024", "2026") {
		t.Errorf("asked %v", asked)
	}
	if p := o.Farms[0].Record[crop.Corn]; p != farm.ARCCO {
		t.Errorf("corn was last elected into %s", p)
	}
}
