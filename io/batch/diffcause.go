package batch

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/farmtable"
	"fencerow/program"
	"fencerow/sim/answer"
	"fencerow/sim/moved"
)

// What a line of one run alone is put down to.
const (
	onlyInBefore answer.Cause = "only_in_before"
	onlyInAfter  answer.Cause = "only_in_after"
)

// moving are the columns in which a line moves.
var moving = []string{"leader", "difference_mean", "plc_mean", "arc_co_mean", "base_acres"}

// SameAs reports whether no figure that the difference shows has moved.
func (l resultLine) SameAs(other resultLine) bool {
	return !slices.ContainsFunc(moving, func(column string) bool { return l.of(column) != other.of(column) })
}

// Lead is the line's verdict.
func (l resultLine) Lead() string { return l.of("leader") }

// changed says in words what changed, from old to new, for the kinds that moved a line.
func (p *diffPair) changed(key lineKey, moves []answer.Cause) string {
	var all []string
	for _, k := range moves {
		words := p.changedOf(k, key)
		if len(words) == 0 {
			words = []string{unseen[k]}
		}
		all = append(all, words...)
	}
	return strings.Join(all, "; ")
}

// unseen says what changed where no figure that is shown did.
var unseen = map[answer.Cause]string{
	answer.CausePrice: "price: how far it may move, or the correlation of prices", answer.CauseCounty: "county yield: how far it may move, or what is known of other years",
	answer.CauseLaw: "law", answer.CauseProgram: "version of fencerow", answer.CauseRecord: "other rows of the farm or operation", answer.CauseSettings: "settings",
}

func (p *diffPair) changedOf(k answer.Cause, key lineKey) (words []string) {
	before, after := p.runs[0], p.runs[1]
	switch k {
	case answer.CausePrice:
		return inWords(moved.Prices(p.base.parts[key], p.alone[answer.CausePrice].parts[key]))
	case answer.CauseCounty:
		return inWords(moved.Yields(p.base.parts[key], p.alone[answer.CauseCounty].parts[key]))
	case answer.CauseRecord:
		return recordChanged(key, p.items[0], p.items[1])
	case answer.CauseLaw:
		for _, one := range lawChanges(p.runs, key) {
			words = append(words, fromTo(strings.ReplaceAll(one.What, "_", " "), one.Before, one.After)...)
		}
		return words
	case answer.CauseProgram:
		return fromTo("version", before.Version, after.Version)
	}
	return slices.Concat(fromTo("today", before.Today, after.Today), fromTo("seed", fmt.Sprint(before.Seed), fmt.Sprint(after.Seed)), fromTo("outcomes", fmt.Sprint(before.Draws), fmt.Sprint(after.Draws)),
		fromTo("close margin", program.Text(before.Close, 2), program.Text(after.Close, 2)))
}

// fromTo says that a figure changed, nothing where it did not.
func fromTo(what, before, after string) []string {
	if before == after {
		return nil
	}
	none := func(text string) string {
		if text == "" {
			return "none"
		}
		return text
	}
	return []string{what + " " + none(before) + " -> " + none(after)}
}

// inWords writes figures that changed, from old to new.
func inWords(changed []answer.Changed) (words []string) {
	for _, one := range changed {
		what := strings.ReplaceAll(one.What, "_", " ")
		if one.County != "" {
			what += " of county " + one.County
		}
		if one.Practice != "" {
			what += " " + one.Practice
		}
		words = append(words, fromTo(what, one.Before, one.After)...)
	}
	return words
}

// recordChanged compares the rows of a farm and crop, column by column.
func recordChanged(key lineKey, before, after []item) (all []string) {
	old, now := valuesOf(before, key), valuesOf(after, key)
	for i, column := range farmtable.Columns() {
		all = append(all, fromTo(cmp.Or(recordWords[column], strings.ReplaceAll(column, "_", " ")), old[i], now[i])...)
	}
	return all
}

// recordWords are columns of a table of farms in words, where they are others.
var recordWords = map[string]string{"payment_yield": "PLC yield", "commodity": "crop", "election_on_record": "last elected", "crp_reduction": "base reduced by CRP"}

// valuesOf are the cells of the rows of a farm and crop by column, rows that say the same
// once.
func valuesOf(items []item, key lineKey) []string {
	cells := make([]string, len(farmtable.Columns()))
	seen := make([][]string, len(cells))
	for _, i := range items {
		if i.Row.FarmKey() != key.farm || string(i.Row.Commodity) != key.commodity || i.Row.CropYear != 0 && fmt.Sprint(i.Row.CropYear) != key.cropYear {
			continue
		}
		if len(i.Refused) > 0 {
			seen[0] = append(seen[0], "(row refused)")
			continue
		}
		for c, value := range i.Row.Values() {
			if !slices.Contains(seen[c], value) {
				seen[c] = append(seen[c], value)
			}
		}
	}
	for c := range cells {
		cells[c] = strings.Join(seen[c], "/")
	}
	return cells
}
