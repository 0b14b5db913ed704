package since_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/since"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// realCounty asks about farms in two real counties, with the program's own tables and prices.
func realCounty(t *testing.T) answer.Question {
	t.Helper()
	text := `format: fencerow/operation/1
crop_years: [2026, 2027]
producers: [{id: operator, kind: person}]
farms:
  - {farm: "1", county: "19169", shares: {operator: 1}, bases: [{commodity: corn, base_acres: 120.5, payment_yield: 171}, {commodity: corn, base_acres: 33.25, payment_yield: 171, county: "19015"}, {commodity: soybeans, base_acres: 80, payment_yield: 47}]}
  - {farm: "2", county: "20193", shares: {operator: 1}, bases: [{commodity: wheat, base_acres: 210, payment_yield: 44}, {commodity: corn, base_acres: 60, payment_yield: 120, irrigated_share: 0.35}]}
`
	found, err := source.Question(source.Request{Files: fstest.MapFS{"o.yaml": {Data: []byte(text)}}, Operation: "o.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256})
	if err != nil {
		t.Fatal(err)
	}
	return found.Question
}

// What is kept gives every figure of the answer again, in every kind of question: asked with
// another seed, an answer is taken for one that this program gives only if it does.
func TestInputsGiveTheAnswerAgain(t *testing.T) {
	fruit := cases.Corn()
	cases.Plant(&fruit, farm.FruitVegetables, 60, 0)
	missed, idle := cases.Corn(), cases.Corn()
	missed.Operation.Farms[0].Contract.Year = map[crop.CropYear]farm.Contract{2026: farm.Missed}
	idle.Operation.Farms[0].Idle20092017 = true
	stress, history := realCounty(t), realCounty(t)
	stress.Tail, history.Model = answer.StudentTTail, answer.PastHistory
	for what, q := range map[string]answer.Question{
		"real counties": realCounty(t), "a stress": stress, "past years": history, "the higher of both": cases.HigherOf2025(), "six years": cases.SixYears(0.1), "fruit and vegetables": fruit,
		"no contract": missed, "idle land": idle, "canola without a price": cases.Canola(invented.Market("2026-11-10")),
	} {
		q.Draws = 256
		other := q
		other.Seed = 2
		found, _, _ := between(t, q, other)
		for _, line := range found.Lines {
			if line.Cause != answer.CauseSettings || len(line.Changed) != 1 || line.Changed[0].What != "seed" {
				t.Errorf("%s: %+v", what, line)
			}
		}
		if len(found.Inputs) != 1 {
			t.Errorf("%s: %v differ, want the settings alone", what, found.Inputs)
		}
		t.Logf("%s: %d of %d lines moved with another seed", what, found.Moved, found.InBoth)
	}
}

// The inputs name no person, no share, no income and no election, packed ones neither.
func TestInputsHoldNobody(t *testing.T) {
	q := movedQuestion(t, change{})
	kept, err := since.Keep(q, version)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := json.Marshal(kept)
	if err != nil {
		t.Fatal(err)
	}
	inside, err := json.Marshal(unpack(t, kept.Figures))
	if err != nil {
		t.Fatal(err)
	}
	for _, private := range []string{"zebedee", "owner77", "123456", "lease", "election", "share"} {
		if strings.Contains(string(plain), private) {
			t.Errorf("%q stands in the inputs", private)
		}
	}
	for _, private := range []string{"zebedee", "owner77", "123456"} { // the rest is prices, county figures and law
		if strings.Contains(string(inside), private) {
			t.Errorf("%q stands in the packed inputs", private)
		}
	}
}

// What cannot be compared with is refused, with the file and what to do.
func TestReadRefuses(t *testing.T) {
	q := movedQuestion(t, change{})
	now := answered(t, q)
	good := string(written(t, q, now))
	without := now
	old, _ := json.Marshal(without)
	for _, c := range []struct {
		what, text, reason, hint string
		line                     int
	}{
		{"broken", "{\n\"format\": \"fencerow/comparison/3\",\n\"today\": }", "cannot be read as JSON", "compare --json", 3},
		{"cut short", good[:len(good)/2], "cannot be read as JSON", "compare --json", 1},
		{"empty", "", "cannot be read as JSON", "compare --json", 0},
		{"no answer", `{"a": 1}`, "is no answer of fencerow", "compare --json", 0},
		{"another format", `{"format": "fencerow/comparison/2"}`, `has the format "fencerow/comparison/2"`, "compare --json", 0},
		{"another output", `{"format": "fencerow/batch-diff/1"}`, `has the format "fencerow/batch-diff/1"`, "compare --json", 0},
		{"without inputs", string(old), "does not hold the inputs", "run compare --json again", 0},
		{"other inputs", strings.Replace(good, "fencerow/inputs/1", "fencerow/inputs/9", 1), `inputs of the format "fencerow/inputs/9"`, "compare --json", 0},
		{"inputs changed", strings.Replace(good, `"figures":"H4sI`, `"figures":"AAAA`, 1), "inputs.figures cannot be read", "compare --json", 0},
		{"a wrong type", strings.Replace(good, `"seed":1`, `"seed":"one"`, 1), "cannot be read as JSON", "compare --json", 1},
	} {
		_, err := since.Read("last.json", []byte(c.text))
		var found farm.Mistakes
		if !errors.As(err, &found) || found[0].File != "last.json" || found[0].Line != c.line || !strings.Contains(found[0].Reason, c.reason) || !strings.Contains(found[0].Hint, c.hint) {
			t.Errorf("%s: %v %+v", c.what, err, found)
		}
	}
}

// An answer about other farms, about another year, or with a figure changed by hand is
// refused.
func TestComparedRefuses(t *testing.T) {
	q := movedQuestion(t, change{})
	now := answered(t, q)
	good := string(written(t, q, now))
	others, later := movedQuestion(t, change{}), movedQuestion(t, change{price: true})
	for i := range others.Operation.Farms {
		others.Operation.Farms[i].Number = "9" + others.Operation.Farms[i].Number
	}
	nextYear := q
	nextYear.CropYears = []crop.CropYear{2031}
	for _, c := range []struct {
		what, text   string
		q            answer.Question
		reason, hint string
	}{
		{"other farms", good, others, "is about other farms (99001-0001 and 13 more)", "about this operation"},
		{"another year", good, nextYear, "has other crops or crop years", "--crop-year"},
		{"by hand", strings.Replace(good, `"leader":"ARC-CO"`, `"leader":"PLC"`, 1), later, "what fencerow does not answer", "changed by hand"},
		{"no crop", strings.Replace(good, `"bases":[{"commodity":"corn"`, `"bases":[{"commodity":"corm"`, 1), later, `base acres of "corm"`, "compare --json"},
	} {
		if c.text == good && c.what == "by hand" {
			t.Fatal("nothing is changed")
		}
		last, err := since.Read("last.json", []byte(c.text))
		if err != nil {
			t.Fatal(c.what, err)
		}
		_, err = last.Compared(c.q, answered(t, c.q), version)
		var found farm.Mistakes
		if !errors.As(err, &found) || !strings.Contains(found[0].Reason, c.reason) || !strings.Contains(found[0].Hint, c.hint) {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}
