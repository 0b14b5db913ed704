package personal

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

func answered(t *testing.T, c answer.Question) answer.Comparison {
	t.Helper()
	found, err := compare.Answer(c)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// twoFarms has a farm shared 60 to 40, PLC last elected, and one of the operator alone,
// ARC-CO last elected.
func twoFarms() answer.Question {
	c := cases.Corn()
	c.Operation.Producers = []farm.Producer{{ID: "operator", Kind: farm.Person}, {ID: "landowner", Kind: farm.Person}}
	cases.Record(&c, farm.PLC)
	c.Operation.Farms[0].Shares = farm.ByCropYear[farm.Shares]{Every: &farm.Shares{"operator": 0.6, "landowner": 0.4}}
	other := invented.OneFarm("0588", invented.Base(crop.Corn, 80, 170))
	other.Record = map[crop.Commodity]farm.Program{crop.Corn: farm.ARCCO}
	c.Operation.Farms = append(c.Operation.Farms, other)
	return c
}

// textOf is all texts of a report.
func textOf(r report.Report) string {
	var all []string
	for i := 0; i < len(r.Blocks); i++ {
		switch b := r.Blocks[i].(type) {
		case report.Beside:
			r.Blocks = slices.Concat(r.Blocks[:i+1], b.Left, b.Right, r.Blocks[i+1:])
		case report.Heading:
			all = append(all, b.Text)
		case report.Text:
			all = append(all, string(b))
		case report.Grid:
			r.Blocks = slices.Insert(r.Blocks, i+1, report.Block(b.Table()))
		case report.List:
			for _, p := range b {
				all = append(all, p.Text)
			}
		case report.Table:
			all = append(all, b.Title)
			for _, row := range b.Rows {
				all = append(all, strings.Join(row, " | "))
			}
		default:
			all = append(all, fmt.Sprint(b))
		}
	}
	return strings.Join(all, "\n")
}

func says(t *testing.T, text string, wanted ...string) {
	t.Helper()
	for _, w := range wanted {
		if !strings.Contains(text, w) {
			t.Errorf("does not say %q:\n%s", w, text)
		}
	}
}

func saysNot(t *testing.T, text string, unwanted ...string) {
	t.Helper()
	for _, w := range unwanted {
		if strings.Contains(text, w) {
			t.Errorf("says %q:\n%s", w, text)
		}
	}
}

// A person's own sheet has no amount and no share of anybody else, nor the sum of all, nor
// a farm that is not shared.
func TestNobodyElsesMoney(t *testing.T) {
	c := answered(t, twoFarms())
	text := textOf(OfPerson(c, "landowner"))
	o := c.CropYears[0].Operation
	var others []float64
	for _, u := range o.Under {
		others = append(others, float64(*u.Mean), float64(*u.MeanAfterLimit))
		others = append(others, u.Percentiles[:]...)
		p := u.ByPerson[0]
		others = append(others, float64(p.Mean), float64(p.MeanAfterLimit), float64(p.WithheldSequestration))
		others = append(others, p.Percentiles[:]...)
	}
	for _, x := range others {
		if x >= 1 {
			d := answer.Dollars(x)
			saysNot(t, text, amount(d)+" ", amount(d)+".")
		}
	}
	saysNot(t, text, "60 percent", "0588")
	says(t, text, "your share is 40 percent", "you and the operator share in the crop, so both of you must agree on the election and sign.", amount(o.Under[0].ByPerson[1].MeanAfterLimit), amount(o.Under[1].ByPerson[1].MeanAfterLimit))
	says(t, textOf(OfPerson(c, "operator")), "Farm 0588: nobody else shares in the crop, so you decide.")
}

// A landlord on cash rent has no share: no money, no part in the decision.
func TestCashRent(t *testing.T) {
	c := twoFarms()
	c.Operation.Producers = append(c.Operation.Producers, farm.Producer{ID: "owner", Kind: farm.Person})
	text := textOf(OfPerson(answered(t, c), "owner"))
	says(t, text, "A landlord on cash rent is not paid and has no part in the election.")
	saysNot(t, text, "$", "must agree")
}

// Who owns an entity is paid through it; the entity itself keeps nothing.
func TestEntityAndItsOwner(t *testing.T) {
	c := twoFarms()
	c.Operation.Producers[1] = farm.Producer{ID: "landowner", Kind: farm.JointOperation, Members: []farm.Member{{ID: "ann", Share: 0.5}, {ID: "ben", Share: 0.5}}}
	found := answered(t, c)
	says(t, textOf(OfPerson(found, "ann")), "You are paid through an entity.", amount(found.CropYears[0].Operation.Under[1].ByPerson[2].MeanAfterLimit))
	says(t, textOf(OfPerson(found, "landowner")), "Nothing is paid to you yourself for 2026. If you are an entity, your owners are paid.")
	lender := textOf(OfLender(found, false))
	says(t, lender, "Ann: dollars on average, and in poor cases", "Ben: dollars on average")
	saysNot(t, lender, "The landowner: dollars")
}

// What outcomes pay, with those that pay nothing told as nothing.
func TestOutcomes(t *testing.T) {
	for want, at := range map[string]answer.Percentiles{
		"10 of 100 outcomes pay you less than $100. 25 of 100 pay less than $200. 10 of 100 pay more than $500.":    {50, 100, 200, 300, 400, 500, 600},
		"At least 10 of 100 outcomes pay you nothing. 25 of 100 pay less than $2.50. 10 of 100 pay more than $500.": {0, 0, 2.5, 300, 400, 500, 600},
		"At least 25 of 100 outcomes pay you nothing. 10 of 100 pay more than $500.":                                {0, 0, 0, 300, 400, 500, 600},
		"At least 50 of 100 outcomes pay you nothing. 10 of 100 pay more than $500.":                                {0, 0, 0, 0, 400, 500, 600},
		"At least 50 of 100 outcomes pay you nothing.":                                                              {},
		"Past years are too few to say what 10 of 100 outcomes pay.":                                                {math.NaN(), math.NaN()},
	} {
		if got := outcomes("", &answer.PersonPart{Percentiles: at}); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}

// The middle case stands beside the average, unless past years are too few.
func TestMiddle(t *testing.T) {
	for want, at := range map[string]float64{"; half of outcomes pay less than $300": 300, "; at least half of outcomes pay nothing": 0, "": math.NaN()} {
		if got := middle(&answer.PersonPart{Percentiles: answer.Percentiles{answer.Half: at}}); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A person is told when half of the outcomes pay less than some amount, under both sets.
func TestLeadHasTheMiddle(t *testing.T) {
	q := twoFarms()
	invented.Project(q.Market, crop.Corn, 2026, 3.9, 0.15) // so low that most outcomes pay
	c := answered(t, q)
	lead := readerOf(&c, "operator", 0).answer(middle)
	for _, name := range []answer.UnderName{answer.LastElected, answer.AsItLeans} {
		p := c.CropYears[0].Operation.UnderElections(name).ByPerson[0]
		if p.Percentiles[answer.Half] < 1 {
			t.Fatal("the middle case pays nothing")
		}
		says(t, lead, amount(p.MeanAfterLimit), amount(answer.Dollars(p.Percentiles[answer.Half])))
	}
	if last, leads, _ := strings.Cut(lead, "As the figures lean, it is "); !strings.HasPrefix(last, "As last elected, ") || leads == "" {
		t.Error(lead)
	}
}

// A leaning choice with the higher average is poorer where it pays less in 1 outcome of 10,
// or as much there and less in 1 of 4; cents that are not written do not count.
func TestPoorer(t *testing.T) {
	other := &answer.PersonPart{Percentiles: answer.Percentiles{answer.Tenth: 100, answer.Quarter: 200}}
	for at, want := range map[answer.Percentiles]bool{
		{answer.Tenth: 99, answer.Quarter: 500}: true, {answer.Tenth: 100, answer.Quarter: 199}: true, {answer.Tenth: 99.9, answer.Quarter: 200.3}: false, {answer.Tenth: 101, answer.Quarter: 100}: false,
	} {
		if got := poorer(&answer.PersonPart{Percentiles: at}, other); got != want {
			t.Errorf("%v: %t", at, got)
		}
	}
}

// Crops that lean otherwise than last elected are named by program, in sentences of at most
// 25 words; of many farms it says how many.
func TestMoves(t *testing.T) {
	var moves doubts
	moves.put("0417", "corn on %s to ARC-CO")
	moves.put("1203", "wheat on %s to PLC")
	if got, want := movesOf(2026, moves), "For 2026 the figures lean otherwise than last elected: corn on 0417 to ARC-CO, wheat on 1203 to PLC."; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	for i := range mostNamed {
		moves.put(fmt.Sprint(500+i), "corn on %s to ARC-CO")
	}
	moves.put("0588", "temperate japonica rice on %s to PLC")
	says(t, movesOf(2027, moves), "corn on 5 farms to ARC-CO, wheat on 1203 to PLC. Also: temperate japonica rice on 0588 to PLC.")
}

// Counties are named once each, with their common word once.
func TestJoinedCounties(t *testing.T) {
	for want, names := range map[string][]string{
		"Alder and Birch County": {"Alder County", "Birch County"}, "Alder County": {"Alder County"}, "Alder County and county 99003": {"Alder County", "county 99003"},
	} {
		if got := joinedCounties(names); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Whoever is barred by average income is named among what withholds money.
func TestIncomeLimitIsNamed(t *testing.T) {
	const named = "barred by the income limit"
	c := twoFarms()
	saysNot(t, textOf(OfLender(answered(t, c), false)), named)
	c.Operation.Producers[1].IncomeOverLimit = true
	says(t, textOf(OfLender(answered(t, c), false)), named)
}

// In crop year 2025 the law pays the higher of both: no lead, no election, one row.
func TestHigherOfBoth(t *testing.T) {
	c := cases.HigherOf2025()
	cases.Record(&c, farm.PLC)
	found := answered(t, c)
	text := textOf(OfPerson(found, "operator"))
	says(t, text, "For 2025 the law pays the higher of PLC and ARC-CO on each crop, whatever was elected.", "Sign-up for 2025 ended April 15, 2025.")
	saysNot(t, text, "must agree", "leans", "a base acre ahead")
	lender := textOf(OfLender(found, false))
	says(t, lender, "Oct 2026 (2025) higher program", "2025 (if the farms signed) on average", "Some of the money for 2025 may be paid already.", "The file does not say whether farm 0417 signed.")
	saysNot(t, lender, "as last elected |", "as it leans |")
}

// A lender never sees an ARC-IC figure that was not asked for: neither one on record, where
// the question leaves it out, nor one that may matter.
func TestLenderAndARCIC(t *testing.T) {
	c := cases.OwnFarm("local_harvest", 188, invented.Number(120))
	cases.Record(&c, farm.ARCIC)
	c.LeaveOutARCIC = true
	text := textOf(OfLender(answered(t, c), false))
	says(t, text, "Oct 2027 (2026) as last elected | unknown", "There is no amount as last elected for 2026, for want of elections or figures.")
	saysNot(t, text, "with ARC-IC on")
	other := invented.OneFarm("0588", invented.Base(crop.Corn, 80, 170))
	other.Record = map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}
	c.Operation.Farms = append(c.Operation.Farms, other)
	says(t, textOf(OfLender(answered(t, c), false)), "Not included as last elected for 2026: corn on farm 0417. An election or a figure is missing.")
	c.LeaveOutARCIC, c.WithARCIC = false, true
	says(t, textOf(OfLender(answered(t, c), true)), "(2026) as last elected, ARC-IC included (not confirmed) | $")
	c = cases.OwnFarm("local_harvest", 188, invented.Number(120))
	cases.Record(&c, farm.PLC)
	says(t, textOf(OfLender(answered(t, c), false)), "ARC-IC may matter on farm 0417 for 2026. Its figures are not confirmed and are not included.")
	c.WithARCIC = true
	says(t, textOf(OfLender(answered(t, c), true)), "(2026) with ARC-IC on farm 0417, not confirmed | $", "ARC-IC follows the farm's own yields too.")
}

// Many crops stand in a table instead of sentences, those of one farm in its rows.
func TestManyCropsAreATable(t *testing.T) {
	c := twoFarms()
	for i := range mostInSentences {
		c.Operation.Farms = append(c.Operation.Farms, invented.OneFarm(fmt.Sprint(700+i), invented.Base(crop.Corn, 100, 150)))
	}
	found := answered(t, c)
	text := textOf(OfPerson(found, "operator"))
	part := found.CropYears[0].Farms[0].Commodities[0]
	says(t, text, "0417 corn | 60 percent | ", string(part.Leans)+" $", " | PLC\n", "705 corn | 100 percent | ")
	saysNot(t, text, "your share is")
	if lines := strings.Count(text, " corn | "); lines != 2+mostInSentences {
		t.Errorf("%d rows", lines)
	}
	says(t, textOf(OfPerson(found, "landowner")), "your share is 40 percent")
}

// Printed amounts add up: earned less withheld is paid.
func TestRowsAddUp(t *testing.T) {
	rows := 0
	for _, b := range OfLender(answered(t, twoFarms()), false).Blocks {
		table, is := b.(report.Grid)
		if !is {
			continue
		}
		for _, row := range table.Rows {
			var n [3]int
			for i := range n {
				fmt.Sscan(strings.NewReplacer("$", "", ",", "").Replace(row[i+1]), &n[i])
			}
			if rows++; n[0]-n[1] != n[2] || n[2] <= 0 {
				t.Errorf("%v: %d less %d is not %d", row, n[0], n[1], n[2])
			}
		}
	}
	if rows != 4 {
		t.Errorf("%d rows, want two for each of two people", rows)
	}
}

// The limit is told to the person who reaches it, and to a lender.
func TestLimitIsTold(t *testing.T) {
	c := cases.SharedOperation(1500, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	cases.Record(&c, farm.PLC)
	found := answered(t, c)
	says(t, textOf(OfPerson(found, "operator")), "You reach the payment limit of $155,000 in 100 of 100 outcomes. On average it keeps back $25,349.")
	says(t, textOf(OfLender(found, false)), "The operator reaches the payment limit of $155,000 in 100 of 100 outcomes for 2026. It keeps back $25,349 on average.")
	says(t, textOf(OfLender(answered(t, twoFarms()), false)), "Payment limit a person: $159,000 for 2026 (projected). ", "Nobody reaches it in any outcome.")
}

// Missing figures and missing elections are named, not counted as zero.
func TestMissingIsNamed(t *testing.T) {
	c := cases.Corn()
	found := answered(t, c)
	says(t, textOf(OfPerson(found, "operator")), "As the figures lean, you would be paid $", "No last election is known here.", "Not included as last elected, for want of an election or a figure: corn on farm 0417.")
	c.Market = invented.Market("2026-11-10")
	found = answered(t, c)
	says(t, textOf(OfPerson(found, "operator")), "What you are paid for 2026 is not known here: figures are missing.", "The programs cannot be compared")
	says(t, textOf(OfLender(found, false)), "What people are paid is not known here: figures are missing.")
}

// A crop's years are told once, crops with the same years together.
func TestPricesByYears(t *testing.T) {
	at := func(y crop.CropYear, crops ...crop.Commodity) *reader {
		r := &reader{year: &answer.YearPart{CropYear: y}}
		for _, c := range crops {
			r.lines = append(r.lines, line{&answer.StandingLine{Commodity: c}, &answer.CommodityPart{MYA: &answer.PriceView{Status: crop.Projected}}, 1})
		}
		return r
	}
	got := pricesOpen([]*reader{at(2025, crop.Corn, crop.Soybeans), at(2026, crop.Corn, crop.Soybeans, crop.Wheat)})
	if want := "wheat in 2026, and corn and soybeans in 2025 and 2026"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// No sentence has more than 25 words, nor a word that people have to be told first.
func TestSentencesAreShort(t *testing.T) {
	c := twoFarms()
	found := answered(t, c)
	higher := cases.HigherOf2025()
	cases.Record(&higher, farm.PLC)
	higherFound := answered(t, higher)
	checked := 0
	for _, r := range []report.Report{OfPerson(found, "operator"), OfPerson(found, "landowner"), OfLender(found, false), OfPerson(higherFound, "operator"), OfLender(higherFound, false)} {
		for _, paragraph := range strings.Split(textOf(r), "\n") {
			for _, sentence := range regexp.MustCompile(`\. |\.$`).Split(paragraph, -1) {
				checked++
				if n := len(strings.Fields(sentence)); n > 25 {
					t.Errorf("%d words: %s", n, sentence)
				}
				for _, word := range []string{"mean", "percentile", "probability", "expected", "on record", "anew", "USD", "commodity", "producer", "persons"} {
					if slices.Contains(strings.Fields(strings.ToLower(sentence)), word) {
						t.Errorf("%q in: %s", word, sentence)
					}
				}
			}
		}
	}
	if checked < 100 {
		t.Errorf("%d sentences", checked)
	}
}
