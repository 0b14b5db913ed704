package report

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
	"fencerow/sim/backtest"
)

// OfScore lays out how the odds of past crop years compare with what came.
func OfScore(s backtest.Result) Report {
	var r Report
	r.heading(1, "The odds of past crop years against what came")
	r.text(fmt.Sprintf("Every county and practice, weighted by the base acres of the county (at least %s). Each is asked about in May before harvest, and again in November.", wording.Plain(&s.LeastBase)))
	r.text("Counties of one year share its price, so the sample is a few years, however many counties there are. November knows the State's yields as they ended, which flatters. \"November, price alone\" knows nothing of them. What people could know lies between the two.")
	r.text("First: chances and payments of ARC-CO. Said: what the odds were. Came: what FSA paid. Off by chance: how far the two may differ with so few years, in 2 of 3 cases.")
	r.table(sharesTable(s))
	for _, o := range s.Odds {
		r.text(outsideSentence(o))
	}
	r.text("How near the chances were, and how often revenue ended where they put it. Brier score: 0 is perfect, 0.25 is a coin toss.")
	r.table(qualityTable(s))
	r.table(binsTable(s))
	r.text(fmt.Sprintf("What following the lead would have paid at the county's own PLC yield, dollars per base acre and year. Where that yield is not known it is %s. Hindsight takes the higher one every time. Until crop year 2020 elections held for several years, so choosing each year is hypothetical there.", answer.YieldAssumed()))
	r.table(decisionTable(s))
	r.text("Given up: hindsight minus following. Price known, yield known: what would still have been given up with the final price, or the county yield, known at the choice.")
	r.table(lostTable(s))
	r.table(aheadTable(s))
	r.text("Leads by how sure they were. Held: the program that led or leaned paid more, of the counties in which the two paid differently.")
	r.table(leaderTable(s))
	r.table(partsTable("States with the most base acres, all crops, asked in November", s.States[:min(len(s.States), statesShown)]))
	r.table(partsTable("Wheat by the class of which NASS has most yields in the county", s.Classes))
	for _, y := range s.WorstYears {
		r.text(fmt.Sprintf("Following gave up most in %d (asked in %s): it paid %s a base acre, hindsight %s. Always ARC-CO paid %s, always PLC %s, in %d counties.", y.CropYear, y.KnownFrom, wording.Money(&y.Following), wording.Money(&y.Hindsight), wording.Money(&y.AlwaysARCCO), wording.Money(&y.AlwaysPLC), y.Rows))
	}
	r.text(fmt.Sprintf("Made with seed %d, %d draws for each county.", s.Seed, s.Draws))
	r.caution(s.Caution)
	return r
}

// outsideSentence names a crop whose odds and outcomes differ by more than two standard
// errors, and the crop years behind that; "" for others.
func outsideSentence(o backtest.OddsCheck) string {
	if !o.SharePaid.Outside() && !o.MeanPaid.Outside() {
		return ""
	}
	years := slices.Clone(o.Years)
	sort.SliceStable(years, func(i, j int) bool { return gap(years[i]) > gap(years[j]) })
	text := fmt.Sprintf("Asked in %s, %s is off by more than chance explains. Said: %s of 100 base acres paid, and %s percent of revenue. Came: %s and %s.",
		o.KnownFrom, o.Commodity.Name(), wording.InHundred(o.SharePaid.Said), inPercent(o.MeanPaid.Said), wording.InHundred(o.SharePaid.Came), inPercent(o.MeanPaid.Came))
	if len(years) > 1 {
		text += fmt.Sprintf(" Furthest off: %d (said %s, came %s) and %d (said %s, came %s).", years[0].CropYear, wording.InHundred(years[0].SaidShare), wording.InHundred(years[0].CameShare), years[1].CropYear, wording.InHundred(years[1].SaidShare), wording.InHundred(years[1].CameShare))
	}
	return text
}

// gap returns by how much the stated share and the one that came differ in a year.
func gap(y backtest.YearOdds) float64 { return math.Abs(float64(y.SaidShare - y.CameShare)) }

func sharesTable(s backtest.Result) Table {
	t := Table{Title: "Base acres paid, of 100, and payment, percent of benchmark revenue", Columns: []string{"asked in, crop", "years", "said", "came", "off by chance", "payment said", "came", "off"}}
	for _, o := range s.Odds {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s", o.KnownFrom, o.Commodity.Name()), fmt.Sprint(len(o.Years)),
			inPercent(o.SharePaid.Said), inPercent(o.SharePaid.Came), inPercent(o.SharePaid.StandardError), inPercent(o.MeanPaid.Said), inPercent(o.MeanPaid.Came), inPercent(o.MeanPaid.StandardError)})
	}
	return t
}

func qualityTable(s backtest.Result) Table {
	t := Table{Title: "Brier scores, and how often revenue ended in the middle 50, 80 and 90 of 100", Columns: []string{"asked in, crop", "Brier", "50", "80", "90"}}
	for _, o := range s.Odds {
		row := []string{fmt.Sprintf("%s %s", o.KnownFrom, o.Commodity.Name()), program.Text(float64(o.Brier.Mean), 4)}
		for _, w := range o.Within {
			row = append(row, wording.InHundred(w))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func decisionTable(s backtest.Result) Table {
	t := Table{Title: "Dollars per base acre, average of the crop years", Columns: []string{"asked in, crop", "rows", "following", "nation", "last winner", "ARC-CO", "PLC", "hindsight"},
		Notes: []string{"Nation: in the parts in which the nation had enrolled.", "Last winner: the program that paid more in the newest earlier year.", "ARC-CO, PLC: always that one."}}
	for _, d := range s.Decisions {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s", d.KnownFrom, d.Commodity.Name()), wording.Grouped(float64(d.Rows), 0), wording.Money(&d.Following), wording.Money(&d.Enrolled), wording.Money(&d.LastWinner), wording.Money(&d.AlwaysARCCO), wording.Money(&d.AlwaysPLC), wording.Money(&d.Hindsight)})
	}
	return t
}

// lostTable splits what was lost against hindsight.
func lostTable(s backtest.Result) Table {
	t := Table{Title: "Given up against hindsight, dollars per base acre", Columns: []string{"asked in, crop", "given up", "price known", "yield known"}}
	for _, d := range s.Decisions {
		if d.PriceKnown == 0 {
			continue
		}
		lost := func(paid answer.Dollars) string { left := d.Hindsight - paid; return wording.Money(&left) }
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s", d.KnownFrom, d.Commodity.Name()), lost(d.Following), lost(d.PriceKnown), lost(d.YieldKnown)})
	}
	return t
}

// binsTable sets chances beside how often they came.
func binsTable(s backtest.Result) Table {
	t := Table{Title: "Chances of an ARC-CO payment, and how many of 100 base acres were paid", Columns: []string{"asked in, chance", "said", "came", "off by chance", "of 100 base acres"}}
	for _, b := range s.Bins {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s to %s", b.KnownFrom, wording.InHundred(b.From), wording.InHundred(b.To)), wording.InHundred(b.Said), wording.InHundred(b.Came), inPercent(b.StandardError), inPercent(b.Share)})
	}
	return t
}

// statesShown is how many States the report lists; JSON has all.
const statesShown = 12

// partsTable shows parts of the rows, such as States.
func partsTable(title string, parts []backtest.Part) Table {
	t := Table{Title: title, Columns: []string{"", "base acres", "said", "came", "off", "following", "nation", "hindsight"},
		Notes: []string{"Said, came, off: of 100 base acres paid by ARC-CO.", "Following, nation, hindsight: dollars per base acre."}}
	for _, p := range parts {
		name := p.Of
		if p.KnownFrom == backtest.May {
			name += ", " + string(p.KnownFrom)
		}
		t.Rows = append(t.Rows, []string{name, wording.Grouped(float64(p.BaseAcres), 0), wording.InHundred(p.SharePaid.Said), wording.InHundred(p.SharePaid.Came), inPercent(p.SharePaid.StandardError), wording.Money(&p.Following), wording.Money(&p.Enrolled), wording.Money(&p.Hindsight)})
	}
	return t
}

// rivalNames are other ways of choosing in words.
var rivalNames = map[string]string{"enrolled": "nation", "last_winner": "last winner", "always_arc_co": "always ARC-CO", "always_plc": "always PLC"}

// aheadTable says by how much following the leader paid more than other ways of choosing.
func aheadTable(s backtest.Result) Table {
	t := Table{Title: "Following the lead against other ways of choosing, dollars per base acre", Columns: []string{"asked in, crop, against", "more", "off by chance", "years ahead"}}
	for _, d := range s.Decisions {
		for _, a := range d.Ahead {
			t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s, %s", d.KnownFrom, d.Commodity.Name(), rivalNames[a.Of]), wording.Money(&a.Mean), wording.Money(&a.StandardError), fmt.Sprintf("%d of %d", a.Won, a.Years)})
		}
	}
	return t
}

// leaderKinds are the kinds of lead in words.
var leaderKinds = map[string]string{"clear": "clear", "close": "toss-up", "little_chance": "little at stake"}

func leaderTable(s backtest.Result) Table {
	t := Table{Title: "Leads, of 100 counties", Columns: []string{"asked in, crop, lead", "of 100", "held", "neither paid", "given up"},
		Notes: []string{"given up: dollars per base acre against hindsight"}}
	for _, d := range s.Decisions {
		for _, l := range d.Leaders {
			held := "-"
			if l.Right != nil {
				held = wording.InHundred(*l.Right)
			}
			t.Rows = append(t.Rows, []string{fmt.Sprintf("%s %s, %s", d.KnownFrom, d.Commodity.Name(), leaderKinds[l.Kind]), wording.InHundred(l.Share), held, wording.InHundred(l.NonePaid), wording.Money(&l.GivenAway)})
		}
	}
	return t
}

// inPercent writes a share as a percentage with one decimal, without the word.
func inPercent(c answer.Chance) string { return program.Text(100*float64(c), 1) }
