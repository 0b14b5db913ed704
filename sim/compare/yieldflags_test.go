package compare_test

import (
	"fmt"
	"strings"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Both yields of a pair are asked for where the irrigated share is open, and only the
// one that counts where it is given.
func TestYieldNotKnownByPractice(t *testing.T) {
	county := invented.TwoPractices("99001", 210, 130, 190, 120)
	county.Yields[0].Outlook, county.Yields[1].Outlook = nil, nil
	for _, f := range []struct {
		share *float64
		want  int
	}{{nil, 2}, {invented.Number(0.5), 2}, {invented.Number(1), 1}, {invented.Number(0), 1}} {
		n := 0
		for _, flag := range ask(t, cases.AtShare(county, f.share)).CropYears[0].Farms[0].Flags {
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
	lacking := invented.PublishedBook(2010, 2022) // its State goes to 2025
	neighbor := invented.PublishedBook(2010, 2025)[0].Counties["99001"]
	neighbor.Code = "99005"
	lacking[0].Counties["99005"] = neighbor
	insured := invented.PublishedBook(2016, 2022)
	insured[0].Counties["99001"].Yields[0].Insured = map[crop.CropYear]float64{2023: 1, 2024: 1, 2025: 1}
	typed := invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(180), KnownFrom: "local_harvest"}))
	typed[0].Counties["99005"] = neighbor
	for _, f := range []struct {
		what string
		book farm.CountyBook
		want string // "" for no flag
	}{
		{"three years behind its State", lacking, "for 3 of the 10 years to 2025"},
		{"RMA fills what NASS lacks", insured, ""},
		{"no series of the agencies", typed, ""},
		{"all ten years", invented.PublishedBook(2016, 2025), ""},
		{"a short series", invented.PublishedBook(2020, 2025), "for 4 of the 10 years to 2025"},
	} {
		c := cases.Corn()
		c.Counties = f.book
		flag, raised := flagOf(t, c, "yield_source_may_differ")
		if raised != (f.want != "") || !strings.Contains(flag.Message, f.want) {
			t.Errorf("%s: %v, want %q", f.what, flag, f.want)
		}
	}
}

// What 5 and 10 percent either way do is what a county yield with its mean and its
// SD so much lower or higher averages.
func TestYieldSensitivitiesInWords(t *testing.T) {
	mean := func(by float64) string {
		c := cases.Corn()
		yield := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(180 * by), KnownFrom: "local_harvest", SD: invented.Number(10 * by)})
		c.Counties = invented.Book(yield)
		return "$" + program.Text(float64(only(t, c).Programs.Of(farm.ARCCO).Mean), 2)
	}
	c := cases.Corn()
	c.Counties = invented.PublishedBook(2020, 2025)
	flag, _ := flagOf(t, c, "yield_source_may_differ")
	want := fmt.Sprintf("averages %s a base acre as shown. With county yields 5 percent lower it averages %s, and 10 percent lower %s. With yields 5 percent higher it averages %s, and 10 percent higher %s.",
		mean(1), mean(0.95), mean(0.90), mean(1.05), mean(1.10))
	if !strings.Contains(flag.Message, want) {
		t.Errorf("%s\nwant %s", flag.Message, want)
	}
}
