package limits

import (
	"maps"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// Line is one commodity on one farm.
type Line struct {
	Farm      string
	Commodity crop.Commodity
}

// AfterLimit is what one line moves for all producers of the file together, USD on
// average after share, limit and sequestration, while every other line follows the
// choices of the operation.
type AfterLimit struct {
	Margin *crop.Money // ARC-CO less PLC; nil where no limit is reached often enough to be told
	Chance float64     // of outcomes in which a limit of somebody paid for the farm is reached
	Gain   *crop.Money // the choice less what is on record, never below zero; nil where one of them is not known
}

// Changes says what all are paid more or less where some picks give way to others.
type Changes struct {
	Payments
	limited bool   // some limit can be reached in some draw
	sums    earned // then [pot][producer][draw], USD, with what is earned in other operations
	Reached Reach  // then under the choices
}

// Changes prepares changes of some picks; free says that no choice of PLC and ARC-CO goes
// over a limit. Give its series back with release.
func (m Payments) Changes(picks []Election, free bool) (t *Changes, release func()) {
	t = &Changes{Payments: m}
	individual := func(k Election) bool { return k.Program == farm.ARCIC }
	free = free && !slices.ContainsFunc(slices.Collect(maps.Keys(m.flows)), individual)
	if len(m.Everywhere) == 0 && (free || m.neverLimited(m.highestOfEach())) {
		return t, func() {}
	}
	t.limited = true
	t.sums, release = m.AllEarned(picks)
	t.Reached = m.reach(t.sums.tiles)
	return t, release
}

// highestOfEach is the pick of every line that can pay the most in some draw.
func (m Payments) highestOfEach() (picks []Election) {
	most := map[Line]Election{}
	for k := range m.flows {
		at := Line{k.Farm, k.Commodity}
		if other, has := most[at]; !has || m.mostOf(k) > m.mostOf(other) {
			most[at] = k
		}
	}
	for _, k := range most {
		picks = append(picks, k)
	}
	return picks
}

// change is what all are paid more on average where some picks give way to others.
func (t *Changes) change(from, to []Election) crop.Money {
	if !t.limited {
		return t.byShares(to).Total - t.byShares(from).Total
	}
	atFrom, atTo := t.poolsOf(from), t.poolsOf(to)
	return t.reach(func(e *earned, start int) {
		t.sums.tiles(e, start)
		t.put(e, from, atFrom, -1, start)
		t.put(e, to, atTo, 1, start)
	}).Total - t.Reached.Total
}

// Often is the share of outcomes in which a limit of somebody is reached who is paid for
// a farm: of the one who reaches it most.
func (t *Changes) Often(f farm.Farm) (most float64) {
	for k, often := range t.Reached.AtLimit {
		if often > most && t.Concerns(f, t.Attribution.Recipients[k].ID) {
			most = often
		}
	}
	return most
}

// Lines are those of one farm with its picks.
func (t *Changes) Lines(f farm.Farm, picks []Election, chance float64) map[Line]AfterLimit {
	all := map[Line]AfterLimit{}
	whole := slices.ContainsFunc(picks, func(k Election) bool { return k.Program == farm.ARCIC }) || position.OnRecord(f, farm.ARCIC)
	for i, k := range picks {
		one := AfterLimit{Chance: chance}
		if k.Program == farm.PLC || k.Program == farm.ARCCO {
			one = t.line(f, k, chance)
		}
		if whole {
			one.Gain = t.wholeGain(f, picks, i)
		}
		all[Line{k.Farm, k.Commodity}] = one
	}
	return all
}

// Line sets both programs of one pick side by side.
func (t *Changes) line(f farm.Farm, k Election, chance float64) AfterLimit {
	one := AfterLimit{Chance: chance}
	record, told := f.Record[k.Commodity]
	differs := told && record == turned(k).Program
	if told && record == k.Program {
		one.Gain = new(crop.Money)
	}
	limited := chance > odds.LimitCounts
	if !differs && !limited {
		return one
	}
	rise := t.change([]Election{k}, []Election{turned(k)})
	if differs {
		one.Gain = noLoss(-rise)
	}
	if limited {
		margin := rise
		if k.Program == farm.ARCCO {
			margin = -rise
		}
		one.Margin = &margin
	}
	return one
}

// wholeGain is what a farm gains against its record where one of both is ARC-IC, which
// holds for the whole farm: it stands with the first line, and 0 with the others.
func (t *Changes) wholeGain(f farm.Farm, picks []Election, i int) *crop.Money {
	var record []Election
	differs := false
	for _, k := range picks {
		on := Election{k.Farm, k.Commodity, f.Record[k.Commodity]}
		if _, has := t.flows[on]; !has {
			return nil
		}
		record, differs = append(record, on), differs || on != k
	}
	if !differs || i > 0 {
		return new(crop.Money)
	}
	return noLoss(-t.change(picks, record))
}

// noLoss is a gain, 0 where it is less than what counts as one.
func noLoss(rise crop.Money) *crop.Money {
	if rise <= elect.Gain {
		rise = 0
	}
	return &rise
}
