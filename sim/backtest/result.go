package backtest

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
)

// Result is the odds of past crop years against what came. Crop years, not counties, are
// the sample: counties of one year share its price.
type Result struct {
	Format     string          `json:"format"` // fencerow/score/3
	Seed       uint64          `json:"seed"`
	Draws      int             `json:"draws"` // per county
	LeastBase  answer.Dollars  `json:"least_base_acres"`
	Odds       []OddsCheck     `json:"odds"`
	Decisions  []DecisionCheck `json:"decisions"`
	Bins       []Bin           `json:"bins"`
	States     []Part          `json:"states"`        // asked in November
	Classes    []Part          `json:"wheat_classes"` // asked in May and in November
	WorstYears []YearDecision  `json:"worst_years"`   // in which following lost most, the worst first
	Caution    []string        `json:"caution"`
}

// OddsCheck is one commodity at one state of knowledge: what the odds said and what
// came.
type OddsCheck struct {
	KnownFrom Knowledge        `json:"known_from"`
	Commodity crop.Commodity   `json:"commodity"`
	Rows      int              `json:"rows"`
	Years     []YearOdds       `json:"years"`
	SharePaid Against          `json:"share_paid"`
	MeanPaid  Against          `json:"mean_payment"` // over benchmark revenue
	Brier     Estimate         `json:"brier"`
	BrierHalf *Estimate        `json:"brier_at_half_spread"` // nil where Setup.OtherSpreads is not asked, and before harvest
	BrierWide *Estimate        `json:"brier_at_one_and_a_half_spread"`
	CRPS      Estimate         `json:"crps"` // of the payment over benchmark revenue
	PIT       Estimate         `json:"mean_pit"`
	Within    [3]answer.Chance `json:"within_50_80_90"` // of revenue: how often in the middle 50, 80 and 90 of 100
}

// YearOdds is one crop year of an OddsCheck.
type YearOdds struct {
	CropYear  crop.CropYear `json:"crop_year"`
	Rows      int           `json:"rows"`
	SaidShare answer.Chance `json:"said_share_paid"`
	CameShare answer.Chance `json:"share_paid"`
	SaidMean  answer.Chance `json:"said_mean_payment"`
	CameMean  answer.Chance `json:"mean_payment"`
	CRPS      answer.Chance `json:"crps"` // of the payment over benchmark revenue
}

// Against is what the odds said and what came, each a mean over crop years, and the
// standard error of their difference.
type Against struct {
	Said          answer.Chance `json:"said"`
	Came          answer.Chance `json:"came"`
	StandardError answer.Chance `json:"standard_error_of_difference"`
}

// Outside reports whether the two are more than two standard errors apart.
func (a Against) Outside() bool {
	return math.Abs(float64(a.Said-a.Came)) > 2*float64(a.StandardError)
}

// Estimate is a mean over crop years with its standard error.
type Estimate struct {
	Mean          answer.Chance `json:"mean"`
	StandardError answer.Chance `json:"standard_error"`
}

// DecisionCheck is what following the leader would have paid, USD per base acre,
// averaged over counties and then over crop years.
type DecisionCheck struct {
	KnownFrom   Knowledge      `json:"known_from"`
	Commodity   crop.Commodity `json:"commodity"`
	Rows        int            `json:"rows"`
	Following   answer.Dollars `json:"following"`
	AlwaysARCCO answer.Dollars `json:"always_arc_co"`
	AlwaysPLC   answer.Dollars `json:"always_plc"`
	LastWinner  answer.Dollars `json:"last_winner"` // the program that paid more in the newest earlier year
	Enrolled    answer.Dollars `json:"enrolled"`    // in the parts in which the nation had enrolled
	Hindsight   answer.Dollars `json:"hindsight"`
	PriceKnown  answer.Dollars `json:"following_price_known"` // had the final price been known; 0 where it was not worked out
	YieldKnown  answer.Dollars `json:"following_yield_known"` // had the county yield been known
	Ahead       []Ahead        `json:"ahead"`
	Leaders     []LeaderCheck  `json:"leaders"`
}

// Ahead is by how much following the leader paid more than another way of choosing, USD
// per base acre.
type Ahead struct {
	Of            string         `json:"of"` // enrolled, last_winner, always_arc_co, always_plc
	Mean          answer.Dollars `json:"mean"`
	StandardError answer.Dollars `json:"standard_error"` // from crop year to crop year
	Won           int            `json:"years_won"`      // crop years in which it paid more or as much
	Years         int            `json:"years"`
}

// LeaderCheck is how one kind of leader did.
type LeaderCheck struct {
	Kind      string         `json:"kind"`       // clear, close, little_chance
	Share     answer.Chance  `json:"share"`      // of rows
	Differed  int            `json:"differed"`   // rows in which the programs paid differently
	Right     *answer.Chance `json:"right"`      // of those; nil for none
	NonePaid  answer.Chance  `json:"none_paid"`  // share of rows in which neither paid
	GivenAway answer.Dollars `json:"given_away"` // against hindsight
}

// YearDecision is what following the leader paid in one crop year, all commodities
// together, USD per base acre.
type YearDecision struct {
	KnownFrom   Knowledge      `json:"known_from"`
	CropYear    crop.CropYear  `json:"crop_year"`
	Rows        int            `json:"rows"`
	Following   answer.Dollars `json:"following"`
	AlwaysARCCO answer.Dollars `json:"always_arc_co"`
	AlwaysPLC   answer.Dollars `json:"always_plc"`
	Hindsight   answer.Dollars `json:"hindsight"`
}

// Run tests the odds against the past crop years of the tables. progress is called as
// groups of rows are done.
func Run(s Setup, progress func(done, all int)) (Result, error) {
	rows, err := s.test(progress)
	if err != nil {
		return Result{}, err
	}
	rows = slices.DeleteFunc(rows, func(r testedRow) bool { return math.IsNaN(r.pit) })
	result := Result{Format: Format, Seed: s.Seed, Draws: odds.NewScenarios(s.Seed, s.Draws).N(), LeastBase: answer.Dollars(s.LeastBase), Caution: answer.Caution()}
	for _, k := range knowledges {
		for _, c := range crop.Commodities() {
			some := filter(rows, func(r testedRow) bool { return r.knowledge == k && r.row.Commodity == c })
			if len(some) == 0 {
				continue
			}
			result.Odds = append(result.Odds, oddsCheck(k, c, some, s.OtherSpreads && k == November))
			result.Decisions = append(result.Decisions, decisionCheck(k, c, some))
		}
	}
	for _, k := range knowledges {
		if some := filter(rows, func(r testedRow) bool { return r.knowledge == k }); len(some) > 0 {
			result.Decisions = append(result.Decisions, decisionCheck(k, allTogether, some))
		}
	}
	classes := wheatClasses(s.Past.Harvested)
	for _, k := range knowledges {
		some := filter(rows, func(r testedRow) bool { return r.knowledge == k })
		if len(some) == 0 {
			continue
		}
		result.Bins = append(result.Bins, binsOf(k, some)...)
		if k != NovemberPrice {
			wheat := filter(some, func(r testedRow) bool { return r.row.Commodity == crop.Wheat })
			result.Classes = append(result.Classes, partsOf(k, wheat, func(r testedRow) string { return classes[r.row.County] })...)
		}
		if k == November {
			result.States = partsOf(k, some, stateOf)
		}
	}
	result.WorstYears = worstYears(rows)
	return result, nil
}

func filter(rows []testedRow, keep func(testedRow) bool) []testedRow {
	var some []testedRow
	for _, r := range rows {
		if keep(r) {
			some = append(some, r)
		}
	}
	return some
}

// byYear splits rows by crop year, oldest first.
func byYear(rows []testedRow) [][]testedRow {
	var years [][]testedRow
	sorted := slices.Clone(rows)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].row.CropYear < sorted[j].row.CropYear })
	for _, r := range sorted {
		if n := len(years); n > 0 && years[n-1][0].row.CropYear == r.row.CropYear {
			years[n-1] = append(years[n-1], r)
			continue
		}
		years = append(years, []testedRow{r})
	}
	return years
}

// allTogether stands for the commodity where all are counted together.
const allTogether crop.Commodity = "all"

// average returns the mean of a figure over the base acres of rows.
func average(rows []testedRow, of func(testedRow) float64) float64 {
	sum, weight := 0.0, 0.0
	for _, r := range rows {
		sum, weight = sum+r.weight*of(r), weight+r.weight
	}
	return sum / weight
}

// weightOf returns the base acres of rows.
func weightOf(rows []testedRow) (sum crop.Acres) {
	for _, r := range rows {
		sum += r.weight
	}
	return sum
}

// estimate averages a figure over the rows of each year, then over years.
func estimate(years [][]testedRow, of func(testedRow) float64) Estimate {
	var means []float64
	for _, rows := range years {
		means = append(means, average(rows, of))
	}
	mean, sd := stat.MeanStdDev(means, nil)
	return Estimate{answer.Chance(mean), answer.Chance(sd / math.Sqrt(float64(len(means))))}
}

// saidAndCame averages both figures year by year.
func saidAndCame(years [][]testedRow, said, came func(testedRow) float64) Against {
	difference := estimate(years, func(r testedRow) float64 { return said(r) - came(r) })
	return Against{estimate(years, said).Mean, estimate(years, came).Mean, difference.StandardError}
}

func paid(r testedRow) float64 {
	if r.row.Rate > 0 {
		return 1
	}
	return 0
}

func crpsOf(r testedRow) float64 { return r.crps }

func paidRatio(r testedRow) float64 { return r.row.Rate / r.row.BenchmarkRevenue }

func oddsCheck(k Knowledge, c crop.Commodity, rows []testedRow, otherSpreads bool) OddsCheck {
	years := byYear(rows)
	s := OddsCheck{KnownFrom: k, Commodity: c, Rows: len(rows)}
	said, mean := func(r testedRow) float64 { return r.chance }, func(r testedRow) float64 { return r.mean }
	for _, of := range years {
		s.Years = append(s.Years, YearOdds{of[0].row.CropYear, len(of), answer.Chance(average(of, said)), answer.Chance(average(of, paid)), answer.Chance(average(of, mean)), answer.Chance(average(of, paidRatio)), answer.Chance(average(of, crpsOf))})
	}
	s.SharePaid, s.MeanPaid = saidAndCame(years, said, paid), saidAndCame(years, mean, paidRatio)
	s.Brier = estimate(years, func(r testedRow) float64 { return r.brier[0] })
	if otherSpreads {
		half, wide := estimate(years, func(r testedRow) float64 { return r.brier[1] }), estimate(years, func(r testedRow) float64 { return r.brier[2] })
		s.BrierHalf, s.BrierWide = &half, &wide
	}
	s.CRPS = estimate(years, crpsOf)
	s.PIT = estimate(years, func(r testedRow) float64 { return r.pit })
	for i, width := range []float64{0.5, 0.8, 0.9} {
		s.Within[i] = estimate(years, func(r testedRow) float64 {
			if math.Abs(r.pit-0.5) <= width/2 {
				return 1
			}
			return 0
		}).Mean
	}
	return s
}

// following returns what the leader of a row, or the one it leans to, came to pay, USD
// per base acre.
func (r testedRow) following() crop.Money { return r.paidBy(r.leans) }

// paidBy returns what a program came to pay, USD per base acre; PLC where none leads.
func (r testedRow) paidBy(leads answer.Leader) crop.Money {
	if leads == answer.LeadsARCCO {
		return r.arc
	}
	return r.plc
}

// kind returns how sure the leader of a row is.
func (r testedRow) kind() string {
	switch r.leader {
	case answer.LeadsARCCO, answer.LeadsPLC:
		return "clear"
	case answer.Close:
		return "close"
	}
	return "little_chance"
}

func decided(r testedRow) bool { return r.leader != "" && r.leader != answer.None }

func decisionCheck(k Knowledge, c crop.Commodity, rows []testedRow) DecisionCheck {
	rows = filter(rows, decided)
	s := DecisionCheck{KnownFrom: k, Commodity: c, Rows: len(rows), Ahead: []Ahead{}, Leaders: []LeaderCheck{}}
	if len(rows) == 0 {
		return s
	}
	years := byYear(rows)
	mean := func(of func(testedRow) float64) answer.Dollars { return answer.Dollars(estimate(years, of).Mean) }
	s.Following = mean(func(r testedRow) float64 { return r.following() })
	s.AlwaysARCCO, s.AlwaysPLC = mean(func(r testedRow) float64 { return r.arc }), mean(func(r testedRow) float64 { return r.plc })
	s.Hindsight = mean(func(r testedRow) float64 { return max(r.arc, r.plc) })
	s.LastWinner, s.Enrolled = mean(func(r testedRow) float64 { return r.winner }), mean(func(r testedRow) float64 { return r.enrolled })
	if rows[0].byPrice != "" {
		s.PriceKnown, s.YieldKnown = mean(func(r testedRow) float64 { return r.paidBy(r.byPrice) }), mean(func(r testedRow) float64 { return r.paidBy(r.byYield) })
	}
	for _, rival := range rivals {
		s.Ahead = append(s.Ahead, aheadOf(rival.name, years, rival.paid))
	}
	for _, kind := range []string{"clear", "close", "little_chance"} {
		some := filter(rows, func(r testedRow) bool { return r.kind() == kind })
		if len(some) == 0 {
			continue
		}
		l := LeaderCheck{Kind: kind, Share: answer.Chance(weightOf(some) / weightOf(rows))}
		differed := filter(some, func(r testedRow) bool { return r.arc != r.plc })
		l.Differed = len(differed)
		if len(differed) > 0 {
			right := filter(differed, func(r testedRow) bool { return r.following() == max(r.arc, r.plc) })
			l.Right = answer.ChanceOf(weightOf(right) / weightOf(differed))
		}
		l.NonePaid = answer.Chance(weightOf(filter(some, func(r testedRow) bool { return r.arc == 0 && r.plc == 0 })) / weightOf(some))
		l.GivenAway = answer.Dollars(average(some, func(r testedRow) float64 { return max(r.arc, r.plc) - r.following() }))
		s.Leaders = append(s.Leaders, l)
	}
	return s
}

// rivals are other ways of choosing, and what they came to pay.
var rivals = []struct {
	name string
	paid func(testedRow) float64
}{
	{"enrolled", func(r testedRow) float64 { return r.enrolled }},
	{"last_winner", func(r testedRow) float64 { return r.winner }},
	{"always_arc_co", func(r testedRow) float64 { return r.arc }},
	{"always_plc", func(r testedRow) float64 { return r.plc }},
}

// aheadOf compares following the leader with another way of choosing, year by year.
func aheadOf(name string, years [][]testedRow, paid func(testedRow) float64) Ahead {
	more := func(r testedRow) float64 { return r.following() - paid(r) }
	e := estimate(years, more)
	a := Ahead{Of: name, Mean: answer.Dollars(e.Mean), StandardError: answer.Dollars(e.StandardError), Years: len(years)}
	for _, rows := range years {
		if average(rows, more) >= 0 {
			a.Won++
		}
	}
	return a
}

// worstYears returns the two crop years, asked about in November, in which following the
// leader paid least against hindsight.
func worstYears(rows []testedRow) []YearDecision {
	all := []YearDecision{}
	for _, of := range byYear(filter(rows, func(r testedRow) bool { return r.knowledge == November && decided(r) })) {
		all = append(all, YearDecision{
			KnownFrom: November, CropYear: of[0].row.CropYear, Rows: len(of),
			Following:   answer.Dollars(average(of, func(r testedRow) float64 { return r.following() })),
			AlwaysARCCO: answer.Dollars(average(of, func(r testedRow) float64 { return r.arc })),
			AlwaysPLC:   answer.Dollars(average(of, func(r testedRow) float64 { return r.plc })),
			Hindsight:   answer.Dollars(average(of, func(r testedRow) float64 { return max(r.arc, r.plc) })),
		})
	}
	sort.SliceStable(all, func(i, j int) bool {
		return all[i].Hindsight-all[i].Following > all[j].Hindsight-all[j].Following
	})
	return all[:min(2, len(all))]
}
