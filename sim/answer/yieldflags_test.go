package answer

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// publishedBook is the county with a NASS series of all years from first to last.
func publishedBook(first, last crop.CropYear) farm.CountyBook {
	yield := cornYield(farm.YieldOutlook{Yield: number(180), KnownFrom: "local_harvest", SD: number(10)})
	yield.Harvested = map[crop.CropYear]float64{}
	for y := first; y <= last; y++ {
		yield.Harvested[y] = 180 + float64(y%3)
	}
	return book(yield)
}

// The flag comes with the day after the usual end of harvest, and goes with any
// knowledge of the county's yield.
func TestYieldNotKnownAfterHarvest(t *testing.T) {
	published := cornYield(farm.YieldOutlook{})
	published.Outlook, published.Harvested = nil, map[crop.CropYear]float64{2021: 180, 2022: 181, 2023: 182, 2026: 180}
	published.Actual = map[crop.CropYear]float64{2021: 180, 2022: 181, 2023: 182} // without common years its level is not known
	actual := cornYield(farm.YieldOutlook{})
	actual.Actual = map[crop.CropYear]float64{2026: 180}
	for _, f := range []struct {
		what   string
		yield  farm.CountyYield
		today  string
		raised bool
	}{
		{"the last usual day of harvest", cornYield(farm.YieldOutlook{}), "2026-11-24", false},
		{"the day after", cornYield(farm.YieldOutlook{}), "2026-11-25", true},
		{"a mean of one's own, from before harvest", cornYield(farm.YieldOutlook{Yield: number(180)}), "2026-11-25", true},
		{"the State's report", cornYield(farm.YieldOutlook{KnownFrom: "state_report"}), "2026-11-25", false},
		{"a yield taken as known", cornYield(farm.YieldOutlook{Yield: number(180), SD: number(0)}), "2026-11-25", false},
		{"NASS's county estimate", published, "2027-03-01", false},
		{"the final yield", actual, "2027-11-01", false},
	} {
		c := designCase()
		c.Counties, c.Today = book(f.yield), date(f.today)
		if got := slices.Contains(codes(c, 2026), "yield_not_known"); got != f.raised {
			t.Errorf("%s: raised %v, want %v", f.what, got, f.raised)
		}
	}
}

// Both yields of a pair are asked for where the irrigated share is open, and only the
// one that counts where it is told.
func TestYieldNotKnownByPractice(t *testing.T) {
	county := pairOf("99001", 210, 130, 190, 120)
	county.Yields[0].Outlook, county.Yields[1].Outlook = nil, nil
	for _, f := range []struct {
		share *float64
		want  int
	}{{nil, 2}, {number(0.5), 2}, {number(1), 1}, {number(0), 1}} {
		n := 0
		for _, flag := range compare(t, atShare(county, f.share)).CropYears[0].Farms[0].Flags {
			if flag.Code == "yield_not_known" {
				n++
			}
		}
		if n != f.want {
			t.Errorf("share %v: %d flags, want %d", f.share, n, f.want)
		}
	}
}

// Years are counted back from the newest one that the agencies have of the State.
func TestYearsWithoutAPublishedYield(t *testing.T) {
	lacking := publishedBook(2010, 2022) // its State goes to 2025
	neighbor := publishedBook(2010, 2025)[0].Counties["99001"]
	neighbor.Code = "99005"
	lacking[0].Counties["99005"] = neighbor
	insured := publishedBook(2016, 2022)
	insured[0].Counties["99001"].Yields[0].Insured = map[crop.CropYear]float64{2023: 1, 2024: 1, 2025: 1}
	typed := book(cornYield(farm.YieldOutlook{Yield: number(180), KnownFrom: "local_harvest"}))
	typed[0].Counties["99005"] = neighbor
	for _, f := range []struct {
		what string
		book farm.CountyBook
		want string // "" for no flag
	}{
		{"three years behind its State", lacking, "in 3 of the 10 years 2016 to 2025"},
		{"RMA fills what NASS lacks", insured, ""},
		{"no series of the agencies", typed, ""},
		{"all ten years", publishedBook(2016, 2025), ""},
		{"a short series", publishedBook(2020, 2025), "in 4 of the 10 years 2016 to 2025"},
	} {
		c := designCase()
		c.Counties = f.book
		flag, raised := flagOf(t, c, "yield_source_may_differ")
		if raised != (f.want != "") || !strings.Contains(flag.Message, f.want) {
			t.Errorf("%s: %v, want %q", f.what, flag, f.want)
		}
	}
}

// What 5 and 10 percent either way do is what a county yield with its mean and its
// spread so much lower or higher averages.
func TestYieldMovesInWords(t *testing.T) {
	mean := func(by float64) string {
		c := designCase()
		yield := cornYield(farm.YieldOutlook{Yield: number(180 * by), KnownFrom: "local_harvest", SD: number(10 * by)})
		c.Counties = book(yield)
		return "$" + program.Text(float64(only(t, c).Programs.Of(farm.ARCCO).Mean), 2)
	}
	c := designCase()
	c.Counties = publishedBook(2020, 2025)
	flag, _ := flagOf(t, c, "yield_source_may_differ")
	want := fmt.Sprintf("averages %s per base acre as shown. With county yields 5 percent lower it averages %s, 10 percent lower %s, 5 percent higher %s, 10 percent higher %s.",
		mean(1), mean(0.95), mean(0.90), mean(1.05), mean(1.10))
	if !strings.Contains(flag.Message, want) {
		t.Errorf("%s\nwant %s", flag.Message, want)
	}
}
