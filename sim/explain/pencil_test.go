package explain

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fencerow/sim/invented"
)

// pencil recomputes printed steps from the printed figures above them, as one
// would with a pencil. It knows the arithmetic, not the program's functions.
type pencil struct {
	t       *testing.T
	name    string
	printed map[string]float64
	order   []string
	checked int
}

// For returns the figure printed above under a name, with its suffix or, where it
// holds for all, without.
func (p *pencil) of(name, suffix string) (float64, bool) {
	for {
		if x, has := p.printed[name+suffix]; has {
			return x, true
		}
		cut := strings.LastIndex(suffix, "_")
		if cut < 0 {
			return 0, false
		}
		suffix = suffix[:cut]
	}
}

func (p *pencil) must(name, suffix string) float64 {
	x, has := p.of(name, suffix)
	if !has {
		p.t.Errorf("%s: no %s%s is printed above", p.name, name, suffix)
	}
	return x
}

// Five returns five yearly figures printed above, by name and year.
func (p *pencil) five(name, suffix string) (years []float64) {
	for y := 2000; y < 2040; y++ {
		if x, has := p.printed[fmt.Sprintf("%s_%d%s", name, y, suffix)]; has {
			years = append(years, x)
		}
	}
	return years
}

func middleThree(five []float64) float64 {
	low, high, sum := five[0], five[0], 0.0
	for _, x := range five {
		low, high, sum = min(low, x), max(high, x), sum+x
	}
	return (sum - low - high) / 3
}

// formulas are the steps that follow from others; every other step is a figure
// of a file, a row or the command line. ok is false where the step stands alone.
var formulas = []struct {
	step string
	work func(p *pencil, suffix string, decimals int) (float64, bool)
}{
	{"effective_reference_price", func(p *pencil, s string, d int) (float64, bool) {
		if _, has := p.of("reference_price_average_share", s); !has {
			return 0, false
		}
		reference := p.must("reference_price", s)
		most := invented.HalfUp(p.must("effective_reference_price_limit", s)*reference, d)
		average := invented.HalfUp(p.must("reference_price_average_share", s)*middleThree(p.five("mya_price", s)), d)
		return min(most, max(reference, average)), true
	}},
	{"effective_price", func(p *pencil, s string, _ int) (float64, bool) {
		return max(p.must("mya_price", s), p.must("loan_rate", s)), true
	}},
	{"benchmark_yield", func(p *pencil, s string, d int) (float64, bool) {
		five := p.five("adjusted_yield", s)
		if len(five) != 5 {
			return 0, false
		}
		return middleThree(five), true
	}},
	{"benchmark_price", func(p *pencil, s string, _ int) (float64, bool) {
		five := p.five("mya_price", "")
		for i := range five {
			five[i] = max(five[i], p.must("effective_reference_price", s))
		}
		return middleThree(five), true
	}},
	{"guarantee", func(p *pencil, s string, _ int) (float64, bool) {
		if w, weighted := p.weighted("guarantee", s); weighted {
			return w, true
		}
		return p.must("guarantee_share", s) * p.must("benchmark_revenue", s), true
	}},
	{"maximum_rate", func(p *pencil, s string, _ int) (float64, bool) {
		if w, weighted := p.weighted("maximum_rate", s); weighted {
			return w, true
		}
		return p.must("maximum_share", s) * p.must("benchmark_revenue", s), true
	}},
	{"benchmark_revenue", func(p *pencil, s string, _ int) (float64, bool) {
		if w, weighted := p.weighted("benchmark_revenue", s); weighted {
			return w, true
		}
		if five := p.five("revenue", s); len(five) == 5 {
			return middleThree(five), true // ARC-IC, one commodity
		}
		if w, is := p.byPlanting("benchmark_revenue"); s == "" && is {
			return w, true // ARC-IC, the farm
		}
		return p.must("benchmark_yield", s) * p.must("benchmark_price", s), true
	}},
	{"actual_price", func(p *pencil, s string, _ int) (float64, bool) {
		return max(p.must("mya_price", s), p.must("loan_rate", s)), true
	}},
	{"actual_revenue", func(p *pencil, s string, _ int) (float64, bool) {
		if w, weighted := p.weighted("actual_revenue", s); weighted {
			return w, true
		}
		if _, is := p.printed["own_yield_corn"]; s == "" && is {
			sum, acres := 0.0, 0.0
			for _, c := range p.planted() {
				a := p.printed["planted_acres_"+c]
				if a == 0 {
					continue
				}
				sum, acres = sum+a*p.printed["own_yield_"+c]*p.printed["actual_price_"+c], acres+a
			}
			return sum / acres, true
		}
		return p.must("actual_yield", s) * p.must("actual_price", s), true
	}},
	{"payment_rate", func(p *pencil, s string, _ int) (float64, bool) {
		if effective, has := p.of("effective_price", s); has {
			return max(0, p.must("effective_reference_price", s)-effective), true
		}
		for _, suffix := range []string{s + "_weighted", s} {
			if actual, has := p.printed["actual_revenue"+suffix]; has {
				return min(p.printed["maximum_rate"+suffix], max(0, p.printed["guarantee"+suffix]-actual)), true
			}
		}
		return p.must("maximum_rate", s), true // all prevented
	}},
	{"payment_acres", func(p *pencil, s string, _ int) (float64, bool) {
		share, has := p.of("payment_acre_share", s)
		if individual, is := p.of("payment_acre_share_individual", s); is {
			share, has = individual, true
		}
		if !has {
			return 0, true // nothing is paid
		}
		acres := share * p.must("base_acres", s)
		if excess, cut := p.of("fruit_vegetable_excess", s); cut {
			acres = max(0, acres-excess*p.must("base_acres", s)/p.must("farm_base_acres", s))
		}
		return acres, true
	}},
	{"payment", func(p *pencil, s string, _ int) (float64, bool) {
		sum, several := 0.0, false
		for _, name := range p.order {
			if s == "" && strings.HasPrefix(name, "payment_") && !isPaymentFigure(name) {
				sum, several = sum+p.printed[name], true
			}
		}
		if several {
			return sum, true
		}
		rate, acres := p.must("payment_rate", s), p.must("payment_acres", s)
		if yield, has := p.of("payment_yield", s); has {
			return rate * yield * acres, true
		}
		return rate * acres, true
	}},
	{"revenue", func(p *pencil, s string, _ int) (float64, bool) { // "_2020_corn", of ARC-IC
		parts := strings.SplitN(strings.TrimPrefix(s, "_"), "_", 2)
		yield := p.must("own_yield", s)
		if plug, has := p.printed["plug"+s]; has {
			yield = max(yield, plug)
		}
		return yield * max(p.must("mya_price", s), p.must("effective_reference_price", "_"+parts[1])), true
	}},
}

// isPaymentFigure reports whether a step is the payment of a single base.
func isPaymentFigure(name string) bool {
	for _, other := range []string{"payment_rate", "payment_yield", "payment_acres", "payment_acre_share"} {
		if strings.HasPrefix(name, other) {
			return true
		}
	}
	return false
}

// Planted lists the crops of ARC-IC in printed order.
func (p *pencil) planted() (crops []string) {
	for _, name := range p.order {
		if c, is := strings.CutPrefix(name, "planted_acres_"); is {
			crops = append(crops, c)
		}
	}
	return crops
}

// byPlanting weights a figure of each crop by planted acres, or by prevented
// acres where nothing is planted.
func (p *pencil) byPlanting(name string) (float64, bool) {
	for _, acres := range []string{"planted_acres_", "prevented_acres_"} {
		sum, total := 0.0, 0.0
		for _, c := range p.planted() {
			sum, total = sum+p.printed[acres+c]*p.printed[name+"_"+c], total+p.printed[acres+c]
		}
		if total > 0 {
			return sum / total, true
		}
	}
	return 0, false
}

// weighted joins the two practices by the irrigated share.
func (p *pencil) weighted(name, suffix string) (float64, bool) {
	pair, is := strings.CutSuffix(suffix, "_weighted")
	if !is {
		return 0, false
	}
	share := p.must("irrigated_share", suffix)
	return share*p.printed[name+pair+"_irrigated"] + (1-share)*p.printed[name+pair+"_nonirrigated"], true
}

// check goes through the steps in order.
func (p *pencil) check(steps []Step) {
	p.printed = map[string]float64{}
	for _, s := range steps {
		value := invented.HalfUp(s.Value.Value, s.Value.Decimals)
		for _, f := range formulas {
			suffix, is := strings.CutPrefix(s.Name, f.step)
			if !is || suffix != "" && suffix[0] != '_' || formulaOf(s.Name) != f.step {
				continue
			}
			if want, follows := f.work(p, suffix, s.Value.Decimals); follows {
				p.checked++
				if got := invented.HalfUp(want, s.Value.Decimals); math.Abs(got-value) > 1e-9 {
					p.t.Errorf("%s: step %s prints %v, by the figures above it is %v", p.name, s.Name, value, got)
				}
			}
		}
		if s.Source == "" || s.Unit == "" || !s.Status.Known() {
			p.t.Errorf("%s: step %s lacks source, unit or status: %+v", p.name, s.Name, s)
		}
		p.printed[s.Name] = value
		p.order = append(p.order, s.Name)
	}
}

// formulaOf returns the longest formula name that a step begins with, or "" for
// a step that is a figure by itself.
func formulaOf(name string) string {
	for _, given := range []string{"guarantee_share", "maximum_share", "payment_acre_share", "payment_yield", "effective_reference_price_limit"} {
		if strings.HasPrefix(name, given) {
			return ""
		}
	}
	longest := ""
	for _, f := range formulas {
		if (name == f.step || strings.HasPrefix(name, f.step+"_")) && len(f.step) > len(longest) {
			longest = f.step
		}
	}
	return longest
}

// checkPeople recomputes the steps from payment to people.
func (p *pencil) checkPeople(steps []Step) {
	for _, s := range steps {
		verb, id, _ := strings.Cut(s.Name, "_")
		value := invented.HalfUp(s.Value.Value, s.Value.Decimals)
		want, follows := 0.0, false
		switch {
		case verb == "within": // within_limit_ID
			id = strings.TrimPrefix(id, "limit_")
			want, follows = p.printed["reaches_"+id], true
			if left, has := p.printed["limit_left_"+id]; has {
				want = min(want, left)
			}
		case verb == "paid":
			left := p.printed["within_limit_"+id]
			if own, has := p.printed["own_share_"+id]; has {
				left *= own
			}
			if limit, has := p.printed["own_limit_"+id]; has {
				left = min(left, limit)
			}
			if _, before := p.printed["after_sequestration_"+id]; !before {
				left *= 1 - p.printed["sequestration_"+id] // none is printed where it came before the limit
			}
			want, follows = left, true
		case verb == "after": // after_sequestration_ID
			id = strings.TrimPrefix(id, "sequestration_")
			want, follows = p.printed["earned_"+id]*(1-p.printed["sequestration_"+id]), true
		case verb == "reaches":
			want, follows = p.printed["earned_"+id], true
			if reduced, has := p.printed["after_sequestration_"+id]; has {
				want = reduced
			}
			for _, name := range p.order {
				if rest, is := strings.CutPrefix(name, "owner_share_"); is && strings.HasSuffix(rest, "_"+id) {
					want += p.printed[name] * p.printed["within_limit_"+strings.TrimSuffix(rest, "_"+id)]
				}
			}
		case verb == "earned":
			if share, has := p.printed["share_"+id]; has {
				want, follows = share*p.printed["payment"], true
			}
		}
		// six printed decimals of a share times a payment leave some noise
		const half = 0.01
		if follows {
			p.checked++
			if math.Abs(want-value) > half {
				p.t.Errorf("%s: step %s prints %v, by the figures above it is %v", p.name, s.Name, value, want)
			}
		}
		p.printed[s.Name] = value
		p.order = append(p.order, s.Name)
	}
}
