package backtest

import (
	"maps"
	"math"
	"slices"
	"sort"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// Bin is how chances of about one size came: of the base acres with a chance of an ARC-CO
// payment from From on and below To (or To itself in the last bin), what was said on average
// and what part was paid.
type Bin struct {
	KnownFrom     Knowledge     `json:"known_from"`
	From          answer.Chance `json:"from"`
	To            answer.Chance `json:"to"`
	Said          answer.Chance `json:"said"`
	Came          answer.Chance `json:"came"`
	StandardError answer.Chance `json:"standard_error_of_difference"` // crop years are the sample
	Share         answer.Chance `json:"share"`                        // of all base acres
}

// bins are the tenths of the chance.
const bins = 10

// binsOf sorts rows of one state of knowledge into bins, every crop year counting alike.
func binsOf(k Knowledge, rows []testedRow) []Bin {
	years := byYear(rows)
	type sums struct{ weight, said, came float64 }
	byBin := [bins][]sums{}
	for _, of := range years {
		total := weightOf(of) * float64(len(years))
		var year [bins]sums
		for _, r := range of {
			b := &year[min(bins-1, int(r.chance*bins))]
			w := r.weight / total
			b.weight, b.said, b.came = b.weight+w, b.said+w*r.chance, b.came+w*paid(r)
		}
		for i := range year {
			byBin[i] = append(byBin[i], year[i])
		}
	}
	var all []Bin
	for i, yearly := range byBin {
		var sum sums
		squares := 0.0
		for _, y := range yearly {
			sum.weight, sum.said, sum.came = sum.weight+y.weight, sum.said+y.said, sum.came+y.came
		}
		if sum.weight == 0 {
			continue
		}
		off := (sum.came - sum.said) / sum.weight
		for _, y := range yearly {
			d := y.came - y.said - off*y.weight
			squares += d * d
		}
		n := float64(len(yearly))
		all = append(all, Bin{KnownFrom: k, From: answer.Chance(float64(i) / bins), To: answer.Chance(float64(i+1) / bins),
			Said: answer.Chance(sum.said / sum.weight), Came: answer.Chance(sum.came / sum.weight),
			StandardError: answer.Chance(math.Sqrt(squares*n/max(1, n-1)) / sum.weight), Share: answer.Chance(sum.weight)})
	}
	return all
}

// Part is a part of the rows: a State, all commodities together, or a class of wheat.
type Part struct {
	KnownFrom Knowledge      `json:"known_from"`
	Of        string         `json:"of"` // "Kansas", "winter"
	Rows      int            `json:"rows"`
	BaseAcres answer.Dollars `json:"base_acres"` // average of the crop years
	SharePaid Against        `json:"share_paid"`
	CRPS      Estimate       `json:"crps"`
	Following answer.Dollars `json:"following"`
	Enrolled  answer.Dollars `json:"enrolled"`
	Hindsight answer.Dollars `json:"hindsight"`
}

// partsOf splits rows of one state of knowledge, the most base acres first. A row for which
// of gives "" is in none.
func partsOf(k Knowledge, rows []testedRow, of func(testedRow) string) []Part {
	byPart := map[string][]testedRow{}
	for _, r := range rows {
		if name := of(r); name != "" {
			byPart[name] = append(byPart[name], r)
		}
	}
	var parts []Part
	for _, name := range slices.Sorted(maps.Keys(byPart)) {
		some := byPart[name]
		years := byYear(some)
		p := Part{KnownFrom: k, Of: name, Rows: len(some), BaseAcres: answer.Dollars(weightOf(some) / float64(len(years)))}
		p.SharePaid = saidAndCame(years, func(r testedRow) float64 { return r.chance }, paid)
		p.CRPS = estimate(years, crpsOf)
		d := decisionCheck(k, allTogether, some)
		p.Following, p.Enrolled, p.Hindsight = d.Following, d.Enrolled, d.Hindsight
		parts = append(parts, p)
	}
	sort.SliceStable(parts, func(i, j int) bool { return parts[i].BaseAcres > parts[j].BaseAcres })
	return parts
}

func stateOf(r testedRow) string { return crop.StateNames[position.StateOf(r.row.County)] }

// wheatClasses returns for each county the class of wheat of which NASS has most yields:
// FSA's tables do not tell classes apart.
func wheatClasses(harvested map[farm.PastSeries]map[crop.CropYear]crop.Yield) map[string]string {
	most, class := map[string]int{}, map[string]string{}
	for u, yields := range harvested {
		if u.Commodity != crop.Wheat || u.Class == "" || u.Practice != farm.AllPractices {
			continue
		}
		if n := len(yields); n > most[u.County] || n == most[u.County] && u.Class < class[u.County] {
			most[u.County], class[u.County] = n, u.Class
		}
	}
	return class
}
