package explain_test

import (
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// cornIn is a county with corn, and with oats of which no price is projected.
func cornIn(code, name string) farm.County {
	oats := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(70)})
	oats.Commodity = crop.Oats
	return farm.County{Code: code, Name: name, Yields: []farm.CountyYield{invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188)}), oats}}
}

// handoutOf makes the sheets of counties that cornIn gives, and of one without a yield.
func handoutOf(t *testing.T, only []crop.Commodity, codes ...string) explain.Handout {
	t.Helper()
	q := cases.Corn()
	q.Draws = 256
	// The names of counties and the order of their codes differ; State 99 has no name.
	q.Counties = invented.BookOf(cornIn("99001", "Zelkova"), cornIn("99003", "alder"), cornIn("02001", "Birch"), farm.County{Code: "99005", Name: "Elm"}, cornIn("99007", "Fir"))
	ready := 0
	h, err := explain.MakeHandout(q, codes, only, func(done int) { ready = done })
	if err != nil {
		t.Fatal(err)
	}
	if distinct := len(slices.Compact(slices.Sorted(slices.Values(codes)))); ready != distinct {
		t.Errorf("%d of %d counties ready", ready, distinct)
	}
	return h
}

// Sheets stand by State, then by the name of the county in any case, not by code; a county
// named twice has its sheets once, and sheets are numbered from 1.
func TestSheetsStandByStateAndName(t *testing.T) {
	h := handoutOf(t, nil, "99001", "99007", "02001", "99003", "99001")
	var names []string
	for i, s := range h.Sheets {
		names = append(names, s.State+" "+s.CountyName)
		if s.Number != i+1 || h.Comparison.CropYears[0].Farms[i].Farm != s.Farm {
			t.Errorf("sheet %d is numbered %d, and its farm is %s, not %s", i, s.Number, h.Comparison.CropYears[0].Farms[i].Farm, s.Farm)
		}
	}
	if want := []string{"Alaska Birch", " alder", " Fir", " Zelkova"}; !slices.Equal(names, want) {
		t.Errorf("sheets of %q, want %q", names, want)
	}
}

// What has no sheet is named with what to do: a crop that was asked about and of which the
// county has no yield, a crop without a price, a county without any yield.
func TestLeftOutIsNamed(t *testing.T) {
	for name, c := range map[string]struct {
		only []crop.Commodity
		want []string
	}{
		"all that sources have": {nil, []string{"Elm County (99005): no source has a yield of it", "Zelkova County (99001), oats: no projected price"}},
		"wheat asked about": {[]crop.Commodity{crop.Corn, crop.Wheat}, []string{
			"Elm County (99005), wheat: no source has a yield of it", "Elm County (99005), corn: no source has a yield of it", "Zelkova County (99001), wheat: no source has a yield of it"}},
	} {
		h := handoutOf(t, c.only, "99001", "99005")
		if !slices.Equal(h.Missing, c.want) || len(h.Sheets) != 1 {
			t.Errorf("%s: %d sheets, missing %q, want %q", name, len(h.Sheets), h.Missing, c.want)
		}
		for i, l := range h.LeftOut {
			if l.Do == "" || l.String() != h.Missing[i] {
				t.Errorf("%s: %+v", name, l)
			}
		}
	}
	priced := explain.LeftOut{County: "99003", Commodity: crop.Corn, Practice: farm.Irrigated, Why: "no"}
	if got := priced.String(); got != "county 99003, corn irrigated: no" {
		t.Error(got)
	}
}

// A sheet whose past prices are missing would hold no figure: it is left out.
func TestSheetWithoutPastPriceIsLeftOut(t *testing.T) {
	q := cases.Corn()
	q.Draws = 256
	delete(q.Market.MYA[crop.Corn], 2022)
	h, err := explain.MakeHandout(q, []string{"99001"}, nil, func(int) {})
	if err != nil || len(h.Sheets) != 0 || len(h.Missing) != 1 || !strings.Contains(h.Missing[0], "2022") {
		t.Errorf("%d sheets, missing %q, %v", len(h.Sheets), h.Missing, err)
	}
}

// A sheet has the four dates, each with its source: the marketing year of corn ends on the
// last of August (7 CFR 1412.3), and payments come on October 1 of that year at the earliest
// (7 U.S.C. 9016(e)).
func TestDatesOfSheet(t *testing.T) {
	s := handoutOf(t, nil, "99001").Sheets[0]
	for kind, want := range map[explain.DateKind]string{explain.MarketingYearEnds: "2027-08-31", explain.FirstPayment: "2027-10-01", explain.HarvestEnds: "2026-11-24"} {
		if d, ok := s.Date(kind); !ok || d.When != want || d.Source == "" || d.Status == "" {
			t.Errorf("%s: %+v, want %s", kind, d, want)
		}
	}
	if d, ok := s.Date("no such"); ok {
		t.Errorf("%+v", d)
	}
	if s.PaymentYield != answer.Dollars(150) { // 80 percent of the benchmark of 187.30, whole
		t.Errorf("payment yield %v", s.PaymentYield)
	}
}
