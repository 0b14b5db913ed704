package compare_test

import (
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
)

func ask(t *testing.T, c answer.Question) answer.Comparison {
	t.Helper()
	answer, err := compare.Answer(c)
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// only returns the one commodity of the one farm.
func only(t *testing.T, c answer.Question) answer.CommodityPart {
	t.Helper()
	return ask(t, c).CropYears[0].Farms[0].Commodities[0]
}

// codes are those of the flags of the first farm that need no money.
func codes(c answer.Question, y crop.CropYear) (all []string) {
	people, err := limits.NewRules(c.Operation, y)
	if err != nil {
		panic(err)
	}
	for _, f := range flag.Raise(c, c.Operation.Farms[0], people) {
		all = append(all, f.Code)
	}
	return all
}

// says holds that the first farm raises a flag with some words.
func says(t *testing.T, c answer.Question, y crop.CropYear, code string, words ...string) {
	t.Helper()
	for _, f := range ask(t, withYear(c, y)).CropYears[0].Farms[0].Flags {
		if f.Code != code {
			continue
		}
		for _, w := range words {
			if !strings.Contains(f.Message+" | "+f.Source, w) {
				t.Errorf("%s of crop year %d does not say %q: %s | %s", code, y, w, f.Message, f.Source)
			}
		}
		return
	}
	t.Errorf("%s is not raised in crop year %d", code, y)
}

func withYear(c answer.Question, y crop.CropYear) answer.Question {
	c.CropYears = []crop.CropYear{y}
	return c
}
