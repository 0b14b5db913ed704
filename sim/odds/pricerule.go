package odds

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"fencerow/program/crop"
)

// PriceRule says how the price of a commodity is carried into crop years for which
// nobody projects it, and how far off that was. Of several candidates it is the rule
// with the smallest error out of sample; pricerule_test.go measures them all.
type PriceRule struct {
	Commodity crop.Commodity
	Kind      RuleKind
	Leader    crop.Commodity // whose move it takes; "" for none
	Share     float64        // Moved: of the leader's log move; ByWeight: of its move in USD
	First     float64        // standard deviation of the log error, one year after the last price
	Second    float64        // two years after
	Change    float64        // likewise, of the last price held for one year
	Counts    [2]int         // prices behind First and Second
	Period    string         // crop years tested
	Source    string
}

// RuleKind names how a price is carried.
type RuleKind string

// The kinds.
const (
	Held      RuleKind = "held"      // the last price
	Moved     RuleKind = "moved"     // the last price times a power of the leader's move
	ByWeight  RuleKind = "by_weight" // the last price plus the leader's weight in it times the leader's move
	Reverting RuleKind = "reverting" // the last price, nearer each year to the mean of the five before it
	HalfWay   RuleKind = "half_way"  // half-way between the last price and the mean of the five before it
)

// UsesFive reports whether the rule needs the mean of five earlier prices.
func (k RuleKind) UsesFive() bool { return k == Reverting || k == HalfWay }

// FarthestCarried is for how many years after the last price a rule carries it:
// errors were measured as far as that.
const FarthestCarried = 7

const ruleHeader = "commodity,rule,leader,share,error_1,error_2,change,n_1,n_2,period,source"

//go:embed price_rules.csv
var ruleFile string

var priceRules = sync.OnceValue(func() map[crop.Commodity]PriceRule {
	rules, err := readRules(ruleFile)
	if err != nil {
		panic("sim/odds/price_rules.csv: " + err.Error())
	}
	return rules
})

// PriceRuleOf returns the rule of a commodity; ok is false for those whose later
// years have a published path.
func PriceRuleOf(c crop.Commodity) (rule PriceRule, ok bool) {
	rule, ok = priceRules()[c]
	return rule, ok
}

// readRules refuses unknown columns, kinds and commodities, and a rule that stands
// twice or lacks its leader.
func readRules(text string) (map[crop.Commodity]PriceRule, error) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != ruleHeader {
		return nil, fmt.Errorf("the columns are not %q", ruleHeader)
	}
	rules := map[crop.Commodity]PriceRule{}
	for i, row := range rows[1:] {
		rule, err := readRule(row)
		if _, twice := rules[rule.Commodity]; err == nil && twice {
			err = fmt.Errorf("%s stands twice", rule.Commodity)
		}
		if err != nil {
			return nil, fmt.Errorf("row %d: %w", i+1, err)
		}
		rules[rule.Commodity] = rule
	}
	return rules, nil
}

func readRule(row []string) (PriceRule, error) {
	r := PriceRule{Commodity: crop.Commodity(row[0]), Kind: RuleKind(row[1]), Leader: crop.Commodity(row[2]), Period: row[9], Source: row[10]}
	follows := r.Kind == Moved || r.Kind == ByWeight
	switch {
	case r.Commodity.Index() < 0:
		return r, fmt.Errorf("unknown commodity %q", row[0])
	case !follows && r.Kind != Held && !r.Kind.UsesFive():
		return r, fmt.Errorf("unknown rule %q", row[1])
	case follows != (r.Leader != "") || r.Period == "" || r.Source == "":
		return r, fmt.Errorf("%s: leader, period or source is missing, or one leader too many", r.Commodity)
	}
	for i, into := range []*float64{&r.Share, &r.First, &r.Second, &r.Change} {
		var err error
		if *into, err = strconv.ParseFloat(row[3+i], 64); err != nil || *into < 0 {
			return r, fmt.Errorf("%s: %q is no number of 0 or more", r.Commodity, row[3+i])
		}
	}
	for i := range r.Counts {
		var err error
		if r.Counts[i], err = strconv.Atoi(row[7+i]); err != nil {
			return r, err
		}
	}
	return r, nil
}

// LastPrice is what a rule carries a price from.
type LastPrice struct {
	Price      crop.Price // the last one
	LeaderThen crop.Price // the leader's of the same crop year; 0 without a leader
	LeaderNow  crop.Price // the leader's of the crop year asked for
	Five       crop.Price // mean of the five prices before the last one; 0 where not needed
	Years      int        // from the last price to the crop year asked for
}

// Price returns the carried price, not rounded, USD a unit:
//
//	held       last
//	moved      last (leader now / leader then)^share
//	by_weight  last + share (leader now - leader then)
//	reverting  five (last / five)^(phi^years)
//	half_way   sqrt(last five)
func (r PriceRule) Price(from LastPrice) crop.Price {
	switch r.Kind {
	case Moved:
		return from.Price * math.Pow(from.LeaderNow/from.LeaderThen, r.Share)
	case ByWeight:
		return from.Price + r.Share*(from.LeaderNow-from.LeaderThen)
	case Reverting:
		return from.Five * math.Pow(from.Price/from.Five, math.Pow(Persistence(), float64(from.Years)))
	case HalfWay:
		return math.Sqrt(from.Price * from.Five)
	}
	return from.Price
}

// SD returns the standard deviation of the logarithm of the final price over the
// carried one. known counts the years after the last price whose price the leader has
// (all, without a leader). beyond counts the years after those: there the leader's own
// price is open, and each adds to the error, as does each known year after the second:
//
//	s = sqrt(phi^2 s^2 + Change^2)
//
// phi is that of other prices, which errors measured so far ahead support. last is the
// standard deviation of the last price itself, 0 where it is final.
func (r PriceRule) SD(known, beyond int, last float64) float64 {
	s := last
	switch {
	case known == 1:
		s = math.Hypot(last, r.First)
	case known > 1:
		s, beyond = math.Hypot(last, r.Second), beyond+known-2
	}
	for range beyond {
		s = math.Hypot(Persistence()*s, r.Change)
	}
	return s
}

// LateProjectionError returns the standard deviation of the logarithm of a
// final price over the projection that FSA printed late in its marketing year, for commodities that
// WASDE does not print.
func LateProjectionError() float64 {
	return must("sd_ln_final_over_fsa", "other", "US", "April after harvest")
}
