package sheet

import (
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// yourChoice has the choice that people typed for each crop of a farm, or a line to write
// it on: "Your choice, 2026: corn ____ soybeans ____". It is "" where nothing can be chosen.
func yourChoice(y answer.YearPart, lines []answer.StandingLine) string {
	if len(lines) == 0 || slices.ContainsFunc(lines, func(l answer.StandingLine) bool { return l.Highest == farm.HigherOf }) {
		return ""
	}
	said := fmt.Sprintf("Your choice, %d:", y.CropYear)
	for i, l := range lines {
		if i > 0 && lines[i-1].Typed != nil {
			said += ","
		}
		said += " " + l.Commodity.Name() + " " + wording.Choice(l.Typed)
	}
	if lines[len(lines)-1].Typed != nil {
		said += "."
	}
	return said
}

// mostNamed is the most farms and crops that the sheet of the operation names in a sentence.
const mostNamed = 6

// fewOf joins a few names, and counts more of them among all lines of a year.
func fewOf(y answer.YearPart) func([]string) string {
	return func(names []string) string {
		if len(names) > mostNamed {
			return fmt.Sprintf("%d of %d farms and crops", len(names), len(y.Standing.Lines))
		}
		return wording.Joined(names)
	}
}

// letters counts those of some sentences.
func letters(said []string) (n int) {
	for _, text := range said {
		n += len(text)
	}
	return n
}
