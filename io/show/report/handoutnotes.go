package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/sim/explain"
)

// OfHandoutNotes lists, for those who made county sheets, what is not for the room:
// counties and crops without a sheet, old prices and tables, figures to import, each with
// what to do. left are lines about what was left out of the files.
func OfHandoutNotes(h explain.Handout, left []string) Report {
	var r Report
	r.heading(1, "Notes for whoever made these sheets")
	r.text("None of this stands on the sheets. " + wording.Made(h.Comparison))
	all := notesOf(h, left)
	for _, n := range all {
		r.heading(2, n.head)
		if len(n.sheets) > 0 {
			r.text(n.concerns())
		}
		r.notes(n.lines)
		for _, do := range n.do {
			r.text("What to do: " + do)
		}
		r.notes(n.copied)
	}
	if len(all) == 0 {
		r.text("There is nothing to note.")
	}
	return r
}

// mostTold is how many counties and crops without a sheet get a line of talk each.
const mostTold = 4

// HandoutTalk is a short line for each kind of note, and for the first of what has no sheet.
func HandoutTalk(h explain.Handout, left []string) (lines []string) {
	for i, missing := range h.Missing {
		if i == mostTold {
			lines = append(lines, fmt.Sprintf("no sheet for %d more counties or crops", len(h.Missing)-i))
			break
		}
		lines = append(lines, "no sheet: "+missing)
	}
	for _, n := range notesOf(h, left) {
		if len(n.sheets) > 0 {
			lines = append(lines, fmt.Sprintf("%s: %d of %d sheets", n.head, len(n.sheets), len(h.Sheets)))
		}
	}
	return lines
}

// note is one kind of note.
type note struct {
	head   string
	sheets []int // that it concerns, by number; none: it is of no sheet
	lines  []string
	do     []string
	copied []string // lines to copy into a file
}

// concerns names the sheets of a note, those that follow each other as "3 to 8".
func (n note) concerns() string {
	var parts []string
	for i := 0; i < len(n.sheets); {
		last := i
		for last+1 < len(n.sheets) && n.sheets[last+1] == n.sheets[last]+1 {
			last++
		}
		part := fmt.Sprint(n.sheets[i])
		if last > i {
			part += fmt.Sprintf(" to %d", n.sheets[last])
		}
		parts, i = append(parts, part), last+1
	}
	if len(n.sheets) == 1 {
		return "Sheet " + parts[0] + "."
	}
	return "Sheets " + strings.Join(parts, ", ") + "."
}

// notesOf are the notes: what has no sheet, what was left out, gaps of past years, then the
// flags by code in the order in which they are raised.
func notesOf(h explain.Handout, left []string) (all []note) {
	if len(h.LeftOut) > 0 {
		n := note{head: "No sheet"}
		for _, l := range h.LeftOut {
			n.lines, n.do = append(n.lines, l.String()+"."), appendOnce(n.do, l.Do)
		}
		all = append(all, n)
	}
	if len(left) > 0 {
		all = append(all, note{head: "Left out of your files", lines: left})
	}
	if len(h.Gaps) > 0 {
		var years []string
		for _, y := range h.Gaps {
			years = append(years, fmt.Sprint(y))
		}
		all = append(all, note{
			head:  "Past years without FSA's county yields",
			lines: []string{fmt.Sprintf("Program years of some counties: %s. What ARC-CO paid then is a dash on their sheets.", strings.Join(years, ", "))},
			do:    []string{"Import FSA's tables of these years with: fencerow county import FILE."},
		})
	}
	return append(all, flagNotes(h)...)
}

// flagNotes are the notes of flags.
func flagNotes(h explain.Handout) (all []note) {
	var codes []string
	of := map[string]*note{}
	for _, s := range h.Sheets {
		for _, flag := range s.Flags {
			told, sorted := sheetFlags[flag.Code]
			if sorted && told.Notes == "" {
				continue
			}
			if of[flag.Code] == nil {
				codes = append(codes, flag.Code)
				of[flag.Code] = &note{head: cmp.Or(told.Notes, "Other notes, "+flag.Code)}
			}
			of[flag.Code].add(told, s.Number, flag.Message)
		}
	}
	for _, code := range codes {
		all = append(all, *of[code])
	}
	return all
}

// toCopy begins a line of a file at the end of a message.
const toCopy = ": - {"

// add takes in a flag of a sheet: its own sentences as a line, what to do once.
func (n *note) add(told forSheets, sheet int, message string) {
	if last := len(n.sheets) - 1; last < 0 || n.sheets[last] != sheet {
		n.sheets = append(n.sheets, sheet)
	}
	if told.Own == 0 {
		n.lines = appendOnce(n.lines, message)
		return
	}
	if told.Each {
		n.lines = appendOnce(n.lines, wording.FirstSentences(message, told.Own))
	}
	do, line, found := strings.Cut(cmp.Or(told.Do, rest(message, told.Own)), toCopy)
	if found {
		n.copied, do = appendOnce(n.copied, strings.TrimPrefix(toCopy, ": - ")+line), do+":"
	}
	n.do = appendOnce(n.do, do)
}

// appendOnce appends a text that is neither empty nor in the list.
func appendOnce(list []string, text string) []string {
	if text == "" || slices.Contains(list, text) {
		return list
	}
	return append(list, text)
}
