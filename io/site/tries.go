package site

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// tries are boxes for prices and county yields, and what the programs pay there.
type tries struct {
	compared
	request       Request
	wrong         faults
	boxes, yields []box
}

// box is one figure to try.
type box struct {
	name, label, value string
}

// triesOf makes a box for the price of each crop, and one for each county yield.
func triesOf(c compared, r Request) *tries {
	t := &tries{compared: c, request: r, wrong: faults{}}
	seen := map[string]bool{}
	add := func(to *[]box, name, label, used string) {
		if seen[name] {
			return
		}
		seen[name] = true
		value := strings.TrimSpace(r.Form.Get(name))
		if value == "" {
			value = used
		}
		*to = append(*to, box{name, label, value})
	}
	for _, of := range c.found.CropYears[0].Farms {
		for _, part := range of.ByStake() {
			if !triable(part) {
				continue
			}
			add(&t.boxes, "tp."+string(part.Commodity), wording.Capital(part.Commodity.Name())+" price", wording.Decimal(&part.MYA.Mean))
			for _, b := range counted(part) {
				add(&t.yields, yieldBox(part.Commodity, b), fmt.Sprintf("%s%s yield, %s", part.Commodity.Name(), practiceWord(b), wording.County(b)), wording.Plain(&b.CountyYield.Mean))
			}
		}
	}
	return t
}

// triable reports whether a price and the county yields of a crop are known.
func triable(part answer.CommodityPart) bool {
	for _, b := range part.Bases {
		if b.CountyYield == nil {
			return false
		}
	}
	return part.MYA != nil && len(part.Bases) > 0
}

// counted are the bases of a crop without a practice that no acre of it has.
func counted(part answer.CommodityPart) (all []answer.BasePart) {
	for _, b := range part.Bases {
		if b.BaseAcres > 0 {
			all = append(all, b)
		}
	}
	return all
}

// isNumber reports whether a box holds one number; what else stands there is a fault.
func (t *tries) isNumber(name string) bool {
	if text := t.value(name); text == "" || strings.Trim(text, "0123456789.") != "" {
		t.wrong.add(name, farm.Fault{Reason: fmt.Sprintf("%s is %q", t.label(name), text), Hint: "give a number such as 4.10"})
		return false
	}
	return true
}

func yieldBox(c crop.Commodity, b answer.BasePart) string {
	return fmt.Sprintf("ty.%s.%s.%s", b.County, c, practiceOf(b))
}

func practiceWord(b answer.BasePart) string {
	if practiceOf(b) == farm.AllPractices {
		return ""
	}
	return " " + b.Practice
}

// box is that of a name.
func (t *tries) box(name string) box {
	all := slices.Concat(t.boxes, t.yields)
	if i := slices.IndexFunc(all, func(b box) bool { return b.name == name }); i >= 0 {
		return all[i]
	}
	return box{}
}

// value is what stands in a box, without a dollar sign.
func (t *tries) value(name string) string { return strings.TrimPrefix(t.box(name).value, "$") }

func (t *tries) label(name string) string { return t.box(name).label }

// paid is what both programs pay on a base at the figures of the boxes; nil where one of
// them is wrong.
func (t *tries) paid(key string, part answer.CommodityPart) *explain.ExplanationPrograms {
	price := "tp." + string(part.Commodity)
	if !t.isNumber(price) {
		return nil
	}
	given, err := source.ParseGiven(t.value(price), "1", string(part.Commodity))
	if t.refused(price, err) {
		return nil
	}
	given.CountyYield = explain.CountyYields{}
	for _, b := range part.Bases {
		given.CountyYield[explain.CountyPractice{County: b.County, Practice: practiceOf(b)}] = crop.Yield(b.CountyYield.Mean)
	}
	for _, b := range counted(part) {
		name := yieldBox(part.Commodity, b)
		if !t.isNumber(name) {
			return nil
		}
		one, err := source.ParseGiven("1", t.value(name), string(part.Commodity))
		if t.refused(name, err) {
			return nil
		}
		for _, y := range one.CountyYield {
			given.CountyYield[explain.CountyPractice{County: b.County, Practice: practiceOf(b)}] = y
		}
	}
	of, err := source.FindFarm(t.Operation, key)
	if err == nil {
		err = source.CheckGiven(t.Question, of, part.Commodity, given)
	}
	if t.refused(price, err) {
		return nil
	}
	e, err := explain.Explain(t.Question, of, part.Commodity, t.CropYears[0], given)
	if err != nil {
		return nil
	}
	return &e.Programs
}

// refused keeps what is wrong with a box, and reports whether anything is.
func (t *tries) refused(name string, err error) bool {
	if err == nil {
		return false
	}
	var wrong source.Wrong
	if errors.As(err, &wrong) {
		t.wrong.add(name, farm.Fault{Reason: t.label(name) + " " + wrong.Reason, Hint: wrong.Hint})
	} else {
		t.wrong.add(name, farm.Fault{Reason: err.Error(), Hint: "change the figure"})
	}
	return true
}

// tries adds the boxes and the table of what is paid.
func (f *frame) tries(c compared, r Request) {
	t := triesOf(c, r)
	if len(t.boxes) == 0 {
		return
	}
	var table frame
	t.table(&table)
	f.WriteString(`<fieldset data-live><legend>What if? Try other prices and county yields</legend>` + "\n")
	f.WriteString(table.String()) // above the boxes: a phone shows both
	for _, all := range [][]box{t.boxes, t.yields} {
		f.WriteString(`<div class="fields">`)
		for _, b := range all {
			f.text(input{name: b.name, label: wording.Capital(b.label), value: b.value, short: true}, nil)
		}
		f.WriteString("</div>\n")
	}
	f.put(`<noscript><p class="buttons"><button class="second">Work it out</button></p></noscript>` + "\n</fieldset>\n")
}

// table is what both programs pay on every base at the figures of the boxes.
func (t *tries) table(f *frame) {
	var rows frame
	farms := t.found.CropYears[0].Farms
	for _, of := range farms {
		for _, part := range of.ByStake() {
			if !triable(part) {
				continue
			}
			rows.put(`<tr><th scope="row">%s</th>`, fmt.Sprintf("%s %s", wording.Farm(of.Farm, farms), part.Commodity.Name()))
			paid := t.paid(of.Farm, part)
			for _, p := range []farm.Program{farm.PLC, farm.ARCCO} {
				rows.put("<td>%s</td>", paidText(paid, p))
			}
			rows.WriteString("</tr>\n")
		}
	}
	f.WriteString(`<div data-answer id="tried" aria-live="polite">` + "\n")
	for _, name := range sortedKeys(t.wrong) {
		for _, one := range t.wrong[name] {
			f.put(`<p class="fault">%s. %s.</p>`+"\n", wording.Capital(one.Reason), wording.Capital(one.Hint))
		}
	}
	f.WriteString(`<p class="small">For trying only: the sheets keep the figures above. A payment is for the whole farm, before shares, payment limit and sequestration.</p>
<table class="figures"><caption>What each pays there, a base acre and in all</caption><thead><tr><td></td><th scope="col">PLC</th><th scope="col">ARC-CO</th></tr></thead><tbody>` + "\n" + rows.String() + "</tbody></table>\n</div>\n")
}

func paidText(paid *explain.ExplanationPrograms, p farm.Program) string {
	if paid == nil {
		return "-"
	}
	steps := paid.Of(p)
	if steps == nil || steps.Payment == nil {
		return "unknown"
	}
	return wording.Money(steps.PaymentPerBaseAcre) + ", " + wording.Whole(steps.Payment)
}
