package odds

import (
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"fencerow/program/crop"
)

var update = flag.Bool("update", false, "write price_rules.csv and its table in docs/method.md anew")

// Which commodities one without a projection may follow: the leading ones of its
// use and region that USDA projects, tried one by one.
var leadersTried = map[crop.Commodity][]crop.Commodity{
	crop.MediumGrainRice: {crop.LongGrainRice, crop.MediumAndShortGrainRice}, crop.TemperateJaponicaRice: {crop.LongGrainRice, crop.MediumAndShortGrainRice},
	crop.SeedCotton: {crop.UplandCottonLint},
}

// projectedOnce are commodities of which USDA projects one crop year and no path
// goes on.
var projectedOnce = []crop.Commodity{crop.GrainSorghum, crop.Barley, crop.Oats, crop.LongGrainRice}

const (
	firstTarget, lastTarget = 2010, 2024
	fewestChanges           = 5   // from which on a share is fitted
	unfittedShare           = 0.5 // before
	testedPeriod            = "2010-2024"
)

// pastPrices are what the rules are tried on.
type pastPrices struct {
	final     map[crop.Commodity]map[int]float64 // USD per unit
	september map[crop.Commodity]map[int]float64 // USDA's projection in September of the harvest year
	seed      map[int]float64                    // cottonseed, USD/lb
	late      map[crop.Commodity]float64         // FSA's projection of 2024 in April 2025
}

// tried is one rule of a commodity with its log errors.
type tried struct {
	name   string
	rule   PriceRule
	errors [2][]float64 // one and two years after the last price
}

// pooled is what rules are compared by: the error over both leads together.
func (x tried) pooled() float64 { return rootMeanSquare(slices.Concat(x.errors[0], x.errors[1])) }

func rootMeanSquare(errors []float64) float64 {
	sum := 0.0
	for _, e := range errors {
		sum += e * e
	}
	return math.Sqrt(sum / float64(len(errors)))
}

// forecast makes a price of target from what was known: the last price known+beyond
// years before, and the leader's projection known years after it. ok is false where
// a price is missing.
type forecast func(target, known, beyond int) (price float64, ok bool)

// errorsOf returns the log errors of a forecast of final prices.
func (p pastPrices) errorsOf(c crop.Commodity, make forecast, known, beyond int) (errors []float64) {
	for target := firstTarget; target <= lastTarget; target++ {
		final, has := p.final[c][target]
		if price, ok := make(target, known, beyond); has && ok {
			errors = append(errors, math.Log(final/price))
		}
	}
	return errors
}

// five returns the mean of up to five prices, the newest that of year.
func (p pastPrices) five(c crop.Commodity, year int) float64 {
	sum, n := 0.0, 0
	for y := year - 4; y <= year; y++ {
		if price, has := p.final[c][y]; has {
			sum, n = sum+price, n+1
		}
	}
	return sum / float64(n)
}

// fitted returns the slope through the origin of yearly log changes on the leader's,
// up to year.
func (p pastPrices) fitted(c, leader crop.Commodity, year int) float64 {
	xy, xx, n := 0.0, 0.0, 0
	for y := firstTarget; y <= year; y++ {
		own, lead := math.Log(p.final[c][y]/p.final[c][y-1]), math.Log(p.final[leader][y]/p.final[leader][y-1])
		if math.IsNaN(own+lead) || math.IsInf(own+lead, 0) {
			continue
		}
		xy, xx, n = xy+own*lead, xx+lead*lead, n+1
	}
	if n < fewestChanges {
		return unfittedShare
	}
	return max(0, xy/xx)
}

// lintWeight returns the weight of lint in the price of seed cotton of a year, by
// 7 U.S.C. 9016(h): the price is the mean of lint and cottonseed weighted by
// production. No production is at hand; the three prices imply it.
func (p pastPrices) lintWeight(year int) float64 {
	return (p.final[crop.SeedCotton][year] - p.seed[year]) / (p.final[crop.UplandCottonLint][year] - p.seed[year])
}

// following returns the forecast of a rule with a leader; share is worked out from
// prices up to the last one only.
func (p pastPrices) following(c crop.Commodity, kind RuleKind, leader crop.Commodity, share func(last int) float64) forecast {
	return func(target, known, beyond int) (float64, bool) {
		last := target - known - beyond
		price, then, now := p.final[c][last], p.final[leader][last], p.september[leader][last+known]
		if price == 0 || then == 0 || now == 0 {
			return 0, false
		}
		return PriceRule{Kind: kind, Leader: leader, Share: share(last)}.Price(LastPrice{Price: price, LeaderThen: then, LeaderNow: now}), true
	}
}

// candidates returns the rules tried for a commodity that USDA does not project.
func (p pastPrices) candidates(c crop.Commodity) (rules []tried, makes []forecast) {
	add := func(name string, rule PriceRule, make forecast) {
		x := tried{name: name, rule: rule}
		x.errors = [2][]float64{p.errorsOf(c, make, 1, 0), p.errorsOf(c, make, 2, 0)}
		rules, makes = append(rules, x), append(makes, make)
	}
	add("held", PriceRule{Kind: Held}, func(target, known, beyond int) (float64, bool) {
		price, has := p.final[c][target-known-beyond]
		return price, has
	})
	add("mean of five", PriceRule{}, func(target, known, beyond int) (float64, bool) {
		_, has := p.final[c][target-known-beyond]
		return p.five(c, target-known-beyond), has
	})
	leaders := leadersTried[c]
	if leaders == nil {
		leaders = []crop.Commodity{crop.Soybeans, crop.Wheat}
	}
	for _, leader := range leaders {
		for _, share := range []float64{1, 0.5} {
			add(fmt.Sprintf("%s x %g", leader.Name(), share), PriceRule{Kind: Moved, Leader: leader, Share: share}, p.following(c, Moved, leader, func(int) float64 { return share }))
		}
		add(leader.Name()+" fitted", PriceRule{Kind: Moved, Leader: leader, Share: p.fitted(c, leader, lastTarget)}, p.following(c, Moved, leader, func(last int) float64 { return p.fitted(c, leader, last) }))
	}
	if c == crop.SeedCotton {
		newest := lastTarget - 1 // the last final price of seed cotton
		add("lint by weight", PriceRule{Kind: ByWeight, Leader: crop.UplandCottonLint, Share: p.lintWeight(newest)}, p.following(c, ByWeight, crop.UplandCottonLint, p.lintWeight))
	}
	return rules, makes
}

// beyondProjection returns the rules tried for a commodity that USDA projects for
// one crop year: one and two years after it.
func (p pastPrices) beyondProjection(c crop.Commodity) (rules []tried) {
	for _, one := range []struct {
		name string
		kind RuleKind
		at   func(projection, five float64, years int) float64
	}{
		{"held", Held, func(f, _ float64, years int) float64 { return f }},
		{"mean of five", "", func(_, five float64, years int) float64 { return five }},
		{"half-way", HalfWay, func(f, five float64, years int) float64 {
			return PriceRule{Kind: HalfWay}.Price(LastPrice{Price: f, Five: five, Years: years})
		}},
		{"reverting", Reverting, func(f, five float64, years int) float64 {
			return PriceRule{Kind: Reverting}.Price(LastPrice{Price: f, Five: five, Years: years})
		}},
	} {
		make := func(target, known, beyond int) (float64, bool) {
			from := target - beyond
			projection, has := p.september[c][from]
			_, earlier := p.final[c][from-1]
			return one.at(projection, p.five(c, from-1), beyond), has && earlier
		}
		x := tried{name: one.name, rule: PriceRule{Kind: one.kind}}
		x.errors = [2][]float64{p.errorsOf(c, make, 0, 1), p.errorsOf(c, make, 0, 2)}
		rules = append(rules, x)
	}
	return rules
}

// best returns the place of the rule with the smallest error.
func best(rules []tried) int {
	at := 0
	for i, x := range rules {
		if x.pooled() < rules[at].pooled() {
			at = i
		}
	}
	return at
}

// measuredRules returns the row of each commodity, and the table of all rules.
func (p pastPrices) measuredRules() (rows, table []string) {
	table = []string{"| commodity | n | rule: error over both years (first, second); the chosen one in bold |", "|---|---|---|"}
	for _, c := range crop.Commodities() {
		var rules []tried
		switch {
		case slices.Contains(projectedOnce, c):
			rules = p.beyondProjection(c)
		case c == crop.Corn || c == crop.Soybeans || c == crop.Wheat:
			continue
		default:
			rules, _ = p.candidates(c)
		}
		chosen := best(rules)
		rows = append(rows, p.row(c, rules, chosen))
		table = append(table, tableLine(c, rules, chosen))
	}
	return rows, table
}

// row is a line of price_rules.csv.
func (p pastPrices) row(c crop.Commodity, rules []tried, chosen int) string {
	x := rules[chosen]
	held := rules[0].errors[0]
	source := "final prices of FSA and NASS (io/read/market/builtin.csv)"
	if x.rule.Leader != "" || x.rule.Kind.UsesFive() {
		source += " and WASDE of each September"
	}
	if x.rule.Kind == ByWeight {
		source += "; weights of 7 U.S.C. 9016(h) implied by lint and cottonseed"
	}
	return fmt.Sprintf("%s,%s,%s,%.3g,%.3f,%.3f,%.3f,%d,%d,%s,%s; computed for this program", c, x.rule.Kind, x.rule.Leader, x.rule.Share,
		rootMeanSquare(x.errors[0]), rootMeanSquare(x.errors[1]), rootMeanSquare(held), len(x.errors[0]), len(x.errors[1]), testedPeriod, source)
}

func tableLine(c crop.Commodity, rules []tried, chosen int) string {
	var cells []string
	for i, x := range rules {
		cell := fmt.Sprintf("%s %.3f (%.3f, %.3f)", x.name, x.pooled(), rootMeanSquare(x.errors[0]), rootMeanSquare(x.errors[1]))
		if i == chosen {
			cell = "**" + cell + "**"
		}
		cells = append(cells, cell)
	}
	return fmt.Sprintf("| %s | %d, %d | %s |", c.Name(), len(rules[chosen].errors[0]), len(rules[chosen].errors[1]), strings.Join(cells, "; "))
}

// The rule of each commodity, its leader, share and errors are what the past gives,
// worked out anew; so are the rows of parameters.csv that go with them and the table
// in docs/method.md, where the losing rules stand.
func TestPriceRules(t *testing.T) {
	p := readPast(t)
	rows, table := p.measuredRules()
	file := ruleHeader + "\n" + strings.Join(rows, "\n") + "\n"
	compareOrWrite(t, "price_rules.csv", ruleFile, file)
	manual := read(t, methodFile)
	start, end := strings.Index(manual, tableStart), strings.Index(manual, tableEnd)
	if start < 0 || end < start {
		t.Fatalf("%s has no place for the table of price rules", methodFile)
	}
	compareOrWrite(t, methodFile, manual, manual[:start]+tableStart+"\n\n"+strings.Join(table, "\n")+"\n\n"+manual[end:])
	const near = 0.02 // the persistence is rounded
	measured := p.persistence()
	if got := Persistence(); math.Abs(got-measured) > near {
		t.Errorf("errors beyond the leader's last projection keep %g a year, the program %g", measured, got)
	}
	if got, want := LateProjectionError(), p.lateError(); math.Abs(got-want) > 0.00005 {
		t.Errorf("sd_ln_final_over_fsa is %g, computed %g", got, want)
	}
	t.Logf("checked %d of %d price rules; %.2f of an error is left a year later", len(rows), len(crop.Commodities())-3, measured)
}

const (
	methodFile = "../../docs/method.md"
	tableStart = "<!-- price rules, made by go test ./sim/odds -run TestPriceRules -update -->"
	tableEnd   = "<!-- end of price rules -->"
)

func compareOrWrite(t *testing.T, name, got, want string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("%s is not what the past gives; it should be\n%s", name, want)
	}
}

// persistence returns the part of an error left a year later that brings the standard deviation
// of carried prices closest to the errors measured one to five years beyond the
// leader's last projection, in steps of 0.01.
func (p pastPrices) persistence() float64 {
	kept, least := 0.0, math.Inf(1)
	for step := 50; step <= 100; step++ {
		off := 0.0
		for _, c := range unprojected() {
			rules, makes := p.candidates(c)
			at := best(rules)
			change, s := rootMeanSquare(rules[0].errors[0]), rootMeanSquare(rules[at].errors[1])
			for beyond := 1; beyond <= FarthestCarried-2; beyond++ {
				s = math.Hypot(float64(step)/100*s, change)
				errors := p.errorsOf(c, makes[at], 2, beyond)
				d := math.Log(s / rootMeanSquare(errors))
				off += float64(len(errors)) * d * d
			}
		}
		if off < least {
			kept, least = float64(step)/100, off
		}
	}
	return kept
}

// unprojected are the commodities without any projection.
func unprojected() (all []crop.Commodity) {
	for _, c := range crop.Commodities() {
		if c != crop.Corn && c != crop.Soybeans && c != crop.Wheat && !slices.Contains(projectedOnce, c) {
			all = append(all, c)
		}
	}
	return all
}

// lateError is that of FSA's projections of April 2025 for prices that are final now
// and that WASDE does not print.
func (p pastPrices) lateError() float64 {
	var errors []float64
	for _, c := range crop.Commodities() {
		final, has := p.final[c][lastTarget]
		if late, projected := p.late[c]; has && projected && slices.Contains(unprojected(), c) {
			errors = append(errors, math.Log(final/late))
		}
	}
	return rootMeanSquare(errors)
}
