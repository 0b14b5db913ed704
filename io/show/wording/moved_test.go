package wording

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Each figure is told then and now, in its unit; what follows another figure is left out.
func TestMovedByNamesTheFigure(t *testing.T) {
	changed := func(by answer.Cause, what, before, after string) answer.Changed {
		return answer.Changed{By: by, What: what, Before: before, After: after}
	}
	yield := changed(answer.CauseCounty, "county_yield", "182.00", "61.55")
	yield.County, yield.CountyName = "99001", "Alder"
	irrigated := yield
	irrigated.Practice, irrigated.After = "irrigated", "201.00"
	for _, c := range []struct {
		cause   answer.Cause
		changed []answer.Changed
		want    string
	}{
		{answer.CausePrice, []answer.Changed{changed(answer.CausePrice, "price", "4.10", "4.35"), changed(answer.CausePrice, "effective_reference_price", "4.42", "4.43")}, "The corn price did it on X: $4.10 then, $4.35 now."},
		{answer.CausePrice, []answer.Changed{changed(answer.CausePrice, "benchmark_price", "5.03", "5.10")}, "The corn benchmark price did it on X: $5.03 then, $5.10 now."},
		{answer.CausePrice, nil, "How far the corn price can move did it on X."},
		{answer.CauseCounty, []answer.Changed{yield}, "The Alder County corn yield did it on X: 182 bushels then, 61.6 now."},
		{answer.CauseCounty, []answer.Changed{yield, irrigated}, "The county yields did it on X. Alder County corn yield: 182 bushels then, 61.6 now. Irrigated Alder County corn yield: 182 bushels then, 201 now."},
		{answer.CauseCounty, nil, "What is known of the county yields did it on X."},
		{answer.CauseRecord, []answer.Changed{changed(answer.CauseRecord, "base_acres", "1200.00", "130.50")}, "Base acres did it on X: 1,200 then, 130.5 now."},
		{answer.CauseRecord, []answer.Changed{changed(answer.CauseRecord, "base_acres", "120.00", "130.00"), changed(answer.CauseRecord, "payment_yield", "", "92.00")}, "The farm record did it on X. Base acres: 120 then, 130 now. PLC yield: none then, 92 now."},
		{answer.CauseRecord, nil, "The farm record did it on X."},
		{answer.CauseSettings, []answer.Changed{changed(answer.CauseSettings, "close_margin", "2.00", "5.00")}, "The toss-up margin did it on X: $2.00 then, $5.00 now."},
		{answer.CauseSettings, []answer.Changed{changed(answer.CauseSettings, "draws", "4096", "16384")}, "The number of outcomes did it on X: 4,096 then, 16,384 now."},
		{answer.CauseLaw, []answer.Changed{changed(answer.CauseLaw, "reference_price corn", "3.70", "4.10")}, "The law's reference price of corn did it on X: 3.70 then, 4.10 now."},
		{answer.CauseProgram, []answer.Changed{changed(answer.CauseProgram, "version", "1.0", "1.1")}, "Another version of fencerow did it on X: 1.0 then, 1.1 now."},
	} {
		l := answer.SinceLine{Commodity: crop.Corn, Cause: c.cause, Moves: []answer.Cause{c.cause}, Changed: c.changed}
		if got := MovedBy(l, "X"); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// Several inputs: how far each moves the line by itself, then the figures.
func TestMovedTogether(t *testing.T) {
	l := answer.SinceLine{Commodity: crop.Corn, Cause: answer.CauseJoint, Before: answer.MovedSide{Lead: "PLC"},
		Alone:   []answer.MovedAlone{{By: answer.CausePrice, Lead: "PLC", Moved: answer.DollarsOf(-1909.2)}, {By: answer.CauseRecord, Lead: "PLC", Moved: answer.DollarsOf(0.4)}, {By: answer.CauseSettings, Lead: "close", Moved: answer.DollarsOf(0)}},
		Changed: []answer.Changed{{By: answer.CausePrice, What: "price", Before: "4.55", After: "4.20"}, {By: answer.CauseRecord, What: "payment_yield", Before: "92.00", After: "130.00"}}}
	if got, want := MovedTogether(l, "0417 corn"), "On 0417 corn several inputs did it: price alone $1,909 to PLC, farm record under $1, settings to another lead."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got, want := strings.Join(MovedFigures(l, "0417 corn"), " "), "Corn price: $4.55 then, $4.20 now. PLC yield of 0417 corn: 92 then, 130 now."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for i := range l.Alone {
		l.Alone[i].Lead, l.Alone[i].Moved = "PLC", answer.DollarsOf(0)
	}
	if got, want := MovedTogether(l, "0417 corn"), "On 0417 corn several inputs did it, none of them by itself."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
