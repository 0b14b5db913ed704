package record

import (
	"fmt"
	"regexp"
	"strings"

	"fencerow/program/crop"
)

// columns are where the headings of a crop table stand; nil where not seen apart.
type columns struct{ yield, hip, ctap *cell }

// heading takes the columns of a heading row.
func (k *columns) heading(one *row) {
	for i, c := range one.cells {
		switch text := strings.ToLower(c.text); {
		case strings.HasPrefix(text, "plc") && !strings.Contains(text, "hip"):
			k.yield = &one.cells[i]
		case text == "hip":
			k.hip = &one.cells[i]
		case strings.HasPrefix(text, "ctap"):
			k.ctap = &one.cells[i]
		}
	}
}

// closer reports whether a cell stands closer to column a than to b; false where one of
// them is not known.
func closer(c cell, a, b *cell) bool {
	if a == nil || b == nil {
		return false
	}
	return offset(c, *a) < offset(c, *b)
}

// offset is how far a cell stands off a heading: by left edge, right edge or middle,
// whichever is least.
func offset(c, head cell) int {
	d := func(a, b int) int { return max(a-b, b-a) }
	return min(d(c.col, head.col), d(c.end(), head.end()), d((c.col+c.end())/2, (head.col+head.end())/2))
}

var totalRow = regexp.MustCompile(`(?i)^total(?: base acres)? *:?$`)

// crops reads a row of a table of base acres.
func (r *reader) crops(one *row) {
	if headingOnly(one) {
		r.columns.heading(one)
		return
	}
	words := one.words()
	n := 0
	for n < len(words) && !hasDigit.MatchString(words[n].text) {
		n++
	}
	var name []string
	for _, w := range words[:n] {
		name = append(name, w.text)
	}
	text := strings.Join(name, " ")
	switch {
	case totalRow.MatchString(text):
		r.total(words[n:])
	case n == len(words): // no number: perhaps the first part of a name
		r.dropPending()
		r.pending = cell{text, words[0].col, one.place}
	default:
		r.crop(one, r.fullName(text), words[n:])
	}
}

// fullName puts the parts of a name on two lines together, where that is a crop.
func (r *reader) fullName(text string) string {
	before := r.pending.text
	both := strings.TrimSpace(before + " " + text)
	if _, known := crop.ParseCommodity(both); before != "" && (text == "" || known || isUnassigned(both)) {
		r.pending = cell{}
		return both
	}
	r.dropPending()
	return text
}

// dropPending keeps the first part of a name that no second followed as not understood.
func (r *reader) dropPending() {
	if r.pending.text == "" {
		return
	}
	l := line{r.pending.place, r.pending.text}
	r.pending = cell{}
	r.unread(cellsOf(l))
}

func isUnassigned(name string) bool { return strings.HasPrefix(onlyLetters(name), "unassigned") }

// total takes the last row of a table.
func (r *reader) total(figures []cell) {
	t := &r.record.Total
	if r.tract != nil {
		t = &r.tract.Total
	}
	if len(figures) > 0 {
		t.Base.read(figures[0])
	}
	if len(figures) > 1 {
		t.Reduction.read(figures[1])
	}
}

// crop takes a row of one crop.
func (r *reader) crop(one *row, name string, figures []cell) {
	c := &Crop{Name: name, Place: figures[0].place, Unassigned: isUnassigned(name)}
	c.Base.read(figures[0])
	if name == "" || !r.placeFigures(c, figures[1:]) {
		r.unread(one)
		r.ask(one.place, fmt.Sprintf("the row %q of base acres is not understood: give its crop, base acres and PLC yield", strings.Join(strings.Fields(one.text), " ")))
		return
	}
	if !c.Unassigned {
		c.Commodity, _ = crop.ParseCommodity(name)
	}
	if c.Commodity == "" && !c.Unassigned && r.tract == nil {
		r.ask(c.Place, fmt.Sprintf("the crop %q is not known: say which it is", name))
	}
	r.askFigures(c)
	if r.tract != nil {
		r.tract.Crops = append(r.tract.Crops, c)
		return
	}
	r.record.Crops = append(r.record.Crops, c)
}

// mostHIP is the highest irrigated percentage.
const mostHIP = 100

// placeFigures says what the figures behind the base acres are. In the newer layout:
// reduction, yield, perhaps HIP. In the older: perhaps the CTAP yield, the PLC yield,
// the reduction. A figure with a point tells acres from yields.
func (r *reader) placeFigures(c *Crop, figures []cell) bool {
	n := len(figures)
	switch {
	case n == 0:
		return true
	case isAcres(figures[0]) || r.record.Layout == Newer && !isAcres(figures[n-1]):
		if n > 3 {
			return false
		}
		c.Reduction.read(figures[0])
		switch {
		case n == 2 && closer(figures[1], r.columns.hip, r.columns.yield):
			c.HIP.read(figures[1])
		case n >= 2:
			c.Yield.read(figures[1])
		}
		if n == 3 {
			c.HIP.read(figures[2])
		}
		return c.HIP.Text == "" || !c.HIP.Known || c.HIP.Number <= mostHIP
	case isAcres(figures[n-1]):
		c.Reduction.read(figures[n-1])
		figures, n = figures[:n-1], n-1
	}
	switch {
	case n == 1 && closer(figures[0], r.columns.ctap, r.columns.yield):
	case n == 1, n == 2:
		c.Yield.read(figures[n-1])
	default:
		return n == 0
	}
	return true
}

// askFigures asks for what is printed and is no number.
func (r *reader) askFigures(c *Crop) {
	for _, f := range []struct {
		what string
		Figure
	}{{"base acres", c.Base}, {"CCC-505 reduction", c.Reduction}, {"PLC yield", c.Yield}, {"HIP", c.HIP}} {
		if f.Text != "" && !f.Known {
			r.ask(f.Place, fmt.Sprintf("%s of %s is printed as %q, which is no number: give it", f.what, c.Name, f.Text))
		}
	}
}
