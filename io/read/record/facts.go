package record

import (
	"fmt"
	"strings"
)

// facts reads the labels with colons of a row. It returns false for a row without one.
func (r *reader) facts(one *row) bool {
	at := aLabel().FindAllStringSubmatchIndex(one.text, -1)
	if len(at) == 0 {
		return r.unknownFact(one)
	}
	r.begin(inFacts)
	for i, m := range at {
		end := len(one.text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		label, value := labels[fold(one.text[m[2]:m[3]])], one.text[m[1]:end]
		lead := len(value) - len(strings.TrimLeft(value, " "))
		r.fact, r.valueCol, r.across = label, m[1]+lead, nil
		if strings.TrimSpace(value) == "" {
			r.valueCol = m[2] // what stands on the next line stands below the label
		}
		r.value(label, one.text[m[2]:m[3]], trimHeadings(value), one.place)
	}
	return true
}

// trimHeadings takes a value without headings of other columns that stand behind it on
// the line, and with single blanks.
func trimHeadings(value string) string {
	var kept []string
	for _, c := range cells.FindAllString(value, -1) {
		if len(kept) > 0 && headingOnly(cellsOf(line{text: c})) {
			continue
		}
		kept = append(kept, c)
	}
	return strings.Join(kept, " ")
}

// unknownFact keeps what looks like a label and is not known.
func (r *reader) unknownFact(one *row) bool {
	if r.section != inFacts {
		return false
	}
	m := unknownLabel().FindStringSubmatch(one.text)
	if m == nil {
		return false
	}
	r.fact = ""
	r.keepFact(m[1], m[2], one.place)
	return true
}

func (r *reader) keepFact(label, value string, at Place) {
	f := Fact{Label: label, Value: Private{value}, Place: at}
	if r.tract != nil {
		r.tract.Extra = append(r.tract.Extra, f)
		return
	}
	r.record.Extra = append(r.record.Extra, f)
}

// value takes the value of a known label.
func (r *reader) value(label, printed, value string, at Place) {
	if label == tractNumber {
		r.newTract(Text{value, at})
		if !isFarmNumber(value) {
			r.ask(at, fmt.Sprintf("the tract number is printed as %q, which is not all digits: give it", value))
		}
		return
	}
	if value == "" {
		return
	}
	if to := r.people(label); to != nil {
		if !strings.EqualFold(value, "none") {
			*to = append(*to, splitList(value, label == contracts)...)
		}
		return
	}
	switch {
	case label == eligibility:
		r.record.Eligibility = Text{value, at}
	case label == physical && r.tract != nil:
		state, county, both := strings.Cut(value, "/")
		if !both {
			state, county = "", value
		}
		r.tract.State, r.tract.County = Text{strings.TrimSpace(state), at}, Text{strings.TrimSpace(county), at}
	default:
		r.keepFact(printed, value, at)
	}
}

// people is where the value of a label is kept that says who somebody is; nil for others.
func (r *reader) people(label string) *Private {
	switch {
	case label == operatorName:
		return &r.record.Operator
	case label == contracts:
		return &r.record.Contracts
	case label == owners && r.tract != nil:
		return &r.tract.Owners
	case label == otherProducer && r.tract != nil:
		return &r.tract.Others
	}
	return nil
}

// splitList parts a value at its commas, where it is a list.
func splitList(value string, list bool) (all []string) {
	if !list {
		return []string{value}
	}
	for _, one := range strings.Split(value, ",") {
		if one = strings.TrimSpace(one); one != "" {
			all = append(all, one)
		}
	}
	return all
}

// slack is how many columns the next line of a value may stand off its first: a judgement.
const slack = 2

// continues takes a row as the next line of the value before it, where it stands below
// that value, or where each cell has a line of its own.
func (r *reader) continues(one *row) bool {
	if r.fact == "" || r.fact == tractNumber {
		return false
	}
	off := one.indent() - r.valueCol
	if !r.plain && (off > slack || off < -slack) || r.plain && headingSection(one) != "" {
		return false
	}
	value := trimHeadings(one.text)
	if r.fact == physical && r.tract != nil && r.tract.County.Text != "" {
		r.tract.County.Text += " " + value
		return true
	}
	r.value(r.fact, r.fact, value, one.place)
	return true
}

// valuesAcross reads labels that stand beside each other without a colon, above their
// values, as the older print has them.
func (r *reader) valuesAcross(one *row) bool {
	var found []cell
	for _, c := range one.cells {
		if label := labels[fold(c.text)]; label != "" || fold(c.text) == "farm identifier" {
			found = append(found, cell{label, c.col, c.place})
		}
	}
	if len(found) > 0 && len(found) == len(one.cells) {
		r.across, r.fact = found, ""
		return true
	}
	if r.across == nil {
		return false
	}
	for _, c := range one.cells {
		if label := r.across[nearest(c, r.across)].text; label != "" {
			r.value(label, label, c.text, c.place)
		}
	}
	r.across = nil
	return true
}
