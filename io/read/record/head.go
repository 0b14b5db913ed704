package record

import (
	"slices"
	"strings"

	"fencerow/io/read/countyname"
)

// element is a thing that stands in the head or foot of a page and nowhere else.
type element struct {
	name    string
	pattern pattern // its first group is the value
}

// elements of a page head, in the order in which they are taken out of a line.
var elements = []element{
	{"farm", patternOf(`(?i)(?:^| )FARM ?\s*:\s*([0-9A-Za-z]{1,12})(?: |$)`)},
	{"prepared", patternOf(`(?i)(?:^| )Prepared\s*:\s*([0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4}(?:\s+[0-9]{1,2}:[0-9]{2}(?:\s*[AP]M)?(?: +[AECHMP][DS]?T\b)?)?)`)},
	{"year", patternOf(`(?i)(?:^| )Crop\s+Year\s*:\s*([0-9]{4})(?: |$)`)},
	{"form", patternOf(`(?i)(?:^| )((?:Form|Report\s+ID)\s*:\s*FSA[- ]?156[- ]?EZ)`)},
	{"see", patternOf(`(?i)(?:^| )See\s+Page\s+([0-9]+)\s+for\s+non-?\s?discriminatory\s+statements\.?`)},
	{"department", patternOf(`(?i)(?:^| )((?:United\s+States|U\.\s?S\.)\s+Department\s+of\s+Agriculture)(?: |$)`)},
	{"agency", patternOf(`(?i)(?:^| )(Farm\s+Service\s+Agency)(?: |$)`)},
	{"title", patternOf(`(?i)(?:^| )(Abbreviated\s+156\s+Farm\s+Record)(?: |$)`)},
	{"page", patternOf(`(?i)(?:^| )Page\s*:?\s*([0-9]+\s+of\s+[0-9]+)(?: |$)`)},
}

// head is one page head: its elements, and the names of State and county.
type head struct {
	first, last   int // lines
	found         map[string]Text
	names         []Text
	state, county Text
}

// isHead tells the head of a page from its foot.
func (h *head) isHead() bool {
	return h.found["farm"].Text != "" || h.found["form"].Text != "" || h.found["title"].Text != ""
}

// onlyNames is a line that may hold the State or the county.
var onlyNames = patternOf(`^ *\pL[\pL .'&-]*$`)

// mostNameWords is how many words State and county have together, at most: a judgement.
const mostNameWords = 6

// headLine takes the elements out of a line. ok is false for a line that is not part of
// a page head or foot.
func headLine(l line) (found map[string]Text, names []Text, ok bool) {
	found = map[string]Text{}
	rest := l.text
	for _, e := range elements {
		at := e.pattern().FindStringSubmatchIndex(rest)
		if at == nil {
			continue
		}
		found[e.name] = Text{rest[at[2]:at[3]], l.place}
		rest = rest[:at[0]] + "    " + rest[at[1]:]
	}
	rest = strings.TrimRight(rest, " ")
	if len(found) == 0 || strings.TrimSpace(rest) != "" && (!onlyNames().MatchString(rest) || len(strings.Fields(rest)) > mostNameWords) {
		return nil, nil, false
	}
	for _, c := range cellsOf(line{l.place, rest}).cells {
		names = append(names, Text{c.text, c.place})
	}
	return found, names, true
}

// headsOf finds the page heads and feet of a text.
func headsOf(lines []line) (heads []*head) {
	for i := 0; i < len(lines); {
		found, names, ok := headLine(lines[i])
		if !ok {
			i++
			continue
		}
		h := &head{first: i, last: i, found: found, names: names}
		for i = h.last + 1; i < len(lines) && h.takes(lines, i); i = h.last + 1 {
		}
		heads = append(heads, h)
	}
	for i := range heads {
		from := 0
		if i > 0 {
			from = heads[i-1].last + 1
		}
		heads[i].reachOut(lines, from)
		heads[i].name()
	}
	return heads
}

// takes adds line i to a head, if it goes on there. A head on one page does not, nor one
// that would have an element twice; up to two names may stand between its elements.
func (h *head) takes(lines []line, i int) bool {
	for skip := 0; skip+len(h.names) <= 2 && i+skip < len(lines); skip++ {
		found, names, ok := headLine(lines[i+skip])
		if lines[i+skip].place.Page != lines[h.last].place.Page {
			return false
		}
		if !ok && onlyNames().MatchString(lines[i+skip].text) {
			continue
		}
		if !ok {
			return false
		}
		for name := range found {
			if _, twice := h.found[name]; twice {
				return false
			}
		}
		for _, between := range lines[i : i+skip] {
			h.names = append(h.names, Text{strings.TrimSpace(between.text), between.place})
		}
		for name, text := range found {
			h.found[name] = text
		}
		h.names, h.last = append(h.names, names...), i+skip
		return true
	}
	return false
}

// reachOut takes State and county into a head beside which they stand on lines of their
// own: before it where the page begins there or one of them is a State, or behind it.
func (h *head) reachOut(lines []line, from int) {
	if !h.isHead() {
		return
	}
	for want := 2 - len(h.names); want > 0; want-- {
		first := h.first - want
		if first < from || !allNames(lines[first:h.first]) {
			continue
		}
		begins := first == 0 || lines[first-1].place.Page != lines[first].place.Page
		if begins || slices.ContainsFunc(lines[first:h.first], isState) {
			var before []Text
			for _, l := range lines[first:h.first] {
				before = append(before, Text{strings.TrimSpace(l.text), l.place})
			}
			h.names, h.first = append(before, h.names...), first
			return
		}
	}
	if next := h.last + 1; len(h.names) == 0 && next+1 < len(lines) && allNames(lines[next:next+2]) && isState(lines[next]) {
		for _, l := range lines[next : next+2] {
			h.names = append(h.names, Text{strings.TrimSpace(l.text), l.place})
		}
		h.last += 2
	}
}

func allNames(lines []line) bool {
	return !slices.ContainsFunc(lines, func(l line) bool {
		return !onlyNames().MatchString(l.text) || len(strings.Fields(l.text)) > mostNameWords || titleOf(l.text) != "" || isLabel(l.text)
	})
}

func isState(l line) bool { return countyname.State(strings.TrimSpace(l.text)) != "" }

// name decides which name is the State and which the county: the State is the first that
// is one, or the first.
func (h *head) name() {
	names := h.names
	if len(names) == 1 {
		names = parted(names[0])
	}
	state := slices.IndexFunc(names, func(t Text) bool { return countyname.State(t.Text) != "" })
	switch {
	case len(names) == 0:
	case len(names) == 1 && state < 0:
		h.county = names[0]
	case len(names) == 1:
		h.state = names[0]
	case state == 1:
		h.state, h.county = names[1], names[0]
	default:
		h.state, h.county = names[0], names[1]
	}
}

// parted parts a line that holds a State and then a county.
func parted(t Text) []Text {
	all := strings.Fields(t.Text)
	for n := 1; n <= 2 && n < len(all); n++ {
		if state := strings.Join(all[:n], " "); countyname.State(state) != "" {
			return []Text{{state, t.Place}, {strings.Join(all[n:], " "), t.Place}}
		}
	}
	return []Text{t}
}
