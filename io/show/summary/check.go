package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// flagNames say in few words what flags are about, by their code.
var flagNames = map[string]string{
	"base_exceeds_cropland":     "more base than cropland",
	"correlation_repaired":      "price correlations",
	"crp_reduction":             "base given up for CRP",
	"entity_rule_by_year":       "an entity's payment limit",
	"flex_lease":                "a flexible lease",
	"fruit_vegetables":          "fruit and vegetables",
	"merge_needs_same_election": "a farm merger",
	"operator_changed":          "a change of producers",
	"planted_without_base":      "crops without base",
	"prevented_planting":        "prevented planting",
	"record_before_notice":      "new base",
	"sco_by_year":               "SCO insurance",
	"stax_with_cotton_base":     "STAX insurance",
	"insurance_given":           "insurance that is given",
	"insurance_open":            "insurance that is open",
	"insurance_day_unknown":     "the last day to buy insurance",
	"stax_test_day":             "the day STAX looks at enrollment",
	"harvest_price_not_typed":   "a harvest price that is not typed",
	"insured_not_planted":       "more acres insured than planted",
	"layers_not_together":       "layers on the same acres",
	"two_counties":              "two counties",
	"unassigned_base":           "unassigned base",
	"yield_out_of_line":         "a county yield out of line",
	"yield_source_may_differ":   "the source of county yields",
}

// otherFlags name what else is flagged and on which farms, warnings first, a few by name.
func otherFlags(y answer.YearPart) report.Lines {
	var names []string
	farms := map[string][]string{}
	for _, severity := range []answer.Severity{answer.Warning, answer.Info} {
		for _, f := range y.Farms {
			for _, flag := range f.Flags {
				if !isOther(flag) || flag.Severity != severity {
					continue
				}
				name := flagName(flag.Code)
				if farms[name] == nil {
					names = append(names, name)
				}
				if farm := wording.Farm(f.Farm, y.Farms); !slices.Contains(farms[name], farm) {
					farms[name] = append(farms[name], farm)
				}
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	var said []string
	for _, name := range names[:min(most, len(names))] {
		switch {
		case len(y.Farms) == 1:
		case len(farms[name]) == len(y.Farms):
			name += " on every farm"
		default:
			name += " on " + farmNames(farms[name])
		}
		said = append(said, name)
	}
	if n := len(names) - most; n > 0 {
		said = append(said, fmt.Sprintf("%d more", n))
	}
	return report.Lines{"More to check (--farm): " + strings.Join(said, "; ") + "."}
}

// flagName says in few words what a flag is about.
func flagName(code string) string {
	if name, known := flagNames[code]; known {
		return name
	}
	return strings.ReplaceAll(code, "_", " ")
}
