package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// OfExplanation lays out every step of each program.
func OfExplanation(e explain.Explanation) Report {
	var r Report
	r.heading(1, fmt.Sprintf("Farm %s, %s, crop year %d: step by step", wording.Number(e.Farm, nil), e.Commodity.Name(), e.CropYear))
	for _, one := range e.Programs {
		unit := "USD/acre"
		if one.Program == farm.PLC {
			unit = e.Commodity.Unit().Price()
		}
		r.steps(string(one.Program), unit, *one.Figures)
	}
	if e.Programs.Of(farm.ARCIC) != nil {
		r.text("ARC-IC is for the whole farm, shown alone here. A producer's other ARC-IC farms in the State are pooled with it. Its rounding is not confirmed.")
	}
	r.insured(e)
	r.flags(e.Flags)
	r.caution(e.Caution)
	return r
}

// insured says where the steps of area insurance on the crop are shown.
func (r *Report) insured(e explain.Explanation) {
	var names []string
	for _, layer := range e.Insured {
		names = append(names, string(layer))
	}
	if len(names) == 0 {
		return
	}
	pay, each := " pays on insured acres, not on base, and is", "its"
	if len(names) > 1 {
		pay, each = " pay on insured acres, not on base, and are", "their"
	}
	r.text(fmt.Sprintf("%s%s not worked out here. Add --with-insurance --farm %s to compare: it shows %s steps at the average area yield.", wording.Joined(names), pay, wording.Number(e.Farm, nil), each))
}

func (r *Report) steps(program, rateUnit string, p explain.ProgramSteps) {
	r.heading(2, program)
	r.stepTable("step", p.Steps)
	if p.Missing != "" {
		r.text("Not worked out. Missing: " + p.Missing + ".")
		return
	}
	r.text(fmt.Sprintf("%s pays %s a base acre, or %s in all. %s that is %s. The rate, before it counts on a part of base acres only: %s %s.",
		program, wording.Money(p.PaymentPerBaseAcre), wording.Money(p.Payment), wording.Capital(wording.AfterLimit), wording.Money(p.PaymentAfterLimit), wording.Decimal(p.Rate), rateUnit))
	if len(p.People) > 0 {
		r.stepTable("from payment to people, this base alone", p.People)
	}
}

// stepTable lists steps, and below them the source of each.
func (r *Report) stepTable(title string, steps []explain.Step) {
	t := Table{Columns: []string{title, "value", "unit"}}
	var sources []string
	for i, s := range steps {
		name := s.Words + wording.Mark(s.Status)
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%d. %s", i+1, name), wording.Grouped(s.Value.Value, s.Value.Decimals), s.Unit})
		sources = append(sources, fmt.Sprintf("%d. %s", i+1, s.Source))
	}
	if len(t.Rows) > 0 {
		r.table(t)
		r.text("Sources")
		r.notes(sources)
	}
}
