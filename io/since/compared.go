package since

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"

	"fencerow/io/batch/kept"
	"fencerow/program"
	"fencerow/sim/answer"
	"fencerow/sim/moved"
)

// Compared returns what changed from the earlier answer to today's, which answers q. It asks
// the earlier question again with one kind of today's inputs at a time, of every farm that
// moved. The error is farm.Mistakes where the two have no farm in common, or where this
// program does not give the earlier figures and is no other version.
func (l *Last) Compared(q answer.Question, today answer.Comparison, version string) (*answer.Since, error) {
	then, now := l.lines(), linesOf(today)
	out := &answer.Since{Before: answer.SinceAnswer{File: l.name, Today: l.answer.Today, Market: l.answer.Market.AsOf, Version: l.inputs.Version}, Inputs: []answer.Cause{}, Lines: []answer.SinceLine{}}
	for _, k := range now.order {
		if _, both := then.of[k]; both {
			out.InBoth++
		}
	}
	if out.OnlyOne = [2]int{len(then.order) - out.InBoth, len(now.order) - out.InBoth}; out.InBoth == 0 {
		return nil, l.ofOthers(now)
	}
	a, err := newAsker(l, q, today, version)
	if err != nil {
		return nil, err
	}
	out.Inputs = append(out.Inputs, a.differ()...)
	if err := a.askAll(then, now); err != nil {
		return nil, err
	}
	for _, k := range now.order {
		before, both := then.of[k]
		if !both || before.SameAs(now.of[k]) {
			continue
		}
		one, err := a.line(k, before, now.of[k])
		if err != nil {
			return nil, err
		}
		out.Lines, out.Moved = append(out.Lines, one), out.Moved+1
		if one.Flipped {
			out.Flipped++
		}
	}
	return out, nil
}

// ofOthers is the mistake of an answer about other farms, crops or crop years.
func (l *Last) ofOthers(now lines) error {
	var farms []string
	for _, f := range l.inputs.Farms {
		farms = append(farms, f.County+"-"+f.Farm)
	}
	if slices.ContainsFunc(now.order, func(k key) bool { return slices.Contains(farms, k.farm) }) {
		return l.mistake("has other crops or crop years than this question", "ask about a crop year that it has (--crop-year)")
	}
	named := "none"
	switch {
	case len(farms) > mostNamed:
		named = fmt.Sprintf("%s and %d more", farms[0], len(farms)-1)
	case len(farms) > 0:
		named = farms[0]
	}
	return l.mistake(fmt.Sprintf("is about other farms (%s); none of them is in this operation", named), "name the earlier answer about this operation")
}

// mostNamed is how many farms of another operation a mistake names.
const mostNamed = 1

// line says what moved one line.
func (a *asker) line(k key, before, after line) (answer.SinceLine, error) {
	out := answer.SinceLine{Farm: k.farm, Commodity: k.commodity, CropYear: k.year, Flipped: before.lead != after.lead, Before: before.side(), After: after.side(), Alone: []answer.MovedAlone{}, Changed: []answer.Changed{}}
	out.Moved = out.After.MovedFrom(out.Before)
	t := moved.Told[line]{Before: before, After: after, Alone: map[answer.Cause]line{}, Differ: a.differFor(k), Program: a.otherProgram(k)}
	base, has := a.base.of[k]
	if t.Base = base; !has || t.Program == "" && !base.SameAs(before) {
		return out, a.last.mistake(fmt.Sprintf("says of farm %s, %s %d what fencerow does not answer with the inputs in it", k.farm, k.commodity, k.year),
			"was it changed by hand, or made by another build? Make it again, or keep today's answer for the next time")
	}
	for by, found := range a.alone {
		if one, has := found.of[k]; has {
			t.Alone[by] = one
		}
	}
	cause, moves, flips := t.Cause()
	out.Cause, out.Moves, out.Flips = cause, append([]answer.Cause{}, moves...), append([]answer.Cause{}, flips...)
	for _, by := range moves {
		from := base.side()
		to, asked := t.Alone[by]
		if by == t.Program {
			from, to, asked = out.Before, base, true
		}
		if asked {
			out.Alone = append(out.Alone, answer.MovedAlone{By: by, Lead: to.lead, Moved: to.side().MovedFrom(from)})
			out.Changed = append(out.Changed, a.changed(by, k, base, to)...)
		}
	}
	return out, nil
}

// changed are the figures and settings of one kind that changed for a line.
func (a *asker) changed(by answer.Cause, k key, base, alone line) (all []answer.Changed) {
	switch by {
	case answer.CausePrice:
		return moved.Prices(*base.part, *alone.part)
	case answer.CauseCounty:
		return moved.Yields(*base.part, *alone.part)
	case answer.CauseRecord:
		return moved.Record(*base.part, *alone.part)
	case answer.CauseLaw:
		for _, one := range a.lawChanges(k) {
			all = append(all, moved.Between(by, one.What, one.Before, one.After)...)
		}
		return all
	case answer.CauseProgram:
		return moved.Between(by, "version", a.last.inputs.Version, a.version)
	}
	old, now := a.sides[0], a.sides[1]
	return slices.Concat(moved.Between(by, "close_margin", program.Text(old.close, 2), program.Text(now.close, 2)), moved.Between(by, "seed", fmt.Sprint(old.seed), fmt.Sprint(now.seed)),
		moved.Between(by, "draws", fmt.Sprint(old.draws), fmt.Sprint(now.draws)), moved.Between(by, "model", string(old.model), string(now.model)), moved.Between(by, "tail", string(old.tail), string(now.tail)))
}

// otherProgram is what another version of fencerow is put down to for a line.
func (a *asker) otherProgram(k key) answer.Cause {
	switch {
	case len(a.lawChanges(k)) > 0:
		return answer.CauseLaw
	case a.last.inputs.Version != a.version:
		return answer.CauseProgram
	}
	return ""
}

// lawChanges are the rows of the law that differ and that a line can rest on.
func (a *asker) lawChanges(k key) []kept.Change {
	return kept.LawChanges(a.last.figures.Law, kept.Law(), k.commodity, k.year)
}

// same reports whether two values are written alike.
func same(a, b any) bool {
	one, bad := json.Marshal(a)
	two, worse := json.Marshal(b)
	return bad == nil && worse == nil && reflect.DeepEqual(one, two)
}
