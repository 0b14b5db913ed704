package source_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"fencerow/io/read/county"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// A county file may name every stage of odds and every shape that has a spread of its
// own, and no other word: the lists stand in both rooms, since io/read knows no odds.
func TestCountyFilesKnowTheStagesAndShapesOfOdds(t *testing.T) {
	parse := func(key, word string) error {
		_, err := county.Parse("alder.yaml", fmt.Appendf(nil, "format: fencerow/county/1\ncode: \"99001\"\nyields: [{commodity: corn, outlook: {2026: {yield: 180, %s: %s}}}]\n", key, word))
		return err
	}
	words := map[string][]string{"known_from": {}, "shape": {}}
	for _, stage := range odds.Stages() {
		words["known_from"] = append(words["known_from"], string(stage))
	}
	for _, shape := range []odds.Shape{odds.ShapeWeibull, odds.ShapeNormal, odds.ShapeT, odds.ShapeLognormal} {
		words["shape"] = append(words["shape"], string(shape))
	}
	for key, known := range words {
		for _, word := range known {
			if err := parse(key, word); err != nil {
				t.Errorf("%s: %v", word, err)
			}
		}
		var mistakes farm.Mistakes
		if err := parse(key, "guess"); !errors.As(err, &mistakes) || !strings.HasSuffix(mistakes[0].Hint, " can be "+strings.Join(known, ", ")) {
			t.Errorf("%s guess: %v, want the words %v and no other", key, err, known)
		}
	}
}
