package batch

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"

	"fencerow/io/batch/kept"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/moved"
)

// diffPair is one operation of two runs, and the questions that are asked of it again.
type diffPair struct {
	runs     [2]*pastRun // before, after
	recorded [2]recordedLines
	items    [2][]item      // its rows
	differ   []answer.Cause // kinds of which it has other inputs
	base     reanswered
	after    reanswered
	alone    map[answer.Cause]reanswered
}

// reanswered are the lines of an operation asked again, with what the figures are from.
type reanswered struct {
	lines map[lineKey]resultLine
	parts map[lineKey]answer.CommodityPart
}

// asker asks about operations with inputs of two runs mixed. It holds one set of outcomes
// for each mixture, so it serves some operations alone.
type asker struct {
	runs [2]*pastRun
	many map[mixture]*compare.Many
}

// mixture says from which run prices, county figures and settings are: 0 or 1.
type mixture struct{ prices, counties, settings int }

// newAsker prepares the mixtures that differ.
func newAsker(runs [2]*pastRun, differ []answer.Cause) (*asker, error) {
	a := &asker{runs, map[mixture]*compare.Many{}}
	for _, m := range []mixture{{}, {1, 1, 1}, {prices: 1}, {counties: 1}, {settings: 1}} {
		if alone := m.prices+m.counties+m.settings == 1; alone && !slices.Contains(differ, m.kind()) {
			continue
		}
		q := answer.Question{Market: runs[m.prices].used.Market, Counties: runs[m.counties].used.Counties, Brief: true}
		s := runs[m.settings]
		q.Operation.Settings.CloseMargin = &s.Close
		q.CropYears, q.Seed, q.Draws = slices.Clone[[]crop.CropYear](s.CropYears), s.Seed, s.Draws
		var err error
		if q.Today, err = s.day(); err != nil {
			return nil, mistake(s.path, "its run.json has the day "+s.Today, "run the table again")
		}
		a.many[m] = compare.NewMany(q)
	}
	return a, nil
}

// kind is the kind of input that is from the second run alone.
func (m mixture) kind() answer.Cause {
	switch m {
	case mixture{prices: 1}:
		return answer.CausePrice
	case mixture{counties: 1}:
		return answer.CauseCounty
	}
	return answer.CauseSettings
}

// ask answers those farms of some rows that moved, each by itself: leads and averages
// before limits do not depend on the other farms of an operation, and elections over many
// farms take most of the time of a run.
func (a *asker) ask(m mixture, items []item, moved map[string]bool) (reanswered, error) {
	found := reanswered{map[lineKey]resultLine{}, map[lineKey]answer.CommodityPart{}}
	whole, _ := assembled(items)
	for _, f := range whole.Farms.Farms {
		if !moved[f.Key()] {
			continue
		}
		alone := whole.Farms
		alone.Farms = []farm.Farm{f}
		compared, err := a.many[m].Compare(alone)
		if err != nil {
			return found, fmt.Errorf("farm %s: %w", f.Key(), err)
		}
		found.add(compared, whole.Incomplete)
	}
	return found, nil
}

// add adds the lines of an answer.
func (r reanswered) add(compared answer.Comparison, incomplete map[string]bool) {
	results, _, _ := resultsOf("", "", compared, incomplete, labels{})
	for _, y := range compared.CropYears {
		for _, f := range y.Farms {
			for _, part := range f.Commodities {
				line := resultLine(results[0].record())
				r.lines[line.key()], r.parts[line.key()] = line, part
				results = results[1:]
			}
		}
	}
}

// askAll asks all that is needed to say what moved the lines of an operation.
func (p *diffPair) askAll(a *asker) (err error) {
	p.alone = map[answer.Cause]reanswered{}
	moved := p.movedFarms()
	if p.base, err = a.ask(mixture{}, p.items[0], moved); err != nil {
		return err
	}
	if p.after, err = a.ask(mixture{1, 1, 1}, p.items[1], moved); err != nil {
		return err
	}
	if sameRows(p.items[0], p.items[1]) {
		p.differ = slices.DeleteFunc(slices.Clone(p.differ), func(k answer.Cause) bool { return k == answer.CauseRecord })
	} else if p.alone[answer.CauseRecord], err = a.ask(mixture{}, p.items[1], moved); err != nil {
		return err
	}
	for m := range a.many {
		if m.prices+m.counties+m.settings != 1 {
			continue
		}
		if p.alone[m.kind()], err = a.ask(m, p.items[0], moved); err != nil {
			return err
		}
	}
	return nil
}

// sameRows reports whether rows say the same, wherever they stand.
func sameRows(before, after []item) bool {
	return slices.EqualFunc(before, after, func(a, b item) bool {
		a.Row.Line, b.Row.Line = 0, 0
		return len(a.Refused) == 0 && len(b.Refused) == 0 && reflect.DeepEqual(a.Row, b.Row)
	})
}

// lines returns the lines of an operation that moved.
func (p *diffPair) lines() (all []DiffLine, err error) {
	for _, key := range p.keys() {
		before, after := p.recorded[0].lines[key], p.recorded[1].lines[key]
		if before != nil && after != nil && before.SameAs(after) {
			continue
		}
		line, err := p.line(key, before, after)
		if err != nil {
			return nil, err
		}
		all = append(all, line)
	}
	return all, nil
}

// keys are those of both runs, in the order of the first, then what only the second has.
func (p *diffPair) keys() []lineKey {
	keys := slices.Clone(p.recorded[0].order)
	for _, key := range p.recorded[1].order {
		if p.recorded[0].lines[key] == nil {
			keys = append(keys, key)
		}
	}
	return keys
}

// movedFarms are the farms with a line of both runs that moved.
func (p *diffPair) movedFarms() map[string]bool {
	moved := map[string]bool{}
	for key, before := range p.recorded[0].lines {
		if after := p.recorded[1].lines[key]; after != nil && !before.SameAs(after) {
			moved[key.farm] = true
		}
	}
	return moved
}

func (p *diffPair) line(key lineKey, before, after resultLine) (DiffLine, error) {
	line := newDiffLine(p, key, before, after)
	if before == nil || after == nil {
		line.Cause = onlyInBefore
		if before == nil {
			line.Cause = onlyInAfter
		}
		return line, nil
	}
	t := moved.Told[resultLine]{Before: before, After: after, Base: p.base.lines[key], Alone: map[answer.Cause]resultLine{}, Differ: p.differ, Program: p.program(key)}
	for k, found := range p.alone {
		if one := found.lines[key]; one != nil {
			t.Alone[k] = one
		}
	}
	if again := p.after.lines[key]; again == nil || !again.SameAs(after) {
		return line, p.answeredOtherwise(1, key)
	}
	if t.Base == nil || t.Program == "" && !t.Base.SameAs(before) {
		return line, p.answeredOtherwise(0, key)
	}
	line.Cause, line.Moves, line.Flips = t.Cause()
	line.Changed = p.changed(key, line.Moves)
	return line, nil
}

// program returns what another version of fencerow is put down to: the law, where a row
// differs that a line can rest on. "": it is the same version.
func (p *diffPair) program(key lineKey) answer.Cause {
	switch before, after := p.runs[0], p.runs[1]; {
	case len(lawChanges(p.runs, key)) > 0:
		return answer.CauseLaw
	case before.Version != after.Version:
		return answer.CauseProgram
	}
	return ""
}

// lawChanges are the rows of the law that differ and that a line can rest on.
func lawChanges(runs [2]*pastRun, key lineKey) []kept.Change {
	year, _ := strconv.Atoi(key.cropYear) // written by this program
	return kept.LawChanges(runs[0].used.Law, runs[1].used.Law, crop.Commodity(key.commodity), year)
}

// answeredOtherwise is the mistake of a folder whose results this version does not give.
func (p *diffPair) answeredOtherwise(run int, key lineKey) error {
	r := p.runs[run]
	return mistake(r.path, fmt.Sprintf("says of farm %s, %s %s what this version of fencerow does not answer", key.farm, key.commodity, key.cropYear),
		fmt.Sprintf("compare with the version that made the second folder (%s), or run the table again", p.runs[1].Version))
}

// newDiffLine returns a line with its figures, without a cause.
func newDiffLine(p *diffPair, key lineKey, before, after resultLine) DiffLine {
	one := p.recorded[0]
	if before == nil {
		one = p.recorded[1]
	}
	year, _ := strconv.Atoi(key.cropYear) // written by this program
	d := DiffLine{Client: one.client, Operation: one.operation, Farm: key.farm, Commodity: key.commodity, CropYear: year, Before: sideOf(before), After: sideOf(after)}
	d.Flipped = before != nil && after != nil && d.Before.Lead != d.After.Lead
	d.Moved = d.After.MovedFrom(d.Before)
	return d
}
