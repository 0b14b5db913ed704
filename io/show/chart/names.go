package chart

import (
	"math"
	"slices"

	"fencerow/io/show/report"
)

// nameAll writes the name of every curve at it, and the name of a family of curves
// once beside one of them. It reports whether all found a place. Families have least
// room and come first.
func (s *sheet) nameAll(lines []report.Curve) bool {
	var families []string
	members := map[string][]int{}
	for i, l := range lines {
		if l.Family != "" && members[l.Family] == nil {
			families = append(families, l.Family)
		}
		members[l.Family] = append(members[l.Family], i)
	}
	all := true
	for _, family := range append(families, "") {
		for _, i := range members[family] {
			name := lines[i].Name
			if family != "" {
				name = lines[i].Short
			}
			all = all && s.name(name, i, []int{i})
		}
	}
	for _, family := range families {
		all = all && s.name(family, members[family][0], members[family])
	}
	return all
}

// widestOnLine is how wide a name may be to interrupt its curve.
const widestOnLine = 24

// spot is a name at a point of its curve: on it, or beside it, or farther off with a
// fine line to it.
type spot struct {
	label
	at           point
	onLine, line bool
}

// name finds the best spot for a name along a curve, far from all curves that it does
// not name.
func (s *sheet) name(text string, curve int, named []int) bool {
	var best spot
	least := math.Inf(1)
	for _, p := range along(s.lines[curve]) {
		spots := beside(text, p.point)
		if len(named) == 1 {
			spots = append(spots, farther(text, p.point)...)
			if !p.flat && textWidth(text) <= widestOnLine {
				spots = append(spots, spot{label{text, p.x, p.y + ascent/2 - 0.5, centered}, p.point, true, false})
			}
		}
		for _, one := range spots {
			if cost := s.cost(one, named); cost < least {
				best, least = one, cost
			}
		}
	}
	if math.IsInf(least, 1) {
		return false
	}
	switch {
	case best.onLine:
		s.rect(best.box(), white, 0)
	case best.line:
		s.stroke([]point{best.at, best.box().nearest(best.at)}, black, hair, "")
		s.dot(best.at)
	}
	s.write(best.label)
	s.taken = append(s.taken, best.box())
	return true
}

// place is a point of a curve, which may run flat near it.
type place struct {
	point
	flat bool
}

// along returns points of a curve some points of paper apart.
func along(line []point) (all []place) {
	const step, steep, near = 4, 0.3, widestOnLine / 4
	for i := 1; i < len(line); i++ {
		from, to := line[i-1], line[i]
		n := max(1, int(math.Hypot(to.x-from.x, to.y-from.y)/step))
		for k := range n {
			part := float64(k) / float64(n)
			at := point{from.x + part*(to.x-from.x), from.y + part*(to.y-from.y)}
			all = append(all, place{at, math.Abs(to.y-from.y) < steep*math.Abs(to.x-from.x)})
		}
	}
	run := slices.Clone(all)
	for i := range all {
		for _, other := range run {
			all[i].flat = all[i].flat || other.flat && math.Abs(other.x-all[i].x) < near
		}
	}
	return all
}

// beside are the spots over a point of a curve, right and left of it, below, and off it
// to the upper right and lower left.
func beside(text string, p point) (all []spot) {
	const away = 4
	for _, l := range []label{
		{text, p.x, p.y - away, centered}, {text, p.x + away, p.y - 1, fromLeft}, {text, p.x - away, p.y - 1, toRight}, {text, p.x, p.y + ascent + away - 1, centered},
		{text, p.x + away, p.y - away, fromLeft}, {text, p.x - away, p.y + ascent + away - 1, toRight},
	} {
		all = append(all, spot{label: l, at: p})
	}
	return all
}

// farther are spots to the right and left from which a fine line leads to the curve.
func farther(text string, p point) (all []spot) {
	for _, dx := range []float64{8, 14, 22, 32} {
		for _, dy := range []float64{-34, -26, -18, -10, -3, 4, 11} {
			all = append(all, spot{label{text, p.x + dx, p.y + dy + 2, fromLeft}, p, false, true}, spot{label{text, p.x - dx, p.y + dy + 2, toRight}, p, false, true})
		}
	}
	return all
}

// cost of a name at a spot, infinite where it does not fit or does not show what it
// names.
func (s *sheet) cost(one spot, named []int) float64 {
	const clear, off, led, over, overLine = 1, 12, 10, 14, 5
	b := one.box()
	if !b.grown(0.5).within(s.box) || slices.ContainsFunc(s.taken, func(other box) bool { return b.grown(clear).meets(other) }) {
		return math.Inf(1)
	}
	end := b.nearest(one.at)
	cost := 0.0
	if !one.onLine {
		cost = off
	}
	if one.line {
		if slices.ContainsFunc(s.taken, func(other box) bool { return other.grown(clear).crosses(one.at, end) }) {
			return math.Inf(1)
		}
		cost += led + math.Hypot(end.x-one.at.x, end.y-one.at.y)/2
	}
	for i, line := range s.lines {
		if !(slices.Contains(named, i) && one.onLine) && crossed(b.grown(clear), line) {
			return math.Inf(1)
		}
		if !slices.Contains(named, i) {
			cost += nearness(one, line, end)
		}
	}
	for _, x := range s.uprights {
		switch {
		case x <= b.left-1 || x >= b.right+1:
		case one.onLine:
			cost += overLine
		default:
			cost += over
		}
	}
	return cost
}

// nearness is what another curve adds to the cost of a spot: infinite where the name
// could be that curve's.
func nearness(one spot, line []point, end point) float64 {
	const far, apart, through = 16.0, 2, 14
	b := one.box()
	middle := point{(b.left + b.right) / 2, (b.top + b.bottom) / 2}
	away := distance(middle, line)
	switch {
	case distance(one.at, line) < apart:
		return math.Inf(1)
	case one.line && crossed(box{min(one.at.x, end.x), min(one.at.y, end.y), max(one.at.x, end.x), max(one.at.y, end.y)}, line):
		return through + far - min(far, away)
	case !one.line && !one.onLine && distance(end, line) < math.Hypot(end.x-one.at.x, end.y-one.at.y)+1:
		return math.Inf(1)
	}
	return far - min(far, away)
}

func crossed(b box, line []point) bool {
	for i := 1; i < len(line); i++ {
		if b.crosses(line[i-1], line[i]) {
			return true
		}
	}
	return false
}

// distance is how far a point is from a curve.
func distance(p point, line []point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		from, to := line[i-1], line[i]
		dx, dy := to.x-from.x, to.y-from.y
		part := 0.0
		if length := dx*dx + dy*dy; length > 0 {
			part = min(max(((p.x-from.x)*dx+(p.y-from.y)*dy)/length, 0), 1)
		}
		least = min(least, math.Hypot(from.x+part*dx-p.x, from.y+part*dy-p.y))
	}
	return least
}
