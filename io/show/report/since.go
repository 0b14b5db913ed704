package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// SinceLast is what changed since an earlier answer: a title, a line for each farm and crop
// that moved, and which input did it, in sentences.
type SinceLast struct {
	Title string
	Lines Grid // without rows where nothing moved
	Said  []string
}

// since adds what changed since an earlier answer in one crop year, every line of it.
func (r *Report) since(c answer.Comparison, y answer.YearPart) {
	if c.Since == nil {
		return
	}
	found := OfSince(*c.Since, y.CropYear, "", y.Farms, 0)
	r.heading(3, found.Title)
	if len(found.Lines.Rows) > 0 {
		r.table(found.Lines.Table())
	}
	for _, text := range found.Said {
		r.text(text)
	}
}

// OfSince lays out what changed in a crop year, of all farms or of the one with the key
// only; at most so many lines are listed, those with another lead and those that moved most
// before the others, and of those that several inputs moved half as many told one by one.
// most is 0 for all. among are the farms of the year.
func OfSince(s answer.Since, y crop.CropYear, only string, among []answer.FarmPart, most int) SinceLast {
	out := SinceLast{Title: fmt.Sprintf("Since %s (prices of %s)", wording.Date(s.Before.Today), wording.Date(s.Before.Market))}
	var all []answer.SinceLine
	for _, l := range s.Lines {
		if l.CropYear == y && (only == "" || l.Farm == only) {
			all = append(all, l)
		}
	}
	listed := largest(all, most)
	if len(listed) > 0 {
		out.Lines = sinceGrid(listed, among)
	}
	if left := len(all) - len(listed); left > 0 {
		out.Said = append(out.Said, fmt.Sprintf("%d more moved less; --full lists them.", left))
	}
	out.Said = append(append(out.Said, causes(listed, among, (most+1)/2)...), sinceCounts(s, all, y, only)...)
	return out
}

// largest are the lines to list, in their order.
func largest(all []answer.SinceLine, most int) []answer.SinceLine {
	if most == 0 || len(all) <= most {
		return all
	}
	size := func(l answer.SinceLine) float64 {
		switch {
		case l.Flipped:
			return math.Inf(1)
		case l.Moved == nil:
			return 0
		}
		return math.Abs(float64(*l.Moved))
	}
	var sizes []float64
	for _, l := range all {
		sizes = append(sizes, size(l))
	}
	slices.Sort(sizes)
	least := sizes[len(sizes)-most]
	var some []answer.SinceLine
	for _, l := range all {
		if size(l) >= least && len(some) < most {
			some = append(some, l)
		}
	}
	return some
}

// sinceGrid has a line for each farm and crop that moved.
func sinceGrid(lines []answer.SinceLine, among []answer.FarmPart) Grid {
	g := Grid{Columns: []Column{{Head: "farm", Left: true}, {Head: "crop", Left: true, Wraps: true}, {Over: "then", Head: "leans", Left: true}, {Over: "then", Head: "ahead"}, {Over: "now", Head: "leans", Left: true}, {Over: "now", Head: "ahead"}, {Head: "moved,\non all base"}}}
	for _, l := range lines {
		row := []string{wording.Farm(l.Farm, among), l.Commodity.Name()}
		for _, side := range []answer.MovedSide{l.Before, l.After} {
			row = append(row, wording.Leads(answer.Leader(side.Lead)), aheadOf(side))
		}
		g.Rows = append(g.Rows, append(row, wording.MovedTo(l.Moved)))
	}
	return g
}

// aheadOf is the margin of a line, with the program that averages more where no lead names it.
func aheadOf(s answer.MovedSide) string {
	if s.Margin == nil {
		return "unknown"
	}
	size := wording.Margin(*s.Margin)
	if s.Lead == string(answer.LeadsPLC) || s.Lead == string(answer.LeadsARCCO) || *s.Margin == 0 {
		return size
	}
	return wording.Toward(*s.Margin) + " " + size
}

// causes say which input did it: lines of which the same is said together, then those that
// several inputs moved, then the figures of these, each once.
func causes(lines []answer.SinceLine, among []answer.FarmPart, mostTogether int) (said []string) {
	var of [][]answer.SinceLine
	var together, figures []string
	left := 0
	for _, l := range lines {
		if l.Cause == answer.CauseJoint {
			if mostTogether > 0 && len(together) == mostTogether {
				left++
				continue
			}
			name := lineName(l, among)
			together = append(together, wording.MovedTogether(l, name))
			figures = append(figures, wording.MovedFigures(l, name)...)
			continue
		}
		same := func(group []answer.SinceLine) bool { return wording.MovedBy(group[0], "") == wording.MovedBy(l, "") }
		if at := slices.IndexFunc(of, same); at >= 0 {
			of[at] = append(of[at], l)
			continue
		}
		of = append(of, []answer.SinceLine{l})
	}
	for _, group := range of {
		var names []string
		for _, l := range group {
			names = append(names, lineName(l, among))
		}
		on := wording.Joined(names)
		if len(names) > mostOn {
			on = fmt.Sprintf("%d lines", len(names))
		}
		said = append(said, wording.MovedBy(group[0], on))
	}
	if left > 0 {
		together = append(together, fmt.Sprintf("%d more moved by several inputs (--full).", left))
	}
	said = append(said, together...)
	for _, one := range figures {
		if !slices.Contains(said, one) {
			said = append(said, one)
		}
	}
	return said
}

func lineName(l answer.SinceLine, among []answer.FarmPart) string {
	return wording.Farm(l.Farm, among) + " " + l.Commodity.Name()
}

// mostOn is how many lines a sentence on what moved them names.
const mostOn = 3

// sinceCounts count what moved and what did not, in all crop years, and lines of one answer
// alone. Of one farm they say what it alone can know.
func sinceCounts(s answer.Since, moved []answer.SinceLine, y crop.CropYear, only string) (said []string) {
	if len(moved) == 0 && (s.Moved > 0 || only != "") {
		said = append(said, fmt.Sprintf("No lead and no margin of %d has moved.", y))
	}
	if only == "" {
		said = append(said, inBoth(s, y))
		if n := s.OnlyOne[1]; n > 0 {
			said = append(said, "Not in the earlier answer: "+counted(n, "line")+".")
		}
		if n := s.OnlyOne[0]; n > 0 {
			said = append(said, "Only in the earlier answer: "+counted(n, "line")+".")
		}
	}
	if len(moved) > 0 {
		said = append(said, "Dollars are averages before shares and limits.")
	}
	return said
}

// inBoth says how many lines of both answers moved: "Of 12 farm and crop lines in both
// answers 7 moved, 1 to another lead."
func inBoth(s answer.Since, y crop.CropYear) string {
	lines := counted(s.InBoth, "farm and crop line")
	if slices.ContainsFunc(s.Lines, func(l answer.SinceLine) bool { return l.CropYear > y }) {
		lines += " of all years"
	}
	if s.Moved == 0 {
		return fmt.Sprintf("Both answers have the same figures on %s.", lines)
	}
	to := "none to another lead"
	if s.Flipped > 0 {
		to = fmt.Sprintf("%d to another lead", s.Flipped)
	}
	said := fmt.Sprintf("Of %s in both answers %d moved, %s.", lines, s.Moved, to)
	if left := s.InBoth - s.Moved; left > 0 {
		said += fmt.Sprintf(" %d did not move.", left)
	}
	return said
}

// counted writes a number of things: "1 line", "3 lines".
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strings.TrimSpace(fmt.Sprintf("%d %s", n, thing))
}
