package since_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/since"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// change says which inputs of the invented operation are today's.
type change struct{ price, yield, record, setting bool }

// farms of the invented operation: every other one in each of two counties.
const farmCount = 14

// movedQuestion is the question about the invented operation. A change makes corn cheaper,
// raises the county yield of one county, lowers the PLC yields and adds base on one farm in
// three, or widens the close margin.
func movedQuestion(t *testing.T, c change) answer.Question {
	t.Helper()
	price, yield, margin := 4.36, 176, 2.0
	if c.price {
		price = 4.20
	}
	if c.yield {
		yield = 190
	}
	if c.setting {
		margin = 12
	}
	files := fstest.MapFS{"market.yaml": {Data: fmt.Appendf(nil, "format: fencerow/market/1\nas_of: 2026-11-10\nsource: invented\noutlook: {corn: {2026: {price: %.2f, volatility: 0.10}}, soybeans: {2026: {price: 10.20, volatility: 0.10}}}\n", price)}}
	for i, now := range []int{yield, 172} {
		files[fmt.Sprintf("county%d.yaml", i)] = &fstest.MapFile{Data: fmt.Appendf(nil, `format: fencerow/county/1
code: "%d"
name: County %d
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [180, 182, 184, 178, 181]}, outlook: {2026: {yield: %d, known_from: local_harvest}}}
  - {commodity: soybeans, practice: all, adjusted: {2026: [50, 52, 54, 48, 51]}, outlook: {2026: {yield: 50, known_from: local_harvest}}}
`, 99001+2*i, i, now)}
	}
	var o strings.Builder
	o.WriteString("format: fencerow/operation/1\ncounty_files: [county0.yaml, county1.yaml]\nmarket_file: market.yaml\nproducers: [{id: zebedee, kind: person, other_income: 123456}, {id: owner77, kind: person}]\nfarms:\n")
	for i := range farmCount {
		corn, acres := 70+float64(13*i), 100.0
		if c.record && i%3 == 0 {
			corn, acres = corn*0.6, 110
		}
		fmt.Fprintf(&o, "  - {farm: \"%04d\", county: \"%d\", lease: share, shares: {zebedee: 0.6, owner77: 0.4}, election_on_record: {corn: PLC}, bases: [{commodity: corn, base_acres: %.2f, payment_yield: %.2f}, {commodity: soybeans, base_acres: 80, payment_yield: %d}]}\n", i+1, 99001+2*(i%2), acres, corn, 30+i)
	}
	files["operation.yaml"] = &fstest.MapFile{Data: []byte(o.String())}
	found, err := source.Question(source.Request{Files: files, Operation: "operation.yaml", WithoutBuiltIn: true, CloseMargin: &margin, Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 1024})
	if err != nil {
		t.Fatal(err)
	}
	return found.Question
}

// answered answers a question.
func answered(t *testing.T, q answer.Question) answer.Comparison {
	t.Helper()
	c, err := compare.Answer(q)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// version is that of the program in these tests.
const version = "test"

// written is the JSON of an answer with its inputs.
func written(t *testing.T, q answer.Question, c answer.Comparison) []byte {
	t.Helper()
	var err error
	if c.Inputs, err = since.Keep(q, version); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// between says what changed from one question to another.
func between(t *testing.T, before, after answer.Question) (*answer.Since, answer.Comparison, answer.Comparison) {
	t.Helper()
	then, now := answered(t, before), answered(t, after)
	last, err := since.Read("last.json", written(t, before, then))
	if err != nil {
		t.Fatal(err)
	}
	found, err := last.Compared(after, now, version)
	if err != nil {
		t.Fatal(err)
	}
	return found, then, now
}

// figures are those that move a line, by farm and crop.
func figures(c answer.Comparison) map[string]string {
	all := map[string]string{}
	for _, f := range c.CropYears[0].Farms {
		for _, k := range f.Commodities {
			text, _ := json.Marshal([]any{k.Leader, k.Difference.Mean, k.Programs[0].Figures.Mean, k.Programs[1].Figures.Mean, k.BaseAcres})
			all[f.Farm+" "+string(k.Commodity)] = string(text)
		}
	}
	return all
}

func leads(c answer.Comparison) map[string]string {
	all := map[string]string{}
	for _, l := range c.CropYears[0].Standing.Lines {
		all[l.Farm+" "+string(l.Commodity)] = string(l.Leader)
	}
	return all
}

// Moved in one input alone, every line that moves is put down to that input.
func TestOneInputAlone(t *testing.T) {
	for want, c := range map[answer.Cause]change{answer.CausePrice: {price: true}, answer.CauseCounty: {yield: true}, answer.CauseRecord: {record: true}, answer.CauseSettings: {setting: true}} {
		found, then, now := between(t, movedQuestion(t, change{}), movedQuestion(t, c))
		old, is := figures(then), figures(now)
		moved := 0
		for key := range old {
			if old[key] != is[key] {
				moved++
			}
		}
		if found.Moved != moved || len(found.Lines) != moved || found.Flipped == 0 || found.InBoth != 2*farmCount || !slices.Equal(found.Inputs, []answer.Cause{want}) {
			t.Errorf("%s: %d moved and %d flipped of %d by %v; want %d moved", want, found.Moved, found.Flipped, found.InBoth, found.Inputs, moved)
		}
		for _, line := range found.Lines {
			if line.Cause != want || !slices.Equal(line.Moves, []answer.Cause{want}) || len(line.Changed) == 0 || len(line.Alone) != 1 || line.Alone[0].By != want || *line.Alone[0].Moved != *line.Moved || line.Alone[0].Lead != line.After.Lead {
				t.Errorf("%s: %+v", want, line)
			}
		}
	}
}

// Moved in several inputs, every line is put down to the one that alone flips it, or alone
// moves it, as whole answers with that input alone changed say; else to several together.
func TestTheInputThatAloneDoesIt(t *testing.T) {
	before := movedQuestion(t, change{})
	alone := map[answer.Cause]answer.Comparison{}
	for by, c := range map[answer.Cause]change{answer.CausePrice: {price: true}, answer.CauseCounty: {yield: true}, answer.CauseRecord: {record: true}, answer.CauseSettings: {setting: true}} {
		alone[by] = answered(t, movedQuestion(t, c))
	}
	flipped := map[answer.Cause]int{}
	for _, c := range []change{{price: true, yield: true}, {price: true, record: true}, {yield: true, record: true}, {price: true, setting: true}, {price: true, yield: true, record: true}, {true, true, true, true}} {
		of := map[answer.Cause]answer.Comparison{}
		for by, is := range map[answer.Cause]bool{answer.CausePrice: c.price, answer.CauseCounty: c.yield, answer.CauseRecord: c.record, answer.CauseSettings: c.setting} {
			if is {
				of[by] = alone[by]
			}
		}
		found, then, now := between(t, before, movedQuestion(t, c))
		checkCauses(t, found, then, now, of, flipped)
	}
	for _, by := range []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseRecord, answer.CauseSettings, answer.CauseJoint} {
		if flipped[by] == 0 {
			t.Errorf("no lead is flipped by %s: the cases show too little: %v", by, flipped)
		}
	}
	t.Logf("flipped by %v", flipped)
}

// checkCauses holds each line to what whole answers with one input alone say, and counts
// what flips are put down to.
func checkCauses(t *testing.T, found *answer.Since, then, now answer.Comparison, alone map[answer.Cause]answer.Comparison, flipped map[answer.Cause]int) {
	t.Helper()
	old, is, was, lead := figures(then), figures(now), leads(then), leads(now)
	byKey := map[string]answer.SinceLine{}
	for _, line := range found.Lines {
		byKey[line.Farm+" "+string(line.Commodity)] = line
	}
	for key := range old {
		line, listed := byKey[key]
		if listed != (old[key] != is[key]) {
			t.Errorf("%s from %s to %s: listed %v", key, old[key], is[key], listed)
		}
		if !listed {
			continue
		}
		var doing []answer.Cause
		for by, c := range alone {
			if was[key] != lead[key] && leads(c)[key] == lead[key] || was[key] == lead[key] && figures(c)[key] != old[key] {
				doing = append(doing, by)
			}
		}
		want := answer.CauseJoint
		if len(doing) == 1 {
			want = doing[0]
		}
		if line.Cause != want || line.Before.Lead != was[key] || line.After.Lead != lead[key] || line.Flipped != (was[key] != lead[key]) {
			t.Errorf("%s: %s, %s to %s; want %s (%v alone)", key, line.Cause, line.Before.Lead, line.After.Lead, want, doing)
		}
		if moved := total(now, key) - total(then, key); math.Abs(float64(*line.Moved)-moved) > 0.011*110 { // margins are to the cent
			t.Errorf("%s moved %v, want %.2f", key, *line.Moved, moved)
		}
		if line.Flipped {
			flipped[want]++
		}
	}
}

// total is the margin of a line on all base, USD.
func total(c answer.Comparison, key string) float64 {
	for _, l := range c.CropYears[0].Standing.Lines {
		if l.Farm+" "+string(l.Commodity) == key {
			return float64(*l.MarginTotal)
		}
	}
	return math.NaN()
}

// The same two answers give the same bytes; an answer compared with itself has moved
// nowhere; a farm of one alone is counted.
func TestSameBytesAndFarmsOfOneAlone(t *testing.T) {
	before, after := movedQuestion(t, change{}), movedQuestion(t, change{true, true, true, true})
	one, _, _ := between(t, before, after)
	two, _, _ := between(t, before, after)
	a, _ := json.Marshal(one)
	b, _ := json.Marshal(two)
	if !bytes.Equal(a, b) {
		t.Errorf("%s\n%s", a, b)
	}
	if none, _, _ := between(t, before, before); none.Moved != 0 || len(none.Lines) != 0 || len(none.Inputs) != 0 || none.InBoth != 2*farmCount {
		t.Errorf("the same question: %+v", none)
	}
	fewer := movedQuestion(t, change{})
	fewer.Operation.Farms = fewer.Operation.Farms[1:]
	if found, _, _ := between(t, before, fewer); found.Moved != 0 || found.InBoth != 2*farmCount-2 || found.OnlyOne != [2]int{2, 0} {
		t.Errorf("a farm less: %+v", found)
	}
}

// A row of the law that differs is what a line is put down to whose figures this law gives
// otherwise; the other crop is as it was.
func TestLaw(t *testing.T) {
	q := movedQuestion(t, change{})
	now := answered(t, q)
	last, err := since.Read("last.json", ofOtherLaw(t, written(t, q, now)))
	if err != nil {
		t.Fatal(err)
	}
	found, err := last.Compared(q, now, version)
	if err != nil {
		t.Fatal(err)
	}
	if found.Moved != farmCount || !slices.Equal(found.Inputs, []answer.Cause{answer.CauseLaw}) {
		t.Errorf("%d moved by %v, want %d by law", found.Moved, found.Inputs, farmCount)
	}
	want := []answer.Changed{{By: answer.CauseLaw, What: "reference_price corn", Before: "9.99", After: "4.10"}}
	for _, line := range found.Lines {
		if line.Cause != answer.CauseLaw || line.Commodity != crop.Corn || !slices.Equal(line.Changed, want) {
			t.Errorf("%+v", line)
		}
	}
}
