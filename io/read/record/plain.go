package record

import (
	"regexp"
	"strings"
)

var (
	headLabel = regexp.MustCompile(`(?i)^ *(?:farm|prepared|crop year|form|report id) *:$`)
	headValue = regexp.MustCompile(`(?i)^ *(?:[0-9]|FSA)`)
)

// joinColons puts a label, its colon and its value on one line where copying set them
// on two or three.
func joinColons(lines []line) (joined []line) {
	isValue := func(i int) bool {
		return i < len(lines) && strings.TrimSpace(lines[i].text) != ":" && titleOf(lines[i].text) == "" && !isLabel(lines[i].text) &&
			(i+1 == len(lines) || strings.TrimSpace(lines[i+1].text) != ":")
	}
	for i := 0; i < len(lines); i++ {
		l := lines[i]
		switch last := len(joined) - 1; {
		case strings.TrimSpace(l.text) == ":" && last >= 0:
			joined[last].text += " :"
			if isValue(i + 1) {
				joined[last].text += " " + strings.TrimSpace(lines[i+1].text)
				joined[last].place = lines[i+1].place
				i++
			}
		case headLabel.MatchString(l.text) && i+1 < len(lines) && headValue.MatchString(lines[i+1].text):
			joined = append(joined, line{lines[i+1].place, l.text + " " + strings.TrimSpace(lines[i+1].text)})
			i++
		default:
			joined = append(joined, l)
		}
	}
	return joined
}

// numbersInRow is how many numbers on one line show that rows were kept. A judgement.
const numbersInRow = 3

// isPlain tells a text with one cell a line from one that keeps its rows.
func isPlain(lines []line) bool {
	alone := 0
	for _, l := range lines {
		words := cellsOf(l).words()
		numbers := 0
		for _, w := range words {
			if wholeOrDecimal.MatchString(w.text) {
				numbers++
			}
		}
		if numbers >= numbersInRow {
			return false
		}
		if numbers == 1 && len(words) == 1 {
			alone++
		}
	}
	return alone >= numbersInRow
}

// rows returns the lines of one record in rows.
func rows(lines []line) (all []*row, plain bool) {
	if plain = isPlain(lines); plain {
		return (&rejoiner{lines: lines}).rows(), true
	}
	for _, l := range lines {
		all = append(all, cellsOf(l))
	}
	return all, false
}

// rejoiner sets a text of one cell a line back into rows, by counting cells.
type rejoiner struct {
	lines []line
	at    int
	all   []*row
}

func (j *rejoiner) rows() []*row {
	section := inFacts
	for j.at < len(j.lines) {
		l := j.lines[j.at]
		if title := titleOf(l.text); title != "" {
			section = title
			j.keep(1)
			continue
		}
		if isLabel(l.text) && strings.Contains(l.text, ":") && (section != inNotes || startsTract(l.text)) {
			section = inFacts
		}
		if begins := headingSection(cellsOf(l)); begins != "" && section == inFacts {
			section = begins
		}
		switch {
		case section == inLand && j.isNumber(j.at):
			j.landRow()
		case section == inCrops && !headingOnly(cellsOf(l)):
			j.cropRow()
		case section == inElection:
			j.election()
			section = inFacts
		default:
			j.keep(1)
		}
	}
	return j.all
}

func startsTract(text string) bool {
	before, _, _ := strings.Cut(text, ":")
	return labels[fold(before)] == tractNumber
}

func (j *rejoiner) isNumber(i int) bool {
	return i < len(j.lines) && wholeOrDecimal.MatchString(strings.TrimSpace(j.lines[i].text))
}

// keep takes n lines as they stand.
func (j *rejoiner) keep(n int) {
	for _, l := range j.lines[j.at : j.at+n] {
		j.all = append(j.all, cellsOf(l))
	}
	j.at += n
}

// cellColumn sets the cells of a row apart that had no place in a line.
const cellColumn = 40

// join makes one *row of the next n lines.
func (j *rejoiner) join(n int) {
	r := &row{line: j.lines[j.at]}
	for i, l := range j.lines[j.at : j.at+n] {
		r.cells = append(r.cells, cell{strings.TrimSpace(l.text), i * cellColumn, l.place})
	}
	j.all, j.at = append(j.all, r), j.at+n
}

// landRow joins a run of numbers, with the farm's status and its count of tracts.
func (j *rejoiner) landRow() {
	n := 0
	for j.isNumber(j.at + n) {
		n++
	}
	if i := j.at + n; i < len(j.lines) && !hasDigit.MatchString(j.lines[i].text) && !headingOnly(cellsOf(j.lines[i])) && j.isNumber(i+1) {
		n += 2
	}
	j.join(n)
}

// cropRow joins a name, on one line or more, with the numbers behind it.
func (j *rejoiner) cropRow() {
	n := 0
	for i := j.at; i < len(j.lines) && !j.isNumber(i); i++ {
		if text := j.lines[i].text; n > 0 && (titleOf(text) != "" || isLabel(text)) {
			break
		}
		n++
	}
	if !j.isNumber(j.at + n) {
		j.keep(1)
		return
	}
	name := j.lines[j.at]
	for _, l := range j.lines[j.at+1 : j.at+max(n, 1)] {
		name.text += " " + strings.TrimSpace(l.text)
	}
	j.at += max(n-1, 0)
	numbers := 0
	for j.isNumber(j.at + min(n, 1) + numbers) {
		numbers++
	}
	if n > 0 {
		j.lines[j.at] = name // the last line of the name takes all of it
	}
	j.join(min(n, 1) + numbers)
}

// election joins the headings of the lists, then the lists, one cell each.
func (j *rejoiner) election() {
	headings, text := 0, ""
	for i := j.at; i < len(j.lines) && headingOnly(cellsOf(j.lines[i])); i++ {
		headings++
		text += " " + strings.TrimSpace(j.lines[i].text)
	}
	if headings == 0 {
		j.keep(1)
		return
	}
	head := &row{line: j.lines[j.at]}
	for i, h := range electionHeads([]cell{{text, 0, head.place}}) {
		head.cells = append(head.cells, cell{h.text, i * cellColumn, h.place})
	}
	j.all, j.at = append(j.all, head), j.at+headings
	lists := j.lists()
	for i := range lists {
		lists[i].col = i * cellColumn
		if len(lists) != len(head.cells) {
			lists[i].col = noColumn
		}
	}
	if len(lists) > 0 {
		j.all = append(j.all, &row{line{lists[0].place, joinedText(lists)}, lists})
	}
}

// lists takes the lists of elections; one that ends in a comma goes on.
func (j *rejoiner) lists() (all []cell) {
	for ; j.at < len(j.lines); j.at++ {
		l := j.lines[j.at]
		if titleOf(l.text) != "" || isLabel(l.text) || headingOnly(cellsOf(l)) {
			break
		}
		text := strings.TrimSpace(l.text)
		if n := len(all); n > 0 && (strings.HasSuffix(all[n-1].text, ",") || strings.HasPrefix(text, ",")) {
			all[n-1].text += " " + text
			continue
		}
		all = append(all, cell{text, 0, l.place})
	}
	return all
}

func joinedText(all []cell) string {
	var texts []string
	for _, c := range all {
		texts = append(texts, c.text)
	}
	return strings.Join(texts, "  ")
}
