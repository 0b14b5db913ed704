package summary

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// line is a crop with these odds of 100 and this margin of ARC-CO less PLC.
func line(c crop.Commodity, leader, leans answer.Leader, arc, plc, neither, equal, mean, low, high float64) answer.CommodityPart {
	return answer.CommodityPart{
		Commodity: c, BaseAcres: 100, Leader: leader, Leans: leans, PaymentNotBefore: "2027-10-01", TaxYear: 2027,
		ChanceARCCOMore: answer.ChanceOf(arc / 100), ChancePLCMore: answer.ChanceOf(plc / 100), ChanceNeitherPays: answer.ChanceOf(neither / 100), ChanceEqual: answer.ChanceOf(equal / 100),
		Difference: &answer.Difference{Mean: answer.Dollars(mean), Lowest: answer.Dollars(low), Highest: answer.Dollars(high), UsualError: 0.07},
	}
}

// year is a crop year of farms with these crops.
func year(farms ...[]answer.CommodityPart) answer.YearPart {
	y := answer.YearPart{CropYear: 2026, Standing: answer.Standing{NewElection: true, LastDay: "unknown"}}
	for i, crops := range farms {
		f := answer.FarmPart{Farm: "99001-" + string(rune('1'+i)), Contract: farm.Open, Commodities: crops}
		y.Farms = append(y.Farms, f)
		for _, c := range crops {
			y.Standing.Lines = append(y.Standing.Lines, answer.StandingLine{Farm: f.Farm, Commodity: c.Commodity, Signers: []answer.Signer{{ID: "ann", Share: 1}}})
		}
	}
	return y
}

func text(t *testing.T, blocks ...report.Block) string {
	t.Helper()
	var out strings.Builder
	if err := terminal.Write(&out, report.Report{Blocks: blocks}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// A range is seen from the program that is ahead; a toss-up names that program; a range over
// zero has a note; outcomes in which both pay the same have a column where they count.
func TestLinesOfTheTable(t *testing.T) {
	elected := farm.PLC
	plc := line(crop.Wheat, answer.LeadsPLC, answer.LeadsPLC, 17, 82.7, 0, 0.3, -8.4, -16.2, -5.1)
	plc.OnRecord = &elected
	y := year([]answer.CommodityPart{plc, line(crop.Corn, answer.Close, answer.LeadsARCCO, 60, 39, 1, 0, 1.5, -1.3, 4.2)})
	got := text(t, lineGrid(y, false))
	for _, want := range []string{"PLC                $8 $5 to $16  PLC", "toss-up  ARC-CO $1.50 -$1 to $4  -", "Below zero: the other program is ahead.\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("the table lacks %q:\n%s", want, got)
		}
	}
	if strings.Contains(got, "same") {
		t.Errorf("a column for outcomes that do not count:\n%s", got)
	}
	y.Farms[0].Commodities = append(y.Farms[0].Commodities, line(crop.Oats, answer.LittleChance, answer.LeadsPLC, 1, 3, 91, 5, -0.2, -0.4, -0.1))
	got = text(t, lineGrid(y, false))
	for _, want := range []string{"neither same", "91    5 little", "stake"} {
		if !strings.Contains(got, want) {
			t.Errorf("the table lacks %q:\n%s", want, got)
		}
	}
	for _, row := range strings.Split(got, "\n") {
		if len(row) > 80 {
			t.Errorf("over 80 columns: %s", row)
		}
	}
}

// In a year that asks for no new election the lines that agree with the last one can be left
// out, and are counted.
func TestChangesOnly(t *testing.T) {
	one := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	y := year([]answer.CommodityPart{one}, []answer.CommodityPart{one})
	y.Standing.Lines[1].Differs = true
	if g := lineGrid(y, true); len(g.Rows) != 2 {
		t.Errorf("a year that asks for a new election lists %d of 2 lines", len(g.Rows))
	}
	y.Standing.NewElection = false
	g := lineGrid(y, true)
	if len(g.Rows) != 1 || g.Rows[0][0] != "2" || len(g.Notes) != 1 || !strings.Contains(g.Notes[0], "Not listed: 1 ") {
		t.Errorf("%v, %v", g.Rows, g.Notes)
	}
}

// Who decides is said in one sentence for each group of farms.
func TestWhoMustAgree(t *testing.T) {
	one := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	y := year([]answer.CommodityPart{one}, []answer.CommodityPart{one}, []answer.CommodityPart{one})
	if got := agree(y); got != "Ann decides." {
		t.Error(got)
	}
	y.Standing.Lines[1].Signers = append(y.Standing.Lines[1].Signers, answer.Signer{ID: "bob", Share: 0.4})
	if got := agree(y); got != "On 2, ann and bob must agree. Elsewhere ann decides." {
		t.Error(got)
	}
	y.Standing.Lines[2] = answer.StandingLine{Farm: "99001-3", Commodity: crop.Corn, Signers: []answer.Signer{{ID: "ann", Share: 0.5}}, Others: 0.5}
	if got := agree(y); got != "On 2, ann and bob must agree. On 3, ann and others not in this file must agree. Elsewhere ann decides." {
		t.Error(got)
	}
}

// Sums are after limits only; without a last election there is none to set beside, and a low
// of nothing is said.
func TestTotals(t *testing.T) {
	y := year([]answer.CommodityPart{line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)})
	part := func(name answer.UnderName, mean, low float64, left ...string) answer.UnderPart {
		return answer.UnderPart{Elections: name, Mean: answer.DollarsOf(99999), MeanAfterLimit: answer.DollarsOf(mean), Percentiles: &answer.Percentiles{0, low}, LeftOut: left}
	}
	y.Operation.Under = []answer.UnderPart{part(answer.LastElected, 1500, 0), part(answer.AsItLeans, 2500.4, 700)}
	if got := totals([]answer.YearPart{y}); len(got) != 1 || got[0] != "The farm, after shares, limit and sequestration (a federal cut). As last elected: $1,500 on average, poor case $0 (at least 1 in 10 gets nothing). As each line leans: $2,500, poor case $700 (1 in 10 is lower)." {
		t.Error(got)
	}
	y.Operation.Under[0].LeftOut = []string{"99001-1 corn"}
	if got := strings.Join(totals([]answer.YearPart{y}), " "); strings.Contains(got, "$1,500") || !strings.Contains(got, "1 line has no last election here") {
		t.Error(got)
	}
	y.Operation.Under = y.Operation.Under[:0]
	if got := totals([]answer.YearPart{y}); got != nil {
		t.Error(got)
	}
}

// What is not certain is gathered by its word, each figure once.
func TestDoubtsByWord(t *testing.T) {
	c := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	c.MYA = &answer.PriceView{Status: crop.Projected}
	c.Bases = []answer.BasePart{{BaseAcres: 10, CountyYield: &answer.YieldView{Status: crop.Assumed}, BenchmarkYield: answer.DollarsOf(180), BenchmarkStatus: crop.Agency}}
	y := year([]answer.CommodityPart{c, c})
	y.Farms[0].Flags = []answer.Flag{{Code: unverified, Severity: answer.Warning, Message: "Not yet confirmed for 2026: the election rule, the loan rate of corn ($2.20). Ask."}}
	want := "Not certain. Projected: prices. Assumed: county yields. Not confirmed: the election rule and the loan rate of corn ($2.20)."
	if got := doubts(y); len(got) != 1 || got[0] != want {
		t.Errorf("%v, want %s", got, want)
	}
}

// What stops a payment is told with its farms, other flags are counted.
func TestFlagsToldAndCounted(t *testing.T) {
	c := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	y := year([]answer.CommodityPart{c}, []answer.CommodityPart{c})
	ten := answer.Flag{Code: "ten_acres", Severity: answer.Error, Message: "Base is 9 acres, so nothing is paid (7 CFR 1412.2 as read). Ask the county office."}
	sco := answer.Flag{Code: "sco_by_year", Severity: answer.Info, Message: "Ask about SCO."}
	y.Farms[0].Flags = []answer.Flag{sco, ten}
	y.Farms[1].Flags = []answer.Flag{sco, {Code: "two_counties", Severity: answer.Warning, Message: "Two."}}
	if got := stops(y); len(got) != 1 || got[0] != "Farm 1: Base is 9 acres, so nothing is paid (7 CFR 1412.2 as read)." {
		t.Error(got)
	}
	if got := otherFlags(y); len(got) != 1 || got[0] != "More to check (--farm): two counties on 2; SCO insurance on every farm." {
		t.Error(got)
	}
	y.Farms[1].Flags = append(y.Farms[1].Flags, ten)
	if got := stops(y); len(got) != 1 || !strings.HasPrefix(got[0], "Farms 1 and 2: ") {
		t.Error(got)
	}
}

// A lead that a payment limit shrinks has a mark, and a sentence with what is left.
func TestLimitedLeadHasASentence(t *testing.T) {
	c := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	c.AfterLimit = &answer.DifferenceAfterLimit{Mean: -2.5, Total: -250, ChanceOfLimit: 0.4}
	y := year([]answer.CommodityPart{c})
	y.Standing.Lines[0].AfterLimit = c.AfterLimit
	if got := text(t, lineGrid(y, false)); !strings.Contains(got, "ARC-CO*") {
		t.Error(got)
	}
	want := "* 1 corn: A payment limit is reached in 40 of 100 outcomes. After shares, limit and sequestration PLC is $2.50 a base acre ahead."
	if got := limitedLines(y); !slices.Equal(got, report.Lines{want}) {
		t.Errorf("%v, want %s", got, want)
	}
}

// Of many sentences of one kind the first few are told and the others counted.
func TestManySentencesAreCounted(t *testing.T) {
	got := capped(report.Lines{"a", "b", "c", "d", "e"}, "lines")
	if !slices.Equal(got, report.Lines{"a", "b", "c", "2 more lines: see --full."}) {
		t.Error(got)
	}
}

// A harvest that is over without a report, old prices and carried ones are told with their
// crops, once; a figure with several words is "some" of its kind.
func TestOldFigures(t *testing.T) {
	corn, oats := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12), line(crop.Oats, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	corn.MYA, oats.MYA = &answer.PriceView{Status: crop.Projected}, &answer.PriceView{Status: crop.Assumed}
	corn.Bases = []answer.BasePart{{BaseAcres: 5, CountyYield: &answer.YieldView{KnownFrom: "before_harvest", Status: crop.Projected}}}
	oats.Bases = []answer.BasePart{{BaseAcres: 5, CountyYield: &answer.YieldView{KnownFrom: "local_harvest", Status: crop.Assumed}}}
	oats.AssumedShare = &answer.AssumedShare{Status: crop.Assumed}
	y := year([]answer.CommodityPart{corn, oats}, []answer.CommodityPart{corn})
	for i := range y.Farms {
		y.Farms[i].Flags = []answer.Flag{{Code: marketStale, Message: "Old. Very."}, {Code: priceCarried, Message: "Carried."}, {Code: yieldNotKnown, Message: "Over."}}
	}
	want := report.Lines{
		"Not certain. Projected: some prices and some county yields. Assumed: some prices, some county yields and the irrigated share of oats on farm 1.",
		"Prices are over 45 days old: newer ones can turn a lead (fencerow market).",
		"No USDA price for oats: the last one is carried forward (assumed).",
		"No harvest report for corn: odds are still from before harvest.",
	}
	if got := doubts(y); !slices.Equal(got, want) {
		t.Errorf("%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// The crop year to decide is the first whose sign-up is not over.
func TestYearToDecide(t *testing.T) {
	c := answer.Comparison{Today: "2026-11-25", CropYears: []answer.YearPart{{CropYear: 2025}, {CropYear: 2026}}}
	c.CropYears[0].Standing.LastDay, c.CropYears[1].Standing.LastDay = "2025-04-15", "unknown"
	if y := deciding(c); y.CropYear != 2026 {
		t.Error(y.CropYear)
	}
	c.CropYears[0].Standing.LastDay = "2026-11-25"
	if y := deciding(c); y.CropYear != 2025 {
		t.Error("the last day itself is not past")
	}
}

// A toss-up is told with what decides it; a short second sentence of a flag is told too.
func TestTossUpsAndShortFlags(t *testing.T) {
	c := line(crop.Corn, answer.Close, answer.LeadsARCCO, 60, 30, 10, 0, 1.5, -5, 12)
	c.LeaderReason = "PLC leads if the national price ends lower (4.20)"
	if got := tossUps(year([]answer.CommodityPart{c})); !slices.Equal(got, report.Lines{"Toss-up on 1 corn: PLC leads if the national price ends lower (4.20)."}) {
		t.Error(got)
	}
	long := strings.Repeat("Long words ", 15) + "end. Second."
	for text, want := range map[string]string{"One. Two. Three.": "One. Two.", "One alone.": "One alone.", long: strings.TrimSuffix(long, " Second.")} {
		if got := twoSentences(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// On many lines with a payment limit those are told on which the lead turns.
func TestManyLimitedLines(t *testing.T) {
	var crops []answer.CommodityPart
	for i, mean := range []answer.Dollars{5, 4, -3} {
		c := line(crop.Commodities()[i], answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
		c.AfterLimit = &answer.DifferenceAfterLimit{Mean: mean, ChanceOfLimit: 0.25}
		crops = append(crops, c)
	}
	got := limitedLines(year(crops))
	if len(got) != 2 || !strings.HasPrefix(got[0], "* On 3 lines a payment limit is reached, in up to 25 of 100") || !strings.HasSuffix(got[1], "PLC is $3.00 a base acre ahead.") {
		t.Error(got)
	}
}

// The lines that lean to another program than last elected are named, a few by name; where
// none does, that is said, and where no last election is known, nothing.
func TestLeansOtherwise(t *testing.T) {
	plc, arc := farm.PLC, farm.ARCCO
	one := line(crop.Corn, answer.LeadsARCCO, answer.LeadsARCCO, 60, 30, 10, 0, 9, 5, 12)
	if got := otherwise(year([]answer.CommodityPart{one})); got != nil {
		t.Error(got)
	}
	one.OnRecord = &arc
	if got := otherwise(year([]answer.CommodityPart{one})); !slices.Equal(got, report.Lines{"No line leans otherwise than last elected."}) {
		t.Error(got)
	}
	same := one
	one.OnRecord = &plc
	tossUp := line(crop.Oats, answer.Close, answer.LeadsARCCO, 60, 30, 10, 0, 1, -5, 12)
	tossUp.OnRecord = &plc
	if got := otherwise(year([]answer.CommodityPart{one, tossUp}, []answer.CommodityPart{same}, []answer.CommodityPart{one})); !slices.Equal(got, report.Lines{"Leans otherwise than last elected: 1 corn, 3 corn."}) {
		t.Error(got)
	}
	many := []answer.CommodityPart{one, one, one, one, one}
	if got := otherwise(year(many)); len(got) != 1 || !strings.HasSuffix(got[0], "1 corn, 1 corn, 1 corn, 2 more.") {
		t.Error(got)
	}
}

// The title has the first words of the source of the prices; where these are not all of it,
// the end of the answer has the whole.
func TestSourceOfThePrices(t *testing.T) {
	c := answer.Comparison{Market: answer.MarketDate{AsOf: "2026-11-10"}, CropYears: []answer.YearPart{{CropYear: 2026}}}
	for source, want := range map[string][2]string{
		"invented for the demo": {"Prices of November 10, 2026 (invented for the demo).", ""},
		"WASDE-675, USDA Office of the Chief Economist, 11 September 2026": {"Prices of November 10, 2026 (WASDE-675).", "Prices: WASDE-675, USDA Office of the Chief Economist, 11 September 2026."},
		"what the elevator in town said it would pay":                      {"Prices of November 10, 2026 (what the elevator in).", "Prices: what the elevator in town said it would pay."},
		"": {"Prices of November 10, 2026.", ""},
	} {
		c.Market.Source = source
		if got := [2]string{prices(c.Market), wholeSource(c)}; got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if n := len(title(c)); n > 80 {
			t.Errorf("a title of %d columns: %s", n, title(c))
		}
	}
}

// Each flag that no sentence tells has a name in few words; codes are read from where the
// flags are raised.
func TestFlagsHaveNames(t *testing.T) {
	files, err := filepath.Glob("../../../sim/flag/*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	raised := regexp.MustCompile(`Code: "([a-z0-9_]+)", Severity: answer\.(Warning|Info)`)
	known := map[string]bool{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range raised.FindAllStringSubmatch(string(text), -1) {
			known[found[1]] = true
			if flagNames[found[1]] == "" && !slices.Contains(saidElsewhere, found[1]) {
				t.Errorf("%s has no name", found[1])
			}
		}
	}
	for code := range flagNames {
		if !known[code] {
			t.Errorf("nothing raises %s", code)
		}
	}
}
