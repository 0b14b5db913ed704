package backtest

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// One county over four years, in rows out of order. By hand: 2017 has no earlier year, so
// the nation's parts count, 1/4 of 8 and 3/4 of 4 being 5; ARC-CO won none of it, PLC did;
// 2018 takes PLC; there neither paid more, so 2019 takes PLC too, where ARC-CO won; 2020
// takes ARC-CO. Enrolment of 2017 to 2019 is that of 2019, the first that is known.
func TestRivals(t *testing.T) {
	unit := farm.PastUnit{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices}
	row := func(y crop.CropYear, plc, arc float64) testedRow {
		return testedRow{knowledge: May, row: farm.PastRow{PastUnit: unit, CropYear: y}, plc: plc, arc: arc}
	}
	rows := []testedRow{row(2019, 1, 9), row(2017, 8, 4), row(2020, 2, 6), row(2018, 3, 3)}
	s := Setup{Past: farm.Past{Enrolled: map[crop.Commodity]map[crop.CropYear]farm.Enrolled{crop.Corn: {2019: {PLC: 10, ARCCO: 30}, 2020: {PLC: 50, ARCCO: 50}}}}}
	s.fillRivals(rows)
	for i, want := range [][2]float64{{1, 7}, {5, 5}, {6, 4}, {3, 3}} {
		if rows[i].winner != want[0] || rows[i].enrolled != want[1] {
			t.Errorf("%d: last winner %v, nation %v; want %v", rows[i].row.CropYear, rows[i].winner, rows[i].enrolled, want)
		}
	}
}

// Base acres are the weight, in equal parts where a county has two practices: 100 acres
// that paid 10 and twice 150 that paid 2 and 4 are 100 x 10 + 150 x 2 + 150 x 4 = 1,900
// over 400 acres, 4.75.
func TestWeightsAreBaseAcres(t *testing.T) {
	row := func(county string, p farm.Practice, acres, paid float64) testedRow {
		return testedRow{row: farm.PastRow{PastUnit: farm.PastUnit{County: county, Practice: p}, BaseAcres: acres}, arc: paid}
	}
	rows := []testedRow{row("99001", farm.AllPractices, 100, 10), row("99003", farm.Irrigated, 300, 2), row("99003", farm.Nonirrigated, 300, 4)}
	weighed := func(alike bool) {
		var plain []farm.PastRow
		for _, r := range rows {
			plain = append(plain, r.row)
		}
		for i, w := range weigh(plain, alike) {
			rows[i].weight = w
		}
	}
	weighed(false)
	if mean := average(rows, func(r testedRow) float64 { return r.arc }); mean != 4.75 {
		t.Errorf("%v; want 4.75", mean)
	}
	weighed(true)
	if mean := average(rows, func(r testedRow) float64 { return r.arc }); mean < 5.33 || mean > 5.34 {
		t.Errorf("%v; want a third of 16", mean)
	}
}
