package position

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

// insuredFarm has SCO on a crop in a county.
func insuredFarm(county string, c crop.Commodity, y crop.CropYear, change func(i *farm.Insurance)) farm.Farm {
	f := invented.OneFarm("0417", invented.Base(c, 100, 50))
	f.County = county
	i := farm.Insurance{CropYear: y, Commodity: c, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 100, Acres: 90, Share: 1, Projected: 5, Volatility: invented.Number(0.2), ExpectedYield: 100,
		FinalYield: invented.Number(95), Layers: []farm.Layer{{Program: farm.SCO}}}
	if change != nil {
		change(&i)
	}
	f.Insurance = []farm.Insurance{i}
	return f
}

func insuredOf(t *testing.T, from Sources, f farm.Farm, y crop.CropYear) *Insured {
	t.Helper()
	all, err := from.Insured(f, y)
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	return all[0]
}

// The last day to buy, and how sales stand, by crop, State and day: typed goes first, then the
// rows; what no row has stays unknown until the summer of the crop year.
func TestSalesOfInsurance(t *testing.T) {
	from := Sources{Market: invented.Market("2026-11-10")}
	for _, c := range []struct {
		county, closes string
		crop           crop.Commodity
		year           crop.CropYear
		day, note      string
		today          string
		standing       string
	}{
		{"17113", "", crop.Corn, 2027, "2027-03-15", "", "2026-11-25", InsuranceOpen},
		{"17113", "", crop.Corn, 2027, "2027-03-15", "", "2027-03-15", InsuranceOpen},
		{"17113", "", crop.Corn, 2027, "2027-03-15", "", "2027-03-16", InsuranceGiven},
		{"20001", "", crop.Corn, 2027, "", "", "2026-11-25", InsuranceUnknown},
		{"20001", "", crop.Corn, 2027, "", "", "2027-07-01", InsuranceGiven},
		{"20001", "2027-02-28", crop.Corn, 2027, "2027-02-28", "", "2027-03-01", InsuranceGiven},
		{"17113", "", crop.Corn, 2026, "2026-03-15", "", "2026-11-25", InsuranceGiven},
		{"20001", "", crop.Wheat, 2027, "2026-09-30", "winter wheat", "2026-11-25", InsuranceGiven},
		{"20001", "", crop.Wheat, 2027, "2026-09-30", "winter wheat", "2026-09-30", InsuranceOpen},
		{"17113", "", crop.Oats, 2027, "", "", "2026-11-25", InsuranceUnknown},
	} {
		k := insuredOf(t, from, insuredFarm(c.county, c.crop, c.year, func(i *farm.Insurance) { i.Closes = c.closes }), c.year)
		closes := k.Closes()
		if closes.Day != c.day || closes.Note != c.note || k.Standing(invented.Date(c.today)) != c.standing {
			t.Errorf("%s %s %d on %s: %+v, %s; want %s, %q, %s", c.county, c.crop, c.year, c.today, closes, k.Standing(invented.Date(c.today)), c.day, c.note, c.standing)
		}
		if (c.closes == "") != (closes.Status != crop.Assumed) {
			t.Errorf("%s: status %q", c.county, closes.Status)
		}
	}
}

// What an insured crop lacks is named; nothing is put in its place.
func TestWhatAnInsuredCropLacks(t *testing.T) {
	wet, dry := invented.CornYield(farm.YieldOutlook{}), invented.CornYield(farm.YieldOutlook{})
	wet.Practice, dry.Practice = farm.Irrigated, farm.Nonirrigated
	two := Sources{Market: invented.Market("2026-11-10"), Counties: invented.Book(wet, dry)}
	for _, c := range []struct {
		from    Sources
		crop    crop.Commodity
		change  func(i *farm.Insurance)
		missing string
	}{
		{two, crop.Corn, nil, ""},
		{two, crop.Corn, func(i *farm.Insurance) { i.FinalYield = nil }, "practice: irrigated or nonirrigated"},
		{two, crop.Corn, func(i *farm.Insurance) { i.FinalYield, i.Practice = nil, farm.Irrigated }, ""},
		{two, crop.Corn, func(i *farm.Insurance) { i.Volatility = nil }, "volatility factor"},
		{two, crop.Corn, func(i *farm.Insurance) { i.Volatility, i.Plan = nil, farm.YieldProtection }, ""},
		{two, crop.Wheat, func(i *farm.Insurance) { i.FinalYield = nil }, "a county yield of wheat"},
	} {
		k := insuredOf(t, c.from, insuredFarm("99001", c.crop, 2026, c.change), 2026)
		if (k.Missing == "") != (c.missing == "") || !strings.Contains(k.Missing, c.missing) {
			t.Errorf("%s: %q, want %q", c.crop, k.Missing, c.missing)
		}
	}
	k := insuredOf(t, two, insuredFarm("99001", crop.Corn, 2026, func(i *farm.Insurance) { i.Layers = []farm.Layer{{Program: farm.STAX}} }), 2026)
	if !strings.Contains(k.Layers[0].Missing, "no STAX of corn") {
		t.Errorf("%+v", k.Layers[0])
	}
	total := 40.0
	k = insuredOf(t, two, insuredFarm("99001", crop.Corn, 2026, func(i *farm.Insurance) { i.Layers[0].Total = &total }), 2026)
	if p := k.Layers[0].Premium; p == nil || *p != 8 { // a subsidy of 80 percent leaves 8 of 40
		t.Errorf("premium %v", p)
	}
}
