package answer

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/law"
)

// unverifiedFigure names every figure of the law that enters the answer and is not
// confirmed in a text that was read, or is projected.
func unverifiedFigure(c flagCase) []Flag {
	var unverified, projected, sources []string
	for _, d := range c.doubtful() {
		into := &unverified
		name := d.name()
		if d.row.Status == crop.Projected {
			into = &projected
			if d.row.Note != "" {
				name += " (" + d.row.Note + ")"
			}
		}
		if !slices.Contains(*into, name) {
			*into, sources = append(*into, name), append(sources, d.row.Citation())
		}
	}
	var said []string
	if len(unverified) > 0 {
		said = append(said, fmt.Sprintf("Not confirmed for crop year %d: %s.", c.cropYear, strings.Join(unverified, "; ")))
	}
	if len(projected) > 0 {
		said = append(said, fmt.Sprintf("Projected for crop year %d: %s.", c.cropYear, strings.Join(projected, "; ")))
	}
	if len(said) == 0 {
		return nil
	}
	said = append(said, "Ask the county office for the figures in force. You can enter your own payment limit and sequestration (settings in the operation file).")
	slices.Sort(sources)
	return []Flag{{"unverified_figure", Warning, strings.Join(said, " "), strings.Join(slices.Compact(sources), "; ")}}
}

// doubtfulRow is a row of the law that is unverified or projected.
type doubtfulRow struct {
	row       law.Figure
	commodity string // its name, "" for a row of all
}

// doubtful returns those that enter the answer, each once for a commodity.
func (c flagCase) doubtful() (all []doubtfulRow) {
	add := func(row law.Figure, commodity string) {
		if row.Status == crop.Unverified || row.Status == crop.Projected {
			all = append(all, doubtfulRow{row, commodity})
		}
	}
	for _, h := range c.holdings {
		for _, id := range []string{"reference_price", "reference_price_step", "loan_rate"} {
			add(h.national.Terms.Rows[id], h.commodity.Name())
		}
	}
	for _, row := range c.people.rows {
		add(row, "")
	}
	if rule, err := law.Find("election_rule", "", c.cropYear); err == nil {
		add(rule, "")
	}
	return all
}

// name says which figure it is, with its value as people write it.
func (d doubtfulRow) name() string {
	name := "the " + strings.ReplaceAll(d.row.ID, "_", " ")
	if d.commodity != "" {
		name += " of " + d.commodity
	}
	switch d.row.Unit {
	case "word", "date":
		return name
	case "USD":
		return name + ", " + plainDollars(d.row.Number)
	case "1":
		return fmt.Sprintf("%s, %s percent", name, plainNumber(program.Round(100*d.row.Number, 4)))
	}
	return name + ", " + d.row.Text
}

// citationOf is the citation of a row of the law, "" where there is none in a year.
func citationOf(id string, y crop.CropYear) string {
	row, err := law.Find(id, "", y)
	if err != nil {
		return ""
	}
	return row.Citation()
}
