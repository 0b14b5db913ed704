package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/insurance"
	"fencerow/io/show/report"
	"fencerow/io/show/spoken"
	"fencerow/io/show/summary"
	"fencerow/io/source"
	"fencerow/sim/answer"
)

// screen is how much of a comparison is printed for people: the answer, one farm in full,
// or everything.
type screen struct {
	farm string // its number or key as typed, then its key
	full bool
	say  bool
}

func (s *screen) add(c *cobra.Command) {
	c.Flags().StringVar(&s.farm, "farm", "", "show this farm in full: its number, or county and number as 99001-0417")
	c.Flags().BoolVar(&s.say, "say", false, "print sentences to be read to somebody on the telephone")
	c.Flags().BoolVar(&s.full, "full", false, "print everything: every farm with its figures, flags and sources")
}

// check refuses flags that do not go together.
func (s *screen) check(asJSON bool, sheet string) error {
	switch {
	case sheet != "" && (s.farm != "" || s.full):
		return usageError{"--sheet does not go with --farm or --full", "leave out one of the two"}
	case s.say && (s.farm != "" || s.full || asJSON || sheet != ""):
		return usageError{"--say does not go with --farm, --full, --json or --sheet", "leave them out"}
	case s.farm != "" && s.full:
		return usageError{"--farm does not go with --full", "leave out one of the two"}
	case asJSON && (s.farm != "" || s.full):
		return usageError{"--farm and --full do not go with --json", "leave them out: the JSON holds every farm in full"}
	}
	return nil
}

// farmFirst finds the farm to show before anything is worked out.
func (s *screen) farmFirst(ask func(answer.Question) (answer.Comparison, error)) func(answer.Question) (answer.Comparison, error) {
	return func(asked answer.Question) (answer.Comparison, error) {
		if s.farm != "" {
			f, err := source.FindFarm(asked.Operation, s.farm)
			if err != nil {
				return answer.Comparison{}, err
			}
			s.farm = f.Key()
		}
		return ask(asked)
	}
}

func (s *screen) lay(found answer.Comparison, changesOnly bool) report.Report {
	whole := report.Report{}
	switch {
	case s.say:
		return spoken.Of(found)
	case s.full:
		whole = report.OfComparison(found, changesOnly)
	case s.farm != "":
		whole = summary.OfFarm(found, s.farm)
	default:
		whole = summary.Of(found, changesOnly)
	}
	whole.Add(insurance.Of(found, insurance.Options{Farm: s.farm, Worked: s.full || s.farm != ""})...)
	return whole
}
