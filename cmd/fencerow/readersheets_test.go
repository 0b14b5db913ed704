package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// paidPart is what is earned, withheld and paid under one set of elections, in the JSON of
// an answer.
type paidPart struct {
	ID            string
	Earned        float64            `json:"mean"`
	Paid          float64            `json:"mean_after_limit"`
	Sequestration float64            `json:"withheld_by_sequestration"`
	Limit         float64            `json:"withheld_by_limit"`
	Percentiles   map[string]float64 `json:"percentiles_after_limit"`
}

// paidYear is one crop year of what people are paid, by set of elections.
type paidYear struct {
	CropYear  int `json:"crop_year"`
	Operation struct {
		Under []struct {
			Elections string
			ByPerson  []paidPart `json:"by_person"`
		}
	}
}

// of is what a person is paid under a set of elections.
func (y paidYear) of(t *testing.T, id, elections string) paidPart {
	t.Helper()
	for _, u := range y.Operation.Under {
		if i := slices.IndexFunc(u.ByPerson, func(p paidPart) bool { return p.ID == id }); i >= 0 && u.Elections == elections {
			return u.ByPerson[i]
		}
	}
	t.Fatalf("%d: nothing for %s under %s", y.CropYear, id, elections)
	return paidPart{}
}

// paidYears are the crop years of a run of the demo.
func paidYears(t *testing.T, more ...string) []paidYear {
	t.Helper()
	var c struct {
		CropYears []paidYear `json:"crop_years"`
	}
	if err := json.Unmarshal([]byte(runs(t, append([]string{"compare", "--demo", "--json"}, more...)...)), &c); err != nil {
		t.Fatal(err)
	}
	return c.CropYears
}

// holder counts what a text must hold.
type holder struct {
	t       *testing.T
	name    string
	text    string
	checked int
}

// shownBy is what the page and the terminal show of a reader's sheet of the demo.
func shownBy(t *testing.T, reader string) []*holder {
	t.Helper()
	screen := spaces.ReplaceAllString(runs(t, "compare", "--demo", "--sheet", reader), " ")
	return []*holder{{t: t, name: reader + ", page", text: shownText(t, readerPage(t, reader))}, {t: t, name: reader + ", terminal", text: screen}}
}

func (h *holder) holds(want string) {
	h.t.Helper()
	if h.checked++; !strings.Contains(h.text, want) {
		h.t.Errorf("%s lacks %q", h.name, want)
	}
}

// A person's sheet shows the figures of the JSON of the same run: under both sets the
// average and the middle case, and what 10 and 25 of 100 outcomes pay less than.
func TestOwnSheetShowsTheSame(t *testing.T) {
	years := paidYears(t)
	for _, id := range []string{"landowner", "operator"} {
		for _, h := range shownBy(t, id) {
			for i, y := range years {
				last, leads := y.of(t, id, "last_elected"), y.of(t, id, "leads")
				for _, p := range []paidPart{last, leads} {
					h.holds(dollars(p.Paid))
				}
				if last.Paid != leads.Paid {
					h.holds(fmt.Sprintf("As last elected, you would be paid %s on average for %d", dollars(last.Paid), y.CropYear))
					h.holds("As the figures lean, it is " + dollars(leads.Paid))
				}
				if i > 0 { // odds are of the first year
					continue
				}
				for _, p := range []paidPart{last, leads} {
					h.holds("; half of outcomes pay less than " + dollars(p.Percentiles["50"]) + ".")
					h.holds("25 of 100 pay less than " + dollars(p.Percentiles["25"]) + ".")
					h.holds("10 of 100 pay more than " + dollars(p.Percentiles["90"]) + ".")
					if p.Percentiles["10"] > 0.005 {
						h.holds("10 of 100 outcomes pay you less than " + dollars(p.Percentiles["10"]) + ".")
					} else {
						h.holds("t least 10 of 100 outcomes pay you nothing.") // "At" or "at" after the set's name
					}
				}
			}
			fmt.Printf("figures of the sheet beside its JSON: %s, checked %d\n", h.name, h.checked)
		}
	}
}

// lowest writes what a part of the outcomes pays less than, in a table.
func lowest(x float64) string {
	if x < 0.005 {
		return "nothing"
	}
	return dollars(x)
}

// The lender's sheet shows three crop years of each person as the JSON has them: earned,
// withheld, paid and both poor cases. Withheld is by sequestration and by the limit, within
// the dollar to which earned and paid are rounded.
func TestLenderSheetShowsTheSame(t *testing.T) {
	years := paidYears(t, "--crop-year", "2025,2026,2027")
	if len(years) != 3 {
		t.Fatalf("%d crop years", len(years))
	}
	for _, h := range shownBy(t, forLender) {
		for _, id := range []string{"operator", "landowner"} {
			for _, y := range years {
				rows := map[string]string{"last_elected": "as last elected", "leads": "as it leans"}
				last, leads := y.of(t, id, "last_elected"), y.of(t, id, "leads")
				switch {
				case y.CropYear == 2025:
					rows = map[string]string{"leads": "higher program"}
				case last.Paid == leads.Paid:
					rows = map[string]string{"leads": "either way"}
				}
				for elections, name := range rows {
					p := y.of(t, id, elections)
					var earned, paid float64
					fmt.Sscanf(fmt.Sprintf("%.0f %.0f", p.Earned, p.Paid), "%f %f", &earned, &paid)
					h.holds(fmt.Sprintf("(%d) %s %s %s %s %s %s", y.CropYear, name, dollars(earned), dollars(earned-paid), dollars(paid), lowest(p.Percentiles["25"]), lowest(p.Percentiles["10"])))
					if off := earned - paid - p.Sequestration - p.Limit; off < -1 || off > 1 {
						t.Errorf("%s, %d, %s: withheld is off by %.2f", id, y.CropYear, elections, off)
					}
					h.holds(fmt.Sprintf("%s for %d", dollars(paid), y.CropYear))
				}
			}
		}
		fmt.Printf("figures of the sheet beside its JSON: %s, checked %d\n", h.name, h.checked)
	}
}
