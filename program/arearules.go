package program

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// AreaTerms are the figures of the law for one layer of area insurance in one crop year,
// chosen here and nowhere else.
type AreaTerms struct {
	Layer           farm.Program
	Trigger         crop.Share // the highest, or the only one
	LeastTrigger    crop.Share // the lowest
	LowerEnd        crop.Share // of the band: ECO's; STAX's floor; 0: the coverage level of the underlying policy
	Step            crop.Share // STAX: between triggers and between ranges, and the least range; else 0
	WidestRange     crop.Share // STAX; else 0
	LeastPercentage float64
	MostPercentage  float64
	Subsidy         crop.Share // of the premium
	Fee             crop.Money // administrative fee, USD per crop and county; 0: none known
	Rows            []law.Figure
}

// AreaTermsFor returns the terms of a layer on crop c under a plan in crop year y. It fails,
// wrapping law.ErrNoValue, where the law has none.
func AreaTermsFor(layer farm.Program, plan farm.Plan, c crop.Commodity, y crop.CropYear) (AreaTerms, error) {
	t := AreaTerms{Layer: layer}
	r := areaReader{terms: &t, commodity: c, cropYear: y}
	switch layer {
	case farm.SCO:
		t.Trigger = r.number("area_sco_trigger")
		t.LeastTrigger = t.Trigger
		t.LeastPercentage, t.MostPercentage = r.number("area_sco_least_percentage"), r.number("area_sco_most_percentage")
		t.Subsidy, t.Fee = r.number("area_sco_subsidy"), r.number("area_sco_fee")
	case farm.ECO:
		t.Trigger, t.LowerEnd = r.number("area_eco_trigger"), r.number("area_eco_lower_end")
		t.LeastTrigger = t.Trigger
		if low, err := law.Find("area_eco_trigger_low", c, y); err == nil { // to crop year 2026
			t.LeastTrigger, t.Rows = low.Number, append(t.Rows, low)
		}
		t.LeastPercentage, t.MostPercentage = r.number("area_eco_least_percentage"), r.number("area_eco_most_percentage")
		t.Subsidy = r.number(map[bool]string{true: "area_eco_subsidy_yield", false: "area_eco_subsidy_revenue"}[plan == farm.YieldProtection])
	case farm.STAX:
		t.Trigger, t.LeastTrigger = r.number("area_stax_trigger"), r.number("area_stax_trigger_least")
		t.LowerEnd, t.Step, t.WidestRange = r.number("area_stax_floor"), r.number("area_stax_step"), r.number("area_stax_range")
		t.LeastPercentage, t.MostPercentage = r.number("area_stax_least_percentage"), r.number("area_stax_most_percentage")
		t.Subsidy = r.number("area_stax_subsidy")
	default:
		return t, fmt.Errorf("program: %s is no layer of area insurance", layer)
	}
	return t, r.err
}

// Band returns the band of a layer as bought, and in words why it cannot be had ("" where
// it can); level is the coverage level of the underlying or companion policy.
func (t AreaTerms) Band(l farm.Layer, level crop.Share) (b Band, why string) {
	trigger := l.Trigger
	if trigger == 0 && t.Trigger == t.LeastTrigger {
		trigger = t.Trigger
	}
	percentage := Percentage(l)
	switch {
	case trigger == 0:
		return b, fmt.Sprintf("the trigger is not given: it can be %s", t.triggers())
	case !t.offers(trigger):
		return b, fmt.Sprintf("a trigger of %s is not offered: it can be %s", percentText(trigger), t.triggers())
	case !atMost(t.LeastPercentage, percentage) || !atMost(percentage, t.MostPercentage):
		return b, fmt.Sprintf("a percentage of %s is not offered: it can be %s to %s", percentText(percentage), percentText(t.LeastPercentage), percentText(t.MostPercentage))
	}
	switch t.Layer {
	case farm.SCO:
		b = SCOBand(trigger, level)
	case farm.ECO:
		b = ECOBand(trigger, t.LowerEnd)
	case farm.STAX:
		if !atMost(l.Range, t.WidestRange) || !atMost(t.Step, l.Range) {
			return b, fmt.Sprintf("a range of %s is not offered: it can be %s to %s", percentText(l.Range), percentText(t.Step), percentText(t.WidestRange))
		}
		var ok bool
		if b, ok = STAXBand(trigger, l.Range, level, t.LowerEnd, t.Step); !ok {
			return b, fmt.Sprintf("the companion policy at %s leaves less than %s below the trigger", percentText(level), percentText(t.Step))
		}
	}
	if b.Range <= 0 {
		return b, fmt.Sprintf("a coverage level of %s leaves nothing below the trigger of %s", percentText(level), percentText(trigger))
	}
	return b, ""
}

// Percentage returns the coverage percentage or protection factor of a layer as bought.
func Percentage(l farm.Layer) float64 {
	if l.Percentage == 0 {
		return 1
	}
	return l.Percentage
}

// offers reports whether a trigger can be chosen.
func (t AreaTerms) offers(trigger crop.Share) bool {
	if t.Step == 0 {
		return same(trigger, t.Trigger) || same(trigger, t.LeastTrigger)
	}
	steps := (t.Trigger - trigger) / t.Step
	return atMost(t.LeastTrigger, trigger) && atMost(trigger, t.Trigger) && same(steps, Round(steps, 0))
}

// atMost reports whether a is no more than b, but for floating-point error.
func atMost(a, b float64) bool { return a <= b+crop.Noise }

func same(a, b float64) bool { return atMost(a, b) && atMost(b, a) }

// triggers lists those that can be chosen.
func (t AreaTerms) triggers() string {
	switch {
	case t.Trigger == t.LeastTrigger:
		return percentText(t.Trigger)
	case t.Step == 0:
		return percentText(t.LeastTrigger) + " or " + percentText(t.Trigger)
	}
	return percentText(t.LeastTrigger) + " to " + percentText(t.Trigger) + " by " + percentText(t.Step)
}

// percentText writes a share in whole percents.
func percentText(share crop.Share) string { return Text(share*100, 0) + " percent" }

// areaReader fills AreaTerms and keeps the first error.
type areaReader struct {
	terms     *AreaTerms
	commodity crop.Commodity
	cropYear  crop.CropYear
	err       error
}

func (r *areaReader) number(id string) float64 {
	f, err := law.Find(id, r.commodity, r.cropYear)
	if err != nil && r.err == nil {
		r.err = err
	}
	r.terms.Rows = append(r.terms.Rows, f)
	return f.Number
}
