package report

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/flag"
)

// OfRules lists the parameters of law in force, one crop after another.
func OfRules(all []explain.Rules) Report {
	var r Report
	for _, rules := range all {
		r.heading(2, fmt.Sprintf("%s, crop year %d", wording.Capital(rules.Commodity.Name()), rules.CropYear))
		t := Table{Columns: []string{"figure", "value", "unit", "status"}}
		var sources List
		for i, f := range rules.Figures {
			t.Rows = append(t.Rows, []string{fmt.Sprintf("%d. %s", i+1, strings.ReplaceAll(f.ID, "_", " ")), ruleValue(f), ruleUnit(f), string(f.Status)})
			text := f.Source
			if f.Note != "" {
				text += "; " + f.Note
			}
			sources = append(sources, Point{Text: fmt.Sprintf("%d. Source: %s", i+1, text)})
		}
		r.table(t)
		r.list(sources)
	}
	return r
}

func ruleValue(f explain.RuleFigure) string {
	switch {
	case f.Text != "":
		return strings.ReplaceAll(f.Text, "_", " ")
	case f.Value == nil:
		return "unknown"
	}
	return wording.Grouped(f.Value.Value, f.Value.Decimals)
}

func ruleUnit(f explain.RuleFigure) string {
	if f.Unit == "1" {
		return "share"
	}
	return f.Unit
}

// OfCheck lists the flags: those that all farms share once, then each farm's own.
func OfCheck(c flag.Checked) Report {
	var r Report
	var years []string
	for _, y := range c.Years {
		years = append(years, fmt.Sprint(y))
	}
	r.heading(1, "Check for crop year "+wording.Joined(years)+", as of "+wording.Date(c.Today))
	parts := make([]answer.FarmPart, len(c.Farms))
	for i, f := range c.Farms {
		parts[i] = answer.FarmPart{Farm: f.Farm, Flags: f.Flags}
	}
	var common []answer.Flag
	if len(parts) > 1 {
		common = CommonFlags(parts)
	}
	if len(common) > 0 {
		r.heading(3, "For every farm")
		r.flags(common)
	}
	for _, f := range c.Farms {
		county, number, _ := strings.Cut(f.Farm, "-")
		r.heading(3, "Farm "+number+", county "+county)
		own := slices.DeleteFunc(slices.Clone(f.Flags), func(flag answer.Flag) bool { return slices.Contains(common, flag) })
		switch {
		case len(own) > 0:
			r.flags(own)
		case len(common) > 0:
			r.text("Nothing more to flag.")
		default:
			r.text("Nothing to flag.")
		}
	}
	return r
}
