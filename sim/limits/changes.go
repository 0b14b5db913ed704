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

// DifferenceAfterLimit is what the election of one commodity on one farm changes for all
// recipients together, USD on average after limits and sequestration, while every other
// election stays as chosen for the operation.
type DifferenceAfterLimit struct {
	Margin *crop.Money // ARC-CO less PLC; nil where limits are reached too seldom to matter (odds.LimitCounts)
	Chance float64     // share of scenarios in which a limit of somebody paid for the farm is reached, 0 to 1
	Gain   *crop.Money // chosen less recorded election, 0 or more; nil where no election is recorded or it has no figures
}

// Changes compares the elections chosen for an operation with others that differ in a
// few places, without paying all others anew.
type Changes struct {
	Payments
	Current       RecipientMeans // under the chosen elections; zero where no limit can be reached
	sums          Earned         // under the chosen elections, over all scenarios and operations of a person
	limitPossible bool
}

// Changes prepares comparisons with the chosen elections. neverLimited says that no
// choice of PLC and ARC-CO exceeds a limit (Choice.NeverLimited). Call release when done.
func (m Payments) Changes(chosen []Election, neverLimited bool) (t *Changes, release func()) {
	t = &Changes{Payments: m}
	individual := func(e Election) bool { return e.Program == farm.ARCIC }
	neverLimited = neverLimited && !slices.ContainsFunc(slices.Collect(maps.Keys(m.shared)), individual)
	if len(m.EarnedAcross) == 0 && (neverLimited || m.neverLimited(m.highestElections())) {
		return t, func() {}
	}
	t.limitPossible = true
	t.sums, release = m.AllEarned(chosen)
	if len(m.EarnedAcross) == 0 {
		t.Current = m.attributed(chosen)
	} else {
		t.Current = m.attribute(t.earnersAmong(allOf(m.Producers)), nil)
	}
	return t, release
}

// highestElections returns, of each commodity on each farm, the election with the
// highest possible payment.
func (m Payments) highestElections() (elections []Election) {
	highest := map[FarmCommodity]Election{}
	for e := range m.shared {
		at := FarmCommodity{e.Farm, e.Commodity}
		if other, has := highest[at]; !has || m.maximumOf(e) > m.maximumOf(other) {
			highest[at] = e
		}
	}
	for _, e := range highest {
		elections = append(elections, e)
	}
	return elections
}

// meanChange returns what all recipients together are paid more, USD on average, if some
// of the chosen elections are replaced by others.
func (t *Changes) meanChange(from, to []Election) crop.Money {
	if !t.limitPossible {
		return t.bySharesAlone(to).Total - t.bySharesAlone(from).Total
	}
	fromPools, toPools := t.poolsOf(from), t.poolsOf(to)
	changed := t.reachedBy(t.sharing(slices.Concat(from, to)))
	by := t.earnersAmong(t.reaching(changed))
	unchanged := by.fill
	by.fill = func(dst *Earned, first int) {
		unchanged(dst, first)
		t.addEarned(dst, from, fromPools, -1, first)
		t.addEarned(dst, to, toPools, 1, first)
	}
	paid := slices.Clone(t.Current.Paid)
	now := t.newTracer(by.producers, by.pools).means(by.fill, changed, nil)
	for _, k := range changed {
		paid[k] = now.Paid[k]
	}
	var total crop.Money
	for _, money := range paid {
		total += money
	}
	return total - t.Current.Total
}

// earnersAmong returns what some producers earn under the chosen elections.
func (t *Changes) earnersAmong(producers []int) earners {
	var pools [len(Pools)]bool
	for pool, byProducer := range t.sums {
		pools[pool] = byProducer != nil
	}
	return earners{producers, pools, func(dst *Earned, first int) { t.sums.copyTile(dst, first) }}
}

// allOf returns all places of a list.
func allOf[T any](list []T) (places []int) {
	for i := range list {
		places = append(places, i)
	}
	return places
}

// ChanceOfLimit returns the share of scenarios, 0 to 1, in which a recipient paid for the
// farm reaches a limit; of several recipients the highest.
func (t *Changes) ChanceOfLimit(f farm.Farm) (highest float64) {
	if len(t.Current.AtLimit) == 0 {
		return 0
	}
	for _, j := range t.sharingIn(f) {
		for _, one := range t.reach[j] {
			highest = max(highest, t.Current.AtLimit[one.Recipient])
		}
	}
	return highest
}

// Differences returns those of one farm; elections are the farm's chosen ones, chance is
// its ChanceOfLimit.
func (t *Changes) Differences(f farm.Farm, elections []Election, chance float64) map[FarmCommodity]DifferenceAfterLimit {
	all := map[FarmCommodity]DifferenceAfterLimit{}
	wholeFarm := slices.ContainsFunc(elections, func(e Election) bool { return e.Program == farm.ARCIC }) || position.OnRecord(f, farm.ARCIC)
	for i, e := range elections {
		one := DifferenceAfterLimit{Chance: chance}
		if e.Program == farm.PLC || e.Program == farm.ARCCO {
			one = t.difference(f, e, chance)
		}
		if wholeFarm {
			one.Gain = t.wholeFarmGain(f, elections, i)
		}
		all[FarmCommodity{e.Farm, e.Commodity}] = one
	}
	return all
}

// difference compares a chosen election with the other of PLC and ARC-CO.
func (t *Changes) difference(f farm.Farm, chosen Election, chance float64) DifferenceAfterLimit {
	one := DifferenceAfterLimit{Chance: chance}
	record := f.Record[chosen.Commodity] // "" where none is
	differs := record == otherProgram(chosen).Program
	if record == chosen.Program {
		one.Gain = new(crop.Money)
	}
	limited := chance > odds.LimitCounts
	if !differs && !limited {
		return one
	}
	otherLessChosen := t.meanChange([]Election{chosen}, []Election{otherProgram(chosen)})
	if differs {
		one.Gain = gainOf(-otherLessChosen)
	}
	if limited {
		margin := otherLessChosen
		if chosen.Program == farm.ARCCO {
			margin = -otherLessChosen
		}
		one.Margin = &margin
	}
	return one
}

// wholeFarmGain returns the gain of a farm where the chosen or the recorded program is
// ARC-IC, which is elected for a whole farm. All of it stands with the farm's first
// election (i = 0), 0 with the others; nil where a recorded election has no figures.
func (t *Changes) wholeFarmGain(f farm.Farm, chosen []Election, i int) *crop.Money {
	var recorded []Election
	differs := false
	for _, e := range chosen {
		record := Election{e.Farm, e.Commodity, f.Record[e.Commodity]}
		if _, has := t.shared[record]; !has {
			return nil
		}
		recorded, differs = append(recorded, record), differs || record != e
	}
	if !differs || i > 0 {
		return new(crop.Money)
	}
	return gainOf(-t.meanChange(chosen, recorded))
}

// gainOf returns a gain, 0 where it is too small to change an election for.
func gainOf(rise crop.Money) *crop.Money {
	if rise <= elect.LeastGain {
		rise = 0
	}
	return &rise
}
