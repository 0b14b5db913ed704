package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// cover adds the first sheet: what the sheets hold, a line for each, the dates to know and
// the caution. common is what all sheets say in the same words.
func (r *Report) cover(h explain.Handout, common []string) {
	year := h.Comparison.CropYears[0]
	y := year.CropYear
	r.heading(1, fmt.Sprintf("PLC and ARC-CO for crop year %d: %s", y, whichCounties(h.Sheets)))
	r.small(pricesOf(h) + " " + wording.PerBaseAcre)
	r.Blocks = append(r.Blocks, Banner(wording.ToBePaid(year.Standing, y)+" "+wording.LastDay(year.Standing, h.Comparison.Today)))
	r.text(whatTheyHold(h))
	r.table(coverTable(h))
	if said := notInSheets(h); said != "" {
		r.small(said)
	}
	r.table(coverDates(h))
	r.heading(2, "Good to know")
	r.notes(goodToKnow(h, common))
	r.run(h.Comparison)
}

// goodToKnow lists what is not certain, and what holds for all sheets.
func goodToKnow(h explain.Handout, common []string) (said []string) {
	year := h.Comparison.CropYears[0]
	for _, text := range append([]string{wording.WithoutElection(year.Standing, year.CropYear)}, common...) {
		if text != "" {
			said = append(said, text)
		}
	}
	for _, s := range h.Sheets {
		for _, flag := range s.Flags {
			if text := onPaper(flag); sheetFlags[flag.Code].Cover && !slices.Contains(said, text) {
				said = append(said, text)
			}
		}
	}
	said = append(said, "ARC-IC goes by a farm's own yields, so it is not in these sheets. Ask the county office about it.")
	if h.Comparison.ChangeFrom != 0 {
		said = append(said, fmt.Sprintf("From %d the choice can be changed every year.", h.Comparison.ChangeFrom))
	}
	return said
}

// whichCounties names one county, else says how many there are.
func whichCounties(sheets []explain.CountySheet) string {
	counties := map[string]bool{}
	for _, s := range sheets {
		counties[s.County] = true
	}
	if len(counties) == 1 {
		return placeName(sheets[0])
	}
	return fmt.Sprintf("%d counties", len(counties))
}

// pricesOf says of which day the prices of all sheets are, and whose.
func pricesOf(h explain.Handout) string {
	m := h.Comparison.Market
	return fmt.Sprintf("Prices of %s (%s).", wording.Date(m.AsOf), m.Source)
}

// whatTheyHold says what stands on the sheets.
func whatTheyHold(h explain.Handout) string {
	said := "There is one sheet for each county and crop. The last column gives the number at its top. "
	if slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return s.Practice != farm.AllPractices }) {
		said += "Where a county has two yields, irrigated and nonirrigated land have a sheet each. A farm with both is paid by its historical irrigated percentage. "
	}
	return said + "A sheet shows how often and how much each program could pay, what would change that, and what was paid in past years. " +
		fmt.Sprintf("PLC is shown at a PLC yield of %s (assumed). Yours is on your farm record. No farm's data are in these sheets.", answer.YieldAssumed())
}

// coverTable has a line for each sheet, under its State and county.
func coverTable(h explain.Handout) Table {
	y := h.Comparison.CropYears[0].CropYear
	t := Table{
		Title:   "County by county: of 100 outcomes, then dollars a base acre on average",
		Columns: []string{"county and crop", "leans", "ARC-CO more", "PLC more", "neither pays", "ahead by", "break-even PLC yield", "sheet"},
		ToSheet: true,
	}
	of := map[string]int{}
	for _, s := range h.Sheets {
		of[s.County]++
	}
	same := false
	for i, s := range h.Sheets {
		before := explain.CountySheet{}
		if i > 0 {
			before = h.Sheets[i-1]
		}
		if s.State != before.State {
			t.Rows = append(t.Rows, []string{stateHeading(s)})
		}
		name := cropName(s)
		switch {
		case of[s.County] == 1:
			name = countyName(s) + ", " + name
		case s.County != before.County:
			t.Rows = append(t.Rows, []string{countyName(s)})
		}
		t.Rows = append(t.Rows, coverRow(s, name))
		same = same || *s.Part.ChanceEqual > 0
	}
	for _, word := range []string{"leans", "toss-up", "little at stake"} {
		if slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return leadWord(s) == word }) {
			t.Notes = append(t.Notes, wording.Capital(word)+": "+glossed(y, word))
		}
	}
	last := "Break-even PLC yield, an acre: above it PLC averages more, below it ARC-CO."
	if slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return breakEven(s) == noneInUse }) {
		last += fmt.Sprintf(" None in use: no PLC yield from %s to %s of the benchmark yield does that.", program.Text(100*usualLow, 0), wording.Percent(usualHigh))
	}
	if same {
		last += " Where the three counts add to less than 100, both pay the same in the rest."
	}
	t.Notes = append(t.Notes, last)
	return t
}

// higherPaid stands for a lead in a year whose law pays the higher of both.
const higherPaid = "higher paid"

// leadOf writes the lead of a sheet on the cover.
func leadOf(s explain.CountySheet) string {
	if s.Part.Programs.Of(farm.HigherOf) != nil {
		return higherPaid
	}
	return wording.Leads(s.Part.Leader)
}

// leadWord is the word of a sheet's lead on the cover that the glossary explains.
func leadWord(s explain.CountySheet) string {
	switch lead := leadOf(s); lead {
	case string(answer.LeadsPLC), string(answer.LeadsARCCO):
		return "leans"
	default:
		return lead
	}
}

// glossed is the line of the glossary about a word, to stand after a colon.
func glossed(y crop.CropYear, word string) string {
	all := wording.Glossary(y)
	if i := slices.IndexFunc(all, func(t wording.Term) bool { return t.Word == word }); i >= 0 {
		return strings.ToLower(all[i].Line[:1]) + all[i].Line[1:]
	}
	return ""
}

// stateHeading names the State of a sheet over its counties.
func stateHeading(s explain.CountySheet) string {
	if s.State == "" {
		return "Other counties"
	}
	return s.State
}

func coverRow(s explain.CountySheet, name string) []string {
	part := s.Part
	n := wording.Chances(part.ChanceNeitherPays, part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceEqual)
	return []string{
		name, leadOf(s), wording.ShortCount(n[1]), wording.ShortCount(n[2]), wording.ShortCount(n[0]),
		ahead(float64(part.Difference.Mean)), breakEven(s), fmt.Sprint(s.Number),
	}
}

// coverDates lists the days to know by crop, crops with the same days together.
func coverDates(h explain.Handout) Table {
	t := Table{Title: "Dates to know", Columns: []string{"crop", "harvest usually over", "marketing year ends", "paid from"}}
	crops := map[string][]string{}
	var order []string
	cells := map[string][]string{}
	for _, s := range h.Sheets {
		days := []string{dayOf(s, explain.HarvestEnds), dayOf(s, explain.MarketingYearEnds), dayOf(s, explain.FirstPayment)}
		key := strings.Join(days, "|")
		if crops[key] == nil {
			order = append(order, key)
			cells[key] = days
		}
		if name := s.Commodity.Name(); !slices.Contains(crops[key], name) {
			crops[key] = append(crops[key], name)
		}
	}
	for _, key := range order {
		t.Rows = append(t.Rows, append([]string{strings.Join(crops[key], ", ")}, cells[key]...))
	}
	t.Notes = []string{"The national price is the average of the whole marketing year. FSA sets the county yield after the harvest."}
	return t
}

// dayOf writes a date of a sheet, "-" where it has none.
func dayOf(s explain.CountySheet, kind explain.DateKind) string {
	d, ok := s.Date(kind)
	if !ok {
		return "-"
	}
	return wording.Date(d.When) + wording.Mark(d.Status)
}

// notInSheets names what a reader would look for in vain: counties without a sheet, and
// crops that have one in another county.
func notInSheets(h explain.Handout) string {
	var crops []string
	counties := map[string][]string{}
	for _, l := range h.LeftOut {
		shown := slices.ContainsFunc(h.Sheets, func(s explain.CountySheet) bool { return s.Commodity == l.Commodity })
		if l.Commodity != "" && !shown {
			continue
		}
		name := "any crop"
		if l.Commodity != "" {
			name = cropName(explain.CountySheet{Commodity: l.Commodity, Practice: cmp.Or(l.Practice, farm.AllPractices)})
		}
		crops = appendOnce(crops, name)
		counties[name] = appendOnce(counties[name], wording.Capital(wording.County(answer.BasePart{County: l.County, CountyName: l.CountyName})))
	}
	for i, name := range crops {
		crops[i] = name + " in " + wording.Joined(counties[name])
	}
	if len(crops) == 0 {
		return ""
	}
	return "Not in these sheets, because a figure is missing: " + strings.Join(crops, "; ") + "."
}
