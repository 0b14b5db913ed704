package batch

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/farmtable"
	"fencerow/program"
	"fencerow/sim/answer"
)

// Kind is a kind of input that can move an answer, or what a line of the difference is
// put down to.
type Kind string

// The kinds of inputs; then what is no kind by itself.
const (
	ByPrice      Kind = "price"        // national prices, of the year and of past ones
	ByCounty     Kind = "county_yield" // county and benchmark yields
	ByLaw        Kind = "law"          // rows of the law: another version of fencerow
	ByProgram    Kind = "program"      // another version of fencerow with the same law
	ByRecord     Kind = "record"       // what the table says of the farm
	BySettings   Kind = "settings"     // the day of the question, seed, number of outcomes
	ByJoint      Kind = "joint"        // no kind alone does it, or several do
	OnlyInBefore Kind = "only_in_before"
	OnlyInAfter  Kind = "only_in_after"
)

// askable are the kinds of which one alone can be changed and the question asked again.
var askable = []Kind{ByPrice, ByCounty, ByRecord, BySettings}

// told is one line in all answers that are needed to say what moved it.
type told struct {
	before, after resultLine          // as written in the folders
	base          resultLine          // the first run's question asked of this program; nil: it has no such line
	alone         map[Kind]resultLine // the first run's question with one kind from the second
	differ        []Kind              // kinds of which the operation has other inputs
	program       Kind                // what another version of fencerow is put down to: ByLaw or ByProgram
}

// moving are the columns in which a line moves.
var moving = []string{"leader", "difference_mean", "plc_mean", "arc_co_mean", "base_acres"}

// sameAs reports whether no figure that the difference shows has moved.
func (l resultLine) sameAs(other resultLine) bool {
	return !slices.ContainsFunc(moving, func(column string) bool { return l.of(column) != other.of(column) })
}

// cause returns what moved a line, the kinds that move it by themselves, and those that
// by themselves give it the second run's lead. A flip is put down to the one kind that
// alone flips it; a line that keeps its lead to the one kind that alone moves it. Where
// another version of fencerow moves the line, the other kinds are asked of that version,
// so that none of them can be said to flip it alone.
func (t told) cause() (cause Kind, moves, flips []Kind) {
	flipped := t.before.of("leader") != t.after.of("leader")
	weigh := func(k Kind, from, to resultLine) {
		if to == nil || from.sameAs(to) {
			return
		}
		if flipped && to.of("leader") == t.after.of("leader") && (len(moves) == 0 || moves[0] != t.program) {
			flips = append(flips, k)
		}
		moves = append(moves, k)
	}
	weigh(t.program, t.before, t.base)
	for _, k := range askable {
		if slices.Contains(t.differ, k) {
			weigh(k, t.base, t.alone[k])
		}
	}
	decide := moves
	if flipped {
		decide = flips
	}
	if len(decide) == 1 {
		return decide[0], moves, flips
	}
	if len(moves) == 0 { // only together do they move it
		moves = t.differ
	}
	return ByJoint, moves, flips
}

// changed says in words what changed, from old to new, for the kinds that moved a line.
func (p *diffPair) changed(key lineKey, moves []Kind) string {
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
var unseen = map[Kind]string{
	ByPrice: "price: how far it may move, or the correlation of prices", ByCounty: "county yield: how far it may move, or what is known of other years",
	ByLaw: "law", ByProgram: "version of fencerow", ByRecord: "other rows of the farm or operation", BySettings: "settings",
}

func (p *diffPair) changedOf(k Kind, key lineKey) (words []string) {
	before, after := p.runs[0], p.runs[1]
	switch k {
	case ByPrice:
		return pricesChanged(p.base.parts[key], p.alone[ByPrice].parts[key])
	case ByCounty:
		return yieldsChanged(p.base.parts[key], p.alone[ByCounty].parts[key])
	case ByRecord:
		return recordChanged(key, p.items[0], p.items[1])
	case ByLaw:
		for _, one := range lawChanges(p.runs, key) {
			words = append(words, fromTo(strings.ReplaceAll(one.What, "_", " "), one.Before, one.After)...)
		}
		return words
	case ByProgram:
		return fromTo("version", before.Version, after.Version)
	}
	return slices.Concat(fromTo("today", before.Today, after.Today), fromTo("seed", fmt.Sprint(before.Seed), fmt.Sprint(after.Seed)), fromTo("outcomes", fmt.Sprint(before.Draws), fmt.Sprint(after.Draws)))
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

func priceText(p *answer.Price) string {
	if p == nil {
		return ""
	}
	return program.Text(p.Value, p.Decimals)
}

func pricesChanged(before, after answer.CommodityPart) []string {
	mean := func(part answer.CommodityPart) string {
		if part.MYA == nil {
			return ""
		}
		return priceText(&part.MYA.Mean)
	}
	return slices.Concat(fromTo("price", mean(before), mean(after)), fromTo("benchmark price", priceText(before.BenchmarkPrice), priceText(after.BenchmarkPrice)),
		fromTo("effective reference price", priceText(before.EffectiveReferencePrice), priceText(after.EffectiveReferencePrice)))
}

// yieldsChanged compares the county figures of the same bases: the record is the same.
func yieldsChanged(before, after answer.CommodityPart) (all []string) {
	text := func(d *answer.Dollars) string { return number((*float64)(d), money) }
	mean := func(b answer.BasePart) string {
		if b.CountyYield == nil {
			return ""
		}
		return text(&b.CountyYield.Mean)
	}
	for i := range min(len(before.Bases), len(after.Bases)) {
		old, now := before.Bases[i], after.Bases[i]
		where := " of county " + old.County
		if old.Practice != "all" && old.Practice != "" {
			where += " " + old.Practice
		}
		for _, one := range slices.Concat(fromTo("county yield"+where, mean(old), mean(now)), fromTo("benchmark yield"+where, text(old.BenchmarkYield), text(now.BenchmarkYield))) {
			if !slices.Contains(all, one) {
				all = append(all, one)
			}
		}
	}
	return all
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
