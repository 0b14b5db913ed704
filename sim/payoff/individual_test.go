package payoff

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// individual are farms in one pool of ARC-IC, their corn at a sure price of 4.00 in 2026; own yields that are
// typed are known where the county's has no standard deviation.
func individual(t *testing.T, deviation float64, farms ...farm.Farm) (year *Year, bases []*position.CommodityBase, pool []*position.Individual) {
	t.Helper()
	market := invented.Market("2026-11-10")
	invented.Project(market, crop.Corn, 2026, 4.00, 0)
	county := invented.CornYield(farm.YieldOutlook{})
	county.Outlook[2026] = farm.YieldOutlook{Yield: invented.Number(190), SD: &deviation}
	from := position.Sources{Counties: invented.Book(county), Market: market}
	for _, f := range farms {
		one, err := from.Individual(f, 2026)
		if err != nil || one.Missing != "" {
			t.Fatalf("%v, %+v", err, one)
		}
		all, err := from.CommodityBases(f, 2026)
		if err != nil {
			t.Fatal(err)
		}
		pool, bases = append(pool, one), append(bases, all...)
	}
	drawn, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(2026)
	if err != nil {
		t.Fatal(err)
	}
	return &Year{Year: drawn}, bases, pool
}

// The farm's benchmark revenue is 804.27 (invented.OwnFarm), its guarantee 90 percent, 723.84, the most 12 percent, 96.51
// (7 U.S.C. 9017 as amended by P.L. 119-21). A known yield of 170 at 4.00 brings 680.00: ARC-IC pays 43.84 an acre on 65
// percent of 120 acres of base, 78: 3,419.52.
func TestIndividualByHand(t *testing.T) {
	year, bases, pool := individual(t, 0, invented.OwnFarm("1", invented.Number(170)))
	all := Individual(year, []farm.Producer{{ID: "operator", Kind: farm.Person}}, bases, pool)
	series := year.Zeros()
	all[0].Total().Add(series, 0)
	always(t, "all shares", series, 3419.52)
	always(t, "the operator", year.claimOf(all[0], "operator"), 3419.52)
	if got := all[0].ByPart[0].Most; got != 3419.52 {
		t.Errorf("at most %v", got)
	}
}

// claimOf are what a producer is paid on the first part, before share.
func (y *Year) claimOf(p *Payoff, producer string) []crop.Money {
	series := y.Zeros()
	p.For(producer)[0].Add(series, 1, 0)
	return series
}

// A producer's farms go together (7 U.S.C. 9017(b)(2)). On the first, at 170 bushels, ann and ben have halves; all
// of the second, at 100 bushels, is ben's. Ann is paid for the first alone, 43.84 x 78 = 3,419.52 to a full share. Ben has 50
// of its acres and 100 of the other: (50 x 680.00 + 100 x 400.00) / 150 = 493.33, 230.51 less than guaranteed, of which the
// most, 96.51, is paid: 7,527.78 to a full share. On the first farm both halves bring 1,709.76 + 3,763.89 = 5,473.65.
func TestPoolOfAProducer(t *testing.T) {
	first, second := invented.OwnFarm("1", invented.Number(170)), invented.OwnFarm("2", invented.Number(100))
	first.Shares.Every, second.Shares.Every = &farm.Shares{"ann": 0.5, "ben": 0.5}, &farm.Shares{"ben": 1}
	year, bases, pool := individual(t, 0, first, second)
	all := Individual(year, []farm.Producer{{ID: "ann", Kind: farm.Person}, {ID: "ben", Kind: farm.Person}}, bases[:1], pool)
	always(t, "ann", year.claimOf(all[0], "ann"), 3419.52)
	always(t, "ben", year.claimOf(all[0], "ben"), 7527.78)
	always(t, "both shares", all[0].BeforeShare, 5473.65)
	// Whoever is not in the file is paid by the first farm alone.
	always(t, "somebody", year.claimOf(all[0], "cid"), 3419.52)
}

// Where half of the base is nobody's in the file, that half is paid by the farm's own rate: 1,709.76 of each.
func TestIndividualShareOfNobody(t *testing.T) {
	f := invented.OwnFarm("1", invented.Number(170))
	f.Shares.Every = &farm.Shares{"ann": 0.5}
	year, bases, pool := individual(t, 0, f)
	all := Individual(year, []farm.Producer{{ID: "ann", Kind: farm.Person}}, bases, pool)
	always(t, "all shares", all[0].BeforeShare, 3419.52)
}

// The own yield is a multiple of the county's and a part of its own, and never below 0: where the own part is far the larger,
// about half of the outcomes bring nothing. A farm that planted nothing has its mean, whatever the county brings.
func TestOwnYieldFollowsTheCounty(t *testing.T) {
	year, _, pool := individual(t, 30, invented.OwnFarm("1", nil))
	k := pool[0].Crops[0]
	county := year.Yields(2, k.County)
	k.Yield.Ratio, k.Yield.SD = 0.5, 0
	for i, own := range year.OwnYields(pool[0].Farm, k) {
		if math.Abs(own-county[i]/2) > 1e-9 {
			t.Fatalf("scenario %d: own %v, county %v", i, own, county[i])
		}
	}
	k.Yield.SD = 1e6
	nothing := 0
	for i, own := range year.OwnYields(pool[0].Farm, k) {
		switch {
		case own < 0:
			t.Fatalf("scenario %d: %v", i, own)
		case own == 0:
			nothing++
		}
	}
	if n := year.Size.N(); nothing < n/3 || nothing > 2*n/3 {
		t.Errorf("nothing in %d of %d", nothing, n)
	}
	k.Planted, k.Yield.Mean = 0, 123
	always(t, "not planted", year.OwnYields(pool[0].Farm, k), 123)
}
