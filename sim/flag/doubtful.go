package flag

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

// unverifiedFigure flags farms whose answer rests on figures of the law that are not
// confirmed in a text that was read, or are projected, and names them all.
func unverifiedFigure(c *Case) []answer.Flag {
	var unverified, projected, sources []string
	for _, d := range c.doubtful() {
		into := &unverified
		name := d.name()
		source := d.row.Citation()
		if d.row.Status == crop.Projected {
			into = &projected
			if d.row.Note != "" { // how it is projected
				source += " (" + d.row.Note + ")"
			}
		}
		if !slices.Contains(*into, name) {
			*into, sources = append(*into, name), append(sources, source)
		}
	}
	var said []string
	if len(unverified) > 0 {
		said = append(said, fmt.Sprintf("Not yet confirmed for %d: %s.", c.CropYear, strings.Join(unverified, ", ")))
	}
	if len(projected) > 0 {
		said = append(said, fmt.Sprintf("Projected for %d: %s.", c.CropYear, strings.Join(projected, ", ")))
	}
	if len(said) == 0 {
		return nil
	}
	said = append(said, "Ask the county office for the figures in force. You can enter your own (settings in the operation file).")
	slices.Sort(sources)
	return []answer.Flag{{Code: "unverified_figure", Severity: answer.Warning, Message: strings.Join(said, " "), Source: strings.Join(slices.Compact(sources), "; ")}}
}

// doubtfulRow is a row of the law that is unverified or projected.
type doubtfulRow struct {
	row       law.Figure
	commodity string // its name, "" for a row of all
}

// doubtful returns those behind the answer of the farm, some more than once.
func (c *Case) doubtful() (all []doubtfulRow) {
	add := func(row law.Figure, commodity string) {
		if row.Status == crop.Unverified || row.Status == crop.Projected {
			all = append(all, doubtfulRow{row, commodity})
		}
	}
	for _, base := range c.Bases {
		for _, id := range []string{"reference_price", "reference_price_step", "loan_rate"} {
			add(base.National.Terms.Rows[id], base.Commodity.Name())
		}
	}
	for _, row := range c.Rules.Rows {
		add(row, "")
	}
	if rule, err := law.Find("election_rule", "", c.CropYear); err == nil {
		add(rule, "")
	}
	return all
}

// name names the figure with its value as people write it.
func (d doubtfulRow) name() string {
	name := "the " + strings.ReplaceAll(d.row.ID, "_", " ")
	if d.commodity != "" {
		name += " of " + d.commodity
	}
	switch d.row.Unit {
	case "word", "date":
		return name
	case "USD":
		return name + " (" + PlainDollars(d.row.Number) + ")"
	case "1":
		return fmt.Sprintf("%s (%s percent)", name, plainNumber(program.Round(100*d.row.Number, 4)))
	}
	return name + " (" + d.row.Text + ")"
}
