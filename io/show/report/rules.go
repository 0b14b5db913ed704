package report

import (
	"fmt"
	"strings"

	"fencerow/io/show/wording"
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

// OfCheck lists the flags, farm by farm.
func OfCheck(c flag.Checked) Report {
	var r Report
	var years []string
	for _, y := range c.Years {
		years = append(years, fmt.Sprint(y))
	}
	r.heading(1, "Check for crop year "+wording.Joined(years)+", as of "+wording.Date(c.Today))
	for _, f := range c.Farms {
		county, number, _ := strings.Cut(f.Farm, "-")
		r.heading(3, "Farm "+number+", county "+county)
		if len(f.Flags) == 0 {
			r.text("Nothing to flag.")
		}
		r.flags(f.Flags)
	}
	return r
}
