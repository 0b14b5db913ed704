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

// FarmCommodity is one commodity on one farm.
type FarmCommodity struct {
	Farm      string
	Commodity crop.Commodity
}

// DifferenceAfterLimit is what one line moves for all producers of the file together, USD on
// average after share, limit and sequestration, while every other line follows the
// choices of the operation.
type DifferenceAfterLimit struct {
	Margin *crop.Money // ARC-CO less PLC; nil where no limit is reached often enough to be told
	Chance float64     // of outcomes in which a limit of somebody paid for the farm is reached
	Gain   *crop.Money // the choice less what is on record, never below zero; nil where one of them is not known
}

// Changes says what all are paid more or less where some picks give way to others.
type Changes struct {
	Payments
	limitPossible bool           // some limit can be reached in some draw
	sums          Earned         // then [pool][producer][scenario], USD, with what is earned in other operations
	Current       RecipientMeans // then under the choices
}

// Changes prepares changes of some picks; free says that no choice of PLC and ARC-CO goes
// over a limit. Give its series back with release.
func (m Payments) Changes(picks []Election, free bool) (t *Changes, release func()) {
	t = &Changes{Payments: m}
	individual := func(k Election) bool { return k.Program == farm.ARCIC }
	free = free && !slices.ContainsFunc(slices.Collect(maps.Keys(m.shared)), individual)
	if len(m.EarnedAcross) == 0 && (free || m.neverLimited(m.highestElections())) {
		return t, func() {}
	}
	t.limitPossible = true
	t.sums, release = m.AllEarned(picks)
	t.Current = m.attribute(t.sums.copyTile)
	return t, release
}

// highestElections is the pick of every line that can pay the most in some draw.
func (m Payments) highestElections() (picks []Election) {
	most := map[FarmCommodity]Election{}
	for k := range m.shared {
		at := FarmCommodity{k.Farm, k.Commodity}
		if other, has := most[at]; !has || m.maximumOf(k) > m.maximumOf(other) {
			most[at] = k
		}
	}
	for _, k := range most {
		picks = append(picks, k)
	}
	return picks
}

// meanChange is what all are paid more on average where some picks give way to others.
func (t *Changes) meanChange(from, to []Election) crop.Money {
	if !t.limitPossible {
		return t.byShares(to).Total - t.byShares(from).Total
	}
	atFrom, atTo := t.poolsOf(from), t.poolsOf(to)
	return t.attribute(func(e *Earned, start int) {
		t.sums.copyTile(e, start)
		t.add(e, from, atFrom, -1, start)
		t.add(e, to, atTo, 1, start)
	}).Total - t.Current.Total
}

// ChanceOfLimit is the share of outcomes in which a limit of somebody is reached who is paid for
// a farm: of the one who reaches it most.
func (t *Changes) ChanceOfLimit(f farm.Farm) (most float64) {
	for k, often := range t.Current.AtLimit {
		if often > most && t.Concerns(f, t.Attribution.Recipients[k].ID) {
			most = often
		}
	}
	return most
}

// Differences are those of one farm with its picks.
func (t *Changes) Differences(f farm.Farm, picks []Election, chance float64) map[FarmCommodity]DifferenceAfterLimit {
	all := map[FarmCommodity]DifferenceAfterLimit{}
	whole := slices.ContainsFunc(picks, func(k Election) bool { return k.Program == farm.ARCIC }) || position.OnRecord(f, farm.ARCIC)
	for i, k := range picks {
		one := DifferenceAfterLimit{Chance: chance}
		if k.Program == farm.PLC || k.Program == farm.ARCCO {
			one = t.difference(f, k, chance)
		}
		if whole {
			one.Gain = t.wholeGain(f, picks, i)
		}
		all[FarmCommodity{k.Farm, k.Commodity}] = one
	}
	return all
}

// FarmCommodity sets both programs of one pick side by side.
func (t *Changes) difference(f farm.Farm, k Election, chance float64) DifferenceAfterLimit {
	one := DifferenceAfterLimit{Chance: chance}
	record, told := f.Record[k.Commodity]
	differs := told && record == otherProgram(k).Program
	if told && record == k.Program {
		one.Gain = new(crop.Money)
	}
	limited := chance > odds.LimitCounts
	if !differs && !limited {
		return one
	}
	rise := t.meanChange([]Election{k}, []Election{otherProgram(k)})
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
		if _, has := t.shared[on]; !has {
			return nil
		}
		record, differs = append(record, on), differs || on != k
	}
	if !differs || i > 0 {
		return new(crop.Money)
	}
	return noLoss(-t.meanChange(picks, record))
}

// noLoss is a gain, 0 where it is less than what counts as one.
func noLoss(rise crop.Money) *crop.Money {
	if rise <= elect.LeastGain {
		rise = 0
	}
	return &rise
}
