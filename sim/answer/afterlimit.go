package answer

import (
	"maps"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
	"fencerow/sim/odds"
)

// line is one commodity on one farm.
type line struct {
	farm      string
	commodity crop.Commodity
}

// afterLimit is what one line moves for all producers of the file together, USD on
// average after share, limit and sequestration, while every other line follows the
// choices of the operation.
type afterLimit struct {
	margin *crop.Money // ARC-CO less PLC; nil where no limit is reached often enough to be told
	chance float64     // of outcomes in which a limit of somebody paid for the farm is reached
	gain   *crop.Money // the choice less what is on record, never below zero; nil where one of them is not known
}

// turning says what all are paid more or less where some picks give way to others.
type turning struct {
	purse
	limited bool   // some limit can be reached in some draw
	sums    earned // then [pot][producer][draw], USD, with what is earned in other operations
	reached reach  // then under the choices
}

// turning prepares changes of some picks; free says that no choice of PLC and ARC-CO goes
// over a limit. Give its series back with release.
func (m purse) turning(picks []pick, free bool) (t *turning, release func()) {
	t = &turning{purse: m}
	individual := func(k pick) bool { return k.program == farm.ARCIC }
	free = free && !slices.ContainsFunc(slices.Collect(maps.Keys(m.flows)), individual)
	if len(m.everywhere) == 0 && (free || m.neverLimited(m.highestOfEach())) {
		return t, func() {}
	}
	t.limited = true
	t.sums, release = m.allEarned(picks)
	t.reached = m.reach(t.sums.tiles)
	return t, release
}

// highestOfEach is the pick of every line that can pay the most in some draw.
func (m purse) highestOfEach() (picks []pick) {
	most := map[line]pick{}
	for k := range m.flows {
		at := line{k.farm, k.commodity}
		if other, has := most[at]; !has || m.mostOf(k) > m.mostOf(other) {
			most[at] = k
		}
	}
	for _, k := range most {
		picks = append(picks, k)
	}
	return picks
}

// allEarned is what each producer earns in every draw under some picks, in this
// operation and in others. Give the series back with release.
func (m purse) allEarned(picks []pick) (sums earned, release func()) {
	var taken [][]crop.Money
	for pot := range sums {
		if !m.uses(pots[pot]) {
			continue
		}
		for range m.producers {
			sums[pot] = append(sums[pot], m.buffers.zeros())
		}
		taken = append(taken, sums[pot]...)
	}
	m.put(&sums, picks, m.potsOf(picks), 1, 0)
	for j, all := range m.everywhere {
		for pot, series := range all {
			if sums[pot] != nil {
				clear(sums[pot][j])
				copy(sums[pot][j], series)
			}
		}
	}
	return sums, func() { m.buffers.give(taken...) }
}

// put adds what some picks pay, sign times, to draws from, from+1 ...; at are their pots.
func (m purse) put(e *earned, picks []pick, at []int, sign float64, from int) {
	for i, k := range picks {
		for j, mine := range m.flows[k] {
			for _, p := range mine {
				p.payment.add(e[at[i]][j], sign*p.share, from)
			}
		}
	}
}

// tiles fills in some draws of what is earned in all.
func (e *earned) tiles(dst *earned, from int) {
	for pot, byProducer := range e {
		for j, series := range byProducer {
			copy(dst[pot][j], series[from:])
		}
	}
}

// change is what all are paid more on average where some picks give way to others.
func (t *turning) change(from, to []pick) crop.Money {
	if !t.limited {
		return t.byShares(to).total - t.byShares(from).total
	}
	atFrom, atTo := t.potsOf(from), t.potsOf(to)
	return t.reach(func(e *earned, start int) {
		t.sums.tiles(e, start)
		t.put(e, from, atFrom, -1, start)
		t.put(e, to, atTo, 1, start)
	}).total - t.reached.total
}

// often is the share of outcomes in which a limit of somebody is reached who is paid for
// a farm: of the one who reaches it most.
func (t *turning) often(f farm.Farm) (most float64) {
	for k, often := range t.reached.atLimit {
		if often > most && t.concerns(f, t.attribution.Recipients[k].ID) {
			most = often
		}
	}
	return most
}

// afterLimits works out every line of the operation.
func (r *run) afterLimits(t *turning, farms []farmRun, picks []pick) map[line]afterLimit {
	byFarm := make([]map[line]afterLimit, len(farms))
	sideBySide(r.Brief, len(farms), func(i int) {
		var mine []pick
		for _, k := range picks {
			if k.farm == farms[i].farm.Key() {
				mine = append(mine, k)
			}
		}
		byFarm[i] = t.lines(farms[i].farm, mine, t.often(farms[i].farm))
	})
	all := map[line]afterLimit{}
	for _, lines := range byFarm {
		for at, one := range lines {
			all[at] = one
		}
	}
	return all
}

// lines are those of one farm with its picks.
func (t *turning) lines(f farm.Farm, picks []pick, chance float64) map[line]afterLimit {
	all := map[line]afterLimit{}
	whole := slices.ContainsFunc(picks, func(k pick) bool { return k.program == farm.ARCIC }) || onRecord(f, farm.ARCIC)
	for i, k := range picks {
		one := afterLimit{chance: chance}
		if k.program == farm.PLC || k.program == farm.ARCCO {
			one = t.line(f, k, chance)
		}
		if whole {
			one.gain = t.wholeGain(f, picks, i)
		}
		all[line{k.farm, k.commodity}] = one
	}
	return all
}

// line sets both programs of one pick side by side.
func (t *turning) line(f farm.Farm, k pick, chance float64) afterLimit {
	one := afterLimit{chance: chance}
	record, told := f.Record[k.commodity]
	differs := told && record == turned(k).program
	if told && record == k.program {
		one.gain = new(crop.Money)
	}
	limited := chance > odds.LimitCounts
	if !differs && !limited {
		return one
	}
	rise := t.change([]pick{k}, []pick{turned(k)})
	if differs {
		one.gain = noLoss(-rise)
	}
	if limited {
		margin := rise
		if k.program == farm.ARCCO {
			margin = -rise
		}
		one.margin = &margin
	}
	return one
}

// wholeGain is what a farm gains against its record where one of both is ARC-IC, which
// holds for the whole farm: it stands with the first line, and 0 with the others.
func (t *turning) wholeGain(f farm.Farm, picks []pick, i int) *crop.Money {
	var record []pick
	differs := false
	for _, k := range picks {
		on := pick{k.farm, k.commodity, f.Record[k.commodity]}
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

// afterLimitView is the margin for the JSON.
func afterLimitView(a afterLimit, base Dollars) *DifferenceAfterLimit {
	if a.margin == nil {
		return nil
	}
	return &DifferenceAfterLimit{Mean: Dollars(*a.margin) / base, Total: Dollars(*a.margin), ChanceOfLimit: Chance(a.chance)}
}
