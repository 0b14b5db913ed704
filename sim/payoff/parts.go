package payoff

import (
	"encoding/binary"
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// fewBases is the number of bases of a commodity up to which each is a part by itself: its
// payments are then worked out where they are needed, which costs no memory.
const fewBases = 16

// partsOf divides the bases of a commodity (places in Bases) so that the producers of a part
// have the same shares in all of it: then it is paid as one. Up to fewBases each is a part.
func partsOf(h *position.CommodityBase) (parts [][]int) {
	places := map[string]int{}
	for k, b := range h.Bases {
		if len(h.Bases) <= fewBases {
			parts = append(parts, []int{k})
			continue
		}
		key := keyOf(b.Shares)
		at, has := places[key]
		if !has {
			at = len(parts)
			places[key], parts = at, append(parts, nil)
		}
		parts[at] = append(parts[at], k)
	}
	return parts
}

// keyOf names shares.
func keyOf(shares farm.Shares) string {
	var key []byte
	for _, id := range slices.Sorted(maps.Keys(shares)) {
		key = append(append(key, id...), 0)
		key = binary.LittleEndian.AppendUint64(key, math.Float64bits(shares[id]))
	}
	return string(key)
}

// paidAsOne returns what each part is paid together, of the claims of its bases, and the
// series that this needs. A part of one base keeps its claim.
func paidAsOne(y *Year, parts [][]int, byBase []*Claim) (byPart []*Claim, owned [][]crop.Money) {
	byRates := map[*float64]*distinct{}
	for _, part := range parts {
		if len(part) == 1 {
			byPart = append(byPart, byBase[part[0]])
			continue
		}
		together := &Claim{Rates: y.Zeros()}
		var order []*distinct // as the bases stand, so that sums come out the same
		sums := map[*distinct][]crop.Money{}
		for _, k := range part {
			claim := byBase[k]
			d := byRates[&claim.Rates[0]]
			if d == nil {
				d = distinctOf(claim.Rates)
				byRates[&claim.Rates[0]] = d
			}
			if sums[d] == nil {
				sums[d], order = make([]crop.Money, len(d.values)), append(order, d)
			}
			claim.add(sums[d], 1, d.values)
			together.Most += claim.Most
		}
		for _, d := range order {
			d.addTo(together.Rates, sums[d])
		}
		byPart, owned = append(byPart, together), append(owned, together.Rates)
	}
	return byPart, owned
}

// distinct are the different values of a series. Rates are rounded to the cent or finer, so
// that many scenarios share one, and what a base is paid by it is worked out once.
type distinct struct {
	values []float64
	at     []int32 // by scenario, the place in values
}

func distinctOf(series []float64) *distinct {
	d, places := &distinct{at: make([]int32, len(series))}, map[float64]int32{}
	for i, x := range series {
		place, has := places[x]
		if !has {
			place = int32(len(d.values))
			places[x], d.values = place, append(d.values, x)
		}
		d.at[i] = place
	}
	return d
}

// addTo adds to dst, by scenario, what each value brings.
func (d *distinct) addTo(dst []crop.Money, byValue []crop.Money) {
	for i, place := range d.at {
		dst[i] += byValue[place]
	}
}
