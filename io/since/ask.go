package since

import (
	"fmt"
	"slices"
	"time"

	"fencerow/io/batch/kept"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// side are the inputs of one of two answers.
type side struct {
	market   farm.Market
	counties farm.CountyBook
	farms    map[string]answer.FarmInputs // by key
	settings
}

// settings are those that a margin or a lead rests on.
type settings struct {
	close float64
	seed  uint64
	draws int
	model answer.ModelName
	tail  answer.Tail
}

// asker asks the earlier question again with inputs of both answers mixed.
type asker struct {
	last    *Last
	version string
	sides   [2]side
	years   []crop.CropYear // of both
	today   time.Time
	kinds   []answer.Cause // in which the two differ, known when differ was called
	base    lines          // the earlier question, asked of this program
	alone   map[answer.Cause]lines
}

func newAsker(l *Last, q answer.Question, today answer.Comparison, version string) (*asker, error) {
	a := &asker{last: l, version: version, today: q.Today, alone: map[answer.Cause]lines{}}
	for _, y := range l.answer.CropYears {
		if slices.Contains(q.CropYears, y.CropYear) {
			a.years = append(a.years, y.CropYear)
		}
	}
	if err := l.lawful(); err != nil {
		return nil, err
	}
	farms := func(all []answer.FarmInputs) map[string]answer.FarmInputs {
		byKey := map[string]answer.FarmInputs{}
		for _, f := range all {
			byKey[farmOf(f).Key()] = f
		}
		return byKey
	}
	var asked []answer.FarmInputs
	for _, f := range q.Operation.Farms {
		asked = append(asked, farmInputs(f, q.CropYears))
	}
	inBoth := slices.DeleteFunc(slices.Clone(l.inputs.Farms), func(f answer.FarmInputs) bool {
		return !slices.ContainsFunc(asked, func(other answer.FarmInputs) bool { return other.County == f.County && other.Farm == f.Farm })
	})
	a.sides[0] = side{l.figures.Market, countiesOf(l.figures.Counties, inBoth), farms(l.inputs.Farms), settings{l.inputs.CloseMargin, l.answer.Seed, l.answer.Draws, l.answer.Model.Name, l.answer.Model.Tail}}
	a.sides[1] = side{q.Market, countiesOf(q.Counties, inBoth), farms(asked), settings{q.CloseMargin(), today.Seed, today.Draws, today.Model.Name, today.Model.Tail}}
	return a, nil
}

// lawful refuses inputs that no question can be made of.
func (l *Last) lawful() error {
	for _, f := range l.inputs.Farms {
		for _, b := range f.Bases {
			if !slices.Contains(crop.Commodities(), b.Commodity) || !(b.BaseAcres > 0) {
				return l.mistake(fmt.Sprintf("its key inputs has %v base acres of %q on farm %s", b.BaseAcres, b.Commodity, f.Farm), keepAnother)
			}
		}
	}
	return nil
}

// differ returns the kinds of inputs in which the two answers differ.
func (a *asker) differ() []answer.Cause {
	old, now := a.sides[0], a.sides[1]
	add := func(by answer.Cause, differs bool) {
		if differs {
			a.kinds = append(a.kinds, by)
		}
	}
	add(answer.CausePrice, !same(old.market, now.market))
	add(answer.CauseCounty, !same(old.counties, now.counties))
	add(answer.CauseLaw, !kept.SameLaw(a.last.figures.Law, kept.Law()))
	add(answer.CauseProgram, a.last.inputs.Version != a.version)
	record := false
	for k, f := range now.farms {
		before, both := old.farms[k]
		record = record || both && !same(before, f)
	}
	add(answer.CauseRecord, record)
	add(answer.CauseSettings, old.settings != now.settings)
	return a.kinds
}

// differFor are the kinds of which a line has other inputs.
func (a *asker) differFor(k key) []answer.Cause {
	return slices.DeleteFunc(slices.Clone(a.kinds), func(by answer.Cause) bool {
		return by == answer.CauseRecord && same(a.sides[0].farms[k.farm], a.sides[1].farms[k.farm])
	})
}

// mixture says of which answer each kind of inputs is: 0 the earlier, 1 today's.
type mixture struct{ prices, counties, record, settings int }

// askAll asks all that is needed to say what moved the lines of both answers.
func (a *asker) askAll(then, now lines) (err error) {
	var farms []string
	for _, k := range now.order {
		if before, both := then.of[k]; both && !before.SameAs(now.of[k]) && !slices.Contains(farms, k.farm) {
			farms = append(farms, k.farm)
		}
	}
	if len(farms) == 0 {
		return nil
	}
	if a.base, err = a.ask(mixture{}, farms); err != nil {
		return err
	}
	for by, m := range map[answer.Cause]mixture{answer.CausePrice: {prices: 1}, answer.CauseCounty: {counties: 1}, answer.CauseRecord: {record: 1}, answer.CauseSettings: {settings: 1}} {
		if !slices.Contains(a.kinds, by) {
			continue
		}
		if a.alone[by], err = a.ask(m, farms); err != nil {
			return err
		}
	}
	return nil
}

// ask answers some farms, each by itself: no lead and no margin before limits depends on
// another farm.
func (a *asker) ask(m mixture, farms []string) (all lines, err error) {
	s := a.sides[m.settings]
	many := compare.NewMany(answer.Question{Market: a.sides[m.prices].market, Counties: a.sides[m.counties].counties, CropYears: a.years, Today: a.today, Seed: s.seed, Draws: s.draws, Model: s.model, Tail: s.tail, Brief: true})
	for _, name := range farms {
		o := farm.Operation{Farms: []farm.Farm{farmOf(a.sides[m.record].farms[name])}}
		o.Settings.CloseMargin = &s.close
		found, err := many.Compare(o)
		if err != nil {
			return all, fmt.Errorf("farm %s: %w", name, err)
		}
		one := linesOf(found)
		for _, k := range one.order {
			all.add(k, one.of[k])
		}
	}
	return all, nil
}
